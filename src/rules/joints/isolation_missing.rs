//! `isolation-missing`: rigid paving hard against the building.

use crate::findings::{Fix, Severity};
use crate::model::{Build, Surface};
use crate::rules::construction::Construction;
use crate::rules::documents::TCNA_EJ171;
use crate::rules::wording::entry_before;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::System;
use crate::vocabulary::Role;

/// Rigid paving hard against the building.
pub(crate) static ISOLATION_MISSING: Rule = Rule {
    name: "isolation-missing",
    family: Family::Joints,
    severity: Severity::Warning,
    looks_at: "Rigid paving against the building with no isolation joint stated.",
    reason: "Paving and building move apart and together; tied, one cracks or pushes the other, and water gets into the gap.",
    remedy: "Leave a full-depth joint of about 12 mm (1/2 in), with a compressible filler and a sealant.",
    limits: &[],
    sources: &[
        TCNA_EJ171,
        Source::read(
            "BIA Technical Note 14, September 1992",
            "joints along walls; compressible fillers",
        ),
    ],
    breaks: "surface court
  meets        «north»
  build        mortar-set
  # no isolation-joint
",
    keeps: "surface court
  build        mortar-set
",
    mended: Some(
        "surface court
  build        mortar-set
  isolation-joint 12 mm
  joint        10 mm, filled with joint-mix
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(meets) = surface.meets.first() else {
        return;
    };
    let is_stated = surface.isolation_joint.is_some() || context.is_misread(surface.section);
    let is_stated = is_stated || build.has_lost_line;
    // Lime gives, and a sealant against an old wall keeps its damp in.
    let bed = build.layer(Role::Bed);
    let is_in_lime = bed.is_some_and(|bed| bed.of.value.sets_with_lime());
    if is_stated || is_in_lime || !Construction::of(build).is_rigid() {
        return;
    }
    let message = "rigid paving is hard against the building: leave a full-depth isolation joint with compressible filler and sealant";
    let finding = ISOLATION_MISSING.finding(meets.place, message);
    let width = match context.system() {
        System::Metric => "12 mm",
        System::Imperial => "1/2 in",
    };
    let before = surface
        .joint
        .as_ref()
        .map(|joint| joint.place)
        .or(surface.laid.as_ref().map(|laid| laid.place))
        .or(surface.fall.as_ref().map(|fall| fall.place));
    found.add(match before {
        Some(place) => finding.fix(Fix::judged(
            format!("Leave an isolation joint of {width}"),
            place.start(),
            entry_before("isolation-joint", width),
        )),
        None => finding,
    });
}
