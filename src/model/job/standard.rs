//! A practice's own limits.

use super::{Region, Stated};
use crate::findings::{Place, Severity};
use crate::units::Quantity;

/// A `standard` file.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Standard {
    /// Its title.
    pub title: Option<Stated<String>>,
    /// The standards that it starts from: paths as written.
    pub like: Vec<Stated<String>>,
    /// The limits that it sets.
    pub limits: Vec<SetLimit>,
    /// Limits that it means to set, to nothing.
    pub unset: Vec<UnsetLimit>,
    /// Rules that it makes matter more or less.
    pub severities: Vec<SetSeverity>,
    /// Rules that it switches off, with the reason.
    pub off: Vec<(Stated<String>, Option<String>)>,
    /// Rules that may not be accepted, eased or switched off further in.
    pub firm: Vec<Stated<String>>,
    /// Notes.
    pub notes: Vec<Stated<String>>,
}

/// A `limit` entry.
#[derive(Debug, Clone, PartialEq)]
pub struct SetLimit {
    /// The rule.
    pub rule: Stated<String>,
    /// The row, if one is named.
    pub row: Option<Stated<String>>,
    /// The value.
    pub value: Stated<Quantity>,
    /// The region that it holds in, if only in one.
    pub region: Option<Region>,
    /// The whole entry.
    pub place: Place,
}

/// A `limit` entry that wants its value.
#[derive(Debug, Clone, PartialEq)]
pub struct UnsetLimit {
    /// The rule.
    pub rule: Stated<String>,
    /// The row, if one is named.
    pub row: Option<Stated<String>>,
}

/// A `raise` or `ease` entry.
#[derive(Debug, Clone, PartialEq)]
pub struct SetSeverity {
    /// The rule.
    pub rule: Stated<String>,
    /// What it is set to.
    pub severity: Severity,
    /// Whether it is an `ease`, which wants a reason.
    pub eases: bool,
    /// The reason, if one is given.
    pub reason: Option<String>,
    /// The whole entry.
    pub place: Place,
}

impl Standard {
    /// The standard in words: `standard "House rules"`.
    pub fn title_in_words(&self) -> String {
        match &self.title {
            Some(title) => format!("standard \"{}\"", title.value),
            None => "standard".to_owned(),
        }
    }
}
