//! Times of day, `8:00`, as people write them and as the language does; and
//! days of work.

use super::number::single;
use super::source::Source;
use crate::findings::{Finding, Fix};
use crate::syntax::{Item, ItemKind};
use crate::units::find_unit;
use crate::units::unit::{DAY, WEEK};

/// The minutes since midnight of hours and minutes; 24:00 ends a day.
pub(crate) fn clock(source: &Source<'_>, item: &Item) -> Option<u16> {
    let ItemKind::Ratio { left, right } = &item.kind else {
        return None;
    };
    let (hours, minutes) = (source.slice(*left), source.slice(*right));
    let is_two = minutes.len() == 2;
    let (hours, minutes): (u16, u16) = (hours.parse().ok()?, minutes.parse().ok()?);
    let all = hours.checked_mul(60)?.checked_add(minutes)?;
    (is_two && minutes < 60 && all <= 24 * 60).then_some(all)
}

/// Whether a number is written in days or weeks, and not in hours.
pub(crate) fn is_in_days(source: &Source<'_>, item: &Item) -> bool {
    let unit = single(source, item).and_then(|(_, unit)| find_unit(unit?));
    unit.is_some_and(|unit| *unit == DAY || *unit == WEEK)
}

/// `8`, `8 am`, `4:30 pm`, `8.30`: how many items it takes, and the finding
/// that says it by the clock of 24 hours.
pub(crate) fn time_of_day(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let first = rest.first()?;
    let (hours, minutes) = match &first.kind {
        ItemKind::Ratio { left, right } => (source.slice(*left), source.slice(*right)),
        _ => match single(source, first)? {
            (number, None) => number.split_once('.').unwrap_or((number, "00")),
            _ => return None,
        },
    };
    let half = rest.get(1).and_then(|next| source.word(next));
    let half = half.map(str::to_lowercase);
    let (taken, later) = match half.as_deref() {
        Some("am" | "a") => (2, 0),
        Some("pm" | "p") => (2, 12),
        _ if matches!(first.kind, ItemKind::Ratio { .. }) => return None,
        _ => (1, 0),
    };
    let hours: u32 = hours.parse().ok().filter(|hours| *hours <= 24)?;
    let minutes: u32 = minutes.parse().ok().filter(|minutes| *minutes < 60)?;
    let hours = match (hours, taken) {
        (12, 2) => later,
        (_, 2) => hours + later,
        _ => hours,
    };
    let text = format!("{hours}:{minutes:02}");
    let place = source.place_of(rest.get(..taken)?);
    let message = format!("a time of day is written by the clock of 24 hours: `{text}`");
    let finding = Finding::new("number-unclear", place, message);
    Some((
        taken,
        finding.fix(Fix::judged(format!("Write `{text}`"), place, text)),
    ))
}
