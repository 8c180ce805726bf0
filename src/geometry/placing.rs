//! The same outline elsewhere or otherwise labelled: moved, turned, mirrored,
//! scaled, retagged.

use super::edge::{Edge, Tag};
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

    /// With the tag that `tag` gives for each side.
    pub fn retagged(&self, tag: impl Fn(&Edge) -> Tag) -> Outline {
        self.with_edges(|edge| Edge {
            tag: tag(edge),
            ..*edge
        })
    }

    pub(super) fn mapped(&self, place: impl Fn(Point) -> Point) -> Outline {
        self.with_edges(|edge| Edge {
            start: place(edge.start),
            end: place(edge.end),
            ..*edge
        })
    }

    fn with_edges(&self, change: impl Fn(&Edge) -> Edge) -> Outline {
        let changed = |boundary: &Loop| Loop {
            edges: boundary.edges.iter().map(&change).collect(),
        };
        Outline {
            outer: changed(&self.outer),
            holes: self.holes.iter().map(changed).collect(),
        }
    }
}
