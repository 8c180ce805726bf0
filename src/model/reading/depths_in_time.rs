//! How fast the ground takes water, as some tests tell it.

use super::misread::refused;
use super::number::single;
use super::source::Source;
use crate::findings::Finding;
use crate::syntax::{Item, ItemKind};
use crate::units::find_unit;
use crate::units::unit::{HOUR, MILLIMETRE};

/// `15 s/mm`, as some percolation tests are told.
pub(super) fn seconds_for_a_depth(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let [number, second, depth] = rest else {
        return None;
    };
    let (seconds, None) = single(source, number)? else {
        return None;
    };
    let ItemKind::Per { unit } = depth.kind else {
        return None;
    };
    let unit = find_unit(source.slice(unit)).filter(|unit| **unit == MILLIMETRE)?;
    let names_seconds = ["s", "sec", "secs"];
    let is_second = |name: &&str| source.is_word(second, name);
    names_seconds.iter().find(|name| is_second(name))?;
    let in_an_hour = HOUR.size().to_f64() / seconds.parse::<f64>().ok()?;
    let fix = format!("{} {}/h", (in_an_hour * 1e2).round() / 1e2, unit.symbol);
    refused(
        source,
        rest,
        "number-unclear",
        format!("how fast the ground takes water is a depth in a time: `{fix}`"),
        &[fix],
    )
    .filter(|_| in_an_hour.is_finite() && in_an_hour >= 0.01)
}
