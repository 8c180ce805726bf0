//! `surfacing-thin`: asphalt that breaks up, gravel through which the base shows.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Layer, Surface};
use crate::rules::construction::{Construction, is_driven, slab};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

/// A surfacing too thin to last.
pub(crate) static SURFACING_THIN: Rule = Rule {
    name: "surfacing-thin",
    family: Family::Beds,
    severity: Severity::Advisory,
    looks_at: "The thickness of asphalt, all its courses together, on aggregate or ground, and of gravel, stone dust and the like. Not asphalt on a slab. A warning for asphalt under cars.",
    reason: "Thin asphalt on a base that gives cracks and breaks up under wheels; thin gravel is kicked aside.",
    remedy: "Lay it thicker. On a drive that is a binder course with a surface course on it, or one course of the two together.",
    limits: &[
        Limit::practice(
            "asphalt",
            "asphalt where only feet go",
            Bound::Least,
            &["25 mm", "1 in"],
        ),
        Limit::practice(
            "asphalt-drive",
            "asphalt under cars, all courses together",
            Bound::Least,
            &["50 mm", "2 in"],
        ),
        Limit::practice(
            "grains",
            "gravel, stone dust and the like",
            Bound::Least,
            &["20 mm", "3/4 in"],
        ),
    ],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
surface court
  for          drive
  build        asphalt-court

build asphalt-court
  surfacing    asphalt, «25 mm»
  base         crushed-stone, 200 mm compacted, beyond 200 mm
",
    keeps: "\
surface court
  for          drive
  build        asphalt-court

build asphalt-court
  surfacing    asphalt, 60 mm
  base         crushed-stone, 200 mm compacted, beyond 200 mm
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let is_surfacing = Construction::of(build) == Construction::Surfacing;
    let Some(top) = build.layer(Role::Surfacing).filter(|_| is_surfacing) else {
        return;
    };
    let Some(kind) = top.of.value.kind().filter(|_| top.existing.is_none()) else {
        return;
    };
    let (row, courses) = match kind {
        Kind::Asphalt if slab(build).is_some() => return,
        Kind::Asphalt if is_driven(surface) => ("asphalt-drive", asphalt(build)),
        Kind::Asphalt => ("asphalt", asphalt(build)),
        kind if kind.is_aggregate() => ("grains", vec![top]),
        _ => return,
    };
    let depths: Option<Vec<f64>> = courses
        .iter()
        .map(|layer| Some(layer.thickness.as_ref()?.value.si()))
        .collect();
    let (Some(depths), Some(limit)) = (depths, context.limit(&SURFACING_THIN, row)) else {
        return;
    };
    let (Some(written), depth) = (&top.thickness, depths.iter().sum()) else {
        return;
    };
    if limit.allows_si(depth) {
        return;
    }
    let shown = limit.beside_si(depth, context.system());
    let least = limit.shown(context.system());
    let name = top.of.value.name();
    let (severity, message) = match row {
        "asphalt-drive" => (
            Severity::Warning,
            format!(
                "{shown} of {name} breaks up under cars; {least} is the least, all courses together: lay it thicker"
            ),
        ),
        "asphalt" => (
            Severity::Advisory,
            format!("{shown} of {name} soon cracks; {least} is the least: lay it thicker"),
        ),
        _ => (
            Severity::Advisory,
            format!(
                "{shown} of {name} is soon kicked through to what lies below; {least} is the least: lay it thicker"
            ),
        ),
    };
    found.add(
        SURFACING_THIN
            .finding(written.place, message)
            .severity(severity)
            .found(shown, Quantity::near(depth, Dimension::LENGTH))
            .against(&limit, context),
    );
}

/// The courses of asphalt of a build, those that are there already too.
fn asphalt(build: &Build) -> Vec<&Layer> {
    let is_asphalt = |layer: &&Layer| layer.of.value.kind() == Some(Kind::Asphalt);
    build.layers.iter().filter(is_asphalt).collect()
}
