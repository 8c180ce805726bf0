//! What an edging stands in.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::quantities::FigureRef;
use crate::units::show;

/// At an edging that stands in concrete, its length and the concrete.
pub(crate) fn add(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    for (surface, own) in analysis.figures.surfaces.iter().enumerate() {
        for (edging, figures) in own.edgings.iter().enumerate() {
            let Some(footing) = &figures.footing else {
                continue;
            };
            let of = HintOf::Figure(FigureRef::Footing { surface, edging });
            hints.add(HintKind::Layers, of, figures.place, || {
                let volume = show::volume(footing.volume_m3?, system);
                let length = show::length(figures.length_m?, system);
                Some(format!("{length} · {volume} of {}", footing.material))
            });
        }
    }
}
