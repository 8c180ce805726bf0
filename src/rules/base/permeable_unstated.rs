//! `permeable-unstated`: paving made to let rain through, and not called so.

use crate::findings::{Fix, Severity};
use crate::model::{Build, Layer, Surface};
use crate::rules::construction::{bases, is_in_checked_file, is_open_graded, slab, unit_kind};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Paving made to let rain through, and not called so.
pub(crate) static PERMEABLE_UNSTATED: Rule = Rule {
    name: "permeable-unstated",
    family: Family::Base,
    severity: Severity::Advisory,
    looks_at: "Pavers whose joints, bed and base are all of clean stone, in a build that does not say that it is permeable.",
    reason: "Rain runs down through it all the same. Only of a build that says so is it asked whether the ground takes the water, and whether it soaks in too near the house.",
    remedy: "Write permeable in the build, with the voids of its base; or fill the joints with sand.",
    limits: &[],
    sources: &[Source::computed("the layers and joints of the spec itself")],
    breaks: "build «sand-set»
  paving       permeable-paver, 80 mm, waste 5 %
  bed          chip-stone, 40 mm
  base         open-stone, 150 mm, beyond 150 mm
  fabric       geotextile, beyond 150 mm

surface court
  # no meets
  level        -160 mm at (3 m, 4 m)
  fall         1:50 toward south
  joint        8 mm, filled with chip-stone
",
    keeps: "build sand-set
  permeable, voids 40 %
  paving       permeable-paver, 80 mm, waste 5 %
  bed          chip-stone, 40 mm
  base         open-stone, 150 mm, beyond 150 mm
  fabric       geotextile, beyond 150 mm

surface court
  # no meets
  level        -160 mm at (3 m, 4 m)
  fall         1:50 toward south
  joint        8 mm, filled with chip-stone
",
    mended: Some(
        "build sand-set
  permeable
  paving       permeable-paver, 80 mm, waste 5 %
  bed          chip-stone, 40 mm
  base         open-stone, 150 mm, beyond 150 mm
  fabric       geotextile, beyond 150 mm

surface court
  # no meets
  level        -160 mm at (3 m, 4 m)
  fall         1:50 toward south
  joint        8 mm, filled with chip-stone
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let is_open = |layer: &Layer| is_open_graded(&layer.of.value);
    let joint = surface.joint.as_ref();
    let filling = joint.and_then(|joint| joint.filling.as_ref());
    let mut all = bases(build).peekable();
    let is_meant = unit_kind(build).is_some_and(crate::materials::Kind::is_paver)
        && filling.is_some_and(|filling| is_open_graded(&filling.value))
        && build.layer(Role::Bed).is_some_and(is_open)
        && all.peek().is_some()
        && all.all(is_open)
        && slab(build).is_none()
        && build.layer(Role::Membrane).is_none();
    let is_unclear = build.has_lost_line || context.is_misread(build.section);
    if build.permeable.is_some() || !is_meant || is_unclear {
        return;
    }
    let place = context.at(surface, build.name.place);
    let message = "joints, bed and base are all clean stone: rain goes down through them. Write permeable in the build, so that its rules are kept";
    let mut finding = PERMEABLE_UNSTATED.finding(place, message);
    if let Some(filling) = filling {
        finding = finding.related(filling.place, "what fills the joints");
    }
    let first = build.layers.first().map(|layer| layer.place);
    if let Some(first) = first.filter(|first| is_in_checked_file(*first)) {
        finding = finding.fix(Fix::judged(
            "Write permeable",
            first.start(),
            "permeable\n  ",
        ));
    }
    found.add(finding);
}
