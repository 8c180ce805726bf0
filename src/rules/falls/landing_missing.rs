//! `landing-missing`: a door with nowhere level to stand before it.

use super::landing_short::LANDING_SHORT;
use super::landing_steep::LANDING_STEEP;
use crate::findings::Severity;
use crate::model::{Surface, Use};
use crate::rules::documents::{APPROVED_K_LANDINGS, IRC_LANDING_LENGTH};
use crate::rules::{Check, Context, Family, Found, Rule, slope};

/// A door that opens straight onto a ramp.
pub(crate) static LANDING_MISSING: Rule = Rule {
    name: "landing-missing",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "Doors that are stated on a ramp.",
    reason: "Whoever unlocks the door stands on the slope meanwhile, and a wheelchair rolls back down it.",
    remedy: "Put a landing before the door, a surface of its own that says for landing, and let the ramp begin beyond it.",
    limits: &[],
    sources: &[IRC_LANDING_LENGTH, APPROVED_K_LANDINGS],
    breaks: "\
surface court
  for          ramp
  «door         at north»
  fall         1:15 away from north

site
  ground       -200 mm at (0 m, 4 m), falling 1:15 toward south
",
    keeps: "\
surface court
  for          landing
  door         at north
  fall         1:60 away from north
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if surface.used_for != Use::Ramp {
        return;
    }
    let (Some(travel), Some(level), Some(depth)) = (
        slope::travel(surface),
        context.limit(&LANDING_STEEP, "plain"),
        context.limit(&LANDING_SHORT, "plain"),
    ) else {
        return;
    };
    if level.allows_si(travel.running) {
        return;
    }
    for door in &surface.doors {
        let message = format!(
            "the ramp begins at the door, with no level place to stand while it opens: put a landing before it, {} deep at least",
            depth.shown(context.system())
        );
        found.add(LANDING_MISSING.finding(door.place, message));
    }
}
