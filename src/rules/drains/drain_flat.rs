//! `drain-flat`: a pipe or a trench that falls too little, or backward.

use super::documents::{AU_SLOPE, UK_SLOPE, US_TRENCH, us_slopes};
use super::readable;
use crate::findings::{Finding, Severity};
use crate::model::{Drain, DrainBody, DrainLine, Region};
use crate::quantities::DrainFigures;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::units::{Dimension, Quantity};
use crate::vocabulary::compass_word;

/// A pipe or a trench that falls too little, or backward.
pub(crate) static DRAIN_FLAT: Rule = Rule {
    name: "drain-flat",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "How steeply pipes fall, by their size, and trenches with a pipe in them; and whether any drain rises towards its outlet.",
    reason: "In a flat pipe silt settles until nothing runs; uphill nothing runs at all.",
    remedy: "Lay it steeper: lower its outlet, raise its head, or lead it a shorter way.",
    limits: &[
        Limit {
            row: "pipe",
            of: "the fall of a pipe of more than 65 mm",
            bound: Bound::Least,
            general: Value::practice(&["1:100"]),
            regions: &[
                (
                    Region::Us,
                    Value {
                        written: &["1 %", "1:96"],
                        source: us_slopes("3 to 6 in: 1/8 in per ft"),
                    },
                ),
                (
                    Region::Uk,
                    Value {
                        written: &["1:100"],
                        source: UK_SLOPE,
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["1:100"],
                        source: AU_SLOPE,
                    },
                ),
            ],
        },
        Limit {
            row: "small-pipe",
            of: "the fall of a pipe of 65 mm or less",
            bound: Bound::Least,
            general: Value {
                written: &["1:48"],
                source: us_slopes("2 1/2 in and less: 1/4 in per ft"),
            },
            regions: &[(
                Region::Us,
                Value {
                    written: &["1:48"],
                    source: us_slopes("2 1/2 in and less: 1/4 in per ft"),
                },
            )],
        },
        Limit {
            row: "wide-pipe",
            of: "the fall of a pipe of 200 mm or more",
            bound: Bound::Least,
            general: Value {
                written: &["1:192"],
                source: us_slopes("8 in and more: 1/16 in per ft"),
            },
            regions: &[(
                Region::Us,
                Value {
                    written: &["1:192"],
                    source: us_slopes("8 in and more: 1/16 in per ft"),
                },
            )],
        },
        Limit {
            row: "trench",
            of: "the fall of a trench with a pipe",
            bound: Bound::Least,
            general: Value::practice(&["0.5 %"]),
            regions: &[(
                Region::Us,
                Value {
                    written: &["0.5 %"],
                    source: US_TRENCH,
                },
            )],
        },
    ],
    sources: &[
        us_slopes("least slopes of drains"),
        UK_SLOPE,
        AU_SLOPE,
        US_TRENCH,
    ],
    breaks: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)
  fall         «1:200»
  invert       -700 mm
  bedded       in gravel, 75 mm round
  to           \"storm drain\"
",
    keeps: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)
  fall         1:80
  invert       -700 mm
  bedded       in gravel, 75 mm round
  to           \"storm drain\"
",
    mended: None,
    check: Check::Job(check),
};

/// The width in metres up to which a pipe is small, and from which it is wide,
/// with what a name in millimetres or inches may be off.
const SMALL: f64 = 0.0655;
const WIDE: f64 = 0.199;

fn check(context: &Context<'_>, found: &mut Found) {
    for (drain, figures) in readable(context.job, context.figures) {
        if drain.existing.is_some() {
            continue;
        }
        if let Some(square) = square_to_line(drain) {
            found.add(square);
            continue;
        }
        let Some(fall) = figures.fall else { continue };
        if fall < -SAME_FALL {
            rises(context, drain, figures, found);
            continue;
        }
        let Some(row) = row(drain) else { continue };
        let Some(limit) = context.limit(&DRAIN_FLAT, row) else {
            continue;
        };
        if limit.allows_si(fall + SAME_FALL) {
            continue;
        }
        let shown = limit.beside_si(fall, context.system());
        let message = format!(
            "too flat: {} falls {shown}. {} is the least. Lay it steeper, or silt will settle in it",
            drain.name.value,
            limit.shown(context.system())
        );
        found.add(
            DRAIN_FLAT
                .finding(fall_place(drain), message)
                .found(shown, Quantity::near(fall, Dimension::NONE))
                .against(&limit, context),
        );
    }
}

/// A drain whose stated fall is square to its line, or against it.
fn square_to_line(drain: &Drain) -> Option<Finding> {
    let (toward, line) = (drain.toward?, drain.line.as_ref()?);
    let (start, end) = line.value.ends()?;
    let along = end - start;
    if along.length() < SQUARE {
        return None;
    }
    let share = along.unit().dot(toward);
    // Of a pipe from one point to another the water runs as it is written.
    let is_against = matches!(line.value, DrainLine::Straight(_)) && share < -SQUARE;
    if is_against {
        let runs = compass_word(along.bearing());
        let message = format!(
            "{} runs {runs} but falls {}: swap its two ends, or write toward {runs}",
            drain.name.value,
            compass_word(toward.bearing())
        );
        return Some(DRAIN_FLAT.finding(fall_place(drain), message));
    }
    if share.abs() > SQUARE {
        return None;
    }
    let (one, other) = (
        compass_word(along.bearing()),
        compass_word((-along).bearing()),
    );
    let message = format!(
        "{} runs {one} and {other}, and cannot fall {}: say toward {one} or toward {other}",
        drain.name.value,
        compass_word(toward.bearing())
    );
    Some(DRAIN_FLAT.finding(fall_place(drain), message))
}

/// How much of a way, as its share, must lie along a drain for it to say which
/// end is the lower; the same in metres of a line that comes back to itself.
const SQUARE: f64 = 0.05;

/// Slopes that differ by less are the same.
const SAME_FALL: f64 = 1e-6;

fn rises(context: &Context<'_>, drain: &Drain, figures: &DrainFigures, found: &mut Found) {
    let rise = figures
        .outlet_m
        .zip(figures.head_m)
        .map(|(outlet, head)| outlet - head);
    let rise = rise.map_or_else(String::new, |rise| {
        format!(" {}", context.show_length(rise))
    });
    let message = format!(
        "{} rises{rise} towards its outlet: nothing will run. Work its inverts out again, or turn it round",
        drain.name.value
    );
    let finding = DRAIN_FLAT.finding(fall_place(drain), message);
    found.add(finding.severity(Severity::Error));
}

/// Where the fall of a drain is stated, else the last of its inverts, else
/// what it is.
fn fall_place(drain: &Drain) -> crate::findings::Place {
    let fall = drain.fall.as_ref().map(|fall| fall.place);
    let invert = drain.inverts.last().map(|invert| invert.value.place);
    let body = drain.body.as_ref().map(|body| body.place);
    fall.or(invert).or(body).unwrap_or(drain.place)
}

/// The row for a drain; none for a channel, which runs level too.
fn row(drain: &Drain) -> Option<&'static str> {
    match &drain.body.as_ref()?.value {
        DrainBody::Pipe(pipe) => {
            let size = pipe.inside().map(|size| size.value.si());
            Some(match size {
                Some(size) if size <= SMALL => "small-pipe",
                Some(size) if size >= WIDE => "wide-pipe",
                _ => "pipe",
            })
        }
        DrainBody::Trench { pipe: Some(_), .. } => Some("trench"),
        _ => None,
    }
}
