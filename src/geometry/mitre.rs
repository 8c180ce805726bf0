//! Mitres: the lines at which strips along two straight sides meet.

use super::edge::Edge;
use super::outline::Outline;
use super::point::{Point, Vector};

/// Sides that turn by less than this, in radians, run on.
const RUNS_ON: f64 = 1e-6;

/// Sides that turn back by more than this, in radians, have no mitre.
const TURNS_BACK: f64 = 3.0;

/// The corner at which two straight sides meet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mitre {
    /// The corner.
    pub corner: Point,
    /// From the corner inward along the mitre, for a strip one metre wide.
    pub inward: Vector,
    /// The tangent of half the angle by which the sides turn; negative where
    /// the corner points into the outline.
    pub half_turn: f64,
}

impl Mitre {
    /// How long the mitre of a strip so wide is, in metres.
    pub fn length(&self, wide: f64) -> f64 {
        self.inward.length() * wide
    }
}

/// The mitre between a side and the next; `None` where one of them is an arc,
/// they run on, or turn back.
pub fn mitre(before: &Edge, next: &Edge) -> Option<Mitre> {
    if before.is_arc() || next.is_arc() {
        return None;
    }
    let (way, on) = (before.direction_at_end(), next.direction_at_start());
    let turn = way.angle_to(on);
    if !(RUNS_ON..=TURNS_BACK).contains(&turn.abs()) {
        return None;
    }
    let half_turn = (0.5 * turn).tan();
    Some(Mitre {
        corner: next.start,
        inward: on.left() + on * half_turn,
        half_turn,
    })
}

/// The mitres of a strip inside an outline along those sides that it keeps to.
pub fn mitres(outline: &Outline, along: &dyn Fn(&Edge) -> bool) -> Vec<Mitre> {
    let of_loop = |edges: &[Edge]| {
        let next = edges.iter().cycle().skip(1);
        let pairs = edges.iter().zip(next);
        let both = pairs.filter(|(one, other)| along(one) && along(other));
        both.filter_map(|(one, other)| mitre(one, other))
            .collect::<Vec<Mitre>>()
    };
    let loops = outline.loops();
    loops
        .flat_map(|boundary| of_loop(&boundary.edges))
        .collect()
}
