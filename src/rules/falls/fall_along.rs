//! `fall-along`: water that runs along the building and nowhere away from it.

use super::fall_missing::is_exempt;
use crate::findings::Severity;
use crate::model::{Surface, Use};
use crate::rules::documents::{IRC_GRADING, nhbc_external};
use crate::rules::{Check, Context, Family, Found, Rule, slope};
use crate::units::show;

/// A fall parallel to the building's edge.
pub(crate) static FALL_ALONG: Rule = Rule {
    name: "fall-along",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "A fall parallel to the wall, so that nothing runs away from it; not where a channel runs along that edge.",
    reason: "Water that runs along a wall wets all of it, and the first bump turns it towards the wall.",
    remedy: "Turn the fall away from the building, or add a cross fall away from it.",
    limits: &[],
    sources: &[
        IRC_GRADING,
        nhbc_external("10.2.6, paths and patios fall away from the home"),
    ],
    breaks: "\
surface court
  level        -160 mm at (0 m, 4 m)
  «fall         1:50 toward east»
",
    keeps: "\
surface court
  level        -160 mm at (0 m, 4 m)
  fall         1:50 away from north, cross 1 % toward east
",
    mended: Some(
        "\
surface court
  level        -160 mm at (0 m, 4 m)
  fall         1:50 away from north
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
        "falls {} along the building and none away from it: the wall stays wet. Turn the fall, or add a cross fall",
        show::slope(steepest)
    );
    let mut finding = FALL_ALONG.finding(place, message);
    if let Some(fix) = slope::turned_away(context, &FALL_ALONG, surface, found) {
        finding = finding.fix(fix);
    }
    found.add(finding);
}
