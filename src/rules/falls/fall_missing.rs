//! `fall-missing`: a surface that nothing says how to drain.

use super::fall_flat::least_fall;
use crate::findings::Severity;
use crate::geometry::{Edge, Outline};
use crate::materials::Kind;
use crate::model::{Build, Surface};
use crate::rules::construction::{Construction, is_of_pedestals, is_pad, is_stepping_stone};
use crate::rules::documents::{IRC_GRADING, nhbc_external};
use crate::rules::{Check, Context, Family, Found, Rule, slope};
use crate::vocabulary::Role;

/// A surface that sheds water, without a fall.
pub(crate) static FALL_MISSING: Rule = Rule {
    name: "fall-missing",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "Paving with no fall, stated or given by its levels; not where water soaks in, drops through open joints or is kept off by a roof, and not a stepping stone.",
    reason: "Water stands on level paving, soaks the joints and freezes; against a building it wets the wall.",
    remedy: "State a fall away from the building, or say that the surface is permeable or covered.",
    limits: &[],
    sources: &[
        IRC_GRADING,
        nhbc_external("10.2.6, paths and patios fall away from the home"),
    ],
    breaks: "\
surface «court»
  # no fall
",
    keeps: "\
surface court
  for          foot, covered
  # no fall
",
    mended: Some(
        "\
surface court
  fall         1:50 away from north
  level        -160 mm at north
",
    ),
    check: Check::Surface(check),
};

/// Whether a surface needs a fall and nothing says how it falls.
pub(in crate::rules) fn lacks_fall(context: &Context<'_>, surface: &Surface) -> bool {
    surface.entry("fall").is_none()
        && slope::downhill(surface).is_none()
        && surface.levels.len() < 2
        && !is_exempt(surface)
        && !context.is_misread(surface.section)
        && !may_be_exempt(surface)
}

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if !lacks_fall(context, surface) {
        return;
    }
    let meets_building = slope::building_edges(surface).next().is_some();
    let (severity, message) = if meets_building {
        (
            Severity::Error,
            "no fall: water will stand against the building. Let it fall away from the wall",
        )
    } else {
        (
            Severity::Warning,
            "no fall: water will stand on the paving. Say which way it falls",
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
/// gravel, drops through its joints or runs off a single stone, or a roof
/// keeps the rain off.
pub(super) fn is_exempt(surface: &Surface) -> bool {
    let lets_through = surface.build.as_ref().is_some_and(|build| {
        let build = &build.value;
        build.permeable.is_some()
            || is_soaking_surfacing(build)
            || has_open_joints(surface, build)
            || is_stepping_stone(surface, build)
    });
    lets_through || surface.covered.is_some() || sheds_by_itself(surface)
}

/// Whether water soaks into the surfacing, as it does not into asphalt.
fn is_soaking_surfacing(build: &Build) -> bool {
    let surfacing = build.layer(Role::Surfacing);
    Construction::of(build) == Construction::Surfacing
        && surfacing.and_then(|layer| layer.of.value.kind()) != Some(Kind::Asphalt)
}

/// How wide a strip is at most, in metres, from which water runs off whichever
/// way it lies.
const STRIP: f64 = 0.45;

/// Whether a surface is a strip as wide as a mowing edge, or of pads that stand
/// by themselves: no water stays on those.
fn sheds_by_itself(surface: &Surface) -> bool {
    let is_narrow = |outline: &Outline| {
        let mut ways = outline.edges().map(Edge::chord);
        ways.any(|chord| chord.length() > 0.0 && outline.extent(chord.unit().left()) <= STRIP)
    };
    surface.outlines().count() > 0
        && (surface.outlines().all(is_pad) || surface.outlines().all(is_narrow))
}

/// Whether it is not known how large a surface is, or what it is made of: it may
/// be a stone to step on, or let water through.
fn may_be_exempt(surface: &Surface) -> bool {
    let build = surface.build.as_ref();
    surface.outline.is_none()
        || surface.is_build_lost()
        || build.is_some_and(|build| build.value.has_lost_line)
}

/// Whether water drops through open joints to what lies below, as on
/// pedestals: nothing beds, bonds or fills them.
fn has_open_joints(surface: &Surface, build: &Build) -> bool {
    let is_bedded = [Role::Bed, Role::Bond, Role::Slurry]
        .into_iter()
        .any(|role| {
            build
                .layer(role)
                .is_some_and(|layer| !is_of_pedestals(layer))
        });
    let joint = surface.joint.as_ref();
    let is_open =
        joint.is_some_and(|joint| joint.filling.is_none() && joint.width.value.si() > 0.0);
    build.layer(Role::Paving).is_some() && !is_bedded && is_open
}
