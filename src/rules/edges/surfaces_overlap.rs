//! `surfaces-overlap`: the same ground paved twice.

use crate::findings::{Finding, Severity};
use crate::geometry::intersection_area;
use crate::model::Surface;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// Two surfaces on the same ground.
pub static SURFACES_OVERLAP: Rule = Rule {
    name: "surfaces-overlap",
    family: Family::Edges,
    severity: Severity::Error,
    looks_at: "Two surfaces whose shapes cover some of the same ground.",
    reason: "The ground would be dug, built and paid for twice, and only one of the two can be there.",
    remedy: "Cut the one shape out of the other, or move them apart.",
    limits: &[],
    sources: &[Source::computed("the outlines of the spec itself")],
    breaks: "\
shape path
  rectangle    3 m by 1 m, at (5 m, 1 m)

surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"

surface path
  shape        «path»
  level        -240 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    keeps: "\
shape path
  rectangle    3 m by 1 m, at (6 m, 1 m)

surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"

surface path
  shape        path
  level        -200 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    mended: None,
    check: Check::Job(check),
};

/// Overlaps up to this, in square metres, are the width of a line.
const NO_OVERLAP: f64 = 1e-3;

fn check(context: &Context<'_>, found: &mut Found) {
    let surfaces = &context.job.surfaces;
    for (index, later) in surfaces.iter().enumerate() {
        for earlier in surfaces.iter().take(index) {
            if let Some(finding) = overlap(context, earlier, later) {
                found.add(finding);
            }
        }
    }
}

fn overlap(context: &Context<'_>, earlier: &Surface, later: &Surface) -> Option<Finding> {
    let (one, other) = (earlier.outline.as_ref()?, later.outline.as_ref()?);
    let area = intersection_area(one, other).ok()?;
    if area <= NO_OVERLAP {
        return None;
    }
    let figure = Quantity::near(area, Dimension::AREA);
    let shown = crate::units::show::area(area, context.system());
    let message = format!(
        "{shown} of {} lie on the ground of {} as well: cut the one shape out of the other",
        later.name.value, earlier.name.value
    );
    let place = |surface: &Surface| {
        surface
            .shape
            .as_ref()
            .map_or(surface.name.place, |shape| shape.place)
    };
    Some(
        SURFACES_OVERLAP
            .finding(place(later), message)
            .found(shown, figure)
            .related(place(earlier), format!("{} lies here", earlier.name.value)),
    )
}
