//! Whose the ground is that several surfaces reach.
//!
//! Under its own paving a surface has its own layers. Past its edges a layer
//! of the same role may come under the paving of another surface, which has
//! its own there, or meet what another surface pushes out: then the deeper
//! build has the ground, and builds that are equally deep bear it in equal
//! parts. Neither the order of the surfaces nor where they lie matters.

use std::cmp::Ordering;
use std::sync::Arc;

use crate::geometry::{Fault, Outline, Point, difference_pieces, intersection};
use crate::vocabulary::Role;

/// How far two outlines must overlap each way to share ground, in metres:
/// what only touches, give or take rounding, does not.
const TOUCHING: f64 = 1e-6;

/// Ground smaller than this, in square metres, is what rounding leaves.
const ROUNDING: f64 = 1e-9;

/// How many surfaces may reach the ground past the edges of one. Nobody lays
/// more, and cutting the ground up for thousands would take for ever.
const MOST_NEAR: usize = 64;

/// So many may come near it at all.
const MOST_LOOKED_AT: usize = 1024;

/// How many surfaces may bear the same ground. More are no job that is meant,
/// and each parts the ground of all the others anew.
const MOST_BEARING: usize = 6;

/// A piece of ground that a layer covers.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Its outline.
    pub outline: Arc<Outline>,
    /// How many surfaces bear it in equal parts.
    pub among: usize,
}

impl Piece {
    fn own(outline: Arc<Outline>) -> Piece {
        Piece { outline, among: 1 }
    }

    /// The part of it that the layer bears, as a share of one.
    pub fn share(&self) -> f64 {
        1.0 / self.among.max(1) as f64
    }

    /// The area that the layer bears, in square metres.
    pub fn area_m2(&self) -> f64 {
        self.outline.area() * self.share()
    }
}

/// What a surface covers: its paving, and how far its layers go.
#[derive(Debug)]
pub(super) struct Cover {
    /// Its own outline.
    pub paving: Arc<Outline>,
    /// The thickness of its build, in whole micrometres, so that the order in
    /// which thicknesses are added up changes nothing; `None` if not known.
    pub depth: Option<i64>,
    /// How far the layers of a role go, and the dig, once each.
    pub reaches: Vec<Reach>,
}

/// How far the layers of a role go.
#[derive(Debug)]
pub(super) struct Reach {
    /// The role; `None` for what is dug.
    pub of: Option<Role>,
    /// Whether they lie there already.
    pub is_existing: bool,
    /// The ground of the widest; `None` if it goes no further than the
    /// paving, or how far is not known.
    pub widened: Option<Arc<Outline>>,
}

impl Cover {
    /// Notes how far a layer goes: the widest of its role counts.
    pub(crate) fn reach(
        &mut self,
        of: Option<Role>,
        is_existing: bool,
        widened: Option<&Arc<Outline>>,
    ) {
        let Some(known) = self.reaches.iter_mut().find(|reach| reach.of == of) else {
            self.reaches.push(Reach {
                of,
                is_existing,
                widened: widened.cloned(),
            });
            return;
        };
        known.is_existing &= is_existing;
        let area = |outline: &Arc<Outline>| outline.area();
        if known.widened.as_ref().map(area) < widened.map(area) {
            known.widened = widened.cloned();
        }
    }

    fn reach_of(&self, of: Option<Role>) -> Option<&Reach> {
        self.reaches.iter().find(|reach| reach.of == of)
    }
}

/// What a layer of a surface covers of the outline that it reaches, beside
/// other surfaces; `None` if that hangs on a depth that is not known.
pub(super) fn own_ground(
    own: &Cover,
    of: Option<Role>,
    outline: &Arc<Outline>,
    near: &[Arc<Cover>],
) -> Result<Option<Vec<Piece>>, Fault> {
    let whole = || Ok(Some(vec![Piece::own(Arc::clone(outline))]));
    let Some(reach) = own.reach_of(of) else {
        return whole();
    };
    let around = outline.bounding_box();
    let meets = |other: &Outline| overlap(other.bounding_box(), around);
    let others = near.iter().filter_map(|cover| {
        let other = cover.reach_of(of)?;
        let widest = other.widened.as_ref().unwrap_or(&cover.paving);
        meets(widest).then_some((cover, other))
    });
    let mut others: Vec<(&Arc<Cover>, &Reach)> = others.collect();
    if Arc::ptr_eq(outline, &own.paving) || others.is_empty() {
        return whole();
    }
    if others.len() > MOST_LOOKED_AT {
        return Err(Fault::TooManyEdges);
    }
    let strip = difference_pieces(outline, &own.paving)?.into_iter();
    let mut strip: Vec<Piece> = strip.map(|piece| Piece::own(Arc::new(piece))).collect();
    // Stones in the middle of a lawn lie far from what goes past its edges.
    if others.len() > MOST_NEAR {
        others.retain(|(cover, other)| {
            let widest = other.widened.as_ref().unwrap_or(&cover.paving);
            let shared = |piece| common(piece, widest).map_or(true, |common| !common.is_empty());
            strip.iter().any(shared)
        });
    }
    if others.len() > MOST_NEAR {
        return Err(Fault::TooManyEdges);
    }
    let reached = area(&strip);
    for (other, _) in &others {
        strip = without(strip, &other.paving)?;
    }
    let mut level = Vec::new();
    for (cover, other) in &others {
        let Some(theirs) = &other.widened else {
            continue;
        };
        match depth(own, reach).zip(depth(cover, other)) {
            Some((own, other)) => match own.cmp(&other) {
                Ordering::Less => strip = without(strip, theirs)?,
                Ordering::Equal => level.push(theirs),
                Ordering::Greater => {}
            },
            None => {
                for piece in &strip {
                    if !common(piece, theirs)?.is_empty() {
                        return Ok(None);
                    }
                }
            }
        }
    }
    for theirs in level {
        strip = borne_with(strip, theirs)?;
    }
    if reached - area(&strip) <= ROUNDING {
        return whole();
    }
    let mut pieces = vec![Piece::own(Arc::clone(&own.paving))];
    pieces.append(&mut strip);
    Ok(Some(pieces))
}

/// What decides whose the ground is: the depth, then what lies there already.
fn depth(cover: &Cover, reach: &Reach) -> Option<(i64, bool)> {
    Some((cover.depth?, reach.is_existing))
}

fn area(pieces: &[Piece]) -> f64 {
    pieces.iter().map(Piece::area_m2).sum()
}

/// What is left of the pieces without an outline.
pub(super) fn without(pieces: Vec<Piece>, taken: &Outline) -> Result<Vec<Piece>, Fault> {
    let corners = taken.bounding_box();
    let mut left = Vec::with_capacity(pieces.len());
    for piece in pieces {
        if !overlap(piece.outline.bounding_box(), corners) {
            left.push(piece);
            continue;
        }
        let rest = difference_pieces(&piece.outline, taken)?;
        left.extend(rest.into_iter().map(|rest| Piece {
            outline: Arc::new(rest),
            among: piece.among,
        }));
    }
    Ok(left)
}

/// The pieces, parted at an outline of which another surface bears its part.
fn borne_with(pieces: Vec<Piece>, theirs: &Outline) -> Result<Vec<Piece>, Fault> {
    let mut borne = Vec::with_capacity(pieces.len());
    for piece in pieces {
        let shared = common(&piece, theirs)?;
        if shared.is_empty() {
            borne.push(piece);
            continue;
        }
        let among = piece.among + 1;
        if among > MOST_BEARING {
            return Err(Fault::TooManyEdges);
        }
        borne.append(&mut without(vec![piece], theirs)?);
        borne.extend(shared.into_iter().map(|outline| Piece {
            outline: Arc::new(outline),
            among,
        }));
    }
    Ok(borne)
}

/// What of a piece an outline covers, but for what rounding leaves.
pub(super) fn common(piece: &Piece, theirs: &Outline) -> Result<Vec<Outline>, Fault> {
    if !overlap(piece.outline.bounding_box(), theirs.bounding_box()) {
        return Ok(Vec::new());
    }
    let mut common = intersection(&piece.outline, theirs)?;
    common.retain(|outline| outline.area() > ROUNDING);
    Ok(common)
}

/// Whether two upright rectangles share more than a border.
pub(super) fn overlap(first: (Point, Point), second: (Point, Point)) -> bool {
    first.0.x + TOUCHING < second.1.x
        && second.0.x + TOUCHING < first.1.x
        && first.0.y + TOUCHING < second.1.y
        && second.0.y + TOUCHING < first.1.y
}
