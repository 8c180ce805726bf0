//! `drive-steep`: a drive too steep to drive up.

use super::fall_flat::slope_place;
use crate::findings::Severity;
use crate::model::{Region, Surface, Use};
use crate::rules::construction::loose_surfacing;
use crate::rules::documents::nhbc_external;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};
use crate::sources::Source;

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
    looks_at: "The slope of a drive or street the way that one drives; loose gravel has a row of its own.",
    reason: "Wheels spin on it in the wet and the cold, cars scrape at its ends, and rain runs off it across the footway.",
    remedy: "Ease the slope or make the drive longer, and ease its ends where it is over 1:10.",
    limits: &[
        Limit {
            row: "plain",
            of: "a drive",
            bound: Bound::Most,
            general: ONE_IN_SIX,
            regions: &[
                (Region::Us, ONE_IN_SIX),
                (Region::Uk, ONE_IN_SIX),
                (Region::Au, ONE_IN_SIX),
            ],
        },
        Limit::practice("gravel", "a drive of loose gravel", Bound::Most, &["1:10"]),
    ],
    sources: &[
        nhbc_external("10.2.6, drives no steeper than 1:6"),
        Source::COMMON_PRACTICE,
    ],
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
    let limit = |row| context.limit(&DRIVE_STEEP, row);
    let (Some(travel), Some(plain), Some(gravel)) =
        (slope::travel(surface), limit("plain"), limit("gravel"))
    else {
        return;
    };
    let running = travel.running;
    let build = surface.build.as_ref().map(|build| build.value.as_ref());
    let is_gravel = build.and_then(loose_surfacing).is_some();
    let (limit, severity, what) = match plain.allows_si(running) {
        false => (plain, DRIVE_STEEP.severity, "too steep to drive"),
        true if is_gravel && !gravel.allows_si(running) => (
            gravel,
            Severity::Advisory,
            "too steep for loose gravel, which runs downhill",
        ),
        true => return,
    };
    let shown = slope::beside(&limit, running, context);
    let remedy = match is_gravel {
        true => "Ease it, or bind the gravel",
        false => "Ease it, or make the drive longer",
    };
    let message = format!(
        "{what}: {shown}. {} is the most. {remedy}",
        limit.shown(context.system())
    );
    found.add(
        DRIVE_STEEP
            .finding(slope_place(surface), message)
            .severity(severity)
            .found(shown, slope::as_quantity(running))
            .against(&limit, context),
    );
}
