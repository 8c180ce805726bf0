//! Money: what is hired, the cost by heading, and the quotes beside it.

mod amounts;
mod headings;
mod hire;
mod periods;
mod price;
mod spoil;

pub use headings::{CostLine, Heading};
pub use hire::{HireFigures, hire_as_scheduled};
pub use price::PricePart;
pub use spoil::loose_spoil_m3;

pub(super) use headings::Ground;
pub(super) use hire::hire;

use super::Figures;
use super::schedule::Hours;
use super::trace::Trace;
use crate::findings::Place;
use crate::model::{Job, Quote};
use crate::units::Money;
use amounts::Amount;

/// What a job costs, beyond the order lines.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MoneyFigures {
    /// What is hired, in the order of [`Job::hires`].
    pub hires: Vec<HireFigures>,
    /// The cost by heading, if there is a budget.
    pub costs: Vec<CostLine>,
    /// The quotes, in the order of the budget.
    pub quotes: Vec<QuoteFigures>,
}

/// A quote beside the cost.
#[derive(Debug, Clone, PartialEq)]
pub struct QuoteFigures {
    /// Who asks it.
    pub by: Option<String>,
    /// The entry.
    pub place: Place,
    /// What is asked.
    pub asked: Option<Money>,
    /// What is saved against it; negative where it is cheaper.
    pub saved: Option<Money>,
    /// What is saved for each hour of own work; `None` where work is paid for,
    /// the hours are not known or the quote is cheaper.
    pub saved_per_hour: Option<Money>,
}

impl MoneyFigures {
    /// What the whole job costs.
    pub fn total(&self) -> Option<Money> {
        self.costs.last()?.amount
    }

    /// The line of a heading.
    pub fn line(&self, heading: Heading) -> Option<&CostLine> {
        self.costs.iter().find(|line| line.heading == heading)
    }
}

/// What a job costs; `None` if nothing is hired and there is no budget.
pub(super) fn money(job: &Job, figures: &Figures) -> Option<MoneyFigures> {
    if job.hires.is_empty() && job.budget.is_none() {
        return None;
    }
    let currency = job.heading.currency();
    let hires = job.hires.iter();
    let schedule = figures.schedule.as_deref();
    let hires = hires.map(|own| hire(own, schedule, currency, &Trace::silent()));
    let mut money = MoneyFigures {
        hires: hires.collect(),
        ..MoneyFigures::default()
    };
    if let Some(budget) = &job.budget {
        money.costs = Ground::of(job, budget, figures, &money.hires).lines();
        let total = money.total();
        let quotes = budget.quotes.iter();
        money.quotes = quotes
            .map(|own| quote(job, own, total, own_hours(job, figures), &Trace::silent()))
            .collect();
    }
    Some(money)
}

/// The hours that are worked at no cost; `None` where work is paid for.
pub(super) fn own_hours(job: &Job, figures: &Figures) -> Option<f64> {
    let is_paid = job.budget.as_ref()?.labour.is_some();
    let hours = figures.schedule.as_deref()?.hours;
    hours.filter(|hours| !is_paid && *hours > 0.0)
}

/// A quote beside what the job costs, with so many hours of own work.
pub(super) fn quote(
    job: &Job,
    own: &Quote,
    total: Option<Money>,
    hours: Option<f64>,
    trace: &Trace,
) -> QuoteFigures {
    let asked = Amount::of(&own.price.value, job.heading.currency());
    let saved = asked.zip(total).and_then(|(asked, total)| {
        let asked = trace.stated("quote", asked, own.price.place);
        let total = trace.term("total", Amount(total));
        Some(trace.gives("saved", (asked - total).known()?))
    });
    let gained = saved.filter(|saved| saved.value.0.cents > 0);
    let per_hour = gained.zip(hours).and_then(|(saved, hours)| {
        let hours = trace.term("hours of own work", Hours(hours));
        Some(trace.gives("saved per hour", (saved / hours).known()?))
    });
    QuoteFigures {
        by: own.by.clone(),
        place: own.place,
        asked: asked.map(|asked| asked.0),
        saved: saved.map(|saved| saved.value.0),
        saved_per_hour: per_hour.map(|saved| saved.value.0),
    }
}
