//! `fall-along`: water that runs along the building and nowhere away from it.

use super::fall_missing::is_exempt;
use crate::findings::Severity;
use crate::model::{Surface, Use};
use crate::rules::documents::{IRC_GRADING, nhbc_external};
use crate::rules::{Check, Context, Family, Found, Rule, slope};

/// A fall parallel to the building's edge.
pub static FALL_ALONG: Rule = Rule {
    name: "fall-along",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "A fall that runs parallel to the edge at the building, so that nothing runs away from it; not where a drain channel runs along that edge.",
    reason: "Water that runs along a wall wets it over its whole length, and any unevenness turns it towards the wall.",
    remedy: "Turn the fall away from the building, or add a cross fall away from it.",
    limits: &[],
    sources: &[
        IRC_GRADING,
        nhbc_external("10.2.6, paths and patios fall away from the home"),
    ],
    breaks: "\
surface court
  shape        court
  meets        north
  level        -160 mm at (0 m, 4 m)
  «fall         1:50 toward east»
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    keeps: "\
surface court
  shape        court
  meets        north
  level        -160 mm at (0 m, 4 m)
  fall         1:50 away from north, cross 1 % toward east
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    mended: Some(
        "\
surface court
  shape        court
  meets        north
  level        -160 mm at (0 m, 4 m)
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    ),
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if is_exempt(surface) || matches!(surface.used_for, Use::Ramp) {
        return;
    }
    let Some(downhill) = slope::downhill(surface) else {
        return;
    };
    let steepest = downhill.length();
    let away = slope::away_from_building(surface, downhill);
    let all_along = away.iter().all(|away| away.abs() <= slope::SAME_SLOPE);
    if away.is_empty() || !all_along || steepest <= slope::SAME_SLOPE {
        return;
    }
    let place = surface
        .fall
        .as_ref()
        .map_or(surface.name.place, |fall| fall.place);
    let message = format!(
        "the surface falls {} along the building and not away from it: turn the fall, or add a cross fall away from it",
        slope::shown(steepest, context)
    );
    let mut finding = FALL_ALONG.finding(place, message);
    if let Some(fix) = slope::turned_away(context, &FALL_ALONG, surface, found) {
        finding = finding.fix(fix);
    }
    found.add(finding);
}
