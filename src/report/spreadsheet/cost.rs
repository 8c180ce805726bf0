//! The sheet of the cost: each heading, as a formula over what it is worked out
//! from.

use rust_xlsxwriter::XlsxError;

use super::orders::{DELIVERIES, GOODS, amount, money_heading, price};
use super::table::{Book, Cell, Table, numbers, said, sum_of_all, to_the_cent, words};
use crate::analysis::Analysis;
use crate::model::{Budget, Profit, Stated, Tax};
use crate::quantities::{CostHeading, CostLine, MoneyFigures};
use crate::units::Quantity;
use crate::units::unit::HOUR;

/// Adds the sheet.
pub(crate) fn add(book: &mut Book, analysis: &Analysis) -> Result<(), XlsxError> {
    let currency = book.currency;
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
        let hire = hires(&mut table, money)?;
        if let Some(budget) = budget {
            let sheet = Lines {
                analysis,
                budget,
                money,
                hire,
            };
            names = sheet.write(&mut table)?;
        }
    }
    table.finish()?;
    names
        .into_iter()
        .try_for_each(|(name, cell): (String, String)| book.name(&name, &cell))
}

/// What is hired; the cells of the amounts.
fn hires(table: &mut Table<'_>, money: &MoneyFigures) -> Result<Vec<String>, XlsxError> {
    let mut cells = Vec::new();
    for hire in &money.hires {
        let row = table.next();
        cells.push(format!("B{row}"));
        table.row(vec![
            said(&format!("hire of {}", hire.name)),
            Cell::Number(amount(hire.cost)),
            Cell::Number(hire.days.map(f64::from)),
            said("days"),
        ])?;
    }
    if !cells.is_empty() {
        table.gap();
    }
    Ok(cells)
}

struct Lines<'a> {
    analysis: &'a Analysis,
    budget: &'a Budget,
    money: &'a MoneyFigures,
    hire: Vec<String>,
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
            quantity.map_or(Cell::Empty, |quantity| Cell::Number(Some(quantity))),
            of.map_or(Cell::Empty, said),
            rate.map_or(Cell::Empty, |rate| Cell::Number(Some(rate))),
            share.map_or(Cell::Empty, |share| Cell::Number(Some(share.value.si()))),
            line.unknown.as_deref().map_or(Cell::Empty, said),
        ]
    }

    /// The hours and their rate, or the loads and what one costs.
    fn worked(&self, line: &CostLine) -> (Option<f64>, Option<&'static str>, Option<f64>) {
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
                (hours, Some("hours"), price(rate.as_ref()))
            }
            _ => (None, None, None),
        }
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
            CostHeading::Labour => Some(format!(
                "=IF(COUNT(C{row},E{row})=2,{},\"–\")",
                to_the_cent(&format!("C{row}*E{row}"))
            )),
            CostHeading::Disposal | CostHeading::Item(_) => None,
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
