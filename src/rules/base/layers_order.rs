//! `layers-order`: layers that cannot lie as they are listed.

use crate::findings::{Finding, Severity};
use crate::materials::Kind;
use crate::model::{Build, Layer};
use crate::rules::construction::is_base;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Layers that cannot lie as they are listed.
pub(crate) static LAYERS_ORDER: Rule = Rule {
    name: "layers-order",
    family: Family::Base,
    severity: Severity::Error,
    looks_at: "The layers of a build from the top down: paving or surfacing, bond, bed, slab, base, subbase, a fabric under a dense base, but for one that keeps gravel out of it; and whether what is walked on comes first.",
    reason: "Levels, dig and quantities follow the order of the list.",
    remedy: "List the layers from the top down.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "build sand-set
  bed          sharp-sand, 30 mm
  «paving       concrete-paver, 60 mm, waste 5 %»
",
    keeps: "build sand-set
  fabric       geotextile, beyond 150 mm
",
    mended: None,
    check: Check::Build(check),
};

fn check(context: &Context<'_>, build: &Build, found: &mut Found) {
    let finding = topless(context, build)
        .or_else(|| sheet_on_top(context, build))
        .or_else(|| misplaced(build))
        .or_else(|| fabric_over_base(build));
    if let Some(finding) = finding {
        found.add(finding);
    }
}

/// How deep a layer lies under the one above it; `None` for slurries and
/// sheets, which have several places.
fn depth(layer: &Layer, above: Option<&Layer>) -> Option<u8> {
    match layer.role.value {
        Role::Paving | Role::Surfacing => Some(0),
        // What sticks a membrane down.
        Role::Bond if above.is_some_and(|above| above.role.value == Role::Membrane) => None,
        Role::Bond => Some(1),
        Role::Bed => Some(2),
        // An old slab may stay in the ground at any depth.
        Role::Slab if layer.existing.is_some() => None,
        Role::Slab => Some(3),
        Role::Base => Some(4),
        Role::Subbase => Some(5),
        Role::Slurry | Role::Membrane | Role::Mesh | Role::Fabric => None,
    }
}

fn topless(context: &Context<'_>, build: &Build) -> Option<Finding> {
    let is_top = |layer: &Layer| {
        matches!(
            layer.role.value,
            Role::Paving | Role::Surfacing | Role::Slab
        )
    };
    let is_misread = build.layers.is_empty() || context.is_misread(build.section);
    if is_misread || build.layers.iter().any(is_top) {
        return None;
    }
    let message = format!(
        "nothing to walk on in {}: put paving, surfacing or a slab first",
        build.name.value
    );
    Some(LAYERS_ORDER.finding(build.name.place, message))
}

/// A sheet above all that one walks on: it separates nothing.
fn sheet_on_top(context: &Context<'_>, build: &Build) -> Option<Finding> {
    let is_sheet = |layer: &&Layer| matches!(layer.role.value, Role::Membrane | Role::Fabric);
    let top = build.layers.first().filter(is_sheet)?;
    let below = build
        .layers
        .get(1)
        .filter(|_| !context.is_misread(build.section))?;
    let (sheet, other) = (top.role.value.word(), below.role.value.word());
    let message = format!(
        "the {sheet} lies on top, where one would walk on it: list it below what it is to lie under"
    );
    let finding = LAYERS_ORDER.finding(top.place, message);
    Some(finding.related(below.place, format!("the {other}")))
}

fn misplaced(build: &Build) -> Option<Finding> {
    let mut deepest: Option<(u8, &Layer)> = None;
    let above = std::iter::once(None).chain(build.layers.iter().map(Some));
    for (layer, above) in build.layers.iter().zip(above) {
        let Some(depth) = depth(layer, above) else {
            continue;
        };
        match deepest {
            Some((deeper, above)) if depth < deeper => {
                let (role, other) = (layer.role.value.word(), above.role.value.word());
                let (severity, message) = match layer.role.value {
                    Role::Bond => (
                        Severity::Warning,
                        format!(
                            "the bond is listed below the {other}: it is the coat on the back of the units, so put it right under the paving; a coat on a slab is a slurry"
                        ),
                    ),
                    _ => (
                        Severity::Error,
                        format!(
                            "the {role} is listed below the {other}; layers go from the top down: put the {role} above it"
                        ),
                    ),
                };
                let finding = LAYERS_ORDER
                    .finding(layer.place, message)
                    .severity(severity)
                    .related(above.place, format!("the {other}"));
                return Some(finding);
            }
            _ => deepest = Some((depth, layer)),
        }
    }
    None
}

/// A fabric over a dense base with none under it: it separates nothing, but
/// for gravel, which it keeps out of the base and free of weeds.
fn fabric_over_base(build: &Build) -> Option<Finding> {
    if build.layer(Role::Surfacing).is_some() {
        return None;
    }
    let is_fabric = |layer: &&Layer| layer.role.value == Role::Fabric;
    let last_fabric = build.layers.iter().rposition(|layer| is_fabric(&layer))?;
    let below = build.layers.get(last_fabric + 1..)?;
    let base = below.iter().find(|layer| is_base(layer))?;
    let is_dense = base.of.value.kind() == Some(Kind::DenseAggregate);
    let fabric = build.layers.get(last_fabric)?;
    is_dense.then(|| {
        LAYERS_ORDER
            .finding(
                fabric.place,
                "the fabric lies on top of the base, where it separates nothing: put it under the base",
            )
            .related(base.place, "the base")
    })
}
