//! What is hired, the cost by heading, and the quotes beside it.

use super::sheet::Sheet;
use crate::quantities::{CostHeading, FigureRef, HireFigures, MoneyFigures};
use crate::report::columns::{Columns, Side};
use crate::report::trade::{UNKNOWN, price_per_area};
use crate::report::words::counted;
use crate::units::{Money, System};
use crate::vocabulary::spelled_in;

/// Names of items and of who quotes stand beside their amounts up to here.
const WIDEST_NAME: usize = 40;

/// The money of a job, if it says anything of that.
pub(super) fn text(sheet: &Sheet<'_>) -> String {
    let Some(money) = &sheet.analysis.figures.money else {
        return String::new();
    };
    let parts = [hires(sheet, money), costs(sheet, money)];
    let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join("\n")
}

fn known(amount: Option<Money>) -> String {
    amount.map_or_else(|| UNKNOWN.to_owned(), |amount| amount.to_string())
}

fn hires(sheet: &Sheet<'_>, money: &MoneyFigures) -> String {
    if money.hires.is_empty() {
        return String::new();
    }
    let mut columns = Columns::new(&[
        ("", Side::Left),
        ("days", Side::Right),
        ("paid for", Side::Right),
        ("hire", Side::Right),
        ("delivery", Side::Right),
        ("cost", Side::Right),
    ]);
    for hire in &money.hires {
        let days = hire.days.map(|days| counted(days as usize, "day", "days"));
        let delivery = match (hire.delivery, hire.cost) {
            (None, Some(_)) => String::new(),
            (delivery, _) => known(delivery),
        };
        columns.row([
            hire.name.clone(),
            days.unwrap_or_else(|| UNKNOWN.to_owned()),
            paid_for(hire),
            known(hire.hire),
            delivery,
            known(hire.cost),
        ]);
    }
    let workings = sheet.workings((0..money.hires.len()).map(FigureRef::Hire));
    format!("HIRE\n{}{workings}", columns.within(sheet.layout.width))
}

/// The periods that are paid for: `1 week + 2 days`.
fn paid_for(hire: &HireFigures) -> String {
    let periods = hire.paid.iter().rev();
    let periods: Vec<String> = periods
        .map(|(period, count)| period.counted(*count))
        .collect();
    match periods.is_empty() {
        true => UNKNOWN.to_owned(),
        false => periods.join(" + "),
    }
}

fn costs(sheet: &Sheet<'_>, money: &MoneyFigures) -> String {
    if money.costs.is_empty() {
        return String::new();
    }
    let per_area = match sheet.system {
        System::Imperial => "per sq ft",
        System::Metric => "per m²",
    };
    let mut columns = Columns::new(&[
        ("", Side::Left),
        ("amount", Side::Right),
        (per_area, Side::Right),
    ])
    .with_words_up_to(WIDEST_NAME);
    for line in &money.costs {
        let share = line.per_area.as_ref();
        let share = share.and_then(|share| price_per_area(share, sheet.system));
        columns.row([
            line.name.clone(),
            known(line.amount),
            share.unwrap_or_else(|| UNKNOWN.to_owned()),
        ]);
    }
    for quote in &money.quotes {
        let by = quote.by.as_ref();
        let by = by.map_or_else(|| "quote".to_owned(), |by| format!("quote by {by}"));
        columns.row([by, known(quote.asked), String::new()]);
        // Where the quote is the lower of the two, that is what is lost.
        let (word, amount) = match quote.saved {
            Some(saved) if saved.cents < 0 => (
                "  the quote is lower by",
                Some(Money {
                    cents: -saved.cents,
                    ..saved
                }),
            ),
            saved => ("  saved", saved),
        };
        columns.row([word.to_owned(), known(amount), String::new()]);
        if let Some(hourly) = quote.saved_per_hour {
            let word = "  for each hour of own work".to_owned();
            columns.row([word, hourly.to_string(), String::new()]);
        }
    }
    let mut text = format!("COST\n{}", columns.within(sheet.layout.width));
    if money.line(CostHeading::Labour).is_none() {
        let labour = spelled_in(sheet.analysis.job.heading.region(), "labour");
        text += "\n";
        text += &sheet.labelled(&labour, "your own, at no cost: the budget states no rate");
    }
    let figures = (0..money.costs.len()).map(FigureRef::Cost);
    let quotes = (0..money.quotes.len()).map(FigureRef::Quote);
    text + &sheet.workings(figures.chain(quotes))
}
