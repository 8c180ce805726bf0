//! The piece that squares off the corner between two strips.

use std::f64::consts::PI;

use super::super::edge::{Edge, NO_TAG};

/// A mitre reaches this many times the distance at most.
pub(super) const MITRE_LIMIT: f64 = 4.0;

/// The piece between the strips on the right of two sides that follow each
/// other, anticlockwise; nothing where the strips meet anyway.
pub(super) fn corner(edge: &Edge, after: &Edge, beyond: f64) -> Vec<Edge> {
    let at = edge.end;
    let (arriving, leaving) = (edge.direction_at_end(), after.direction_at_start());
    let turn = turn(edge, after);
    if turn <= 0.0 {
        return Vec::new();
    }
    let (first, last) = (
        at + arriving.right() * beyond,
        at + leaving.right() * beyond,
    );
    let reach = 1.0 / (0.5 * turn).cos();
    let mut corners = vec![(at, edge.tag), (first, edge.tag)];
    if reach <= MITRE_LIMIT * (1.0 + 1e-9) {
        corners.push((
            at + (arriving.right() + leaving.right()).unit() * (beyond * reach),
            after.tag,
        ));
    } else {
        // Cut at right angles to the middle of the corner, `beyond` past it.
        let run = beyond * (0.25 * turn).tan();
        corners.push((first + arriving * run, NO_TAG));
        corners.push((last + leaving * -run, after.tag));
    }
    corners.push((last, after.tag));
    corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .map(|(&(start, tag), &(end, _))| Edge::line(start, end, tag))
        .collect()
}

/// The angle, in radians, by which the way turns left from one side to the
/// next. In a cusp, where it turns right back, the sides' curvature tells
/// whether the shape or the plan around it runs out to a point.
fn turn(edge: &Edge, after: &Edge) -> f64 {
    let turn = edge.direction_at_end().angle_to(after.direction_at_start());
    if turn.abs() < PI - 1e-7 {
        turn
    } else if edge.curvature() + after.curvature() < 0.0 {
        PI
    } else {
        -PI
    }
}
