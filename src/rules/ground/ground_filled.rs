//! `ground-filled`: a base that lies on fill.

use crate::findings::Severity;
use crate::geometry::Point;
use crate::model::{Build, Part, Surface};
use crate::rules::levels::lacks_minus;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Term;

/// The underside of the lowest layer lies above the ground.
pub(crate) static GROUND_FILLED: Rule = Rule {
    name: "ground-filled",
    family: Family::Ground,
    severity: Severity::Warning,
    looks_at: "The underside of the lowest layer against the existing ground: where it lies above, the gap has to be filled.",
    reason: "Fill settles unless it goes down in thin compacted lifts, its edge washes out, and no layer of the build orders it.",
    remedy: "Lower the paving, thicken the base, or state the fill as a subbase.",
    limits: &[],
    sources: &[
        Source::computed("the levels of the spec itself"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "\
site
  ground       -450 mm

surface court
  level        «-160 mm» at north
",
    keeps: "\
site
  ground       -400 mm
",
    mended: None,
    check: Check::Surface(check),
};

/// Ground is not known, nor dug, truer than this, in metres: what a formation
/// may be off when it is measured.
const TRUE_GROUND: f64 = 0.025;

/// Whether every layer that has a thickness states it.
fn is_measured(build: &Build) -> bool {
    build
        .layers
        .iter()
        .all(|layer| layer.role.value.is_sheet() || layer.thickness.is_some())
}

/// Whether what is new lies on a layer that is there already.
fn lies_on_what_is_there(build: &Build) -> bool {
    let mut solid = build
        .layers
        .iter()
        .filter(|layer| layer.thickness_m() > 0.0);
    solid
        .next_back()
        .is_some_and(|lowest| lowest.existing.is_some())
}

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Some(highest), Some(ground)) = (height_m(context, surface), &context.job.site.ground)
    else {
        return;
    };
    if highest <= TRUE_GROUND {
        return;
    }
    let shown = context.show_length(highest);
    let message = format!(
        "the underside of the lowest layer lies up to {shown} above the ground, and nothing fills the gap. Lower the paving, or state the fill as a {}",
        context.word(Term::Subbase)
    );
    let place = surface
        .levels
        .first()
        .map_or(surface.name.place, |level| level.value.place);
    let mut finding = GROUND_FILLED
        .finding(place, message)
        .found(shown, Quantity::near(highest, Dimension::LENGTH));
    for place in &ground.places {
        finding = finding.related(*place, "the ground, as stated here");
    }
    found.add(finding);
}

/// How far the underside of a surface's lowest layer lies above the ground at
/// most, in metres; negative where it lies below all over.
fn height_m(context: &Context<'_>, surface: &Surface) -> Option<f64> {
    let build = surface.build.as_ref().map(|build| &build.value);
    if build.is_some_and(|build| lies_on_what_is_there(build) || !is_measured(build))
        || lacks_minus(context, surface)
    {
        return None;
    }
    let figures = context.figures.surfaces.get(surface.index)?;
    let dig = figures.dig.as_ref()?;
    let ground = context.job.site.ground.as_ref()?;
    // How far the underside lies above the ground: itself a plane, highest
    // where the outline reaches farthest up its gradient.
    let highest = |part: Part<'_>| {
        let above = part.plane?.raised(-dig.depth_m).less(&ground.plane);
        let corner = part.outline.corners().next()?;
        let gradient = above.gradient();
        let reach = part.outline.extremes(gradient).1;
        let highest = above.level_at(corner) + reach - gradient.dot(corner - Point::ORIGIN);
        highest.is_finite().then_some(highest)
    };
    let parts: Option<Vec<f64>> = surface.parts().into_iter().map(highest).collect();
    parts?.into_iter().reduce(f64::max)
}

/// Whether a build that is so much thinner, in metres, would lie on fill where
/// it does not now.
pub(crate) fn is_filled_when_thinner(context: &Context<'_>, build: &Build, by: f64) -> bool {
    let surfaces = context.all_surfaces().iter();
    let on_it = surfaces.filter(|surface| {
        let own = surface.build.as_ref();
        own.is_some_and(|own| own.value.section == build.section)
    });
    on_it
        .filter_map(|surface| height_m(context, surface))
        .any(|height| height <= TRUE_GROUND && height + by > TRUE_GROUND)
}
