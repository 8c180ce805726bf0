//! Areas and perimeters of shapes, and of shapes that come again.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::ide::markdown::direction;
use crate::quantities::FigureRef;
use crate::units::show;

/// At a shape's heading its area and perimeter; at a path's `close` the
/// length and direction of that edge.
pub(crate) fn add(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    let shapes = analysis
        .job
        .shapes
        .values()
        .zip(analysis.figures.shapes.iter());
    for (index, (shape, figures)) in shapes.enumerate() {
        let of = HintOf::Figure(FigureRef::Shape(index));
        hints.add(HintKind::Areas, of, shape.name.place, || {
            let area = show::area(figures.area_m2?, system);
            let round = show::length(figures.perimeter_m?, system);
            Some(format!("{area} · {round} round"))
        });
        if let Some((place, length, bearing)) = shape.closing {
            hints.add(HintKind::Areas, HintOf::Itself, place, || {
                Some(format!(
                    "{} {}",
                    show::length(length, system),
                    direction(bearing)
                ))
            });
        }
    }
}

/// At the entry of a shape that comes again what all of it comes to, and the
/// gap from one to the next.
pub(crate) fn add_repeats(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    for (index, figures) in analysis.figures.surfaces.iter().enumerate() {
        let Some(repeat) = &figures.repeat else {
            continue;
        };
        let of = HintOf::Figure(FigureRef::Repeat(index));
        hints.add(HintKind::Areas, of, repeat.place, || {
            let all = show::area(figures.area_m2?, system);
            let gap = show::length(repeat.gap_m, system);
            Some(format!("{all} in all · gap {gap}"))
        });
    }
}
