//! The simple shapes.

use super::edge::{Edge, Tag};
use super::fault::{Fault, MOST_EDGES, positive};
use super::outline::Outline;
use super::point::{Point, Vector};

impl Outline {
    /// An upright rectangle by its south-west corner, its width east and its
    /// depth north, in metres. The tags are those of the south, east, north
    /// and west side, which is also their order.
    ///
    /// # Errors
    /// Those of [`Outline::new`], and [`Fault::NotPositive`].
    pub fn rectangle(
        corner: Point,
        width: f64,
        depth: f64,
        tags: [Tag; 4],
    ) -> Result<Outline, Fault> {
        let (width, depth) = (positive(width)?, positive(depth)?);
        let at = |x: f64, y: f64| corner + Vector::new(x, y);
        let [south, east, north, west] = tags;
        Outline::new(vec![
            Edge::line(at(0.0, 0.0), at(width, 0.0), south),
            Edge::line(at(width, 0.0), at(width, depth), east),
            Edge::line(at(width, depth), at(0.0, depth), north),
            Edge::line(at(0.0, depth), at(0.0, 0.0), west),
        ])
    }

    /// A circle, as two half turns of one tag.
    ///
    /// # Errors
    /// Those of [`Outline::new`], and [`Fault::NotPositive`].
    pub fn circle(centre: Point, radius: f64, tag: Tag) -> Result<Outline, Fault> {
        let out = Vector::new(positive(radius)?, 0.0);
        let (east, west) = (centre + out, centre + -out);
        Outline::new(vec![
            Edge::arc(east, west, 1.0, tag),
            Edge::arc(west, east, 1.0, tag),
        ])
    }

    /// A polygon through the corners; the side after the corner with place n
    /// carries the tag that `tag` gives for n.
    ///
    /// # Errors
    /// Those of [`Outline::new`].
    pub fn polygon(corners: &[Point], tag: impl Fn(usize) -> Tag) -> Result<Outline, Fault> {
        if corners.len() > MOST_EDGES {
            return Err(Fault::TooManyEdges);
        }
        let sides = corners
            .iter()
            .zip(corners.iter().cycle().skip(1))
            .enumerate();
        Outline::new(
            sides
                .map(|(place, (&start, &end))| Edge::line(start, end, tag(place)))
                .collect(),
        )
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::super::sample::close;
    use super::*;

    #[test]
    fn primitives_have_their_sizes_and_tags() {
        let rectangle =
            Outline::rectangle(Point::new(0.0, -12.0), 24.0, 12.0, [1, 2, 3, 4]).unwrap();
        assert!(close(rectangle.area(), 288.0) && close(rectangle.perimeter(), 72.0));
        let north: Vec<f64> = rectangle.edges_tagged(3).map(|edge| edge.start.y).collect();
        assert_eq!(north, [0.0]);
        let circle = Outline::circle(Point::new(3.0, 4.0), 2.0, 9).unwrap();
        assert!(close(circle.area(), 4.0 * PI) && close(circle.perimeter(), 4.0 * PI));
        assert_eq!(circle.edges_tagged(9).count(), 2);
        let corners = [(0.0, 0.0), (3.0, 0.0), (0.0, 4.0)].map(|(x, y)| Point::new(x, y));
        let triangle = Outline::polygon(&corners, |place| place as Tag).unwrap();
        assert!(close(triangle.area(), 6.0) && close(triangle.perimeter(), 12.0));
    }

    #[test]
    fn sizes_must_be_positive() {
        for size in [0.0, -1.0] {
            assert_eq!(
                Outline::circle(Point::ORIGIN, size, 0),
                Err(Fault::NotPositive)
            );
            assert_eq!(
                Outline::rectangle(Point::ORIGIN, size, 1.0, [0; 4]),
                Err(Fault::NotPositive)
            );
        }
        assert_eq!(
            Outline::circle(Point::ORIGIN, f64::NAN, 0),
            Err(Fault::NotFinite)
        );
        assert_eq!(
            Outline::circle(Point::ORIGIN, 1e30, 0),
            Err(Fault::TooLarge)
        );
    }
}
