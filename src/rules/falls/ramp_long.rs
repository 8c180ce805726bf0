//! `ramp-long`: a ramp with no landing to rest on.

use super::fall_flat::slope_place;
use crate::findings::Severity;
use crate::model::{Region, Surface, Use};
use crate::rules::documents::{ADA_RAMP_RISE, APPROVED_K_RAMPS};
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value, slope};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, show};

const fn british(written: &'static [&'static str]) -> Value {
    Value {
        written,
        source: APPROVED_K_RAMPS,
    }
}

/// How far Australian ramps go between landings.
const AS_RAMPS: Source = Source::memory(
    "AS 1428.1 (Australia)",
    "landings every 9 m at 1:14 and every 14 m at 1:19, in proportion between",
);

const fn australian(written: &'static [&'static str]) -> Value {
    Value {
        written,
        source: AS_RAMPS,
    }
}

/// A ramp with no landing to rest on.
pub(crate) static RAMP_LONG: Rule = Rule {
    name: "ramp-long",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "How far a ramp goes between landings: by its rise, and in the UK and Australia by its length, the shorter the steeper it is.",
    reason: "Whoever wheels or pushes a chair up a ramp has to be able to stop and rest.",
    remedy: "Break the ramp with a level landing, or ease it.",
    limits: &[
        Limit {
            row: "plain",
            of: "the rise of a ramp between landings",
            bound: Bound::Most,
            general: Value {
                written: &["760 mm", "30 in"],
                source: ADA_RAMP_RISE,
            },
            regions: &[],
        },
        Limit {
            row: "at-1-in-20",
            of: "the length of a ramp at 1:20 in the UK",
            bound: Bound::Most,
            general: british(&["10 m"]),
            regions: &[],
        },
        Limit {
            row: "at-1-in-15",
            of: "the length of a ramp at 1:15 in the UK",
            bound: Bound::Most,
            general: british(&["5 m"]),
            regions: &[],
        },
        Limit {
            row: "at-1-in-12",
            of: "the length of a ramp at 1:12 in the UK",
            bound: Bound::Most,
            general: british(&["2 m"]),
            regions: &[],
        },
        Limit {
            row: "au-at-1-in-14",
            of: "the length of a ramp at 1:14 in Australia",
            bound: Bound::Most,
            general: australian(&["9 m"]),
            regions: &[],
        },
        Limit {
            row: "au-at-1-in-19",
            of: "the length of a ramp at 1:19 in Australia",
            bound: Bound::Most,
            general: australian(&["14 m"]),
            regions: &[],
        },
    ],
    sources: &[ADA_RAMP_RISE, APPROVED_K_RAMPS, AS_RAMPS],
    breaks: "\
shape court
  rectangle    2 m by 12 m

surface court
  for          ramp
  fall         «1:12» away from north

site
  ground       -200 mm at (0 m, 12 m), falling 1:12 toward south
",
    keeps: "\
shape court
  rectangle    2 m by 9 m

surface court
  for          ramp
  fall         1:12 away from north

site
  ground       -200 mm at (0 m, 9 m), falling 1:12 toward south
",
    mended: None,
    check: Check::Surface(check),
};

/// A walking surface flatter than this is no ramp.
const RAMP: f64 = 1.0 / 20.0;

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Use::Ramp, Some(outline), Some(travel)) = (
        surface.used_for,
        surface.outline.as_ref(),
        slope::travel(surface),
    ) else {
        return;
    };
    let steepest = travel.running;
    if steepest < RAMP - slope::SAME_SLOPE {
        return;
    }
    let length = outline.extent(travel.down);
    let rows = rows(context.region());
    let Some((limit, most)) = (match rows {
        Some(rows) => by_length(context, rows, steepest),
        None => by_rise(context),
    }) else {
        return;
    };
    let goes = if rows.is_some() {
        length
    } else {
        length * steepest
    };
    if goes <= most + 1e-6 {
        return;
    }
    let shown = limit.beside_si(goes, context.system());
    let most_shown = show::length(most, context.system());
    let message = if rows.is_some() {
        format!(
            "a ramp {shown} long with no landing: {most_shown} is the most at {}. Break it with a level landing",
            show::slope(steepest)
        )
    } else {
        format!(
            "a ramp that climbs {shown} with no landing: {} is the most. Break it with a level landing",
            limit.shown(context.system())
        )
    };
    found.add(
        RAMP_LONG
            .finding(slope_place(surface), message)
            .found(shown, Quantity::near(goes, Dimension::LENGTH))
            .against(&limit, context),
    );
}

/// The greatest rise between landings, in metres.
fn by_rise(context: &Context<'_>) -> Option<(InForce, f64)> {
    let limit = context.limit(&RAMP_LONG, "plain")?;
    let most = limit.value.si();
    Some((limit, most))
}

/// The runs of slopes and the rows for each, the steepest first, where a
/// region counts the length of a ramp.
fn rows(region: Region) -> Option<&'static [(f64, &'static str)]> {
    match region {
        Region::Uk => Some(&[
            (12.0, "at-1-in-12"),
            (15.0, "at-1-in-15"),
            (20.0, "at-1-in-20"),
        ]),
        Region::Au => Some(&[(14.0, "au-at-1-in-14"), (19.0, "au-at-1-in-19")]),
        Region::Us | Region::General => None,
    }
}

/// The greatest length of a slope, in metres: between two rows in proportion
/// to the run of the slope, so that in the UK 1:13 may go 3 m and 1:14 4 m.
/// Steeper than the steepest row, as that row: `ramp-steep` tells of it.
fn by_length(
    context: &Context<'_>,
    rows: &[(f64, &'static str)],
    steepest: f64,
) -> Option<(InForce, f64)> {
    let ((first, _), (last, _)) = rows.first().zip(rows.last())?;
    let run = (1.0 / steepest).clamp(*first, *last);
    let pairs = rows.iter().zip(rows.iter().skip(1));
    let ((low, row), (high, next)) = pairs.rev().find(|((low, _), _)| run >= *low - 1e-9)?;
    let (limit, other) = (
        context.limit(&RAMP_LONG, row)?,
        context.limit(&RAMP_LONG, next)?,
    );
    let share = (run - low) / (high - low);
    let most = limit.value.si() + share * (other.value.si() - limit.value.si());
    let is_next = share > 1.0 - 1e-9;
    Some((if is_next { other } else { limit }, most))
}
