//! The `job` section.

use super::Stated;
use crate::findings::Place;
use crate::sources::Region;
use crate::units::{Currency, System};

/// What a file is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum FileKind {
    /// It has a `job`.
    Spec,
    /// It has a `standard`.
    Standard,
    /// Neither: it lends what it defines to others.
    #[default]
    Library,
}

/// The `job` section.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Heading {
    /// The title.
    pub title: Option<Stated<String>>,
    /// The heading's place, if there is a `job`.
    pub place: Option<Place>,
    /// The practice's own reference.
    pub reference: Option<Stated<String>>,
    /// How figures are shown, if it is stated.
    pub units: Option<Stated<System>>,
    /// Whose limits apply, if it is stated.
    pub region: Option<Stated<Region>>,
    /// Whether none could be read, though one is stated or may be.
    pub is_region_unread: bool,
    /// The currency, if it is stated.
    pub currency: Option<Stated<Currency>>,
    /// The currency of the first price, for a job that states none.
    pub currency_seen: Option<Currency>,
    /// The date of the spec, as `2027-04-12`.
    pub date: Option<Stated<String>>,
    /// Who prepared it.
    pub prepared_by: Option<Stated<String>>,
    /// Notes, in order.
    pub notes: Vec<Stated<String>>,
    /// Whether the file's first length is written in feet or inches: how
    /// figures are shown in a job that does not say.
    pub written_imperial: bool,
}

impl Heading {
    /// How figures are shown: as stated, else as the lengths are written.
    pub fn system(&self) -> System {
        match &self.units {
            Some(stated) => stated.value,
            None if self.written_imperial => System::Imperial,
            None => System::Metric,
        }
    }

    /// Whose limits apply.
    pub fn region(&self) -> Region {
        self.region
            .as_ref()
            .map_or(Region::General, |stated| stated.value)
    }

    /// The currency in which costs are shown.
    pub fn currency(&self) -> Currency {
        self.currency
            .as_ref()
            .map(|stated| stated.value)
            .or(self.currency_seen)
            .unwrap_or(Currency::Dollar)
    }
}
