//! `drive-steep`: a drive too steep to drive up.

use super::fall_flat::slope_place;
use crate::findings::Severity;
use crate::model::{Region, Surface, Use};
use crate::rules::documents::nhbc_external;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};

/// The steepest drive of British new homes.
const ONE_IN_SIX: Value = Value {
    written: &["1:6"],
    source: nhbc_external("10.2.6, drives no steeper than 1:6, eased over 1:10"),
};

/// A drive too steep to drive up.
pub(crate) static DRIVE_STEEP: Rule = Rule {
    name: "drive-steep",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "The slope of a drive or street the way that one drives.",
    reason: "Wheels spin on it in the wet and the cold, cars scrape at its ends, and rain runs off it across the footway.",
    remedy: "Ease the slope or make the drive longer, and ease its ends where it is over 1:10.",
    limits: &[Limit {
        row: "plain",
        of: "a drive",
        bound: Bound::Most,
        general: ONE_IN_SIX,
        regions: &[
            (Region::Us, ONE_IN_SIX),
            (Region::Uk, ONE_IN_SIX),
            (Region::Au, ONE_IN_SIX),
        ],
    }],
    sources: &[nhbc_external("10.2.6, drives no steeper than 1:6")],
    breaks: "\
surface court
  for          drive
  fall         «1:5» away from north
  laid         herringbone, units 100 mm by 200 mm
  edging       concrete-kerb, along free

site
  ground       -200 mm at (0 m, 4 m), falling 1:5 toward south
",
    keeps: "\
surface court
  for          drive
  fall         1:6 away from north
  laid         herringbone, units 100 mm by 200 mm
  edging       concrete-kerb, along free

site
  ground       -200 mm at (0 m, 4 m), falling 1:6 toward south
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if !matches!(surface.used_for, Use::Drive | Use::Street) {
        return;
    }
    let (Some(travel), Some(limit)) =
        (slope::travel(surface), context.limit(&DRIVE_STEEP, "plain"))
    else {
        return;
    };
    let running = travel.running;
    if limit.allows_si(running) {
        return;
    }
    let shown = slope::beside(&limit, running, context);
    let message = format!(
        "too steep to drive: {shown}. {} is the most. Ease it, or make the drive longer",
        limit.shown(context.system())
    );
    found.add(
        DRIVE_STEEP
            .finding(slope_place(surface), message)
            .found(shown, slope::as_quantity(running))
            .against(&limit, context),
    );
}
