//! Work in short, hire, cost and quotes in the take-off as JSON: sums in the
//! job's currency.

use serde::Serialize;

use super::trade::price_decimal;
use crate::quantities::{
    CostLine, DAY_MINUTES, HireFigures, MoneyFigures, QuoteFigures, ScheduleFigures,
};
use crate::units::Money;

/// The schedule in short.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Work {
    crew: u32,
    /// Of all tasks and all who do them.
    hours: Option<f64>,
    first_day: Option<String>,
    last_day: Option<String>,
    /// From the first to the last, days off counted.
    days: Option<i64>,
}

/// What is hired.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Hire<'a> {
    name: &'a str,
    /// Of the calendar.
    days: Option<u32>,
    /// The cheapest periods that cover them.
    paid: Vec<Paid>,
    /// How often it is delivered.
    fetched: u32,
    /// Without delivery.
    hire: Option<String>,
    delivery: Option<String>,
    cost: Option<String>,
}

/// How many of a period are paid for.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Paid {
    /// `1 day`, `1 week` and so on.
    period: String,
    count: u32,
}

/// A line of the cost.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Cost<'a> {
    heading: &'static str,
    name: &'a str,
    /// In the job's currency.
    amount: Option<String>,
    amount_per_m2: Option<String>,
}

/// What somebody asks for the job.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Quote<'a> {
    by: Option<&'a str>,
    asked: Option<String>,
    /// What is saved against it; negative where it is cheaper.
    saved: Option<String>,
    /// The same for each hour of own work; not known where work is paid for.
    saved_per_hour: Option<String>,
}

/// A list of what a job says of money; nothing if it says nothing of that.
pub(super) fn listed<'a, T: 'a, U>(
    money: Option<&'a MoneyFigures>,
    list: impl Fn(&'a MoneyFigures) -> &'a Vec<T>,
    one: impl Fn(&'a T) -> U,
) -> Option<Vec<U>> {
    let list = list(money?);
    (!list.is_empty()).then(|| list.iter().map(one).collect())
}

pub(super) fn work(schedule: &ScheduleFigures) -> Work {
    let day = |moment: i64| schedule.day(moment).map(|day| day.to_string());
    Work {
        crew: schedule.crew,
        hours: schedule.hours,
        first_day: schedule.first_day.map(|day| day.to_string()),
        last_day: schedule.end_min.and_then(day),
        days: schedule.end_min.map(|end| end.div_euclid(DAY_MINUTES) + 1),
    }
}

pub(super) fn hire(hire: &HireFigures) -> Hire<'_> {
    let paid = hire.paid.iter();
    let paid = paid.map(|(period, count)| Paid {
        period: period.in_words(),
        count: *count,
    });
    Hire {
        name: &hire.name,
        days: hire.days,
        paid: paid.collect(),
        fetched: hire.fetched,
        hire: hire.hire.map(Money::decimal),
        delivery: hire.delivery.map(Money::decimal),
        cost: hire.cost.map(Money::decimal),
    }
}

pub(super) fn cost(line: &CostLine) -> Cost<'_> {
    Cost {
        heading: line.heading.word(),
        name: &line.name,
        amount: line.amount.map(Money::decimal),
        amount_per_m2: line.per_area.as_ref().and_then(price_decimal),
    }
}

pub(super) fn quote(quote: &QuoteFigures) -> Quote<'_> {
    Quote {
        by: quote.by.as_deref(),
        asked: quote.asked.map(Money::decimal),
        saved: quote.saved.map(Money::decimal),
        saved_per_hour: quote.saved_per_hour.map(Money::decimal),
    }
}
