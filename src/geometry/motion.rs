//! An outline laid elsewhere as it is: turned about a point, then moved.

use super::outline::Outline;
use super::point::{Point, Vector};

/// How something is laid elsewhere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Motion {
    /// What it is turned about.
    pub about: Point,
    /// How far it is turned, anticlockwise, in radians.
    pub turn: f64,
    /// How far it is moved after that, in metres.
    pub by: Vector,
}

impl Motion {
    /// Moved and not turned.
    pub const fn moved(by: Vector) -> Motion {
        Motion {
            about: Point::ORIGIN,
            turn: 0.0,
            by,
        }
    }

    /// Where a point comes to lie.
    pub fn point(&self, point: Point) -> Point {
        match self.turn == 0.0 {
            true => point + self.by,
            false => self.about + (point - self.about).turned(self.turn) + self.by,
        }
    }

    /// Where an outline comes to lie, its edges as they are tagged.
    pub fn outline(&self, outline: &Outline) -> Outline {
        outline.mapped(|point| self.point(point))
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::rectangle;
    use super::*;

    #[test]
    fn what_is_laid_elsewhere_is_as_large_and_as_long() {
        let flag = rectangle(1.0, 2.0, 1.6, 2.4);
        for turn in [0.0, 0.4, -2.0] {
            let motion = Motion {
                about: Point::new(1.0, 2.0),
                turn,
                by: Vector::new(0.7, 0.1),
            };
            let laid = motion.outline(&flag);
            assert!((laid.area() - flag.area()).abs() < 1e-12);
            assert!((laid.perimeter() - flag.perimeter()).abs() < 1e-12);
            // What it is turned about is only moved.
            let corner = motion.point(Point::new(1.0, 2.0));
            assert!(corner.distance(Point::new(1.7, 2.1)) < 1e-12);
        }
        assert_eq!(Motion::moved(Vector::default()).outline(&flag), flag);
    }
}
