//! Places on the plan and the way from one to another.

use std::ops::{Add, Mul, Neg, Sub};

/// A place on the plan, in metres: x grows east, y grows north.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// How far east of the origin.
    pub x: f64,
    /// How far north of it.
    pub y: f64,
}

/// A displacement or a direction on the plan, in metres east and north.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Vector {
    /// How far east.
    pub x: f64,
    /// How far north.
    pub y: f64,
}

impl Point {
    /// The origin of the plan.
    pub const ORIGIN: Point = Point { x: 0.0, y: 0.0 };

    /// The point `x` metres east and `y` metres north of the origin.
    pub const fn new(x: f64, y: f64) -> Point {
        Point { x, y }
    }

    /// The straight distance to `other`, in metres.
    pub fn distance(self, other: Point) -> f64 {
        (other - self).length()
    }

    /// The point half way to `other`.
    pub fn midpoint(self, other: Point) -> Point {
        self + (other - self) * 0.5
    }

    /// Whether both coordinates are ordinary numbers.
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }
}

impl Vector {
    /// The displacement `x` metres east and `y` metres north.
    pub const fn new(x: f64, y: f64) -> Vector {
        Vector { x, y }
    }

    /// The unit vector along a bearing, in degrees clockwise from plan north.
    /// The four compass points are exact.
    pub fn from_bearing(degrees: f64) -> Vector {
        let turn = degrees.rem_euclid(360.0);
        if turn == 0.0 {
            Vector::new(0.0, 1.0)
        } else if turn == 90.0 {
            Vector::new(1.0, 0.0)
        } else if turn == 180.0 {
            Vector::new(0.0, -1.0)
        } else if turn == 270.0 {
            Vector::new(-1.0, 0.0)
        } else {
            let (sin, cos) = turn.to_radians().sin_cos();
            Vector::new(sin, cos)
        }
    }

    /// The bearing of this direction, in degrees from 0 up to 360 clockwise
    /// from plan north.
    pub fn bearing(self) -> f64 {
        let degrees = self.x.atan2(self.y).to_degrees().rem_euclid(360.0);
        // North is 0 and never -0.
        if degrees > 0.0 && degrees < 360.0 {
            degrees
        } else {
            0.0
        }
    }

    /// The scalar product.
    pub fn dot(self, other: Vector) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The height of the vector product: positive when `other` lies to the
    /// left of this direction.
    pub fn cross(self, other: Vector) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// The length, in metres.
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The same direction with length one; the zero vector stays zero.
    pub fn unit(self) -> Vector {
        let length = self.length();
        if length > 0.0 {
            Vector::new(self.x / length, self.y / length)
        } else {
            self
        }
    }

    /// A quarter turn anticlockwise.
    pub fn left(self) -> Vector {
        Vector::new(-self.y, self.x)
    }

    /// A quarter turn clockwise.
    pub fn right(self) -> Vector {
        Vector::new(self.y, -self.x)
    }

    /// Turned anticlockwise by `angle` radians.
    pub fn turned(self, angle: f64) -> Vector {
        let (sin, cos) = angle.sin_cos();
        Vector::new(self.x * cos - self.y * sin, self.x * sin + self.y * cos)
    }

    /// The angle from this direction to `other`, in radians, anticlockwise
    /// positive, within ±π.
    pub fn angle_to(self, other: Vector) -> f64 {
        self.cross(other).atan2(self.dot(other))
    }
}

impl Sub for Point {
    type Output = Vector;
    fn sub(self, other: Point) -> Vector {
        Vector::new(self.x - other.x, self.y - other.y)
    }
}

impl Add<Vector> for Point {
    type Output = Point;
    fn add(self, step: Vector) -> Point {
        Point::new(self.x + step.x, self.y + step.y)
    }
}

impl Add for Vector {
    type Output = Vector;
    fn add(self, other: Vector) -> Vector {
        Vector::new(self.x + other.x, self.y + other.y)
    }
}

impl Sub for Vector {
    type Output = Vector;
    fn sub(self, other: Vector) -> Vector {
        Vector::new(self.x - other.x, self.y - other.y)
    }
}

impl Mul<f64> for Vector {
    type Output = Vector;
    fn mul(self, factor: f64) -> Vector {
        Vector::new(self.x * factor, self.y * factor)
    }
}

impl Neg for Vector {
    type Output = Vector;
    fn neg(self) -> Vector {
        Vector::new(-self.x, -self.y)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bearings_run_clockwise_from_north() {
        let cases = [
            (0.0, 0.0, 1.0),
            (90.0, 1.0, 0.0),
            (180.0, 0.0, -1.0),
            (270.0, -1.0, 0.0),
            (-90.0, -1.0, 0.0),
            (450.0, 1.0, 0.0),
        ];
        for (degrees, x, y) in cases {
            assert_eq!(Vector::from_bearing(degrees), Vector::new(x, y));
        }
        let north_east = Vector::from_bearing(45.0);
        assert!((north_east.x - 0.5f64.sqrt()).abs() < 1e-15);
        assert!((Vector::from_bearing(200.0).bearing() - 200.0).abs() < 1e-12);
    }

    #[test]
    fn the_zero_vector_has_no_direction() {
        assert_eq!(Vector::default().unit(), Vector::default());
        assert_eq!(Vector::new(0.0, 3.0).unit(), Vector::new(0.0, 1.0));
    }

    #[test]
    fn turning_left_is_positive() {
        let east = Vector::new(1.0, 0.0);
        let north = Vector::new(0.0, 1.0);
        assert!((east.angle_to(north) - std::f64::consts::FRAC_PI_2).abs() < 1e-15);
        assert_eq!(east.left(), north);
        assert_eq!(north.right(), east);
    }
}
