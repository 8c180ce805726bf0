//! Two take-offs beside each other: which figures changed, and by how much.

use indexmap::IndexMap;

use super::columns::{Columns, Side};
use super::figure_list::{Figure, Value, figure_list};
use super::shown_path;
use super::words::counted;
use crate::analysis::Analysis;

/// Labels wider than this stand on a line of their own.
const WIDEST_LABEL: usize = 48;

/// Figures nearer to each other than this share of their size are the same.
const SAME: f64 = 1e-9;

/// What changes from one take-off to another, in the units of the newer job;
/// paths as seen from a folder.
pub fn comparison(old: &Analysis, new: &Analysis, folder: &str) -> String {
    let system = new.job.heading.system();
    let mut pairs: IndexMap<String, (Option<Value>, Option<Value>)> = IndexMap::new();
    for figure in figure_list(old) {
        let label = label(&figure);
        pairs.entry(label).or_default().0 = Some(figure.value);
    }
    for figure in figure_list(new) {
        let label = label(&figure);
        pairs.entry(label).or_default().1 = Some(figure.value);
    }
    let heads = [
        ("", Side::Left),
        ("old", Side::Right),
        ("new", Side::Right),
        ("change", Side::Right),
    ];
    let mut columns = Columns::new(&heads).with_words_up_to(WIDEST_LABEL);
    let mut same = 0;
    for (label, (old, new)) in pairs {
        if is_same(old.as_ref(), new.as_ref()) {
            same += 1;
            continue;
        }
        let change = change(old.as_ref(), new.as_ref());
        let shown =
            |value: Option<Value>| value.map_or_else(String::new, |value| value.shown(system));
        columns.row([label, shown(old), shown(new), change]);
    }
    let head = format!(
        "old: {}\nnew: {}\n",
        shown_path(&old.path, folder),
        shown_path(&new.path, folder)
    );
    let same = counted(same, "figure is the same", "figures are the same");
    match columns.is_empty() {
        true => format!("{head}\nnothing changed: {same}\n"),
        false => format!("{head}\n{}\n{same}\n", columns.text()),
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

/// The change in per cent, or what else became of the figure.
fn change(old: Option<&Value>, new: Option<&Value>) -> String {
    let (old, new) = match (old, new) {
        (Some(old), Some(new)) => (old, new),
        (Some(_), None) => return "gone".to_owned(),
        _ => return "added".to_owned(),
    };
    if unit(old) != unit(new) {
        return "in another unit".to_owned();
    }
    match (old.number(), new.number()) {
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
        for (old, new, same, told) in [
            (area(Some(2.0)), area(Some(2.0 + 1e-12)), true, "+0.0 %"),
            (area(Some(2.0)), area(Some(3.0)), false, "+50.0 %"),
            (area(Some(2.0)), area(Some(1.5)), false, "-25.0 %"),
            (area(Some(0.0)), area(Some(1.5)), false, ""),
            (area(Some(-1.0)), area(Some(1.0)), false, ""),
            (area(None), area(Some(1.5)), false, "now known"),
            (area(Some(1.5)), area(None), false, "no longer known"),
            (area(None), area(None), true, ""),
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
            assert_eq!(change(old, new), told, "{old:?} {new:?}");
        }
    }
}
