//! `surface-loose`: loose gravel where wheels have to roll.

use crate::findings::Severity;
use crate::model::{Build, Surface};
use crate::rules::construction::{Construction, loose_surfacing};
use crate::rules::documents::{ADA_FIRM, approved_document_m};
use crate::rules::{Check, Context, Family, Found, Rule};

/// Loose gravel on an accessible surface.
pub(crate) static SURFACE_LOOSE: Rule = Rule {
    name: "surface-loose",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "An accessible surface of loose gravel or stone.",
    reason: "Wheels sink in and sticks slip; nobody wheels a chair over loose gravel.",
    remedy: "Use paving or asphalt; stone bound with resin is of kind asphalt. Where a grid that is filled level holds the gravel, accept it and say so.",
    limits: &[],
    sources: &[
        approved_document_m("a suitable ground surface: firm, even, no loose gravel"),
        ADA_FIRM,
    ],
    breaks: "\
surface court
  for          foot, accessible
  fall         1:60 away from north
  build        gravel-path

build gravel-path
  «surfacing    pea-gravel, 50 mm»
  base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm
",
    keeps: "\
surface court
  for          foot
  fall         1:60 away from north
  build        gravel-path

build gravel-path
  surfacing    pea-gravel, 50 mm
  base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm
",
    mended: None,
    check: Check::Built(check),
};

fn check(_: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(accessible) = surface.accessible else {
        return;
    };
    if Construction::of(build) != Construction::Surfacing {
        return;
    }
    let Some(loose) = loose_surfacing(build) else {
        return;
    };
    let message = format!(
        "loose {} on an accessible surface: wheels sink in. Use paving or asphalt, or accept it and say what binds the stone",
        loose.of.value.name()
    );
    found.add(
        SURFACE_LOOSE
            .finding(loose.place, message)
            .related(accessible, "accessible, as stated here"),
    );
}
