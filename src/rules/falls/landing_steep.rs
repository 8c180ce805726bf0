//! `landing-steep`: a landing that is not level enough to stand on.

use super::fall_flat::slope_place;
use crate::findings::Severity;
use crate::model::{Region, Surface, Use};
use crate::rules::documents::{APPROVED_K_LANDINGS, IRC_LANDING_SLOPE};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};

/// A landing that is not level enough to stand on.
pub(crate) static LANDING_STEEP: Rule = Rule {
    name: "landing-steep",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "The steepest slope of a landing.",
    reason: "People stop on a landing, turn and open a door, and a chair must not roll away meanwhile.",
    remedy: "Lay it just steep enough to drain, and take the water off at its edge.",
    limits: &[Limit {
        row: "plain",
        of: "a landing",
        bound: Bound::Most,
        general: Value {
            written: &["1:48"],
            source: IRC_LANDING_SLOPE,
        },
        regions: &[(
            Region::Uk,
            Value {
                written: &["1:60"],
                source: APPROVED_K_LANDINGS,
            },
        )],
    }],
    sources: &[IRC_LANDING_SLOPE, APPROVED_K_LANDINGS],
    breaks: "\
surface court
  for          landing
  fall         «1:40» away from north
",
    keeps: "\
surface court
  for          landing
  fall         1:48 away from north
",
    mended: Some(
        "\
surface court
  for          landing
  fall         1:48 away from north
",
    ),
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if surface.used_for != Use::Landing {
        return;
    }
    let (Some(downhill), Some(limit)) = (
        slope::downhill(surface),
        context.limit(&LANDING_STEEP, "plain"),
    ) else {
        return;
    };
    let steepest = downhill.length();
    if limit.allows_si(steepest) {
        return;
    }
    let shown = slope::beside(&limit, steepest, context);
    let message = format!(
        "too steep to stand on: a landing at {shown}. {} is the most. Ease it",
        limit.shown(context.system())
    );
    let mut finding = LANDING_STEEP
        .finding(slope_place(surface), message)
        .found(shown, slope::as_quantity(steepest))
        .against(&limit, context);
    let eased = slope::restated(context, &LANDING_STEEP, surface, limit.value.si(), found);
    finding.fixes.extend(eased);
    found.add(finding);
}
