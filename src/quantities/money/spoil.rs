//! The spoil that is taken away, of all that is dug.

use super::super::measures::Volume;
use super::super::{DrainFigures, Figures, StepsFigures, SurfaceFigures};
use crate::model::Listed;

/// The loose spoil of each dig; `None` where that of one is not known.
pub(super) fn of_each_dig(
    surfaces: &Listed<SurfaceFigures>,
    drains: &[DrainFigures],
    steps: &Listed<StepsFigures>,
) -> Option<Vec<Volume>> {
    let dug = surfaces.iter().filter(|own| own.dug.is_some());
    let of_surfaces = dug.map(|own| own.dig.as_ref()?.loose_m3.map(Volume));
    let of_drains = drains.iter().filter(|own| own.is_dug());
    let of_drains = of_drains.map(|own| own.dig.as_ref()?.loose_m3.map(Volume));
    let of_steps = steps.iter().filter(|own| own.base.is_some());
    let of_steps = of_steps.map(|own| own.dig.as_ref()?.loose_m3.map(Volume));
    let edgings = surfaces.iter().flat_map(|own| &own.edgings);
    let beside = edgings.filter_map(|edging| edging.footing.as_ref());
    let beside = beside.map(|footing| footing.loose_m3.map(Volume));
    let all = of_surfaces.chain(of_drains).chain(of_steps).chain(beside);
    all.collect()
}

/// The loose spoil of a job that is taken away, in cubic metres; `None` where
/// that of one dig is not known.
pub fn loose_spoil_m3(figures: &Figures) -> Option<f64> {
    let each = of_each_dig(&figures.surfaces, &figures.drains, &figures.steps)?;
    Some(each.into_iter().map(|own| own.0).sum())
}
