//! Forms: how a value or clause is written, as a short text in the table.
//!
//! `LEVEL:length [at PLACE:place]` reads: a length, which is the level, then
//! perhaps the word *at* and a place. In a form
//! - a lower-case word stands for itself,
//! - `NAME:kind` is a slot for a value of that kind ([`ValueKind`]),
//! - `NAME:choice` is a slot for one of the words of a choice,
//! - `[…]` may be left out, `{…}` may stand any number of times,
//! - `(… | …)` is a choice.

use std::sync::LazyLock;

use super::ValueKind;
use super::choices;
use super::section::FORMS;

/// A parsed form.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Form {
    /// Its parts in order.
    pub parts: Vec<Part>,
}

/// One part of a form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Part {
    /// A word that stands for itself.
    Word(&'static str),
    /// The equals sign of a `let`.
    Equals,
    /// A value.
    Slot {
        /// What the value is for.
        name: &'static str,
        /// What it must be.
        kind: ValueKind,
    },
    /// One of a few words.
    Choice {
        /// What the word is for.
        name: &'static str,
        /// The words.
        words: Vec<&'static str>,
    },
    /// What may be left out.
    Optional(Vec<Part>),
    /// What may stand any number of times.
    Repeated(Vec<Part>),
    /// One of several sequences, the first that fits.
    Either(Vec<Vec<Part>>),
}

static EMPTY: LazyLock<Form> = LazyLock::new(Form::default);

impl Form {
    /// The parsed form of a text of the table; an empty form for any other.
    pub fn of(text: &'static str) -> &'static Form {
        FORMS.get(text).unwrap_or(&EMPTY)
    }

    /// Parses a form. The table is fixed, so this never meets a wrong one; a
    /// test holds every form to printing as it was written.
    pub(super) fn parse(text: &'static str) -> Form {
        let mut words = text.split_whitespace().peekable();
        Form {
            parts: sequence(&mut words, &[]),
        }
    }

    /// The words that may stand in it, those of its choices too.
    pub fn words(&self) -> impl Iterator<Item = &'static str> {
        let mut words = Vec::new();
        gather(&self.parts, &mut words);
        words.into_iter()
    }

    /// The form as it is shown to people: slots by their names, in capitals.
    pub fn shown(&self) -> String {
        shown(&self.parts)
    }

    /// Its slots, each with what it takes.
    pub fn slots(&self) -> Vec<(&'static str, ValueKind)> {
        let mut found = Vec::new();
        add_slots(&self.parts, &mut found);
        found
    }

    /// The same behind the word that begins its line: a choice is then held
    /// together by brackets.
    pub fn shown_after(&self, word: &str) -> String {
        format!("{word} {}", shown_in_sequence(&self.parts))
            .trim_end()
            .to_owned()
    }
}

/// The table is ours and nests no deeper than it is written.
fn add_slots(parts: &[Part], found: &mut Vec<(&'static str, ValueKind)>) {
    for part in parts {
        match part {
            Part::Slot { name, kind } => found.push((name, *kind)),
            Part::Optional(inner) | Part::Repeated(inner) => add_slots(inner, found),
            Part::Either(choices) => choices.iter().for_each(|inner| add_slots(inner, found)),
            Part::Word(_) | Part::Equals | Part::Choice { .. } => {}
        }
    }
}

type Words = std::iter::Peekable<std::str::SplitWhitespace<'static>>;

fn sequence(words: &mut Words, closers: &[&str]) -> Vec<Part> {
    let mut parts = Vec::new();
    while let Some(word) = words.next_if(|word| !closers.contains(word)) {
        parts.push(match word {
            "[" => {
                let inner = sequence(words, &["]"]);
                words.next();
                Part::Optional(inner)
            }
            "{" => {
                let inner = sequence(words, &["}"]);
                words.next();
                Part::Repeated(inner)
            }
            "(" => {
                let mut choices = vec![sequence(words, &["|", ")"])];
                while words.next() == Some("|") {
                    choices.push(sequence(words, &["|", ")"]));
                }
                Part::Either(choices)
            }
            "=" => Part::Equals,
            word => match word.split_once(':') {
                None => Part::Word(word),
                Some((name, kind)) => match ValueKind::from_word(kind) {
                    Some(kind) => Part::Slot { name, kind },
                    None => Part::Choice {
                        name,
                        words: choices::words(kind).unwrap_or_default().to_vec(),
                    },
                },
            },
        });
    }
    parts
}

fn shown(parts: &[Part]) -> String {
    // A choice beside something else ends where its brackets do.
    if parts.len() > 1 {
        return shown_in_sequence(parts);
    }
    let shown: Vec<String> = parts
        .iter()
        .map(|part| match part {
            Part::Word(word) => (*word).to_owned(),
            Part::Equals => "=".to_owned(),
            Part::Slot { name, .. } => (*name).to_owned(),
            Part::Choice { words, .. } => words.join("|"),
            Part::Optional(inner) => format!("[{}]", shown(inner)),
            Part::Repeated(inner) => format!("[{}]…", shown(inner)),
            Part::Either(choices) => {
                let choices = choices.iter().map(|choice| shown(choice));
                choices.collect::<Vec<_>>().join(" | ")
            }
        })
        .collect();
    shown.join(" ")
}

/// The same beside something else, where a choice takes parentheses.
fn shown_in_sequence(parts: &[Part]) -> String {
    let each = parts.iter().map(|part| {
        let own = shown(std::slice::from_ref(part));
        match part {
            Part::Either(_) => format!("({own})"),
            _ => own,
        }
    });
    each.collect::<Vec<_>>().join(" ")
}

fn gather(parts: &[Part], words: &mut Vec<&'static str>) {
    for part in parts {
        match part {
            Part::Word(word) => words.push(word),
            Part::Choice { words: own, .. } => words.extend(own),
            Part::Optional(parts) | Part::Repeated(parts) => gather(parts, words),
            Part::Either(ways) => ways.iter().for_each(|parts| gather(parts, words)),
            Part::Equals | Part::Slot { .. } => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forms_are_shown_as_people_read_them() {
        for (form, expected) in [
            ("LEVEL:length [ at PLACE:place ]", "LEVEL [at PLACE]"),
            (
                "SLOPE:slope ( away from EDGE:edge | toward HEADING:heading )",
                "SLOPE (away from EDGE | toward HEADING)",
            ),
            (
                "along ( free [ except EXCEPT:edge ] | EDGE:edge )",
                "along (free [except EXCEPT] | EDGE)",
            ),
            ("( free | EDGE:edge )", "free | EDGE"),
            (
                "( SLOPE:slope ( away from EDGE:edge | toward HEADING:heading ) | to PIT:drain )",
                "SLOPE (away from EDGE | toward HEADING) | to PIT",
            ),
            ("SENSE:sense", "below|above"),
            ("EDGE:edge { and EDGE:edge }", "EDGE [and EDGE]…"),
        ] {
            assert_eq!(Form::parse(form).shown(), expected);
        }
        let form = Form::parse("( in place | MATERIAL:material )");
        assert_eq!(form.shown_after("edging"), "edging (in place | MATERIAL)");
    }

    #[test]
    fn every_slot_of_the_table_has_a_kind_or_words() {
        fn check(form: &str, parts: &[Part]) {
            for part in parts {
                match part {
                    Part::Choice { words, name } => {
                        let known = !words.is_empty();
                        assert!(known, "{form}: {name} is of no known kind or choice");
                    }
                    Part::Optional(inner) | Part::Repeated(inner) => check(form, inner),
                    Part::Either(choices) => choices.iter().for_each(|inner| check(form, inner)),
                    _ => {}
                }
            }
        }
        assert!(FORMS.len() > 60);
        for (text, form) in FORMS.iter() {
            check(text, &form.parts);
        }
    }
}
