//! The units that are cut where a lay-out says so: tinted under their lines,
//! and counted in the legend.

use super::canvas::Canvas;
use super::ground::Ground;
use crate::drawing::display_list::{Ink, Layer, Mark, Path};
use crate::drawing::legend::{boxed, sample_corners};
use crate::drawing::pattern::NARROWEST;
use crate::geometry::{NO_TAG, Outline, intersection};
use crate::quantities::{SurfaceFigures, laid_over, tiling};

/// More on one surface are not tinted: nobody tells them apart.
const MOST: usize = 2_000;

/// Tints what is left of each cut unit, and says how many there are.
pub(crate) fn draw(
    canvas: &mut Canvas,
    grounds: &[Ground<'_>],
    figures: &[Option<&SurfaceFigures>],
) {
    let both = grounds.iter().zip(figures);
    let count: usize = both
        .filter_map(|(ground, figures)| tint(canvas, ground, (*figures)?))
        .sum();
    if count > 0 {
        let sample = Path::polygon(&sample_corners());
        let sample = boxed(vec![Mark::Fill(vec![sample], Ink::Tint)]);
        let pieces = if count == 1 { "piece" } else { "pieces" };
        canvas.explain(sample, "Cut unit", Some(format!("{count} {pieces}")));
    }
}

/// The same for one surface; `None` where its units are not drawn one by one,
/// come again on others or are cut over valleys too.
fn tint(canvas: &mut Canvas, ground: &Ground<'_>, figures: &SurfaceFigures) -> Option<usize> {
    let surface = ground.surface;
    let layout = figures.layout.as_ref()?;
    let is_one = surface.count() <= 1.0 && surface.facets.is_empty();
    let count = Some(layout.cut).filter(|count| is_one && (1..=MOST).contains(count))?;
    let tiling = tiling(surface)?;
    let sizes = tiling.units.iter().map(|unit| unit.size.x.min(unit.size.y));
    let least = sizes.fold(f64::INFINITY, f64::min);
    (least * canvas.view.scale >= NARROWEST).then_some(())?;
    let mut pieces: Vec<Path> = Vec::new();
    for own in laid_over(surface, figures.paved())? {
        for cut in tiling.over(&own.pieces, &[]).ok()?.cuts {
            let unit = Outline::polygon(&cut.corners, |_| NO_TAG).ok()?;
            let left = own.pieces.iter();
            let left = left.filter_map(|piece| intersection(&unit, piece).ok());
            pieces.extend(left.flatten().map(|piece| {
                let drawn = canvas.view.outline(&piece);
                Path::round(&drawn.outer)
            }));
        }
    }
    let mark = Mark::Fill(pieces, Ink::Tint);
    canvas.draw_within(Layer::Units, surface, layout.place, mark);
    Some(count)
}
