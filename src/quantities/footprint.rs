//! The ground that a layer covers, in pieces.

use std::sync::Arc;

use super::sharing::Piece;
use crate::geometry::{Outline, Point};

/// The ground that a layer covers.
#[derive(Debug, Clone, PartialEq)]
pub struct Footprint {
    /// The surface's outlines, pushed out.
    pub outlines: Vec<Arc<Outline>>,
    /// What other surfaces leave of it; the outline alone if they take
    /// nothing.
    pub pieces: Vec<Piece>,
    /// The area of it, in square metres, on which steps or channels stand.
    pub under_steps_m2: f64,
    /// What kerbs, channels and trenches with their concrete and stone take of
    /// the layer's volume, in cubic metres.
    pub taken_m3: f64,
}

impl Footprint {
    /// The area covered, in square metres.
    pub fn area_m2(&self) -> f64 {
        self.pieces.iter().map(Piece::area_m2).sum()
    }

    /// The middle of what is covered: its centre of gravity.
    pub fn middle(&self) -> Point {
        let sums = self
            .pieces
            .iter()
            .fold((0.0, 0.0, 0.0), |(area, x, y), piece| {
                let (own, at) = (piece.area_m2(), piece.outline.centroid());
                (area + own, x + own * at.x, y + own * at.y)
            });
        match sums {
            (area, x, y) if area > 0.0 => Point::new(x / area, y / area),
            _ => {
                let first = self.outlines.first();
                first.map_or(Point::ORIGIN, |outline| outline.centroid())
            }
        }
    }

    /// The area of its outlines, in square metres.
    pub fn whole_m2(&self) -> f64 {
        self.outlines.iter().map(|outline| outline.area()).sum()
    }

    /// The area that other surfaces cover of it.
    pub fn shared_m2(&self) -> f64 {
        (self.whole_m2() - self.area_m2() - self.under_steps_m2).max(0.0)
    }
}
