//! Shapes for the tests of this room.

use proptest::prelude::*;

use super::{Edge, Outline, Point, Tag, difference, union};

/// Equal to nine figures.
pub(crate) fn close(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() <= 1e-9 * wanted.abs().max(1e-3)
}

/// So many cases a law, and no file left behind by one that fails.
pub(crate) fn cases(count: u32) -> ProptestConfig {
    ProptestConfig {
        cases: count,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

/// The closed path through the corners, its sides tagged 0, 1, 2 …
pub(crate) fn path(corners: &[(f64, f64)]) -> Vec<Edge> {
    corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .enumerate()
        .map(|(place, (&(x0, y0), &(x1, y1)))| {
            Edge::line(Point::new(x0, y0), Point::new(x1, y1), place as Tag)
        })
        .collect()
}

pub(crate) fn polygon(corners: &[(f64, f64)]) -> Outline {
    Outline::new(path(corners)).unwrap()
}

/// An upright rectangle by its south-west corner; south 0, east 1, north 2,
/// west 3.
pub(crate) fn rectangle(x: f64, y: f64, width: f64, depth: f64) -> Outline {
    Outline::rectangle(Point::new(x, y), width, depth, [0, 1, 2, 3]).unwrap()
}

/// A rectangle with corners rounded by a radius.
pub(crate) fn rounded(x: f64, y: f64, width: f64, depth: f64, radius: f64) -> Outline {
    let bulge = 2f64.sqrt() - 1.0;
    let (east, north) = (x + width, y + depth);
    let at = Point::new;
    Outline::new(vec![
        Edge::line(at(x + radius, y), at(east - radius, y), 0),
        Edge::arc(at(east - radius, y), at(east, y + radius), bulge, 4),
        Edge::line(at(east, y + radius), at(east, north - radius), 1),
        Edge::arc(at(east, north - radius), at(east - radius, north), bulge, 4),
        Edge::line(at(east - radius, north), at(x + radius, north), 2),
        Edge::arc(at(x + radius, north), at(x, north - radius), bulge, 4),
        Edge::line(at(x, north - radius), at(x, y + radius), 3),
        Edge::arc(at(x, y + radius), at(x + radius, y), bulge, 4),
    ])
    .unwrap()
}

/// Lengths between two bounds in steps of 6 in, of 1/16 in, or of any size.
fn length(low: f64, high: f64) -> impl Strategy<Value = f64> {
    let stepped = move |step: f64| {
        let (first, last) = ((low / step).ceil() as i32, (high / step).floor() as i32);
        (first..=last).prop_map(move |count| f64::from(count) * step)
    };
    prop_oneof![3 => stepped(0.1524), 1 => stepped(0.0254 / 16.0), 1 => low..high]
}

/// A rectangle, circle, rounded rectangle, half circle or L.
pub(crate) fn simple_shape() -> impl Strategy<Value = Outline> {
    let place = (length(-3.0, 3.0), length(-3.0, 3.0));
    let size = (length(1.0, 5.0), length(1.0, 5.0));
    (place, size, length(0.31, 0.46), 0..6u8).prop_map(|((x, y), (width, depth), part, kind)| {
        match kind {
            0 => rectangle(x, y, width, depth),
            1 => Outline::circle(Point::new(x, y), width, 4).unwrap(),
            2 => rounded(x, y, width, depth, part),
            3 => {
                let (start, end) = (Point::new(x, y), Point::new(x + width, y));
                Outline::new(vec![
                    Edge::arc(start, end, 1.0, 4),
                    Edge::line(end, start, 0),
                ])
                .unwrap()
            }
            4 => {
                let (start, end) = (Point::new(x, y), Point::new(x + width, y + depth));
                Outline::new(vec![
                    Edge::arc(start, end, -part, 4),
                    Edge::line(end, start, 0),
                ])
                .unwrap()
            }
            _ => polygon(&[
                (x, y),
                (x + width, y),
                (x + width, y + part),
                (x + part, y + part),
                (x + part, y + depth),
                (x, y + depth),
            ]),
        }
    })
}

/// One of the simple shapes, or two of them added or cut.
pub(crate) fn shape() -> impl Strategy<Value = Outline> {
    (simple_shape(), simple_shape(), 0..3u8).prop_map(|(first, second, kind)| {
        let combined = match kind {
            0 => union(&first, &second),
            1 => difference(&first, &second),
            _ => Ok(first.clone()),
        };
        combined.unwrap_or(first)
    })
}

/// A shape with what is left of several holes in it.
pub(crate) fn holed_shape() -> impl Strategy<Value = Outline> {
    let holes = prop::collection::vec(simple_shape(), 1..5);
    (shape(), holes).prop_map(|(whole, holes)| {
        holes.into_iter().fold(whole.scaled(2.0), |left, hole| {
            difference(&left, &hole.scaled(0.5)).unwrap_or(left)
        })
    })
}
