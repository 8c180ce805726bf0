//! Where two lines or arcs cross or touch.

use super::bounds::Bounds;
use super::edge::Edge;
use super::monotone;
use super::point::{Point, Vector};

/// Where two sides cross, touch or, running along each other, begin and end.
pub(super) fn meetings(a: &Edge, b: &Edge, reach: f64) -> Vec<Point> {
    let mut found = Vec::new();
    for part in monotone::parts(a) {
        for other in monotone::parts(b) {
            found.extend(crossings(&part, &other, reach));
        }
    }
    found.extend(
        [b.start, b.end]
            .into_iter()
            .filter(|&end| a.distance_to(end) <= reach),
    );
    found.extend(
        [a.start, a.end]
            .into_iter()
            .filter(|&end| b.distance_to(end) <= reach),
    );
    found
}

/// The points in which two parts cross or touch, each part a line or at most
/// a quarter of a circle. Parts that overlap along a stretch give none: the
/// ends of the stretch are ends of the parts. Two curves that come within
/// `reach` of each other without crossing touch.
pub(super) fn crossings(a: &Edge, b: &Edge, reach: f64) -> Vec<Point> {
    let within = |edge: &Edge, point: Point| {
        Bounds::of_points(edge.start, edge.end)
            .grown(reach)
            .contains(point)
    };
    carried_on(a, b, reach)
        .into_iter()
        .filter(|&point| within(a, point) && within(b, point))
        .collect()
}

/// The points in which the whole lines or circles that two sides lie on cross
/// or touch.
pub(super) fn carried_on(a: &Edge, b: &Edge, reach: f64) -> Vec<Point> {
    match (a.is_arc(), b.is_arc()) {
        (false, false) => line_line(a, b).into_iter().collect(),
        (false, true) => line_circle(a, b, reach),
        (true, false) => line_circle(b, a, reach),
        (true, true) => circle_circle(a, b, reach),
    }
}

/// Whether a part passes within `reach` of `point`.
pub(super) fn touches(part: &Edge, point: Point, reach: f64) -> bool {
    if part.is_arc() {
        part.off_circle(point).abs() <= reach
            && Bounds::of_points(part.start, part.end)
                .grown(reach)
                .contains(point)
    } else {
        part.distance_to(point) <= reach
    }
}

fn line_line(a: &Edge, b: &Edge) -> Option<Point> {
    let (along, other) = (a.chord(), b.chord());
    let turn = along.cross(other);
    let parallel = turn.abs() <= 1e-14 * along.length() * other.length();
    (!parallel).then(|| a.start + along * ((b.start - a.start).cross(other) / turn))
}

fn line_circle(line: &Edge, arc: &Edge, reach: f64) -> Vec<Point> {
    let along = line.chord().unit();
    let to_centre = (arc.start - line.start) + arc.to_centre();
    let foot = line.start + along * along.dot(to_centre);
    let off = arc.off_circle(foot);
    if off > reach {
        return Vec::new();
    }
    if off >= -reach {
        return vec![foot];
    }
    let half = (-off * (2.0 * arc.radius() + off)).max(0.0).sqrt();
    vec![foot + along * -half, foot + along * half]
}

fn circle_circle(a: &Edge, b: &Edge, reach: f64) -> Vec<Point> {
    let (Some(centre), radius, other) = (a.centre(), a.radius(), b.radius()) else {
        return Vec::new();
    };
    let apart = (b.start - a.start) + (b.to_centre() - a.to_centre());
    let distance = apart.length();
    if distance <= reach {
        return Vec::new();
    }
    let toward = apart.unit();
    let overlap = (radius + other - distance).min(distance - (radius - other).abs());
    if overlap < -reach {
        return Vec::new();
    }
    let along = 0.5 * (distance + (radius - other) * (radius + other) / distance);
    if overlap <= reach {
        return vec![centre + toward * radius.copysign(along)];
    }
    let half = ((radius - along) * (radius + along)).max(0.0).sqrt();
    [toward.left() * half, toward.right() * half]
        .into_iter()
        .map(|aside| polished(centre + toward * along + aside, a, b))
        .collect()
}

/// One step of Newton's method toward both circles, which brings back what
/// far centres lost to rounding.
fn polished(point: Point, a: &Edge, b: &Edge) -> Point {
    let normal = |arc: &Edge| ((point - arc.start) - arc.to_centre()).unit();
    let (first, second) = (normal(a), normal(b));
    let (off_first, off_second) = (a.off_circle(point), b.off_circle(point));
    let turn = first.cross(second);
    if turn.abs() < 1e-9 {
        return point;
    }
    let step = Vector::new(
        second.y * off_first - first.y * off_second,
        first.x * off_second - second.x * off_first,
    );
    point + step * (-1.0 / turn)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A quarter circle about (x, y) that faces the quarter `turns`.
    fn quarter(x: f64, y: f64, radius: f64, turns: i32) -> Edge {
        let out = |turns: i32| match turns.rem_euclid(4) {
            0 => Vector::new(radius, 0.0),
            1 => Vector::new(0.0, radius),
            2 => Vector::new(-radius, 0.0),
            _ => Vector::new(0.0, -radius),
        };
        let centre = Point::new(x, y);
        Edge::arc(
            centre + out(turns),
            centre + out(turns + 1),
            2f64.sqrt() - 1.0,
            0,
        )
    }

    fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> Edge {
        Edge::line(Point::new(x0, y0), Point::new(x1, y1), 0)
    }

    #[test]
    fn crossings_and_touches_are_found() {
        let cases = [
            (
                "lines cross",
                line(0., 0., 4., 4.),
                line(0., 4., 4., 0.),
                vec![(2., 2.)],
            ),
            (
                "lines miss",
                line(0., 0., 1., 1.),
                line(0., 4., 4., 0.),
                vec![],
            ),
            (
                "parallel",
                line(0., 0., 4., 0.),
                line(0., 1., 4., 1.),
                vec![],
            ),
            (
                "on one line",
                line(0., 0., 4., 0.),
                line(2., 0., 6., 0.),
                vec![],
            ),
            (
                "line cuts arc",
                line(3., 0., 3., 9.),
                quarter(0., 0., 5., 0),
                vec![(3., 4.)],
            ),
            (
                "line touches arc",
                line(-3., 5., 3., 5.),
                quarter(0., 0., 5., 0),
                vec![(0., 5.)],
            ),
            (
                "line misses arc",
                line(-3., 5.1, 3., 5.1),
                quarter(0., 0., 5., 0),
                vec![],
            ),
            (
                "arcs cross",
                quarter(0., 0., 5., 0),
                quarter(6., 0., 5., 1),
                vec![(3., 4.)],
            ),
            (
                "arcs touch outside",
                quarter(0., 0., 2., 0),
                quarter(5., 0., 3., 1),
                vec![(2., 0.)],
            ),
            (
                "arcs touch inside",
                quarter(0., 0., 5., 0),
                quarter(2., 0., 3., 0),
                vec![(5., 0.)],
            ),
            (
                "small about large",
                quarter(2., 0., 3., 0),
                quarter(0., 0., 5., 0),
                vec![(5., 0.)],
            ),
            (
                "concentric",
                quarter(0., 0., 5., 0),
                quarter(0., 0., 4., 0),
                vec![],
            ),
        ];
        for (name, a, b, wanted) in cases {
            for (first, second) in [(a, b), (b, a), (a.reversed(), b)] {
                let found = crossings(&first, &second, 1e-9);
                assert_eq!(found.len(), wanted.len(), "{name}: {found:?}");
                for (found, &(x, y)) in found.iter().zip(&wanted) {
                    assert!(found.distance(Point::new(x, y)) < 1e-9, "{name}: {found:?}");
                }
            }
        }
    }

    #[test]
    fn flat_arcs_cross_where_they_should() {
        let up = Edge::arc(Point::new(0.0, 0.0), Point::new(10.0, 0.001), 1e-6, 0);
        let down = Edge::arc(Point::new(0.0, 0.001), Point::new(10.0, 0.0), 2e-6, 0);
        let found = crossings(&up, &down, 1e-8);
        assert_eq!(found.len(), 1);
        for point in found {
            assert!(up.off_circle(point).abs() < 1e-13 && down.off_circle(point).abs() < 1e-13);
        }
    }
}
