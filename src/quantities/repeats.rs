//! A shape that comes again: how many there are of it, and how far apart.

use super::area::area;
use super::measures::Length;
use super::trace::Trace;
use crate::findings::Place;
use crate::model::Surface;

/// The figures of a shape that a surface covers several times over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RepeatFigures {
    /// How many there are in all.
    pub count: usize,
    /// The area of one.
    pub each_m2: f64,
    /// How far the centres of one and the next lie apart.
    pub centres_m: f64,
    /// The least way between the edges of one and the next.
    pub gap_m: f64,
    /// The entry.
    pub place: Place,
}

/// How the shape of a surface comes again; `None` if it does not.
pub(super) fn repeats(surface: &Surface, trace: &Trace) -> Option<RepeatFigures> {
    let repeat = surface.repeat.as_ref()?;
    let each_m2 = surface.outline.as_ref()?.area();
    area(surface, "area", trace);
    let centres = Length(repeat.spacing.value.si());
    let centres = trace.stated("centres apart", centres, repeat.spacing.place);
    let how = "the least way between the edges of one and the next";
    let gap = trace.found("gap", Length(repeat.gap_m), how);
    Some(RepeatFigures {
        count: 1 + surface.others.len(),
        each_m2,
        centres_m: centres.value.0,
        gap_m: gap.value.0,
        place: repeat.place,
    })
}
