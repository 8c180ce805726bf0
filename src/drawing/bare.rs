//! A drawing without frame, legend and title block, cut to what is drawn: for a
//! page that sets all else itself.

use super::bearings;
use super::beside::moved;
use super::display_list::{Drawing, Item, Mark};
use super::scale::Scale;
use super::sheet::Panel;
use crate::geometry::{Edge, Point, Vector};
use crate::units::System;

/// The white round it, and the room of the scale bar under it.
pub(crate) const WHITE: f64 = 2.0;
pub(crate) const FOOT: f64 = 11.0;
/// The least width that a scale bar takes.
const BAR: f64 = 60.0;

/// The drawing cut to its marks, with its scale bar under them.
pub(crate) fn bare(mut drawing: Drawing, scale: &Scale, system: System) -> Drawing {
    let (low, high) = bounds(&drawing.items);
    let foot = Panel {
        low: Point::new(low.x - 6.0, low.y - FOOT),
        high: Point::new(high.x.max(low.x + BAR), low.y),
    };
    let bar = bearings::scale_bar(&foot, scale, system);
    drawing.items.extend(bar);
    let (low, high) = bounds(&drawing.items);
    let by = Point::new(WHITE, WHITE) - low;
    for item in &mut drawing.items {
        item.mark = moved(&item.mark, by);
    }
    let size: Vector = high - low;
    drawing.size = (size.x + 2.0 * WHITE, size.y + 2.0 * WHITE);
    drawing.origin = drawing.origin + by;
    drawing
}

/// The lowest and the highest corner of all marks.
fn bounds(items: &[Item]) -> (Point, Point) {
    let mut low = Point::new(f64::INFINITY, f64::INFINITY);
    let mut high = Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY);
    let mut take = |at: Point| {
        low = Point::new(low.x.min(at.x), low.y.min(at.y));
        high = Point::new(high.x.max(at.x), high.y.max(at.y));
    };
    for item in items {
        match &item.mark {
            Mark::Text(text) => text.extents().corners().into_iter().for_each(&mut take),
            Mark::Stroke(paths, _) | Mark::Fill(paths, _) => {
                for edge in paths.iter().flat_map(|path| &path.edges) {
                    along(edge).for_each(&mut take);
                }
            }
        }
    }
    match low.is_finite() && high.is_finite() {
        true => (low, high),
        false => (Point::ORIGIN, Point::ORIGIN),
    }
}

/// Points of an edge between which it bends by little.
fn along(edge: &Edge) -> impl Iterator<Item = Point> + '_ {
    let pieces = if edge.is_arc() { 8 } else { 1 };
    let step = edge.length() / f64::from(pieces);
    (0..=pieces).map(move |piece| match piece {
        0 => edge.start,
        piece => edge.point_at(f64::from(piece) * step),
    })
}
