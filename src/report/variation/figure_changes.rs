//! The figures that changed: each once, and a whole part that is gone or new
//! as one line.

use std::collections::{BTreeMap, BTreeSet};

use indexmap::IndexMap;

use crate::analysis::Analysis;
use crate::report::figure_list::{Figure, figure_list};
use crate::report::figure_value::Value;
use crate::report::trade;
use crate::units::System;

/// Figures nearer to each other than this share of their size are the same.
const SAME: f64 = 1e-9;

/// A figure that changed, or a whole part that is gone or new.
#[derive(Debug, Clone)]
pub(super) struct FigureChange {
    /// What it is of, in words: `terrace, base of road-stone: mass`.
    pub label: String,
    /// The figure, of the newer state if it is there. Of a whole part it is
    /// the first of its figures.
    pub of: Figure,
    /// What it was; `None` if there was none.
    pub old: Option<Value>,
    /// What it is; `None` if there is none.
    pub new: Option<Value>,
    /// The change in per cent, or what else became of it.
    pub change: String,
    /// The changed lines that caused it.
    pub from: Vec<usize>,
    /// What tells it from all others.
    key: Key,
}

/// The figures of a look at other lines.
pub(super) struct OtherFigures(BTreeMap<Key, Figure>);

impl OtherFigures {
    /// Those of a take-off.
    pub(super) fn of(analysis: &Analysis) -> OtherFigures {
        OtherFigures(keyed(Some(analysis)).into_iter().collect())
    }

    /// How many there are.
    pub(super) fn count(&self) -> usize {
        self.0.len()
    }
}

/// How a figure comes out where some lines are as they were.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Outcome {
    /// As in the newer state.
    Same,
    /// Otherwise.
    Otherwise,
    /// It is no longer known, though both states know it: as likely as not the
    /// lines make no sense without the others.
    Unknown,
}

impl FigureChange {
    /// What it was and what it is, both in one unit.
    pub(super) fn shown(&self, system: System) -> [Option<String>; 2] {
        let (old, new) = (self.old.as_ref(), self.new.as_ref());
        let beside = |own: Option<&Value>, other| Some(own?.shown_beside(other, system));
        [beside(old, new), beside(new, old)]
    }

    /// How it comes out among other figures.
    pub(super) fn outcome(&self, others: &OtherFigures) -> Outcome {
        let other = others.0.get(&self.key).map(|figure| &figure.value);
        let number = |value: Option<&Value>| value.and_then(Value::number);
        let was_known = number(self.old.as_ref()).is_some() && number(self.new.as_ref()).is_some();
        match (other, &self.new) {
            (None, None) => Outcome::Same,
            (other, new) if is_same(other, new.as_ref()) => Outcome::Same,
            (other, _) if was_known && number(other).is_none() => Outcome::Unknown,
            _ => Outcome::Otherwise,
        }
    }
}

/// Both values of a figure.
#[derive(Debug, Default)]
struct Pair {
    old: Option<Figure>,
    new: Option<Figure>,
}

/// What tells a figure from all others of its take-off: part, name, item,
/// material and what it is, and which of several alike.
type Key = (
    &'static str,
    String,
    &'static str,
    String,
    &'static str,
    usize,
);

/// The figures that changed, in the order of the sheet, and how many are the
/// same. What caused them is not known yet.
pub(super) fn figure_changes(
    old: Option<&Analysis>,
    new: Option<&Analysis>,
) -> (Vec<FigureChange>, usize) {
    let mut pairs: IndexMap<Key, Pair> = IndexMap::new();
    for (key, figure) in keyed(new) {
        pairs.entry(key).or_default().new = Some(figure);
    }
    for (key, figure) in keyed(old) {
        pairs.entry(key).or_default().old = Some(figure);
    }
    let whole = whole_parts(&pairs);
    let job = new.or(old).map(|analysis| &analysis.job);
    let system = job.map_or(System::Metric, |job| job.heading.system());
    let mut reported: BTreeSet<Group> = BTreeSet::new();
    let (mut changes, mut same) = (Vec::new(), 0);
    for (key, pair) in &pairs {
        let (old, new) = (value(&pair.old), value(&pair.new));
        if is_same(old, new) {
            same += 1;
            continue;
        }
        let Some(figure) = pair.new.as_ref().or(pair.old.as_ref()) else {
            continue;
        };
        let group = groups(key).into_iter().find(|group| whole.contains(group));
        let is_first = group.clone().is_none_or(|group| reported.insert(group));
        if !is_first {
            continue;
        }
        changes.push(FigureChange {
            label: match &group {
                Some(group) => group_label(group, figure),
                None => label(figure),
            },
            of: figure.clone(),
            old: old.cloned(),
            new: new.cloned(),
            change: change(old, new, system),
            from: Vec::new(),
            key: key.clone(),
        });
    }
    tell_of_unpriced(&mut changes);
    (changes, same)
}

/// Sums of which other parts have a price than before: they are no dearer or
/// cheaper for it.
fn tell_of_unpriced(changes: &mut [FigureChange]) {
    let is_cost = |own: &FigureChange| matches!(own.new, Some(Value::Cost(_)));
    let of_orders = changes
        .iter()
        .filter(|own| is_cost(own) && own.of.part == "order");
    let has = |word: &str| of_orders.clone().any(|own| own.change == word);
    let why = match (has("now known"), has("no longer known")) {
        (false, false) => return,
        (true, false) => "more of it is priced",
        (false, true) => "less of it is priced",
        (true, true) => "other parts of it are priced",
    };
    let sums = changes.iter_mut().filter(|own| own.of.part != "order");
    for sum in sums.filter(|own| is_cost(own) && own.change.ends_with('%')) {
        why.clone_into(&mut sum.change);
    }
}

/// The figures of a take-off, each with its key.
fn keyed(analysis: Option<&Analysis>) -> Vec<(Key, Figure)> {
    let mut counts: BTreeMap<Key, usize> = BTreeMap::new();
    let figures = analysis.map(figure_list).unwrap_or_default();
    let keyed = figures.into_iter().map(|figure| {
        let (name, material) = (figure.name.clone(), figure.material.clone());
        let mut key = (figure.part, name, figure.item, material, figure.what, 0);
        let count = counts.entry(key.clone()).or_insert(0);
        key.5 = *count;
        *count += 1;
        (key, figure)
    });
    keyed.collect()
}

/// A part of a take-off, or one item of a part.
type Group = (&'static str, String, Option<(&'static str, String, usize)>);

/// The groups that a figure is in, the widest first.
fn groups(key: &Key) -> [Group; 2] {
    let (part, name, item, material, _, nth) = key;
    // An order has no name but its material's.
    let name = match *part {
        "order" => material.clone(),
        _ => name.clone(),
    };
    let own = Some((*item, material.clone(), *nth));
    [(part, name.clone(), None), (part, name, own)]
}

/// The groups of which there is nothing on one of the two sides.
fn whole_parts(pairs: &IndexMap<Key, Pair>) -> BTreeSet<Group> {
    let mut sides: BTreeMap<Group, (bool, bool)> = BTreeMap::new();
    for (key, pair) in pairs {
        for group in groups(key) {
            let side = sides.entry(group).or_default();
            side.0 |= pair.old.is_some();
            side.1 |= pair.new.is_some();
        }
    }
    let one_sided = sides.into_iter().filter(|(_, (old, new))| old != new);
    one_sided.map(|(group, _)| group).collect()
}

fn value(figure: &Option<Figure>) -> Option<&Value> {
    figure.as_ref().map(|figure| &figure.value)
}

/// What a whole part or item is: `surface terrace`, `terrace, base of
/// road-stone`.
fn group_label(group: &Group, figure: &Figure) -> String {
    match group {
        ("order", material, None) => format!("order of {material}"),
        (part, name, None) => format!("{part} {name}").trim().to_owned(),
        _ => {
            let label = label(figure);
            let thing = label.rsplit_once(':').map(|(thing, _)| thing.to_owned());
            thing.unwrap_or(label)
        }
    }
}

/// What a figure is of: `terrace, base of road-stone: mass`.
fn label(figure: &Figure) -> String {
    let part = match figure.part {
        "surface" | "mix" => figure.name.clone(),
        part => format!("{part} {}", figure.name).trim().to_owned(),
    };
    let item = match (figure.item, figure.material.as_str()) {
        ("", "") => String::new(),
        ("", material) => format!(" of {material}"),
        ("ingredient", material) => format!(", {material}"),
        (item, "") => format!(", {item}"),
        (item, material) => format!(", {item} of {material}"),
    };
    format!("{part}{item}: {}", figure.what)
}
fn is_same(old: Option<&Value>, new: Option<&Value>) -> bool {
    let (Some(old), Some(new)) = (old, new) else {
        return false;
    };
    if std::mem::discriminant(old) != std::mem::discriminant(new) {
        return false;
    }
    match (old.number(), new.number()) {
        (Some(a), Some(b)) => {
            let is_near = (a - b).abs() <= SAME * a.abs().max(b.abs());
            is_near && unit(old) == unit(new)
        }
        (None, None) => true,
        _ => false,
    }
}

fn unit(value: &Value) -> String {
    match value {
        Value::Count(_, unit) | Value::Price(_, unit) => unit.clone(),
        Value::Cost(Some(money)) => money.currency.code().to_owned(),
        _ => String::new(),
    }
}

/// The change in per cent, of a level as a difference, or what else became of
/// the figure.
fn change(old: Option<&Value>, new: Option<&Value>, system: System) -> String {
    let (old, new) = match (old, new) {
        (Some(old), Some(new)) => (old, new),
        (Some(_), None) => return "gone".to_owned(),
        _ => return "added".to_owned(),
    };
    match (old.number(), new.number()) {
        (Some(_), Some(_)) if unit(old) != unit(new) => "in another unit".to_owned(),
        (Some(a), Some(b)) if matches!(new, Value::Level(_)) => {
            let sign = if b < a { "-" } else { "+" };
            format!("{sign}{}", trade::length((b - a).abs(), system))
        }
        (Some(a), Some(b)) if a != 0.0 && a.signum() == b.signum() => {
            let percent = (b - a) / a * 100.0;
            format!("{percent:+.1} %")
        }
        (Some(_), Some(_)) => String::new(),
        (None, Some(_)) => "now known".to_owned(),
        (Some(_), None) => "no longer known".to_owned(),
        (None, None) => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn changes_are_told_in_per_cent() {
        let area = |value| Some(Value::Area(value));
        let count = |value, unit: &str| Some(Value::Count(Some(value), unit.to_owned()));
        for (old, new, same, reported) in [
            (area(Some(2.0)), area(Some(2.0 + 1e-12)), true, "+0.0 %"),
            (area(Some(2.0)), area(Some(3.0)), false, "+50.0 %"),
            (area(Some(2.0)), area(Some(1.5)), false, "-25.0 %"),
            (area(Some(0.0)), area(Some(1.5)), false, ""),
            (area(Some(-1.0)), area(Some(1.0)), false, ""),
            (area(None), area(Some(1.5)), false, "now known"),
            (area(Some(1.5)), area(None), false, "no longer known"),
            (area(None), area(None), true, ""),
            (
                Some(Value::Count(None, String::new())),
                count(3.0, "bag"),
                false,
                "now known",
            ),
            (area(Some(1.5)), None, false, "gone"),
            (None, area(Some(1.5)), false, "added"),
            (
                count(3.0, "bag"),
                count(3.0, "ton"),
                false,
                "in another unit",
            ),
        ] {
            let (old, new) = (old.as_ref(), new.as_ref());
            assert_eq!(is_same(old, new), same, "{old:?} {new:?}");
            let change = change(old, new, System::Metric);
            assert_eq!(change, reported, "{old:?} {new:?}");
        }
    }

    #[test]
    fn both_sides_are_shown_in_one_unit() {
        for (old, new, system, shown) in [
            (
                Value::Volume(Some(3.89)),
                Value::Volume(Some(0.396)),
                System::Imperial,
                ["5.09 cu yd", "0.52 cu yd"],
            ),
            (
                Value::Volume(Some(0.05)),
                Value::Volume(Some(0.2)),
                System::Metric,
                ["0.05 m³", "0.20 m³"],
            ),
            (
                Value::Volume(Some(0.001)),
                Value::Volume(Some(0.2)),
                System::Metric,
                ["1 L", "0.20 m³"],
            ),
            (
                Value::Mass(Some(400.0)),
                Value::Mass(Some(4_000.0)),
                System::Metric,
                ["0.4 t", "4.0 t"],
            ),
            (
                Value::Mass(None),
                Value::Mass(Some(400.0)),
                System::Metric,
                ["–", "400 kg"],
            ),
        ] {
            let told = old.shown_beside(Some(&new), system);
            assert_eq!([told, new.shown_beside(Some(&old), system)], shown);
        }
    }

    #[test]
    fn changes_of_levels_are_told_as_differences() {
        let level = |value| Some(Value::Level(Some(value)));
        for (old, new, reported) in [(-0.16, -0.21, "-50 mm"), (-0.01, 0.015, "+25 mm")] {
            let (old, new) = (level(old), level(new));
            let change = change(old.as_ref(), new.as_ref(), System::Metric);
            assert_eq!(change, reported);
        }
    }
}
