//! `re-entrant`: a re-entrant corner from which a slab cracks.

use crate::findings::{Fix, Severity};
use crate::geometry::{Edge, Outline};
use crate::model::{Build, Layer, Surface};
use crate::rules::documents::SLAB_PANELS;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::vocabulary::Role;

/// A re-entrant corner from which a slab cracks.
pub(crate) static RE_ENTRANT: Rule = Rule {
    name: "re-entrant",
    family: Family::Joints,
    severity: Severity::Advisory,
    looks_at: "Re-entrant corners of a concrete slab, those of openings too, unless corners jointed is stated.",
    reason: "As a slab shrinks, a crack starts at every re-entrant corner, whatever the concrete.",
    remedy: "Run a joint out of each re-entrant corner, and say so with corners jointed.",
    limits: &[],
    sources: &[SLAB_PANELS],
    breaks: "shape bed
  rectangle    2 m by 2 m, at (0, 0)

shape court
  cut          bed

surface court
  «shape        court»
  build        mortar-set

build mortar-set
  slab         slab-mix, 100 mm
",
    keeps: "surface court
  build        mortar-set
",
    mended: Some(
        "shape bed
  rectangle    2 m by 2 m, at (0, 0)

shape court
  cut          bed

surface court
  build        mortar-set

build mortar-set
  slab         slab-mix, 100 mm, corners jointed
",
    ),
    check: Check::Built(check),
};

/// Turns of less than this, as the sine of the angle, are no corner.
const SLIGHTEST: f64 = 0.1;

fn check(_context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let poured = |layer: &&Layer| layer.existing.is_none();
    let unjointed = |layer: &&Layer| layer.corners_jointed.is_none();
    let (Some(slab), Some(shape), Some(outline)) = (
        build.layer(Role::Slab).filter(poured).filter(unjointed),
        &surface.shape,
        &surface.outline,
    ) else {
        return;
    };
    let message = match re_entrant_corners(outline) {
        0 => return,
        1 => "re-entrant corner: the slab will crack from it. Run a joint out of it".to_owned(),
        count => format!(
            "{count} re-entrant corners: the slab will crack from each. Run a joint out of each"
        ),
    };
    let finding = RE_ENTRANT
        .finding(shape.place, message)
        .related(slab.place, "the slab");
    found.add(finding.fix(Fix::judged(
        "Joint the slab at its re-entrant corners",
        slab.place.end(),
        ", corners jointed",
    )));
}

/// How many corners of an outline point into it. Loops run with the shape on
/// their left, so that a re-entrant corner turns right.
fn re_entrant_corners(outline: &Outline) -> usize {
    let turns_right = |(edge, next): &(&Edge, &Edge)| {
        edge.direction_at_end().cross(next.direction_at_start()) < -SLIGHTEST
    };
    outline
        .loops()
        .map(|boundary| {
            let edges = &boundary.edges;
            edges
                .iter()
                .zip(edges.iter().cycle().skip(1))
                .filter(turns_right)
                .count()
        })
        .sum()
}
