//! Units written out, `6 metres`, `4 in/hr`: the language has their signs.

use super::source::Source;
use crate::findings::{Finding, Fix};
use crate::syntax::{Item, ItemKind, Operator};
use crate::units::find_unit;
use crate::units::unit::MEGAPASCAL;
use crate::vocabulary::ValueKind;

/// How people write a unit out, and its sign.
const SPELLED: &[(&str, &str)] = &[
    ("millimetre", "mm"),
    ("millimeter", "mm"),
    ("centimetre", "cm"),
    ("centimeter", "cm"),
    ("metre", "m"),
    ("meter", "m"),
    ("mtr", "m"),
    ("mms", "mm"),
    ("cms", "cm"),
    ("ins", "in"),
    ("fts", "ft"),
    ("lf", "ft"),
    ("lm", "m"),
    ("yard", "yd"),
    ("litre", "L"),
    ("liter", "L"),
    ("gallon", "gal"),
    ("gram", "g"),
    ("kilo", "kg"),
    ("kilogram", "kg"),
    ("pound", "lb"),
    ("min", "min"),
    ("minute", "min"),
    ("hr", "h"),
    ("degree", "deg"),
    ("percent", "%"),
];

/// The same with `square` or `cubic` before it.
const SQUARE_AND_CUBIC: &[(&str, &str, &str)] = &[
    ("metre", "m2", "m3"),
    ("meter", "m2", "m3"),
    ("yard", "sq yd", "cu yd"),
    ("yd", "sq yd", "cu yd"),
    ("foot", "sq ft", "cu ft"),
    ("feet", "sq ft", "cu ft"),
    ("ft", "sq ft", "cu ft"),
    ("inch", "sq in", "cu in"),
    ("inche", "sq in", "cu in"),
];

/// A value whose unit, or what it is over, is written out: how many items it
/// takes, and the finding that writes the signs.
pub(crate) fn spelled_out(
    source: &Source<'_>,
    rest: &[Item],
    kind: ValueKind,
) -> Option<(usize, Finding)> {
    let number = usize::from(rest.first()?.kind == ItemKind::Negative);
    let ItemKind::Number { terms, .. } = &rest.get(number)?.kind else {
        return None;
    };
    let mut next = number + 1;
    let mut short = source.text_of(rest.get(..next)?).to_owned();
    let is_bare = terms.last().is_some_and(|term| term.unit.is_none());
    let own = spelled(source, rest.get(next..)?).filter(|_| is_bare);
    if let Some((taken, sign)) = own {
        next += taken;
        short = format!("{short}{}{sign}", if sign == "%" { "" } else { " " });
    }
    let is_over = rest.get(next).is_some_and(|item| {
        matches!(
            item.kind,
            ItemKind::Operator(Operator::Per | Operator::Divide)
        )
    });
    let over = spelled(source, rest.get(next + 1..).unwrap_or_default()).filter(|_| is_over);
    if let Some((taken, sign)) = over {
        next += 1 + taken;
        short = format!("{short}/{sign}");
    }
    // `28 pounds/m2`: what it is over belongs to the value.
    let per = rest
        .get(next)
        .filter(|item| matches!(item.kind, ItemKind::Per { .. }));
    if let Some(per) = per.filter(|_| own.is_some()) {
        let written = source.slice(per.span);
        let blank = if written.starts_with('/') { "" } else { " " };
        short = format!("{short}{blank}{written}");
        next += 1;
    }
    if own.is_none() && over.is_none() {
        return None;
    }
    let items = rest.get(..next)?;
    // A price for a yard of gravel is for a cubic one, and so is a load of it.
    let is_yard = |unit: Option<(usize, &str)>| unit.is_some_and(|(_, sign)| sign == "yd");
    let is_load = is_yard(own) && kind != ValueKind::Length && per.is_none();
    if (is_yard(over) || over.is_none() && is_load)
        && let Some(before) = short.strip_suffix("yd")
    {
        let place = source.place_of(items);
        let message = "a yard is cubic to some and square or long to others: say which";
        let readings = ["cu yd", "sq yd", "yd"].into_iter();
        let finding = readings.fold(
            Finding::new("number-unclear", place, message),
            |finding, unit| {
                let text = format!("{before}{unit}");
                finding.fix(Fix::judged(format!("Write `{text}`"), place, text))
            },
        );
        return Some((next, finding));
    }
    Some((next, by_its_sign(source, items, &short)))
}

/// `30 N/mm2`: a strength by newtons on a square millimetre.
pub(crate) fn newtons_on_an_area(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let number = source.slice(rest.first()?.span);
    let after = source.text_of(rest.get(1..)?);
    let is_plain = matches!(rest.first()?.kind, ItemKind::Number { .. });
    let is_newtons = ["N/mm2", "N/mm²"]
        .iter()
        .any(|own| own.eq_ignore_ascii_case(after));
    (is_plain && is_newtons).then(|| {
        let short = format!("{number} {}", MEGAPASCAL.symbol);
        (rest.len(), by_its_sign(source, rest, &short))
    })
}

/// A unit alone that is written out, `by cubic yard`, as the same.
pub(crate) fn unit_spelled_out(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let (taken, sign) = spelled(source, rest)?;
    let items = rest.get(..taken)?;
    // A yard of gravel is a cubic one.
    if sign == "yd" {
        let place = source.place_of(items);
        let written = source.text_of(items);
        let message =
            format!("a {written} is cubic to some and square or long to others: say which");
        let finding = Finding::new("number-unclear", place, message);
        let readings = ["cu yd", "sq yd", "yd"].into_iter();
        let offered = readings.fold(finding, |finding, unit| {
            finding.fix(Fix::judged(format!("Write `{unit}`"), place, unit))
        });
        return Some((taken, offered));
    }
    let is_known = find_unit(source.text_of(items)).is_some();
    (!is_known).then(|| (taken, by_its_sign(source, items, sign)))
}

fn by_its_sign(source: &Source<'_>, items: &[Item], short: &str) -> Finding {
    let place = source.place_of(items);
    let message = format!("a unit is written by its sign: `{short}`");
    Finding::new("word-unknown", place, message).fix(Fix::judged(
        format!("Write `{short}`"),
        place,
        short,
    ))
}

/// The sign of the unit that some words begin with, and how many they are.
pub(super) fn spelled(source: &Source<'_>, items: &[Item]) -> Option<(usize, &'static str)> {
    let word = |at: usize| {
        let word = source.word(items.get(at)?)?.to_ascii_lowercase();
        Some(word.strip_suffix('s').map_or(word.clone(), str::to_owned))
    };
    let first = word(0)?;
    if first == "square" || first == "cubic" {
        let unit = word(1)?;
        let (_, square, cubic) = SQUARE_AND_CUBIC.iter().find(|(own, ..)| *own == unit)?;
        return Some((2, if first == "square" { square } else { cubic }));
    }
    let written = source.word(items.first()?)?.to_ascii_lowercase();
    let mut spelled = SPELLED.iter();
    let (_, sign) = spelled.find(|(own, _)| *own == first || *own == written)?;
    Some((1, sign))
}
