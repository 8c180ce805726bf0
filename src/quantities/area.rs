//! The area of a surface: that of its outline, as often as it comes again.

use super::measures::{Area, Count};
use super::term::Term;
use super::trace::Trace;
use crate::model::{Origin, Surface};

/// The area of a surface under a name; `None` without an outline.
pub(super) fn area<'t>(surface: &Surface, name: &str, trace: &'t Trace) -> Option<Term<'t, Area>> {
    let outline = surface.outline.as_ref()?;
    let shape = surface.shape.as_ref().map(|shape| shape.place);
    let named = match surface.repeat {
        Some(_) => "area of one",
        None => name,
    };
    let one = trace.input(named, Area(outline.area()), shape.map(Origin::Line));
    Some(match times(surface, trace) {
        Some(count) => trace.gives(name, count * one),
        None => one,
    })
}

/// How often the shape of a surface comes again; `None` if it does not.
pub(super) fn times<'t>(surface: &Surface, trace: &'t Trace) -> Option<Term<'t, Count>> {
    let repeat = surface.repeat.as_ref()?;
    Some(trace.stated("in all", Count(surface.count()), repeat.count.place))
}
