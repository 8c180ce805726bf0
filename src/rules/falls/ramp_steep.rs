//! `ramp-steep`: a ramp too steep for a wheelchair.

use super::fall_flat::slope_place;
use crate::findings::Severity;
use crate::model::{Region, Surface, Use};
use crate::rules::documents::{ADA_RAMPS, APPROVED_K_1998, AS_RAMPS};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};

/// A ramp too steep for a wheelchair.
pub(crate) static RAMP_STEEP: Rule = Rule {
    name: "ramp-steep",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "The slope of a ramp the way that one goes; what it falls across has a rule of its own.",
    reason: "Nobody pushes a wheelchair up a steeper ramp alone, nor holds it on the way down.",
    remedy: "Make the ramp longer, or break it with a landing and turn it.",
    limits: &[Limit {
        row: "plain",
        of: "a ramp",
        bound: Bound::Most,
        general: Value {
            written: &["1:12"],
            source: ADA_RAMPS,
        },
        regions: &[
            (
                Region::Uk,
                Value {
                    written: &["1:12"],
                    source: APPROVED_K_1998,
                },
            ),
            (
                Region::Au,
                Value {
                    written: &["1:14"],
                    source: AS_RAMPS,
                },
            ),
        ],
    }],
    sources: &[ADA_RAMPS, APPROVED_K_1998, AS_RAMPS],
    breaks: "\
surface court
  for          ramp
  fall         «1:10» away from north

site
  ground       -200 mm at (0 m, 4 m), falling 1:10 toward south
",
    keeps: "\
surface court
  for          ramp
  fall         1:12 away from north

site
  ground       -200 mm at (0 m, 4 m), falling 1:12 toward south
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if surface.used_for != Use::Ramp {
        return;
    }
    let (Some(travel), Some(limit)) = (slope::travel(surface), context.limit(&RAMP_STEEP, "plain"))
    else {
        return;
    };
    let running = travel.running;
    if limit.allows_si(running) {
        return;
    }
    let shown = slope::beside(&limit, running, context);
    let message = format!(
        "too steep for a ramp: {shown}. {} is the most. Make it longer, or turn it at a landing",
        limit.shown(context.system())
    );
    let severity = match (context.region(), surface.accessible) {
        (Region::Us, Some(_)) => Severity::Error,
        _ => Severity::Warning,
    };
    found.add(
        RAMP_STEEP
            .finding(slope_place(surface), message)
            .severity(severity)
            .found(shown, slope::as_quantity(running))
            .against(&limit, context),
    );
}
