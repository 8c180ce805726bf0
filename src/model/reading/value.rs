//! What was read: entries, clauses and the values in their slots.

use super::super::job::Stated;
use super::Expression;
use crate::findings::Place;
use crate::vocabulary::{Choice, Key};

/// The value in a slot.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A quantity, not yet worked out.
    Quantity(Expression),
    /// A point: east, then north.
    Point(Box<(Expression, Expression)>),
    /// One of the slot's words.
    Choice(&'static str),
    /// A name, or a word.
    Name(String),
    /// An edge of a shape.
    Edge {
        /// The shape that brought it, if one is written.
        owner: Option<String>,
        /// Its name.
        name: String,
    },
    /// A direction of the plan, as a bearing in degrees.
    Compass(f64),
    /// A bearing, not yet worked out.
    Bearing(Expression),
    /// Text, its escapes undone.
    Text(String),
    /// A date, as `2027-04-12`.
    Date(String),
    /// A time of day, in minutes since midnight.
    Clock(u16),
    /// A unit of measure.
    Unit(&'static crate::units::Unit),
    /// The parts of a mix.
    Parts(Vec<NamedPart>),
    /// The names in a line of parts of which the rest could not be made out.
    UnreadParts(Vec<(String, Place)>),
    /// Parts without names.
    UnlabelledParts(Vec<crate::units::Quantity>),
    /// Something that a finding already tells of.
    Unreadable,
}

/// One part of a mix.
#[derive(Debug, Clone, PartialEq)]
pub struct NamedPart {
    /// How many parts.
    pub amount: Expression,
    /// The name.
    pub name: String,
    /// Where the name stands.
    pub place: Place,
}

/// The slots of a value or clause that were filled, in order, and the key of
/// the entry that they stand in.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Filled(
    pub Vec<(&'static str, Value, Place)>,
    pub Option<&'static Key>,
);

impl Filled {
    /// The first value in the slot with this name.
    pub fn get(&self, slot: &str) -> Option<(&Value, Place)> {
        self.0
            .iter()
            .find(|(name, _, _)| *name == slot)
            .map(|(_, value, place)| (value, *place))
    }

    /// Every value in the slots with this name, in order.
    pub fn all<'a>(&'a self, slot: &'a str) -> impl Iterator<Item = (&'a Value, Place)> {
        self.0
            .iter()
            .filter(move |(name, _, _)| *name == slot)
            .map(|(_, value, place)| (value, *place))
    }

    /// The expression in a slot.
    pub fn quantity(&self, slot: &str) -> Option<&Expression> {
        match self.get(slot)?.0 {
            Value::Quantity(expression) => Some(expression),
            _ => None,
        }
    }

    /// The word in a slot that takes one of a few.
    pub fn choice(&self, slot: &str) -> Option<(&'static str, Place)> {
        match self.get(slot)? {
            (Value::Choice(word), place) => Some((word, place)),
            _ => None,
        }
    }

    /// What was chosen in a slot that takes one of a few words.
    pub fn chosen<T: Choice>(&self, slot: &str) -> Option<Stated<T>> {
        let (word, place) = self.choice(slot)?;
        Some(Stated::new(T::from_word(word)?, place))
    }

    /// The name in a slot.
    pub fn name(&self, slot: &str) -> Option<(&str, Place)> {
        match self.get(slot)? {
            (Value::Name(name), place) => Some((name, place)),
            _ => None,
        }
    }

    /// The text in a slot.
    pub fn text(&self, slot: &str) -> Option<(&str, Place)> {
        match self.get(slot)? {
            (Value::Text(text), place) => Some((text, place)),
            _ => None,
        }
    }

    /// The time of day in a slot, in minutes since midnight.
    pub fn clock(&self, slot: &str) -> Option<Stated<u16>> {
        match self.get(slot)? {
            (Value::Clock(minutes), place) => Some(Stated::new(*minutes, place)),
            _ => None,
        }
    }

    /// The date in a slot.
    pub fn date(&self, slot: &str) -> Option<(&str, Place)> {
        match self.get(slot)? {
            (Value::Date(date), place) => Some((date, place)),
            _ => None,
        }
    }
}

/// A clause of an entry.
#[derive(Debug, Clone, PartialEq)]
pub struct Clause {
    /// The clause's form in the table.
    pub form: &'static str,
    /// The word that it starts with, if it starts with one.
    pub word: Option<&'static str>,
    /// What was filled in.
    pub filled: Filled,
    /// The whole clause.
    pub place: Place,
}

/// An entry, or what stands in a section's heading.
#[derive(Debug, Clone)]
pub struct Entry {
    /// Its key; `None` for a heading.
    pub key: Option<&'static Key>,
    /// The word that it starts with.
    pub word: Place,
    /// From that word to the last phrase.
    pub place: Place,
    /// The whole line, its end included.
    pub line: Place,
    /// The value.
    pub filled: Filled,
    /// Whether the value could be read to its end.
    pub complete: bool,
    /// Whether nothing of the whole line is in error: a figure of a line that
    /// is, may be another than was meant.
    pub is_sound: bool,
    /// The clauses, in order.
    pub clauses: Vec<Clause>,
}

impl Entry {
    /// The first clause that starts with this word.
    pub fn clause(&self, word: &str) -> Option<&Clause> {
        self.clauses.iter().find(|clause| clause.word == Some(word))
    }

    /// The clauses that start with a value.
    pub fn values(&self) -> impl Iterator<Item = &Clause> {
        self.clauses.iter().filter(|clause| clause.word.is_none())
    }
}

/// Text with its `\"` and `\\` undone.
pub(crate) fn unescaped(inner: &str) -> String {
    let mut text = String::with_capacity(inner.len());
    let mut characters = inner.chars().peekable();
    while let Some(character) = characters.next() {
        match (character, characters.peek()) {
            ('\\', Some('"' | '\\')) => text.extend(characters.next()),
            _ => text.push(character),
        }
    }
    text
}
