//! The area of a surface: that of its outline, as often as it comes again.

use super::measures::{Area, Count};
use super::term::Term;
use super::trace::Trace;
use crate::model::{Origin, Surface};

/// The area of a surface under a name; `None` without an outline.
pub(super) fn area<'t>(surface: &Surface, name: &str, trace: &'t Trace) -> Option<Term<'t, Area>> {
    let origin = surface
        .shape
        .as_ref()
        .map(|shape| Origin::Line(shape.place));
    if surface.repeat.is_none() {
        return Some(trace.input(name, Area(surface.area_m2()?), origin));
    }
    let one = Area(surface.outline.as_ref()?.area());
    let one = trace.input("area of one", one, origin);
    Some(trace.gives(name, times(surface, trace)? * one))
}

/// How often the shape of a surface comes again; `None` if it does not.
pub(super) fn times<'t>(surface: &Surface, trace: &'t Trace) -> Option<Term<'t, Count>> {
    let repeat = surface.repeat.as_ref()?;
    Some(trace.stated("in all", Count(surface.count()), repeat.count.place))
}
