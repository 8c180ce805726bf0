//! The words of the language, sorted by what an editor colours them as.

use std::collections::BTreeSet;

use drylay::materials::Kind;
use drylay::units::{Currency, UNITS};
use drylay::vocabulary::{DIRECTIONS, FUNCTIONS, Form, Part, SECTIONS, SectionKind, ValueKind};

/// What the first word of a value is, where it is no word of the language.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum First {
    /// Nothing that can be told from its place.
    Other,
    /// The name of a shape, build, mix or material.
    Type,
    /// The name of an edge.
    Edge,
    /// One of a fixed set that is not listed: a rule, a kind of material.
    Choice,
}

/// A kind of section with the words that have a meaning in it.
#[derive(Debug)]
pub struct SectionWords {
    /// The word at column 0.
    pub word: &'static str,
    /// What the first word of its heading is.
    pub heading: First,
    /// Its keys, each with what the first word of its value is.
    pub keys: Vec<(&'static str, First)>,
    /// The words that join and begin its clauses.
    pub joining: BTreeSet<&'static str>,
    /// The words that its values are chosen from.
    pub choices: BTreeSet<&'static str>,
    /// The joining words after which an edge gets its name.
    pub naming: BTreeSet<&'static str>,
}

/// Every kind of section with its words, in the order of the table.
pub fn sections() -> Vec<SectionWords> {
    SECTIONS.iter().map(|kind| section(kind)).collect()
}

fn section(kind: &SectionKind) -> SectionWords {
    let mut words = SectionWords {
        word: kind.word,
        heading: first(&Form::of(kind.heading).parts),
        keys: Vec::new(),
        joining: BTreeSet::new(),
        choices: BTreeSet::new(),
        naming: BTreeSet::new(),
    };
    words.add(&Form::of(kind.heading).parts);
    for clause in kind.clauses {
        words.add(&clause.parsed().parts);
    }
    for key in kind.keys {
        let first = match first(&key.parsed().parts) {
            // A heading names what its section is, an entry names an edge.
            First::Type if key.parsed().parts.first().is_some_and(is_given) => First::Edge,
            first => first,
        };
        words.keys.push((key.word, first));
        words.add(&key.parsed().parts);
        for clause in key.clauses {
            words.add(&clause.parsed().parts);
        }
    }
    words.joining.extend(["bearing", "and"]);
    words
}

/// Whether a part is a name that is given there.
fn is_given(part: &Part) -> bool {
    matches!(
        part,
        Part::Slot {
            kind: ValueKind::Name,
            ..
        }
    )
}

impl SectionWords {
    /// The table nests no deeper than it is written.
    fn add(&mut self, parts: &[Part]) {
        for (at, part) in parts.iter().enumerate() {
            match part {
                Part::Word(word) => {
                    self.joining.insert(word);
                    if parts.get(at + 1).is_some_and(is_given) {
                        self.naming.insert(word);
                    }
                }
                Part::Choice { words, .. } => self.choices.extend(words),
                Part::Optional(inner) | Part::Repeated(inner) => self.add(inner),
                Part::Either(choices) => choices.iter().for_each(|inner| self.add(inner)),
                Part::Slot { .. } | Part::Equals => {}
            }
        }
    }
}

/// What a value starts with, if that is a name.
fn first(parts: &[Part]) -> First {
    let Some(Part::Slot { kind, .. }) = parts.first() else {
        return First::Other;
    };
    match kind {
        ValueKind::Name
        | ValueKind::Shape
        | ValueKind::Surface
        | ValueKind::Build
        | ValueKind::Built
        | ValueKind::Material
        | ValueKind::Substance => First::Type,
        ValueKind::Edge | ValueKind::SurfaceEdge => First::Edge,
        ValueKind::Rule | ValueKind::MaterialKind => First::Choice,
        _ => First::Other,
    }
}

/// The words of all sections that a choice of them gives, in order and once
/// each.
fn every<const N: usize>(
    of: impl Fn(SectionWords) -> [BTreeSet<&'static str>; N],
) -> Vec<&'static str> {
    let all: BTreeSet<&str> = sections().into_iter().flat_map(of).flatten().collect();
    all.into_iter().collect()
}

/// Every word of a section.
pub fn headings() -> Vec<&'static str> {
    SECTIONS.iter().map(|kind| kind.word).collect()
}

/// Every key of any section.
pub fn keys() -> Vec<&'static str> {
    every(|section| [section.keys.into_iter().map(|(key, _)| key).collect()])
}

/// Every word that joins or begins a clause anywhere.
pub fn joining() -> Vec<&'static str> {
    every(|section| [section.joining])
}

/// Every word that a value is chosen from anywhere, the directions and the
/// kinds of material among them.
pub fn choices() -> Vec<&'static str> {
    let mut all: BTreeSet<&str> = every(|section| [section.choices]).into_iter().collect();
    all.extend(directions());
    all.extend(Kind::ALL.iter().map(|kind| kind.word()));
    all.into_iter().collect()
}

/// The directions of the plan.
pub fn directions() -> Vec<&'static str> {
    DIRECTIONS.iter().map(|(word, _)| *word).collect()
}

/// The functions that an expression may call.
pub fn functions() -> Vec<&'static str> {
    FUNCTIONS.iter().map(|(word, _, _)| *word).collect()
}

/// Every spelling of every unit that is a word, with single spaces; of two
/// that begin alike the longer stands first.
pub fn units() -> Vec<&'static str> {
    let spellings = UNITS
        .iter()
        .flat_map(|unit| std::iter::once(&unit.symbol).chain(unit.spellings));
    let words = spellings
        .copied()
        .filter(|word| word.starts_with(|first: char| first.is_ascii_alphabetic()));
    longest_first(words)
}

/// The codes of money.
pub fn currencies() -> Vec<&'static str> {
    let codes = Currency::ALL.iter().map(|currency| currency.code());
    longest_first(codes.filter(|code| code.len() == 3))
}

/// The words once each, of two that begin alike the longer first.
pub fn longest_first(words: impl IntoIterator<Item = &'static str>) -> Vec<&'static str> {
    let mut words: Vec<&str> = words.into_iter().collect();
    words.sort_by(|one, other| other.len().cmp(&one.len()).then(one.cmp(other)));
    words.dedup();
    words
}

/// What every made file says of itself; it may stand in a comment of XML.
pub const MADE: &str = "Made from src/vocabulary; DRYLAY_REFRESH=1 cargo test makes it again.";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_sorted_by_what_they_are() {
        let shape = section(SECTIONS[4]);
        assert_eq!((shape.word, shape.heading), ("shape", First::Type));
        assert!(shape.keys.contains(&("cut", First::Type)));
        assert!(shape.keys.contains(&("edge", First::Edge)));
        assert!(shape.keys.contains(&("start", First::Other)));
        assert!(shape.joining.contains("inward") && !shape.joining.contains("fall"));
        assert_eq!(shape.naming, BTreeSet::from(["named"]));
        assert!(choices().contains(&"herringbone") && !choices().contains(&"along"));
        assert!(keys().contains(&"isolation-joint") && joining().contains(&"along"));
    }

    #[test]
    fn a_longer_unit_stands_before_one_it_begins_with() {
        let units = units();
        for (at, unit) in units.iter().enumerate() {
            let later = units.get(at + 1..).unwrap_or_default();
            assert!(later.iter().all(|later| !later.starts_with(unit)), "{unit}");
        }
        assert!(units.contains(&"sq ft") && !units.contains(&"°"));
    }
}
