//! Laying loops over one another: the one engine behind add, cut, common
//! part and offset.
//!
//! All sides are cut where they meet ([`meet`]), the cut points welded
//! ([`weld`]), coincident parts made one ([`seam`]); then it is counted how
//! often the loops run round the plan on either side of each part ([`ray`]),
//! and the parts with the wanted region on one side only are walked into
//! loops ([`trace`]). Nothing is flattened: a part of an arc stays an arc of
//! the same circle, and a side that is not cut comes out as it went in.

mod bands;
pub(super) mod meet;
mod monotone;
pub(super) mod ray;
mod seam;
mod trace;
mod weld;

use super::bounds::Bounds;
use super::edge::Edge;
use super::fault::{Fault, MOST_EDGES};
use super::outline::{Loop, Outline};

/// How often the loops of each of the two layers run round a place.
pub(super) type Windings = [i32; 2];

/// A side of a loop in one of the two layers.
#[derive(Debug, Clone, Copy)]
pub(super) struct Strand {
    pub edge: Edge,
    pub layer: usize,
}

/// The greatest number of sides laid over one another.
const MOST_STRANDS: usize = 12 * MOST_EDGES;

/// The loops as strands of one layer.
pub(super) fn strands<'a>(loops: impl Iterator<Item = &'a Loop>, layer: usize) -> Vec<Strand> {
    loops
        .flat_map(|boundary| &boundary.edges)
        .map(|&edge| Strand { edge, layer })
        .collect()
}

/// The connected shapes that make up the region in which `inside` holds.
/// Where sides of both layers coincide, the first layer's tag is kept.
///
/// # Errors
/// [`Fault::TooManyEdges`], [`Fault::TooLarge`], or [`Fault::Unclear`] when sides lie so close
/// together that they cannot be told apart.
pub(super) fn overlay(
    strands: &[Strand],
    inside: impl Fn(Windings) -> bool,
) -> Result<Vec<Outline>, Fault> {
    if strands.len() > MOST_STRANDS {
        return Err(Fault::TooManyEdges);
    }
    let finite = |strand: &Strand| strand.edge.start.is_finite() && strand.edge.end.is_finite();
    if !strands.iter().all(finite) {
        return Err(Fault::TooLarge);
    }
    let Some(bounds) = Bounds::of_all(strands.iter().map(|strand| Bounds::of_edge(&strand.edge)))
    else {
        return Ok(Vec::new());
    };
    // What is unclear at one reach is usually clear at a wider one, where
    // sides that all but coincide are taken as one.
    for factor in [1.0, 8.0, 64.0] {
        let reach = bounds.reach() * factor;
        let (seams, weld) = seam::seams(strands, reach).ok_or(Fault::TooManyEdges)?;
        let steps = seams
            .iter()
            .zip(ray::windings(&seams, &weld))
            .filter_map(
                |(seam, around)| match (inside(around.left), inside(around.right)) {
                    (true, false) => Some(seam.forward()),
                    (false, true) => Some(seam.backward()),
                    _ => None,
                },
            )
            .collect();
        let outlines = trace::loops(steps, &weld).and_then(|loops| {
            let loops = loops
                .iter()
                .map(|steps| trace::sides(steps, strands, &weld));
            nested(loops.collect(), reach)
        });
        if let Some(outlines) = outlines {
            return Ok(outlines);
        }
    }
    Err(Fault::Unclear)
}

/// Gathers loops into shapes: each hole goes with the smallest outer loop
/// around it. Loops thinner than the reach are dropped.
fn nested(loops: Vec<Loop>, reach: f64) -> Option<Vec<Outline>> {
    let (mut outlines, mut holes) = (Vec::new(), Vec::new());
    for boundary in loops {
        let area = boundary.signed_area();
        if area.abs() <= reach * boundary.length() {
            continue;
        }
        if area > 0.0 {
            outlines.push((
                area,
                Outline {
                    outer: boundary,
                    holes: Vec::new(),
                },
            ));
        } else {
            holes.push(boundary);
        }
    }
    for hole in holes {
        let inner = hole.edges.first()?.midpoint();
        let (_, around) = outlines
            .iter_mut()
            .filter(|(_, outline)| outline.outer.winding(inner) > 0)
            .min_by(|(a, _), (b, _)| a.total_cmp(b))?;
        around.holes.push(hole);
    }
    Some(outlines.into_iter().map(|(_, outline)| outline).collect())
}
