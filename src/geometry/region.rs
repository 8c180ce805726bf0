//! Outlines with holes added, cut or brought to their common part, loop by
//! loop.

use super::boolean::{Named, Operation, combined};
use super::bounds::Bounds;
use super::fault::Fault;
use super::outline::{Loop, Outline};

/// The pieces that either outline covers. The holes in them are those between
/// the outer loops, and what of each hole the other outline leaves open.
pub(super) fn added(a: &Outline, b: &Outline) -> Result<Vec<Outline>, Fault> {
    let bounds = [a.bounds(), b.bounds()];
    let ([far, near], [other_far, other_near]) = (parted(a, &bounds[1]), parted(b, &bounds[0]));
    for (holes, other) in [(&near, b), (&other_near, a)] {
        for hole in holes {
            if holds(&hole.outer, &other.outer)? {
                return Ok(vec![a.clone(), b.clone()]);
            }
        }
    }
    let mut loops = combined(&a.outer, &b.outer, Operation::Add, Named::First)?;
    let mut open = [far, other_far].concat();
    for hole in near {
        open.extend(cut(&hole, b)?);
    }
    for hole in other_near {
        open.extend(nested(combined(
            &hole.outer,
            &a.outer,
            Operation::Cut,
            Named::Second,
        )?)?);
    }
    loops.extend(open.iter().flat_map(Outline::loops).map(Loop::reversed));
    nested(loops)
}

/// The pieces that any of the outlines covers. Neighbours in the list are
/// joined first, so that loops grow large only at the end.
pub(super) fn united(mut outlines: Vec<Outline>) -> Result<Vec<Outline>, Fault> {
    let count = outlines.len();
    if count < 2 {
        return Ok(outlines);
    }
    let rest = outlines.split_off(count / 2);
    let mut all = united(outlines)?;
    for outline in united(rest)? {
        let (mut joined, mut apart) = (outline, Vec::with_capacity(all.len()));
        for other in all {
            if !other.bounds().is_near(&joined.bounds()) {
                apart.push(other);
                continue;
            }
            let mut both = added(&other, &joined)?;
            match both.pop() {
                Some(one) if both.is_empty() => joined = one,
                _ => apart.push(other),
            }
        }
        apart.push(joined);
        all = apart;
    }
    Ok(all)
}

/// The pieces of `a` that are left without `b`: those outside `b` and those
/// in its holes.
pub(super) fn cut(a: &Outline, b: &Outline) -> Result<Vec<Outline>, Fault> {
    let mut pieces = without(a, &b.outer, Named::First)?;
    for hole in &b.holes {
        pieces.extend(within(a, &hole.reversed())?);
    }
    Ok(pieces)
}

/// The pieces that both outlines cover.
pub(super) fn common(a: &Outline, b: &Outline) -> Result<Vec<Outline>, Fault> {
    without_holes(within(a, &b.outer)?, &b.holes, Named::First)
}

/// The pieces of an outline outside a loop. What is cut out is first joined
/// with the holes that it meets; the others stay holes.
fn without(outline: &Outline, boundary: &Loop, named: Named) -> Result<Vec<Outline>, Fault> {
    let (mut out, mut islands, mut apart) = (boundary.clone(), Vec::new(), Vec::new());
    let around = boundary.bounds();
    for hole in &outline.holes {
        if !hole.bounds().is_near(&around) {
            apart.push(hole.clone());
            continue;
        }
        let (mut outer, inner): (Vec<Loop>, Vec<Loop>) =
            combined(&hole.reversed(), &out, Operation::Add, named)?
                .into_iter()
                .partition(|found| found.signed_area() > 0.0);
        match outer.pop() {
            Some(joined) if outer.is_empty() => {
                out = joined;
                islands.extend(inner);
            }
            _ => apart.push(hole.clone()),
        }
    }
    let mut loops = combined(&outline.outer, &out, Operation::Cut, named)?;
    for hole in apart {
        if islands.is_empty() || !mostly_within(&hole, &out) {
            loops.push(hole);
        }
    }
    let mut pieces = nested(loops)?;
    // What is cut out and a hole may close round a piece of the outline.
    for island in islands {
        pieces.extend(within(outline, &island.reversed())?);
    }
    Ok(pieces)
}

/// The pieces of an outline inside a loop.
fn within(outline: &Outline, boundary: &Loop) -> Result<Vec<Outline>, Fault> {
    let pieces = nested(combined(
        &outline.outer,
        boundary,
        Operation::Common,
        Named::First,
    )?)?;
    without_holes(pieces, &outline.holes, Named::Second)
}

fn without_holes(
    mut pieces: Vec<Outline>,
    holes: &[Loop],
    named: Named,
) -> Result<Vec<Outline>, Fault> {
    for hole in holes {
        let hole = hole.reversed();
        let mut left = Vec::with_capacity(pieces.len());
        for piece in &pieces {
            left.extend(without(piece, &hole, named)?);
        }
        pieces = left;
    }
    Ok(pieces)
}

/// Whether one loop lies within another and meets it in points at most: then
/// all of both bounds what is between them.
fn holds(outer: &Loop, inner: &Loop) -> Result<bool, Fault> {
    let between = combined(outer, inner, Operation::Cut, Named::First)?;
    let length: f64 = between.iter().map(Loop::length).sum();
    let whole = outer.length() + inner.length();
    Ok(whole - length <= 1e-9 * whole)
}

/// The holes of an outline, filled: those away from the bounds, and those near
/// them.
fn parted(outline: &Outline, bounds: &Bounds) -> [Vec<Outline>; 2] {
    let filled = outline.holes.iter().map(|hole| Outline {
        outer: hole.reversed(),
        holes: Vec::new(),
    });
    let (near, far) = filled.partition(|hole| hole.bounds().is_near(bounds));
    [far, near]
}

/// Gathers loops into shapes: each hole goes with the smallest outer loop
/// around it.
fn nested(loops: Vec<Loop>) -> Result<Vec<Outline>, Fault> {
    let (outer, holes): (Vec<Loop>, Vec<Loop>) = loops
        .into_iter()
        .partition(|found| found.signed_area() > 0.0);
    let mut outlines: Vec<Outline> = outer
        .into_iter()
        .map(|outer| Outline {
            outer,
            holes: Vec::new(),
        })
        .collect();
    for hole in holes {
        let around = outlines
            .iter_mut()
            .filter(|outline| mostly_within(&hole, &outline.outer))
            .min_by(|a, b| {
                let area = |outline: &Outline| outline.outer.signed_area();
                area(a).total_cmp(&area(b))
            });
        around.ok_or(Fault::Unclear)?.holes.push(hole);
    }
    Ok(outlines)
}

/// Whether a hole lies within a loop, which it may touch in a few points.
fn mostly_within(hole: &Loop, around: &Loop) -> bool {
    let places = [0.25, 0.5, 0.75];
    let points = hole
        .edges
        .iter()
        .flat_map(|edge| places.map(|place| edge.point_at(place * edge.length())));
    let inside = points.filter(|&point| around.winding(point) > 0).count();
    2 * inside > places.len() * hole.edges.len()
}
