//! The `budget` section.

use super::Stated;
use crate::findings::Place;
use crate::units::Quantity;
use crate::vocabulary::Taxed;

/// What work costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Labour {
    /// The rate, money over time.
    pub rate: Stated<Quantity>,
    /// The hours worked, if they are stated.
    pub hours: Option<Stated<Quantity>>,
    /// The entry.
    pub place: Place,
}

/// What it costs to get rid of loose spoil.
#[derive(Debug, Clone, PartialEq)]
pub struct Disposal {
    /// Money over volume, or money for a load.
    pub price: Stated<Quantity>,
    /// What a load holds, if the price is for one.
    pub load: Option<Stated<Quantity>>,
    /// The entry.
    pub place: Place,
}

/// Something else that is paid for.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// What it is.
    pub what: String,
    /// What it costs.
    pub price: Option<Stated<Quantity>>,
    /// The entry.
    pub place: Place,
}

/// A tax.
#[derive(Debug, Clone, PartialEq)]
pub struct Tax {
    /// Its rate.
    pub share: Stated<Quantity>,
    /// What it is on, each once.
    pub on: Vec<Taxed>,
    /// The entry.
    pub place: Place,
}

impl Tax {
    /// Whether it is on the whole price, and so comes last.
    pub fn is_on_everything(&self) -> bool {
        self.on.contains(&Taxed::Everything)
    }
}

/// What the price leaves over the cost.
#[derive(Debug, Clone, PartialEq)]
pub enum Profit {
    /// A share of the price.
    Margin(Stated<Quantity>),
    /// A share of the cost.
    Markup(Stated<Quantity>),
}

/// What somebody asks for the whole job.
#[derive(Debug, Clone, PartialEq)]
pub struct Quote {
    /// As it would be paid.
    pub price: Stated<Quantity>,
    /// Who asks it.
    pub by: Option<String>,
    /// The entry.
    pub place: Place,
}

/// The `budget` section.
#[derive(Debug, Clone, PartialEq)]
pub struct Budget {
    /// The heading's line.
    pub place: Place,
    /// What work costs; without it labour is one's own.
    pub labour: Option<Labour>,
    /// What it costs to get rid of spoil.
    pub disposal: Option<Disposal>,
    /// What else is paid for.
    pub items: Vec<Item>,
    /// The taxes, in order.
    pub taxes: Vec<Tax>,
    /// What is set aside, as a share of the cost.
    pub contingency: Option<Stated<Quantity>>,
    /// What the price leaves over.
    pub profit: Option<Profit>,
    /// Quotes, in order.
    pub quotes: Vec<Quote>,
    /// Notes.
    pub notes: Vec<Stated<String>>,
    /// Lines that could not be made out, so that no sum is known.
    pub unread: Vec<Place>,
}
