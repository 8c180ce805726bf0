//! Walking the boundary of a region into loops.

use std::f64::consts::TAU;

use super::super::edge::Edge;
use super::super::outline::Loop;
use super::super::point::Point;
use super::Strand;
use super::seam::Step;
use super::weld::Weld;

/// The closed walks over the steps, the region on the left of each. A walk
/// that comes back to a place it has been at is closed there, so a hole that
/// touches the outer loop in a point stays a hole. None if some walk does not
/// close.
pub(super) fn loops(steps: Vec<Step>, weld: &Weld) -> Option<Vec<Vec<Step>>> {
    let mut leaving: Vec<Vec<usize>> = vec![Vec::new(); weld.points().len()];
    for (number, step) in steps.iter().enumerate() {
        leaving.get_mut(step.from)?.push(number);
    }
    let mut walked = vec![false; steps.len()];
    let mut loops = Vec::new();
    for first in 0..steps.len() {
        let mut path: Vec<Step> = Vec::new();
        let mut next = Some(first);
        while let Some(number) = next {
            let taken = walked.get_mut(number)?;
            if std::mem::replace(taken, true) {
                // Only the first step may have been walked already.
                if path.is_empty() {
                    break;
                }
                return None;
            }
            let step = *steps.get(number)?;
            path.push(step);
            let begun = path.iter().position(|earlier| earlier.from == step.to);
            if let Some(begun) = begun {
                loops.push(path.split_off(begun));
            }
            if path.is_empty() {
                break;
            }
            let ways: Vec<usize> = leaving
                .get(step.to)?
                .iter()
                .copied()
                .filter(|&way| walked.get(way) == Some(&false))
                .collect();
            next = Some(sharpest(&step, &ways, &steps, weld)?);
        }
    }
    Some(loops)
}

/// Of the ways that leave the end of `step`, the first clockwise from the
/// way back: it bounds the same wedge of the region.
fn sharpest(step: &Step, ways: &[usize], steps: &[Step], weld: &Weld) -> Option<usize> {
    if let [only] = ways {
        return Some(*only);
    }
    let edge_of =
        |step: &Step| Edge::arc(weld.point(step.from), weld.point(step.to), step.bulge, 0);
    let back = edge_of(step).reversed();
    let leaving: Vec<(usize, Edge)> = ways
        .iter()
        .filter_map(|&way| steps.get(way).map(|step| (way, edge_of(step))))
        .collect();
    // Seen on a small circle round the place, where tangent arcs are apart.
    let radius = leaving
        .iter()
        .map(|(_, edge)| edge.chord().length())
        .fold(back.chord().length(), f64::min)
        / 2.0;
    let start = bearing_at(&back, radius);
    leaving
        .into_iter()
        .map(|(way, edge)| ((start - bearing_at(&edge, radius)).rem_euclid(TAU), way))
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, way)| way)
}

/// The angle, from east, at which a part leaves a circle of the given radius
/// round its start.
fn bearing_at(part: &Edge, radius: f64) -> f64 {
    let tangent = part.direction_at_start();
    let bend = if part.is_arc() {
        (radius / (2.0 * part.radius())).asin() * part.bulge.signum()
    } else {
        0.0
    };
    tangent.y.atan2(tangent.x) + bend
}

/// A closed walk as sides: the parts of one source side are joined again, a
/// side that was not cut is given as it was, and straight sides of one tag
/// that run on in one line become one.
pub(super) fn sides(steps: &[Step], strands: &[Strand], weld: &Weld) -> Loop {
    let goes_on = |a: &Step, b: &Step| a.source == b.source && a.forward == b.forward;
    let begin = steps
        .iter()
        .zip(steps.iter().cycle().skip(1))
        .position(|(step, next)| !goes_on(step, next))
        .map_or(0, |place| place + 1);
    let mut runs: Vec<(Step, Step, f64)> = Vec::new();
    for step in steps.iter().cycle().skip(begin).take(steps.len()) {
        let quarter = step.bulge.atan();
        match runs.last_mut() {
            Some((_, last, sum)) if goes_on(last, step) => {
                *last = *step;
                *sum += quarter;
            }
            _ => runs.push((*step, *step, quarter)),
        }
    }
    let edges = runs
        .into_iter()
        .filter_map(|(first, last, quarter)| {
            let source = strands.get(first.source)?.edge;
            let source = if first.forward {
                source
            } else {
                source.reversed()
            };
            let (start, end) = (weld.point(first.from), weld.point(last.to));
            let whole = start == source.start && end == source.end;
            let bulge = if whole || !source.is_arc() {
                source.bulge
            } else {
                quarter.tan()
            };
            Some(Edge {
                start,
                end,
                bulge,
                tag: source.tag,
            })
        })
        .collect();
    Loop {
        edges: straightened(edges, weld.reach()),
    }
}

/// Joins straight sides of one tag that run on in one line.
fn straightened(edges: Vec<Edge>, reach: f64) -> Vec<Edge> {
    let mut joined: Vec<Edge> = Vec::with_capacity(edges.len());
    for edge in edges {
        match joined.last_mut() {
            Some(last) if runs_on(last, &edge, reach) => last.end = edge.end,
            _ => joined.push(edge),
        }
    }
    if let (Some(first), Some(last)) = (joined.first().copied(), joined.last().copied())
        && joined.len() > 2
        && runs_on(&last, &first, reach)
    {
        joined.pop();
        if let Some(first) = joined.first_mut() {
            first.start = last.start;
        }
    }
    joined
}

fn runs_on(a: &Edge, b: &Edge, reach: f64) -> bool {
    let straight = !a.is_arc() && !b.is_arc() && a.tag == b.tag;
    let joint: Point = a.end;
    straight
        && a.chord().dot(b.chord()) > 0.0
        && Edge::line(a.start, b.end, a.tag).distance_to(joint) <= reach
}
