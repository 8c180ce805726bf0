//! `surfaces-overlap`: the same ground paved twice.

use crate::findings::{Finding, Place, Severity};
use crate::model::{Repeat, Surface};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, show};

/// Two surfaces on the same ground.
pub(crate) static SURFACES_OVERLAP: Rule = Rule {
    name: "surfaces-overlap",
    family: Family::Edges,
    severity: Severity::Error,
    looks_at: "Two surfaces whose shapes cover some of the same ground, or a shape that comes again on its own.",
    reason: "The ground would be dug, built and paid for twice, and only one of the two can be there.",
    remedy: "Cut the one shape out of the other, or move them apart.",
    limits: &[],
    sources: &[Source::computed("the outlines of the spec itself")],
    breaks: "\
shape path
  rectangle    3 m by 1 m, at (5 m, 1 m)

surface court
  build        sand-set

surface path
  «shape        path»
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
  build        sand-set

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
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if let Some(repeat) = &surface.repeat
        && repeat.overlap_m2 > 0.0
    {
        found.add(on_itself(context, surface, repeat));
    }
    for (index, area) in &surface.overlaps {
        if let Some(other) = context.beside(*index) {
            found.add(overlap(context, surface, other, *area));
        }
    }
}

/// A shape that comes again before it ends.
fn on_itself(context: &Context<'_>, surface: &Surface, repeat: &Repeat) -> Finding {
    let shown = show::area(repeat.overlap_m2, context.system());
    let message = format!(
        "the {} of {} overlap one another by {shown}: lay them farther apart than {} between centres",
        surface.count(),
        surface.name.value,
        context.show(&repeat.spacing.value),
    );
    SURFACES_OVERLAP
        .finding(repeat.place, message)
        .found(shown, Quantity::near(repeat.overlap_m2, Dimension::AREA))
}

fn overlap(context: &Context<'_>, surface: &Surface, other: &Surface, area: f64) -> Finding {
    // The one that is written later is taken for the mistake.
    let (earlier, later) = match other.index < surface.index {
        true => (other, surface),
        false => (surface, other),
    };
    let shown = show::area(area, context.system());
    let message = format!(
        "{} and {} overlap by {shown}: cut one shape out of the other",
        later.name.value, earlier.name.value,
    );
    SURFACES_OVERLAP
        .finding(place(later), message)
        .found(shown, Quantity::near(area, Dimension::AREA))
        .related(place(earlier), format!("{} lies here", earlier.name.value))
}

fn place(surface: &Surface) -> Place {
    surface
        .shape
        .as_ref()
        .map_or(surface.name.place, |shape| shape.place)
}
