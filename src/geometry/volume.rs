//! Cut and fill: the volumes between two planes over an outline.

use super::edge::Edge;
use super::outline::Outline;
use super::plane::Plane;
use super::point::{Point, Vector};

/// Volumes between two planes, in cubic metres, both positive or zero.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Volumes {
    /// Where the upper plane lies above the lower.
    pub above: f64,
    /// Where it lies below.
    pub below: f64,
}

/// The volumes between two planes over an outline, exact for lines and arcs:
/// the part where `upper` lies above `lower`, and the part where it lies
/// below.
pub fn volumes_between(outline: &Outline, upper: &Plane, lower: &Plane) -> Volumes {
    let height = upper.less(lower);
    let total = outline.area() * height.level_at(outline.centroid());
    let (least, most) = height.levels_over(outline);
    if least >= 0.0 {
        return Volumes {
            above: total.max(0.0),
            below: 0.0,
        };
    }
    if most <= 0.0 {
        return Volumes {
            above: 0.0,
            below: (-total).max(0.0),
        };
    }
    let above = volume_above(outline, &height).max(0.0);
    Volumes {
        above,
        below: (above - total).max(0.0),
    }
}

/// The volume between the positive part of a plane that crosses zero over the
/// outline, and level zero. By Green's theorem it is a sum over the sides:
/// with t the distance uphill from the zero line and s the distance along it,
/// slope × ∮ −½ t² ds, over what of each side has t > 0.
fn volume_above(outline: &Outline, height: &Plane) -> f64 {
    let slope = height.slope();
    let uphill = height.gradient().unit();
    let centroid = outline.centroid();
    let zero = centroid + uphill * (-height.level_at(centroid) / slope);
    let moment: f64 = outline
        .edges()
        .flat_map(|edge| parts_above(edge, zero, uphill))
        .map(|part| {
            let (start, end) = (uphill.dot(part.start - zero), uphill.dot(part.end - zero));
            let along = uphill.right().dot(part.chord());
            let chord = -along * (start * start + start * end + end * end) / 6.0;
            chord + uphill.dot(part.segment_moment(zero))
        })
        .sum();
    slope * moment
}

/// The parts of a side that lie uphill of the line through `zero`.
fn parts_above(edge: &Edge, zero: Point, uphill: Vector) -> Vec<Edge> {
    let mut cuts = vec![0.0];
    cuts.extend(cuts_at(edge, zero, uphill));
    cuts.push(edge.length());
    cuts.iter()
        .zip(cuts.iter().skip(1))
        .map(|(&from, &to)| edge.between(from, to))
        .filter(|part| uphill.dot(part.midpoint() - zero) > 0.0)
        .collect()
}

/// The distances along a side at which it crosses the line through `zero` at
/// right angles to `uphill`, in order.
fn cuts_at(edge: &Edge, zero: Point, uphill: Vector) -> Vec<f64> {
    let length = edge.length();
    let mut cuts = Vec::new();
    if edge.is_arc() {
        let to_centre = edge.to_centre();
        let rise = uphill.dot(edge.start - zero) + uphill.dot(to_centre);
        let radius = edge.radius();
        if rise.abs() < radius {
            let half = ((radius - rise) * (radius + rise)).sqrt();
            let foot = edge.start + to_centre + uphill * -rise;
            for point in [foot + uphill.left() * half, foot + uphill.right() * half] {
                cuts.push(edge.distance_along(point));
            }
        }
    } else {
        let (start, end) = (uphill.dot(edge.start - zero), uphill.dot(edge.end - zero));
        if (start < 0.0) != (end < 0.0) {
            cuts.push(length * start / (start - end));
        }
    }
    cuts.retain(|&cut| cut > 0.0 && cut < length);
    cuts.sort_by(f64::total_cmp);
    cuts
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::super::sample::{cases, close, rectangle, shape};
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn volumes_agree_with_the_closed_form() {
        let square = rectangle(0.0, 0.0, 4.0, 3.0);
        let tilted = Plane::through(0.0, Point::new(1.0, 0.0), Vector::new(0.1, 0.0));
        let found = volumes_between(&square, &tilted, &Plane::level(0.0));
        // Two wedges: ½ · 0.3 · 3 · 3 and ½ · 0.1 · 1 · 3.
        assert!(close(found.above, 1.35) && close(found.below, 0.15));

        // The hoof cut from a half cylinder by a plane through its diameter: ⅔ r² h.
        let circle = Outline::circle(Point::new(7.0, -2.0), 3.0, 0).unwrap();
        let plane = Plane::through(0.5, Point::new(7.0, -2.0), Vector::new(0.0, 0.2));
        let found = volumes_between(&circle, &plane, &Plane::level(0.5));
        assert!(close(found.above, 2.0 / 3.0 * 9.0 * 0.6) && close(found.below, found.above));

        let deep = volumes_between(&circle, &plane.raised(1.0), &Plane::level(0.5));
        assert!(close(deep.above, 9.0 * PI) && deep.below == 0.0);
    }

    #[test]
    fn one_plane_above_the_other_throughout() {
        let square = rectangle(0.0, 0.0, 4.0, 3.0);
        let lower = Plane::through(-1.0, Point::ORIGIN, Vector::new(0.02, 0.01));
        let upper = Plane::level(0.0);
        let found = volumes_between(&square, &upper, &lower);
        assert!(close(found.above, 12.0 * (1.0 - 0.02 * 2.0 - 0.01 * 1.5)) && found.below == 0.0);
        let turned = volumes_between(&square, &lower, &upper);
        assert!(close(turned.below, found.above) && turned.above == 0.0);
        assert_eq!(volumes_between(&square, &upper, &upper), Volumes::default());
    }

    proptest! {
        #![proptest_config(cases(128))]

        #[test]
        fn volumes_agree_with_thin_columns(
            outline in shape(), east in -0.3..0.3f64, north in -0.3..0.3f64, level in -1.0..1.0f64,
        ) {
            let plane = Plane::through(level, Point::new(3.0, 3.0), Vector::new(east, north));
            let found = volumes_between(&outline, &plane, &Plane::level(0.0));
            let (low, high) = outline.bounding_box();
            let (width, depth) = (high.x - low.x, high.y - low.y);
            let (mut above, mut below) = (0.0, 0.0);
            for column in 0..60 {
                for row in 0..60 {
                    let point = Point::new(
                        low.x + width * (f64::from(column) + 0.5) / 60.0,
                        low.y + depth * (f64::from(row) + 0.5) / 60.0,
                    );
                    let winding: i32 = outline.loops().map(|boundary| boundary.winding(point)).sum();
                    if winding > 0 {
                        let height = plane.level_at(point) * width * depth / 3600.0;
                        above += height.max(0.0);
                        below += (-height).max(0.0);
                    }
                }
            }
            let highest = plane.levels_over(&outline).1.abs().max(plane.levels_over(&outline).0.abs());
            let allowed = 0.05 * width * depth * highest + 1e-9;
            prop_assert!((found.above - above).abs() < allowed, "{found:?}, {above}");
            prop_assert!((found.below - below).abs() < allowed, "{found:?}, {below}");
        }

        #[test]
        fn above_less_below_is_the_whole(outline in shape(), east in -0.3..0.3f64, level in -1.0..1.0f64) {
            let plane = Plane::through(level, Point::new(3.0, 3.0), Vector::new(east, 0.1));
            let found = volumes_between(&outline, &plane, &Plane::level(0.0));
            let down = volumes_between(&outline, &Plane::level(0.0), &plane);
            prop_assert!((found.above - down.below).abs() < 1e-9 && (found.below - down.above).abs() < 1e-9);
        }
    }
}
