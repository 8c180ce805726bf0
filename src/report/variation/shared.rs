//! Specs that a change in a file which they share changes alike.

use super::Comparison;
use crate::report::figure_value::Value;
use crate::report::trade::UNKNOWN;
use crate::report::words::counted;

/// So many specs are told of together.
const FEWEST: usize = 3;

/// Comparisons that are told of apart, and those that are told of together
/// because the same lines of the files that they use changed, and no others,
/// and no finding with them.
pub(super) fn by_cause<'a>(
    comparisons: impl IntoIterator<Item = &'a Comparison>,
) -> (Vec<&'a Comparison>, Vec<Vec<&'a Comparison>>) {
    let (mut apart, mut together): (Vec<&Comparison>, Vec<Vec<&Comparison>>) = Default::default();
    for comparison in comparisons {
        if !is_shared(comparison) {
            apart.push(comparison);
            continue;
        }
        let mut known = together.iter_mut();
        let same = known.find(|known| {
            let first = known.first();
            first.is_some_and(|first| first.lines == comparison.lines)
        });
        match same {
            Some(known) => known.push(comparison),
            None => together.push(vec![comparison]),
        }
    }
    let (many, few): (Vec<_>, Vec<_>) = together
        .into_iter()
        .partition(|together| together.len() >= FEWEST);
    apart.extend(few.into_iter().flatten());
    (apart, many)
}

/// Whether nothing of the spec itself changed.
fn is_shared(comparison: &Comparison) -> bool {
    comparison.findings.is_empty()
        && !comparison.lines.is_empty()
        && comparison.lines.iter().all(|line| !line.path.is_empty())
}

/// A spec that is new or gone, in a line: nothing of it changed, so there is
/// nothing to show beside what it was. `None` where both states are there.
pub(super) fn whole(comparison: &Comparison) -> Option<String> {
    let (name, word) = match (&comparison.old, &comparison.new) {
        (None, Some(new)) => (new, "new"),
        (Some(old), None) => (old, "gone"),
        _ => return None,
    };
    let total = (comparison.figures.iter())
        .find(|change| change.of.part == "total")
        .and_then(|change| change.new.as_ref().or(change.old.as_ref()))
        .map(|value| format!("total {}", value.shown(comparison.system)));
    let findings = match comparison.findings.len() {
        0 => None,
        count => Some(counted(count, "finding", "findings")),
    };
    let parts: Vec<String> = total.into_iter().chain(findings).collect();
    let about = match parts.is_empty() {
        true => String::new(),
        false => format!(": {}", parts.join(", ")),
    };
    Some(format!("{name} is {word}{about}"))
}

/// What the orders and the whole job cost, as they are listed.
const TOTALS: [&str; 2] = ["total: cost", "cost total: amount"];

/// What the change comes to in money, in a line: of the whole job where it has
/// a budget, else of what is ordered. `None` where that did not change.
pub(super) fn cost(comparison: &Comparison) -> Option<String> {
    let figures = comparison.figures.iter();
    let mut totals = figures.filter(|change| TOTALS.contains(&change.label.as_str()));
    let total = totals.next_back()?;
    let shown = |value: &Option<Value>| {
        let shown = value.as_ref().map(|value| value.shown(comparison.system));
        shown.unwrap_or_else(|| UNKNOWN.to_owned())
    };
    let change = match total.change.is_empty() {
        true => String::new(),
        false => format!(", {}", total.change),
    };
    Some(format!(
        "cost: {} to {}{change}\n",
        shown(&total.old),
        shown(&total.new)
    ))
}

/// A spec in a line: its name, the figure that says most of what changed in
/// it, which is the cost of the whole if that did, and how many others did.
pub(super) fn in_short(comparison: &Comparison) -> [String; 6] {
    let figures = &comparison.figures;
    let total = figures.iter().find(|change| change.of.part == "total");
    let figure = total.or(figures.first());
    let shown = figure.map(|own| own.shown(comparison.system));
    let [old, new] = shown.unwrap_or_default().map(Option::unwrap_or_default);
    let others = figures.len().saturating_sub(1);
    [
        comparison.new.clone().unwrap_or_default(),
        figure.map_or_else(String::new, |own| own.label.clone()),
        old,
        new,
        figure.map_or_else(String::new, |own| own.change.clone()),
        others.to_string(),
    ]
}
