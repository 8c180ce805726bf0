//! The form of the entry that is being written.

use super::writing::{Part, Rest, Row, is_word, writing};
use crate::analysis::Analysis;
use crate::vocabulary::{FUNCTIONS, Form};

/// The form of an entry, heading or call, and the part being written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signature {
    /// The whole form: `fall SLOPE …, cross SLOPE toward HEADING`.
    pub label: String,
    /// What it is for.
    pub help: String,
    /// Its parts in order, each with its help.
    pub parts: Vec<SignaturePart>,
    /// The part being written.
    pub active: Option<usize>,
}

/// The value or a clause of an entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SignaturePart {
    /// Its form, as it stands in the label.
    pub label: String,
    /// Where in the label it stands, in bytes.
    pub span: (usize, usize),
    /// What it is for.
    pub help: String,
}

/// The form of what is being written at a byte of the checked file.
pub fn signature(analysis: &Analysis, offset: u32) -> Option<Signature> {
    let Part::Rest(rest) = writing(analysis, offset)?.part else {
        return None;
    };
    let function = rest.inside.as_deref().and_then(called);
    Some(function.unwrap_or_else(|| of_entry(&rest)))
}

fn called(function: &str) -> Option<Signature> {
    let (_, form, help) = FUNCTIONS.iter().find(|(word, ..)| *word == function)?;
    Some(Signature {
        label: (*form).to_owned(),
        help: (*help).to_owned(),
        parts: Vec::new(),
        active: None,
    })
}

fn of_entry(rest: &Rest) -> Signature {
    let row = rest.row;
    let value = Form::of(row.value()).shown();
    let help = row.key.map_or(row.kind.help, |key| key.help);
    let mut label = row.word().to_owned();
    let mut parts = Vec::new();
    let clauses = row.clauses().iter();
    let clauses = clauses.map(|clause| (clause.parsed().shown(), clause.help));
    let has_value = !value.is_empty();
    for (number, (form, help)) in has_value
        .then_some((value, help))
        .into_iter()
        .chain(clauses)
        .enumerate()
    {
        let is_value = has_value && number == 0;
        label += if is_value { " " } else { ", " };
        let start = label.len();
        label += &form;
        parts.push(SignaturePart {
            span: (start, label.len()),
            label: form,
            help: help.to_owned(),
        });
    }
    Signature {
        label,
        help: help.to_owned(),
        active: active(rest, row).map(|clause| clause + usize::from(has_value)),
        parts,
    }
    .or_value(rest, has_value)
}

impl Signature {
    /// With the value as the part being written, where no comma stands yet.
    fn or_value(mut self, rest: &Rest, has_value: bool) -> Signature {
        if rest.phrase == 0 || rest.inside.is_some() && rest.before.is_empty() {
            self.active = has_value.then_some(0);
        }
        self
    }
}

/// The clause being written: the one that its first word starts, or before
/// there is one the first that is not written yet.
fn active(rest: &Rest, row: Row) -> Option<usize> {
    let clauses = row.clauses();
    let Some(first) = rest.items.first() else {
        return clauses.iter().position(|clause| {
            clause
                .word()
                .is_none_or(|word| !rest.before.iter().any(|before| before == word))
                && (clause.word().is_some() || rest.phrase == 1)
        });
    };
    let by_word = clauses.iter().position(|clause| {
        clause
            .word()
            .is_some_and(|word| is_word(&rest.text, first, word))
    });
    by_word.or_else(|| clauses.iter().position(|clause| clause.word().is_none()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{analysed, marked};

    #[test]
    fn the_part_being_written_is_marked() {
        for (text, label, active) in [
            ("surface a\n  fall ¦", "fall SLOPE", Some("SLOPE")),
            (
                "surface a\n  fall 1:60 away from x, ¦",
                "fall",
                Some("cross"),
            ),
            (
                "surface a\n  joint 3 mm, filled w¦",
                "joint WIDTH, depth",
                Some("filled"),
            ),
            (
                "build a\n  base stone, 10¦",
                "base MATERIAL, THICKNESS",
                Some("THICKNESS"),
            ),
            (
                "build a\n  base stone, 10 mm, lifts ¦",
                "base MATERIAL",
                Some("lifts COUNT"),
            ),
            (
                "build a\n  permeable, voids ¦",
                "permeable, voids",
                Some("voids"),
            ),
            ("accept ¦", "accept RULE", Some("RULE")),
            ("accept a, because \"¦", "accept RULE", Some("because")),
            ("let a = area(¦", "area(SHAPE)", None),
            ("let a = ¦", "let NAME = VALUE", Some("NAME")),
        ] {
            let (text, at) = marked(text);
            let found = signature(&analysed(&text), at).unwrap_or_else(|| panic!("{text}"));
            assert!(found.label.starts_with(label), "{text}: {}", found.label);
            let marked = found.active.and_then(|active| found.parts.get(active));
            match (active, marked) {
                (Some(active), Some(part)) => {
                    assert!(part.label.starts_with(active), "{text}: {part:?}");
                    let (start, end) = part.span;
                    assert_eq!(&found.label[start..end], part.label, "{text}");
                    assert!(part.help.ends_with('.'), "{text}");
                }
                (active, marked) => {
                    assert_eq!((active, marked), (None, None), "{text}");
                }
            }
        }
    }

    #[test]
    fn there_is_none_outside_an_entry() {
        for text in [
            "sur¦face a",
            "surface a\n  fa¦ll",
            "surface a\n  # fall ¦",
            "what\n  is ¦",
        ] {
            let (text, at) = marked(text);
            assert_eq!(signature(&analysed(&text), at), None, "{text}");
        }
    }
}
