//! `level-off`: a point that was built too high or too low.

use super::reading_unclear::is_unclear;
use super::{awaits_fall, is_read_again};
use crate::findings::Severity;
use crate::model::{Measured, Region};
use crate::quantities::{MeasuredFigures, PointMeasured};
use crate::rules::documents::{as_nzs_3727, icpi_tolerances};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::{Role, Top};

const FLATNESS: Source = icpi_tolerances("surface flatness ±3/8 in over 10 ft");
const BASE: Source = icpi_tolerances("surface of the base ±3/8 in over 10 ft");
const FORMATION: Source = as_nzs_3727("formation within +0 and -25 mm");

/// A point that was built too high or too low.
pub(crate) static LEVEL_OFF: Rule = Rule {
    name: "level-off",
    family: Family::AsBuilt,
    severity: Severity::Warning,
    looks_at: "Each point that was measured, against its design level.",
    reason: "Each layer hands its error on: a base that is high leaves no room for the bed, one that is low is made up with bed that ruts.",
    remedy: "Take down what is high and build up what is low before the next layer goes on; lift a finish and lay it again.",
    limits: &[
        Limit {
            row: "finish",
            of: "a finished level off its design",
            bound: Bound::Most,
            general: Value {
                written: &["10 mm", "3/8 in"],
                source: FLATNESS,
            },
            regions: &[],
        },
        Limit {
            row: "base",
            of: "the top of a base, slab or bed off its design",
            bound: Bound::Most,
            general: Value {
                written: &["10 mm", "3/8 in"],
                source: BASE,
            },
            regions: &[],
        },
        Limit {
            row: "dig",
            of: "the bottom of the dig off its design",
            bound: Bound::Most,
            general: Value {
                written: &["25 mm", "1 in"],
                source: FORMATION,
            },
            regions: &[(
                Region::Au,
                Value {
                    written: &["25 mm"],
                    source: FORMATION,
                },
            )],
        },
    ],
    sources: &[FLATNESS, BASE, FORMATION],
    breaks: "measured \"court\"
  of           court
  «level        -140 mm at (0, 4 m)»
",
    keeps: "measured \"court\"
  of           court
  level        -158 mm at (0, 4 m)
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let sections = context.job.measured.iter().zip(&context.figures.measured);
    for (section, own) in sections {
        if awaits_fall(context, own) {
            continue;
        }
        if let Some((top, below)) = own.agrees_with {
            of_another_top(context, (section, own), (top, below), found);
            continue;
        }
        let last_read = own.points.iter();
        let last_read = last_read.filter(|point| !is_read_again(context, section, point.at));
        for point in last_read {
            point_off(context, own, point, found);
        }
    }
}

/// Readings that are all off by what lies between the top that they state and
/// another.
fn of_another_top(
    context: &Context<'_>,
    (section, own): (&Measured, &MeasuredFigures),
    (top, below): (Top, f64),
    found: &mut Found,
) {
    let side = if below > 0.0 { "below" } else { "above" };
    let message = format!(
        "these readings lie {} {side} the {}, as the {} does by design: was that measured? Write of {}, {}",
        context.show_length(below.abs()),
        own.top.word(),
        top.word(),
        own.name,
        top.word()
    );
    let place = section.surface.as_ref().map_or(own.place, |of| of.place);
    found.add(LEVEL_OFF.finding(place, message));
}

fn point_off(
    context: &Context<'_>,
    own: &MeasuredFigures,
    point: &PointMeasured,
    found: &mut Found,
) {
    let Some(off) = point.off_m else { return };
    let row = row(own.top);
    let Some(limit) = context.limit(&LEVEL_OFF, row) else {
        return;
    };
    if limit.allows_si(off.abs()) || is_unclear(context, point) {
        return;
    }
    let shown = limit.beside_si(off.abs(), context.system());
    let most = limit.shown(context.system());
    let (way, remedy) = match (off > 0.0, row) {
        (true, "finish") => ("high", "lift it and lay it lower"),
        (false, "finish") => ("low", "lift it and lay it higher"),
        (true, _) => ("high", "take it down"),
        (false, _) => ("low", "build it up"),
    };
    let top = own.top.word();
    let message = format!("the {top} is {shown} too {way} here; {most} is the most: {remedy}");
    found.add(
        LEVEL_OFF
            .finding(point.place, message)
            .found(shown, Quantity::near(off.abs(), Dimension::LENGTH))
            .against(&limit, context),
    );
}

/// The row of a top.
pub(super) fn row(top: Top) -> &'static str {
    match top.role() {
        None if top == Top::Dig => "dig",
        None | Some(Role::Paving | Role::Surfacing) => "finish",
        Some(_) => "base",
    }
}
