//! Falls in per cent, and the drops that they make.

use super::HintKind;
use super::collecting::Collecting;
use crate::units::show;

/// At a surface's `fall`: the steepest slope and the drop over the surface.
pub fn add(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    for (surface, figures) in analysis.job.surfaces.iter().zip(&analysis.figures.surfaces) {
        let Some(fall) = &surface.fall else { continue };
        hints.add(HintKind::Falls, fall.place, || {
            let share = show::share(figures.fall?);
            Some(match figures.drop_m {
                Some(drop) => format!("{share} · drops {}", show::length(drop, system)),
                None => share,
            })
        });
    }
}
