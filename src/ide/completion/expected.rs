//! What may stand next in a phrase, by its form.

use crate::ide::writing::is_word;
use crate::syntax::{Item, ItemKind, Operator};
use crate::vocabulary::{Part, ValueKind};

/// How many ways a phrase is followed through its form.
const MOST_STEPS: usize = 4_096;

/// Something that may stand next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Expected {
    /// A word of the form.
    Word(&'static str),
    /// One of a few words.
    OneOf(Vec<&'static str>),
    /// A value.
    Value(ValueKind),
    /// The unit of the number before.
    UnitOf(ValueKind),
    /// The unit that a value is counted for: after `per`.
    PerUnit,
}

/// What may stand after the items of a phrase, in the order of the form; none
/// if they do not fit it.
pub(crate) fn expected(text: &str, items: &[Item], parts: &'static [Part]) -> Vec<Expected> {
    let mut found = Vec::new();
    let mut ways: Vec<(usize, Vec<&'static Part>)> = vec![(0, parts.iter().collect())];
    for _ in 0..MOST_STEPS {
        let Some((at, rest)) = ways.pop() else { break };
        let Some((&first, rest)) = rest.split_first() else {
            continue;
        };
        let here = items.get(at);
        let go = |before: &[&'static [Part]]| {
            let mut way: Vec<&'static Part> = before.iter().copied().flatten().collect();
            way.extend(rest);
            way
        };
        match first {
            Part::Word(word) => match here {
                None => found.push(Expected::Word(word)),
                Some(item) if is_word(text, item, word) => ways.push((at + 1, rest.to_vec())),
                Some(_) => {}
            },
            Part::Equals => {
                if here.is_some_and(|item| item.kind == ItemKind::Equals) {
                    ways.push((at + 1, rest.to_vec()));
                }
            }
            Part::Choice { words, .. } => match here {
                None => found.push(Expected::OneOf(words.clone())),
                Some(item) if words.iter().any(|word| is_word(text, item, word)) => {
                    ways.push((at + 1, rest.to_vec()));
                }
                Some(_) => {}
            },
            Part::Slot { kind, .. } => match here {
                None => found.push(Expected::Value(*kind)),
                Some(_) => {
                    for end in ends(text, items, at, *kind, &mut found) {
                        ways.push((end, rest.to_vec()));
                    }
                }
            },
            Part::Optional(inner) => {
                ways.push((at, rest.to_vec()));
                ways.push((at, go(&[inner.as_slice()])));
            }
            Part::Repeated(inner) => {
                ways.push((at, rest.to_vec()));
                ways.push((at, go(&[inner.as_slice(), std::slice::from_ref(first)])));
            }
            Part::Either(choices) => {
                for choice in choices.iter().rev() {
                    ways.push((at, go(&[choice.as_slice()])));
                }
            }
        }
    }
    let mut once = Vec::new();
    for one in found {
        if !once.contains(&one) {
            once.push(one);
        }
    }
    once
}

/// Where a value that starts at an item may end, and what may stand next
/// while it has not.
fn ends(
    text: &str,
    items: &[Item],
    at: usize,
    kind: ValueKind,
    found: &mut Vec<Expected>,
) -> Vec<usize> {
    let is = |word: &str| items.get(at).is_some_and(|item| is_word(text, item, word));
    match kind {
        _ if kind.is_quantity() => quantity(items, at, kind, found),
        ValueKind::Parts => {
            if let Some(ItemKind::Number { .. }) = items.last().map(|item| &item.kind) {
                found.push(Expected::Value(ValueKind::Material));
            }
            Vec::new()
        }
        ValueKind::Edge | ValueKind::SurfaceEdge | ValueKind::Heading | ValueKind::Place
            if is("edge") =>
        {
            if items.len() == at + 1 {
                let is_of_surface = kind == ValueKind::SurfaceEdge;
                let edge = if is_of_surface { kind } else { ValueKind::Edge };
                found.push(Expected::Value(edge));
            }
            vec![at + 2]
        }
        ValueKind::Direction | ValueKind::Heading if is("bearing") => {
            quantity(items, at + 1, ValueKind::Angle, found)
        }
        ValueKind::Unit => vec![at + 2, at + 1],
        _ => vec![at + 1],
    }
}

/// A sum or product, item by item.
fn quantity(items: &[Item], at: usize, kind: ValueKind, found: &mut Vec<Expected>) -> Vec<usize> {
    let mut ends = Vec::new();
    let mut wants_operand = true;
    let mut next = at;
    while let Some(item) = items.get(next) {
        match &item.kind {
            ItemKind::Negative if wants_operand => {}
            ItemKind::Number { .. }
            | ItemKind::Ratio { .. }
            | ItemKind::Group { .. }
            | ItemKind::Call { .. }
            | ItemKind::Word
                if wants_operand =>
            {
                wants_operand = false;
            }
            ItemKind::Per { .. } if !wants_operand => {}
            ItemKind::Operator(operator) if !wants_operand => {
                // The form may have this word itself.
                if matches!(operator, Operator::Per | Operator::Over) {
                    ends.push(next);
                }
                wants_operand = true;
            }
            _ => break,
        }
        next += 1;
    }
    let is_last = next == items.len();
    match items.last().filter(|_| is_last).map(|item| &item.kind) {
        Some(ItemKind::Operator(Operator::Per | Operator::Divide)) => {
            found.push(Expected::PerUnit);
            found.push(Expected::Value(kind));
        }
        Some(_) if wants_operand => found.push(Expected::Value(kind)),
        Some(ItemKind::Number { terms, currency })
            if currency.is_none() && terms.iter().all(|term| term.unit.is_none()) =>
        {
            found.push(Expected::UnitOf(kind));
        }
        _ => {}
    }
    if !wants_operand {
        ends.push(next);
    }
    ends
}
