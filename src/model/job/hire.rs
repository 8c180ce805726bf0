//! A `hire` section.

use super::Stated;
use crate::findings::{Place, SectionRef};
use crate::units::{Day, Quantity};
use crate::vocabulary::Task;

/// What a price of a hire is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Period {
    /// So many calendar days, from any day on.
    Days(u32),
    /// From Friday's close to Monday's start.
    Weekend,
}

/// The price of a period.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PeriodPrice {
    /// The period.
    pub period: Period,
    /// What it costs, an amount of money.
    pub price: Quantity,
    /// Where it is stated.
    pub place: Place,
}

/// A stretch of days for which something is kept.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// How many calendar days.
    pub days: u32,
    /// The first of them, if it is stated.
    pub from: Option<Day>,
    /// The entry.
    pub place: Place,
}

/// A `hire` section.
#[derive(Debug, Clone, PartialEq)]
pub struct Hire {
    /// Its name.
    pub name: Stated<String>,
    /// Its section.
    pub section: SectionRef,
    /// The heading's line.
    pub place: Place,
    /// The work that it is hired for.
    pub tasks: Vec<Stated<Task>>,
    /// When it is kept; empty if that is not stated.
    pub kept: Vec<Stretch>,
    /// Its prices, each period once.
    pub prices: Vec<PeriodPrice>,
    /// What it costs each time that it is brought.
    pub delivery: Option<Stated<Quantity>>,
    /// The least number of days that is paid for each time.
    pub minimum: Option<Stated<u32>>,
    /// Whether a line of it could not be made out, so that what it costs is
    /// not known.
    pub is_unread: bool,
}

impl Hire {
    /// The kinds of work that it is hired for.
    pub fn kinds(&self) -> Vec<Task> {
        self.tasks.iter().map(|task| task.value).collect()
    }

    /// The same in words: `digging and compacting`.
    pub fn work(&self) -> String {
        let words: Vec<&str> = self.tasks.iter().map(|task| task.value.word()).collect();
        words.join(" and ")
    }
}
