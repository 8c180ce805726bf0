//! `crossfall-steep`: a ramp that falls too much to one side.

use super::fall_flat::slope_place;
use crate::findings::Severity;
use crate::model::{Region, Surface, Use};
use crate::rules::documents::{approved_document_m, as_nzs_1428};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};
use crate::sources::Source;

/// How much an American ramp may fall across.
const ADA_CROSS_SLOPE: Source = Source::second_hand(
    "2010 ADA Standards for Accessible Design",
    "405.3, ramps no steeper than 1:48 across, as California's code repeats it",
);

const APPROVED_M_CROSSFALL: Source =
    approved_document_m("a suitable ground surface: crossfall 1:40 at most");

const AS_CROSSFALL: Source = as_nzs_1428("7.1(d) and 10.3.1, crossfall of 1:40");

/// A ramp that falls too much to one side.
pub(crate) static CROSSFALL_STEEP: Rule = Rule {
    name: "crossfall-steep",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "How much a ramp falls across the way that one goes.",
    reason: "A wheelchair drifts to the low side, and whoever wheels it has to hold against that all the way.",
    remedy: "Ease the cross fall: just enough to drain will do.",
    limits: &[Limit {
        row: "plain",
        of: "the cross fall of a ramp",
        bound: Bound::Most,
        general: Value {
            written: &["1:48"],
            source: ADA_CROSS_SLOPE,
        },
        regions: &[
            (
                Region::Uk,
                Value {
                    written: &["1:40"],
                    source: APPROVED_M_CROSSFALL,
                },
            ),
            (
                Region::Au,
                Value {
                    written: &["1:40"],
                    source: AS_CROSSFALL,
                },
            ),
        ],
    }],
    sources: &[ADA_CROSS_SLOPE, APPROVED_M_CROSSFALL, AS_CROSSFALL],
    breaks: "\
shape court
  rectangle    1.5 m by 4 m

surface court
  # no meets
  for          ramp
  level        -160 mm at (0 m, 4 m)
  fall         1:15 toward south, cross «1:30» toward east

site
  ground       -220 mm at (0 m, 4 m), falling 1:15 toward south
",
    keeps: "\
shape court
  rectangle    1.5 m by 4 m

surface court
  # no meets
  for          ramp
  level        -160 mm at (0 m, 4 m)
  fall         1:15 toward south, cross 1:60 toward east

site
  ground       -220 mm at (0 m, 4 m), falling 1:15 toward south
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if surface.used_for != Use::Ramp {
        return;
    }
    let (Some(travel), Some(limit)) = (
        slope::travel(surface),
        context.limit(&CROSSFALL_STEEP, "plain"),
    ) else {
        return;
    };
    if limit.allows_si(travel.across) {
        return;
    }
    let shown = slope::beside(&limit, travel.across, context);
    let message = format!(
        "the ramp falls {shown} across: a wheelchair drifts to the low side. {} is the most. Ease the cross fall",
        limit.shown(context.system())
    );
    let cross = surface.fall.as_ref().and_then(|fall| fall.cross.as_ref());
    let place = cross.map_or_else(|| slope_place(surface), |(slope, _)| slope.place);
    let severity = match (context.region(), surface.accessible) {
        (Region::Us, Some(_)) => Severity::Error,
        _ => Severity::Warning,
    };
    found.add(
        CROSSFALL_STEEP
            .finding(place, message)
            .severity(severity)
            .found(shown, slope::as_quantity(travel.across))
            .against(&limit, context),
    );
}
