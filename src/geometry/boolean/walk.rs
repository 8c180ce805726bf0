//! From closed walks along seams to loops of sides.

use rustc_hash::FxHashMap;

use super::super::edge::Edge;
use super::super::outline::Loop;
use super::seam::Seam;
use super::seams::Seams;

/// The loops that closed walks make. A walk that comes back to a place it has
/// been at is closed there, so a hole that touches the outer loop in a point
/// stays a hole. Loops thinner than the reach are dropped.
pub(super) fn loops(walks: Vec<Vec<Seam>>, seams: &Seams) -> Vec<Loop> {
    let reach = seams.weld.reach();
    walks
        .into_iter()
        .flat_map(parted)
        .map(|walk| sides(&walk, seams))
        .filter(|boundary| boundary.signed_area().abs() > reach * boundary.length())
        .collect()
}

/// A walk parted where it comes back to a place.
fn parted(walk: Vec<Seam>) -> Vec<Vec<Seam>> {
    let mut parted = Vec::new();
    let mut path: Vec<Seam> = Vec::new();
    let mut been: FxHashMap<usize, usize> = FxHashMap::default();
    for seam in walk {
        been.insert(seam.from, path.len());
        path.push(seam);
        if let Some(&begun) = been.get(&seam.to) {
            let closed = path.split_off(begun);
            for seam in &closed {
                been.remove(&seam.from);
            }
            parted.push(closed);
        }
    }
    parted
}

/// A closed walk as sides: the seams of one side are joined again, a side that
/// was not cut is given as it was, and straight sides of one tag that run on
/// in one line become one.
fn sides(walk: &[Seam], seams: &Seams) -> Loop {
    let goes_on = |a: &Seam, b: &Seam| a.side == b.side && a.forward == b.forward;
    let begin = walk
        .iter()
        .zip(walk.iter().cycle().skip(1))
        .position(|(seam, next)| !goes_on(seam, next))
        .map_or(0, |place| place + 1);
    // The first and last seam of each side, and the sum of the arcs' quarters.
    let mut runs: Vec<(Seam, Seam, f64)> = Vec::new();
    for &seam in walk.iter().cycle().skip(begin).take(walk.len()) {
        let quarter = seam.bulge.atan();
        match runs.last_mut() {
            Some((_, last, sum)) if goes_on(last, &seam) => {
                *last = seam;
                *sum += quarter;
            }
            _ => runs.push((seam, seam, quarter)),
        }
    }
    let edges = runs.into_iter().filter_map(|(first, last, quarter)| {
        let whole = *seams.sides.get(first.side)?;
        let whole = if first.forward {
            whole
        } else {
            whole.reversed()
        };
        let (start, end) = (seams.weld.point(first.from), seams.weld.point(last.to));
        let cut = (start, end) != (whole.start, whole.end);
        let bulge = if cut && whole.is_arc() {
            quarter.tan()
        } else {
            whole.bulge
        };
        Some(Edge {
            start,
            end,
            bulge,
            ..whole
        })
    });
    Loop {
        edges: straightened(edges, seams.weld.reach()),
    }
}

/// Joins straight sides of one tag that run on in one line.
fn straightened(edges: impl Iterator<Item = Edge>, reach: f64) -> Vec<Edge> {
    let mut joined: Vec<Edge> = Vec::new();
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
    straight
        && a.chord().dot(b.chord()) > 0.0
        && Edge::line(a.start, b.end, a.tag).distance_to(a.end) <= reach
}
