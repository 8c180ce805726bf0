//! What stands in a border.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::quantities::FigureRef;
use crate::units::show;

/// At a border, how many units stand in it, along how much, and how its joints
/// open on a curve.
pub(crate) fn add(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    for (surface, own) in analysis.figures.surfaces.iter().enumerate() {
        for (border, figures) in own.borders.iter().enumerate() {
            let of = HintOf::Figure(FigureRef::Border { surface, border });
            hints.add(HintKind::Layers, of, figures.place, || {
                let units = show::number(figures.units?.ceil());
                let length = show::length(figures.length_m?, system);
                let wide = figures
                    .taper
                    .map(|taper| format!(" · joints to {}", show::length(taper.wide_m, system)));
                Some(format!(
                    "{units} units · {length}{}",
                    wide.unwrap_or_default()
                ))
            });
        }
    }
}
