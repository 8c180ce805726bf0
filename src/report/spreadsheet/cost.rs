//! The sheet of the cost: each heading, as a formula over what it is worked out
//! from.

use rust_xlsxwriter::XlsxError;

use super::orders::{DELIVERIES, GOODS, amount, money_heading, price};
use super::quantities::{Units, measured};
use super::table::{Book, Cell, Table, numbers, said, sum_of_all, to_the_cent, words};
use crate::analysis::Analysis;
use crate::model::{Budget, Period, Profit, Stated, Tax};
use crate::quantities::{CostHeading, CostLine, MoneyFigures, loose_spoil_m3};
use crate::units::unit::HOUR;
use crate::units::{Quantity, System};

/// Adds the sheet.
pub(crate) fn add(book: &mut Book, analysis: &Analysis) -> Result<(), XlsxError> {
    let (currency, system) = (book.currency, book.system);
    let columns = vec![
        words("", 34.0),
        numbers(money_heading("Amount", currency), 14.0, "#,##0.00"),
        numbers("Quantity".to_owned(), 12.0, "#,##0.##"),
        words("Of", 12.0),
        numbers(money_heading("Rate", currency), 14.0, "#,##0.00####"),
        numbers("Share".to_owned(), 10.0, "0.00##%"),
        words("Not known, because", 48.0),
    ];
    let mut names = Vec::new();
    let mut table = book.table("Cost", columns)?;
    let money = analysis.figures.money.as_deref();
    let budget = analysis.job.budget.as_ref();
    if let Some(money) = money {
        let hire = hires(&mut table, analysis, money)?;
        if let Some(budget) = budget {
            let spoil = spoil_rows(&mut table, analysis, budget, system)?;
            let sheet = Lines {
                analysis,
                budget,
                money,
                hire,
                spoil,
            };
            names = sheet.write(&mut table)?;
            let total = names.iter().find(|(name, _)| name == "amount_total");
            let total = total.map(|(_, cell)| cell.trim_start_matches("Cost!").replace('$', ""));
            if let Some(total) = total {
                quotes(&mut table, analysis, money, &total)?;
            }
        }
    }
    table.finish()?;
    names
        .into_iter()
        .try_for_each(|(name, cell): (String, String)| book.name(&name, &cell))
}

/// What is hired, each period that is paid for and each time that it is brought
/// a row of its own; the cells of the amounts.
fn hires(
    table: &mut Table<'_>,
    analysis: &Analysis,
    money: &MoneyFigures,
) -> Result<Vec<String>, XlsxError> {
    let mut cells = Vec::new();
    for (hire, stated) in money.hires.iter().zip(analysis.job.hires.iter()) {
        let name = format!("hire of {}", hire.name);
        if hire.cost.is_none() {
            cells.push(format!("B{}", table.next()));
            table.row(vec![
                said(&name),
                Cell::Number(None),
                Cell::Number(hire.days.map(f64::from)),
                said("days"),
                Cell::Empty,
                Cell::Empty,
                hire.unknown.map_or(Cell::Empty, said),
            ])?;
            continue;
        }
        let currency = analysis.job.heading.currency();
        let rate = |of: &Quantity| price(Some(&of.resolved(currency)));
        for (period, count) in &hire.paid {
            let mut prices = stated.prices.iter();
            let each = prices.find(|price| price.period == *period);
            let each = each.and_then(|own| rate(&own.price));
            let of = match period {
                Period::Days(1) => "days".to_owned(),
                Period::Days(days) => format!("× {days} days"),
                Period::Weekend => "weekends".to_owned(),
            };
            cells.push(times(table, &name, (f64::from(*count), &of), each)?);
        }
        if let Some(each) = &stated.delivery {
            let brought = (f64::from(hire.fetched), "times");
            let name = format!("bringing {}", hire.name);
            cells.push(times(table, &name, brought, rate(&each.value))?);
        }
    }
    if !cells.is_empty() {
        table.gap();
    }
    Ok(cells)
}

/// What others ask for the job, each beside the total, whose cell is known.
fn quotes(
    table: &mut Table<'_>,
    analysis: &Analysis,
    money: &MoneyFigures,
    total: &str,
) -> Result<(), XlsxError> {
    let schedule = analysis.figures.schedule.as_deref();
    let hours = schedule.and_then(|schedule| schedule.hours);
    if !money.quotes.is_empty() {
        table.gap();
    }
    for quote in &money.quotes {
        let by = quote.by.as_ref();
        let by = by.map_or_else(|| "quote".to_owned(), |by| format!("quote by {by}"));
        let asked = table.next();
        table.row(vec![said(&by), Cell::Number(amount(quote.asked))])?;
        let saved = table.next();
        let less = to_the_cent(&format!("B{asked}-{total}"));
        let less = format!("=IF(COUNT(B{asked},{total})=2,{less},\"–\")");
        table.row(vec![
            said("saved; negative where the quote is lower"),
            Cell::Formula(less, amount(quote.saved)),
        ])?;
        if let (Some(hourly), Some(hours)) = (quote.saved_per_hour, hours) {
            let row = table.next();
            let each = to_the_cent(&format!("B{saved}/C{row}"));
            let each = format!("=IF(COUNT(B{saved},C{row})=2,{each},\"–\")");
            table.row(vec![
                said("saved for each hour of own work"),
                Cell::Formula(each, amount(Some(hourly))),
                Cell::Number(Some(hours)),
                said("hours"),
            ])?;
        }
    }
    Ok(())
}

/// A row of so many times a rate; the cell of what that comes to.
fn times(
    table: &mut Table<'_>,
    name: &str,
    (count, of): (f64, &str),
    rate: Option<f64>,
) -> Result<String, XlsxError> {
    let row = table.next();
    table.row(vec![
        said(name),
        Cell::Formula(count_by_rate(row), rate.map(|rate| count * rate)),
        Cell::Number(Some(count)),
        said(of),
        Cell::Number(rate),
    ])?;
    Ok(format!("B{row}"))
}

/// The quantity of a row times its rate, to the cent; a dash where one of them
/// is not known.
fn count_by_rate(row: u32) -> String {
    let both = to_the_cent(&format!("C{row}*E{row}"));
    format!("=IF(COUNT(C{row},E{row})=2,{both},\"–\")")
}

/// The spoil that is got rid of and what a load of it holds: the cells of both.
struct Spoil {
    loose: String,
    load: Option<String>,
}

fn spoil_rows(
    table: &mut Table<'_>,
    analysis: &Analysis,
    budget: &Budget,
    system: System,
) -> Result<Option<Spoil>, XlsxError> {
    let Some(disposal) = &budget.disposal else {
        return Ok(None);
    };
    let unit = Units::of(system).volume;
    let mut row = |name: &str, cubic_metres: Option<f64>| {
        let cell = format!("C{}", table.next());
        table.row(vec![
            said(name),
            Cell::Empty,
            measured(cubic_metres, unit),
            said(unit.symbol),
        ])?;
        Ok::<String, XlsxError>(cell)
    };
    let loose = row("loose spoil", loose_spoil_m3(&analysis.figures))?;
    let load = disposal.load.as_ref();
    let load = load.map(|load| row("one load holds", Some(load.value.si())));
    let load = load.transpose()?;
    table.gap();
    Ok(Some(Spoil { loose, load }))
}

struct Lines<'a> {
    analysis: &'a Analysis,
    budget: &'a Budget,
    money: &'a MoneyFigures,
    hire: Vec<String>,
    spoil: Option<Spoil>,
}

impl Lines<'_> {
    /// Writes the lines; the names of their cells.
    fn write(&self, table: &mut Table<'_>) -> Result<Vec<(String, String)>, XlsxError> {
        let first = table.next();
        let mut names = Vec::new();
        for (row, line) in (first..).zip(&self.money.costs) {
            let cells = self.cells(line, row, first);
            let is_sum = matches!(line.heading, CostHeading::Cost | CostHeading::Total);
            match is_sum {
                true => table.total(cells)?,
                false => table.row(cells)?,
            }
            let (amount, share) = self.names(line);
            names.push((amount, format!("Cost!$B${row}")));
            names.extend(share.map(|share| (share, format!("Cost!$F${row}"))));
        }
        Ok(names)
    }

    /// What the cells of a line are called: its amount, and its share.
    fn names(&self, line: &CostLine) -> (String, Option<String>) {
        let word = line.heading.word().replace('-', "_");
        let number = match line.heading {
            CostHeading::Item(index)
            | CostHeading::Tax(index)
            | CostHeading::TaxOnEverything(index) => format!("_{}", index + 1),
            _ => String::new(),
        };
        let share = self.share(line.heading);
        (
            format!("amount_{word}{number}"),
            share.map(|_| format!("share_{word}{number}")),
        )
    }

    fn tax(&self, index: usize) -> Option<&Tax> {
        self.budget.taxes.get(index)
    }

    fn share(&self, heading: CostHeading) -> Option<&Stated<Quantity>> {
        match heading {
            CostHeading::Tax(index) | CostHeading::TaxOnEverything(index) => {
                self.tax(index).map(|tax| &tax.share)
            }
            CostHeading::Contingency => self.budget.contingency.as_ref(),
            CostHeading::Margin | CostHeading::Markup => match self.budget.profit.as_ref()? {
                Profit::Margin(share) | Profit::Markup(share) => Some(share),
            },
            _ => None,
        }
    }

    fn cells(&self, line: &CostLine, row: u32, first: u32) -> Vec<Cell> {
        let known = amount(line.amount);
        let formula = self.formula(line, row, first);
        let (quantity, of, rate) = self.worked(line);
        let share = self.share(line.heading);
        vec![
            said(&line.name),
            match formula {
                Some(formula) => Cell::Formula(formula, known),
                None => Cell::Number(known),
            },
            quantity,
            of.map_or(Cell::Empty, |of| said(&of)),
            rate.map_or(Cell::Empty, |rate| Cell::Number(Some(rate))),
            share.map_or(Cell::Empty, |share| Cell::Number(Some(share.value.si()))),
            line.unknown.as_deref().map_or(Cell::Empty, said),
        ]
    }

    /// What a line is worked out from: the hours and their rate, the spoil or
    /// its loads and what each costs.
    fn worked(&self, line: &CostLine) -> (Cell, Option<String>, Option<f64>) {
        match line.heading {
            CostHeading::Labour => {
                let labour = self.budget.labour.as_ref();
                let hours = labour.and_then(|own| own.hours.as_ref());
                let stated = hours.map(|hours| HOUR.from_base(hours.value.si()));
                let schedule = self.analysis.figures.schedule.as_ref();
                let hours = stated.or_else(|| schedule?.hours);
                let rate = labour.and_then(|own| {
                    let hour = Quantity::one(&HOUR);
                    own.rate.value.times(hour).ok()
                });
                let hours = hours.map_or(Cell::Empty, |hours| Cell::Number(Some(hours)));
                (hours, Some("hours".to_owned()), price(rate.as_ref()))
            }
            CostHeading::Disposal => self.disposed().unwrap_or((Cell::Empty, None, None)),
            _ => (Cell::Empty, None, None),
        }
    }

    /// The loads of spoil that are begun, or the spoil where each cubic metre or
    /// yard has its price, and what one costs.
    fn disposed(&self) -> Option<(Cell, Option<String>, Option<f64>)> {
        let (disposal, spoil) = (self.budget.disposal.as_ref()?, self.spoil.as_ref()?);
        let unit = Units::of(self.analysis.job.heading.system()).volume;
        let loose = loose_spoil_m3(&self.analysis.figures);
        let currency = self.analysis.job.heading.currency();
        let each = disposal.price.value.resolved(currency);
        Some(match (&disposal.load, &spoil.load) {
            (Some(load), Some(holds)) => {
                let loads = loose.map(|loose| (loose / load.value.si() - 1e-9).ceil());
                let (loose, dash) = (&spoil.loose, "\"–\"");
                let begun = format!("ROUNDUP(ROUND({loose}/{holds},9),0)");
                let formula = format!("=IF(COUNT({loose},{holds})=2,{begun},{dash})");
                let loads = Cell::Formula(formula, loads);
                (loads, Some("loads".to_owned()), price(Some(&each)))
            }
            _ => {
                let rate = each.times(Quantity::one(unit)).ok();
                let formula = format!("={}", spoil.loose);
                let loose = Cell::Formula(formula, loose.map(|own| unit.from_base(own)));
                (loose, Some(unit.symbol.to_owned()), price(rate.as_ref()))
            }
        })
    }

    fn formula(&self, line: &CostLine, row: u32, first: u32) -> Option<String> {
        let lines = (first..).zip(&self.money.costs);
        let before = || lines.clone().take_while(move |(at, _)| *at < row);
        let cell = |at: u32| format!("B{at}");
        let so_far: Vec<(u32, &CostLine)> = {
            let cost = before().find(|(_, line)| line.heading == CostHeading::Cost);
            let from = cost.map_or(first, |(at, _)| at);
            before().filter(|(at, _)| *at >= from).collect()
        };
        let all: Vec<String> = so_far.iter().map(|(at, _)| cell(*at)).collect();
        let share = format!("F{row}");
        match line.heading {
            CostHeading::Materials => {
                let is_whole = self.analysis.figures.unpriced() == 0;
                is_whole.then(|| format!("={GOODS}"))
            }
            CostHeading::Deliveries => line.amount.map(|_| format!("={DELIVERIES}")),
            CostHeading::Hire => Some(sum_of_all(&self.hire)),
            CostHeading::Labour => Some(count_by_rate(row)),
            CostHeading::Disposal => line.amount.map(|_| count_by_rate(row)),
            CostHeading::Item(_) => None,
            CostHeading::Tax(index) => {
                let tax = self.tax(index)?;
                let on = before().filter(|(_, line)| tax.is_on(line.heading));
                let on: Vec<String> = on.map(|(at, _)| cell(at)).collect();
                (!on.is_empty()).then(|| share_of(&on, &share))
            }
            CostHeading::Cost | CostHeading::Total => Some(sum_of_all(&all)),
            CostHeading::Contingency | CostHeading::Markup => Some(share_of(&all, &share)),
            CostHeading::Margin => {
                let list = all.join(",");
                let count = all.len();
                Some(format!(
                    "=IF(COUNT({list})={count},{}-SUM({list}),\"–\")",
                    to_the_cent(&format!("SUM({list})/(1-{share})"))
                ))
            }
            CostHeading::TaxOnEverything(_) => {
                let no_tax = so_far
                    .iter()
                    .filter(|(_, line)| !matches!(line.heading, CostHeading::TaxOnEverything(_)));
                let on: Vec<String> = no_tax.map(|(at, _)| cell(*at)).collect();
                Some(share_of(&on, &share))
            }
        }
    }
}

/// A share of a sum of cells, to the cent, each of which must be known.
fn share_of(cells: &[String], share: &str) -> String {
    let list = cells.join(",");
    let count = cells.len();
    let part = to_the_cent(&format!("{share}*SUM({list})"));
    format!("=IF(COUNT({list})={count},{part},\"–\")")
}
