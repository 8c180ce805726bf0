//! How units lie.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::quantities::FigureRef;
use crate::units::show;

/// At a `laid` that says where it starts, the units that lie whole and those
/// that are cut.
pub(crate) fn add(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    for (index, own) in analysis.figures.surfaces.iter().enumerate() {
        let Some(layout) = &own.layout else {
            continue;
        };
        let of = HintOf::Figure(FigureRef::Layout(index));
        hints.add(HintKind::Layers, of, layout.place, || {
            let number = |count: usize| show::number(count as f64);
            let whole = number(layout.whole);
            Some(match &layout.least {
                None => format!("{whole} units, none cut"),
                Some(least) => format!(
                    "{whole} whole · {} cut, least {} · {} to buy",
                    number(layout.cut),
                    show::length(least.least_m(), system),
                    number(layout.stock()),
                ),
            })
        });
    }
}
