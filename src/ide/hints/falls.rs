//! Falls in per cent, and the drops that they make.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::quantities::FigureRef;
use crate::units::show;

/// At a surface's `fall`: the steepest slope and the drop over the surface.
pub(crate) fn add(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    let surfaces = analysis
        .job
        .surfaces
        .iter()
        .zip(analysis.figures.surfaces.iter());
    for (index, (surface, figures)) in surfaces.enumerate() {
        let fall = surface.fall.as_ref().map(|fall| fall.place);
        let fall_to = surface.fall_to.as_ref().map(|fall| fall.place);
        let Some(place) = fall.or(fall_to) else {
            continue;
        };
        let of = HintOf::Figure(FigureRef::Levels(index));
        hints.add(HintKind::Falls, of, place, || {
            let share = show::share(figures.fall?);
            Some(match figures.drop_m {
                Some(drop) => format!("{share} · drops {}", show::length(drop, system)),
                None => share,
            })
        });
    }
}
