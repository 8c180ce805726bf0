//! `fall-missing`: a surface that nothing says how to drain.

use super::fall_flat::least_fall;
use crate::findings::Severity;
use crate::model::Surface;
use crate::rules::construction::Construction;
use crate::rules::documents::{IRC_GRADING, nhbc_external};
use crate::rules::{Check, Context, Family, Found, Rule, slope};

/// A surface, neither permeable nor covered, without a fall.
pub static FALL_MISSING: Rule = Rule {
    name: "fall-missing",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "A surface that has no fall, neither stated nor given by its levels, and that is neither permeable nor covered.",
    reason: "On level paving water stands, soaks the joints and freezes; against a building it wets the wall.",
    remedy: "State a fall away from the building, or say that the surface is permeable or covered.",
    limits: &[],
    sources: &[
        IRC_GRADING,
        nhbc_external("10.2.6, paths and patios fall away from the home"),
    ],
    breaks: "\
surface «court»
  shape        court
  meets        north
  level        -160 mm at north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    keeps: "\
surface court
  shape        court
  for          foot, covered
  meets        north
  level        -160 mm at north
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
  fall         1:50 away from north
  level        -160 mm at north
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
    if surface.entry("fall").is_some()
        || slope::downhill(surface).is_some()
        || surface.levels.len() > 1
        || is_exempt(surface)
        || context.is_misread(surface.section)
    {
        return;
    }
    let meets_building = slope::building_edges(surface).next().is_some();
    let (severity, message) = if meets_building {
        (
            Severity::Error,
            "no fall is stated, so water stands against the building: let it fall away from it",
        )
    } else {
        (
            Severity::Warning,
            "no fall is stated, so water stands on the paving: state which way it falls",
        )
    };
    let mut finding = FALL_MISSING
        .finding(surface.name.place, message)
        .severity(severity);
    let least = least_fall(context, surface);
    let fix = slope::stated_anew(context, &FALL_MISSING, surface, least, found);
    finding.fixes.extend(fix);
    found.add(finding);
}

/// Whether a surface needs no fall: water soaks into it, as it does into loose
/// gravel, or a roof keeps the rain off.
pub(super) fn is_exempt(surface: &Surface) -> bool {
    let soaks_in = surface.build.as_ref().is_some_and(|build| {
        let build = &build.value;
        build.permeable.is_some() || Construction::of(build) == Construction::Surfacing
    });
    soaks_in || surface.covered.is_some()
}
