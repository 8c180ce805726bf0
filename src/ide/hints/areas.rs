//! Areas and perimeters of shapes.

use super::HintKind;
use super::collecting::Collecting;
use crate::ide::markdown::direction;
use crate::units::show;

/// At a shape's heading its area and perimeter; at a path's `close` the
/// length and direction of that edge.
pub fn add(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    for (shape, figures) in analysis.job.shapes.values().zip(&analysis.figures.shapes) {
        hints.add(HintKind::Areas, shape.name.place, || {
            let area = show::area(figures.area_m2?, system);
            let round = show::length(figures.perimeter_m?, system);
            Some(format!("{area} · {round} round"))
        });
        if let Some((place, length, bearing)) = shape.closing {
            hints.add(HintKind::Areas, place, || {
                Some(format!(
                    "{} {}",
                    show::length(length, system),
                    direction(bearing)
                ))
            });
        }
    }
}
