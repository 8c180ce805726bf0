//! The same outline elsewhere: moved, turned, mirrored, scaled.

use super::edge::Edge;
use super::outline::{Loop, Outline};
use super::point::{Point, Vector};

impl Outline {
    /// Moved `dx` metres east and `dy` metres north.
    pub fn moved(&self, dx: f64, dy: f64) -> Outline {
        self.mapped(|point| point + Vector::new(dx, dy))
    }

    /// Turned anticlockwise about the origin by `angle` radians.
    pub fn turned(&self, angle: f64) -> Outline {
        self.mapped(|point| Point::ORIGIN + (point - Point::ORIGIN).turned(angle))
    }

    /// Made `factor` times as large about the origin; `factor` is positive.
    pub fn scaled(&self, factor: f64) -> Outline {
        self.mapped(|point| Point::ORIGIN + (point - Point::ORIGIN) * factor)
    }

    /// Mirrored east for west at the line x = 0.
    pub fn mirrored(&self) -> Outline {
        let flipped = self.mapped(|point| Point::new(-point.x, point.y));
        // The mirror turns every arc and every loop round.
        let righted = |boundary: &Loop| Loop {
            edges: boundary
                .edges
                .iter()
                .rev()
                .map(|edge| Edge {
                    start: edge.end,
                    end: edge.start,
                    ..*edge
                })
                .collect(),
        };
        Outline {
            outer: righted(&flipped.outer),
            holes: flipped.holes.iter().map(righted).collect(),
        }
    }

    fn mapped(&self, place: impl Fn(Point) -> Point) -> Outline {
        let mapped = |boundary: &Loop| Loop {
            edges: boundary
                .edges
                .iter()
                .map(|edge| Edge {
                    start: place(edge.start),
                    end: place(edge.end),
                    ..*edge
                })
                .collect(),
        };
        Outline {
            outer: mapped(&self.outer),
            holes: self.holes.iter().map(mapped).collect(),
        }
    }
}
