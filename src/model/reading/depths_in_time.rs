//! How fast the ground takes water, as some tests tell it.

use super::misread::refused;
use super::number::{number_item, single};
use super::source::Source;
use crate::findings::Finding;
use crate::syntax::{Item, ItemKind};
use crate::units::unit::{HOUR, MILLIMETRE};
use crate::units::{Dimension, find_unit};

/// How people write a second, which the language has no unit for.
const SECONDS: &[&str] = &["s", "sec", "secs"];

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
    let is_second = |name: &&str| source.is_word(second, name);
    SECONDS.iter().find(|name| is_second(name))?;
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

/// `storm 3 in over 6 h`: so much rain in so long, or so hard a rain for which
/// the time is not said.
pub(super) fn depth_over_a_time(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let [depth, over, time] = rest else {
        return None;
    };
    let is_over = ["over", "per"]
        .iter()
        .any(|word| source.is_word(over, word));
    let of = |item: &Item, dimension: Dimension| {
        let figure = number_item(source, item).ok()?;
        (figure.dimension == dimension).then_some(figure.si())
    };
    let metres = of(depth, Dimension::LENGTH).filter(|_| is_over)?;
    let hours = of(time, Dimension::TIME)? / HOUR.size().to_f64();
    let unit = find_unit(single(source, depth)?.1?)?;
    let [shown, long] = [depth, time].map(|item| source.slice(item.span));
    let hard = (unit.from_base(metres) / hours * 1e3).round() / 1e3;
    let rate = format!("{hard} {}/h", unit.symbol);
    let message = format!(
        "this may be {shown} of rain in {long}, or a rain of {rate} for as long as is not said"
    );
    let fixes = [format!("{shown} in {long}"), rate];
    refused(source, rest, "number-unclear", message, &fixes)
}

/// No ground takes more than this in an hour, in millimetres.
const FASTEST: f64 = 36_000.0;

/// `0.00003 m/s`: nothing in a job moves by the second but water that soaks
/// away, and that is a depth in an hour.
pub(super) fn depth_in_seconds(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let [number, per, second, ..] = rest else {
        return None;
    };
    let is_second = |name: &&str| source.is_word(second, name);
    SECONDS.iter().find(|name| is_second(name))?;
    if !source.is_word(per, "per") {
        return None;
    }
    let metres = number_item(source, number).ok()?;
    if metres.dimension != Dimension::LENGTH {
        return None;
    }
    let in_an_hour = metres.si() * HOUR.size().to_f64() / MILLIMETRE.size().to_f64();
    let text = format!(
        "{} {}/h",
        (in_an_hour * 1e2).round() / 1e2,
        MILLIMETRE.symbol
    );
    let is_depth = (0.01..=FASTEST).contains(&in_an_hour);
    let (message, fixes) = match is_depth {
        true => (format!("a depth in a time is taken by the hour: `{text}`"), vec![text]),
        false => ("nothing in a job goes by the second: a depth in a time is taken by the hour, as in `20 mm/h`".to_owned(), Vec::new()),
    };
    refused(source, rest.get(..3)?, "number-unclear", message, &fixes)
}
