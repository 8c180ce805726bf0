//! What the edges of surfaces stand against: the building, one another, or
//! nothing.

use std::sync::Arc;

use rustc_hash::{FxHashMap, FxHashSet};

use super::super::job::{Contact, Side, Surface};
use super::draft::Draft;
use crate::geometry::{Outline, Stretch, Tag, intersection_area, shared};

/// Less than this area, in square metres, two surfaces do not overlap.
const SLIVER: f64 = 1e-6;

/// Boxes nearer than this, in metres, may have a common edge.
const NEAR: f64 = 1e-3;

/// The surfaces of a job with their sides, and what led to them: of what has
/// not changed nothing is worked out again.
#[derive(Debug, Default)]
pub struct Settled {
    drafts: Vec<Arc<Draft>>,
    lies: Vec<Lie>,
    surfaces: Vec<Arc<Surface>>,
    meetings: FxHashMap<Pair, Met>,
}

/// Two drafts, kept so that their addresses stay theirs, and how they lie.
#[derive(Debug)]
struct Met {
    drafts: (Arc<Draft>, Arc<Draft>),
    meeting: Meeting,
}

/// How a surface lies to the others.
#[derive(Debug, Clone, Default, PartialEq)]
struct Lie {
    /// The first other one that lies on its ground, and how much of it.
    overlaps: Option<(usize, f64)>,
    /// The stretches along which it stands against others.
    stretches: Vec<(Stretch, usize)>,
}

/// Two drafts by their addresses.
type Pair = (usize, usize);

/// How two outlines lie to each other.
#[derive(Debug, Clone)]
enum Meeting {
    /// On the same ground, so many square metres of it.
    Overlap(f64),
    /// Side by side: stretches of the first's edges and of the second's.
    Beside(Arc<[Stretch]>, Arc<[Stretch]>),
}

impl Settled {
    /// The drafts of which these are the surfaces.
    pub fn drafts(&self) -> &[Arc<Draft>] {
        &self.drafts
    }

    /// The surfaces of these drafts, which take the place of those before.
    pub fn surfaces(&mut self, drafts: Vec<Arc<Draft>>) -> Vec<Arc<Surface>> {
        let lies = self.lies(&drafts);
        let surfaces = drafts
            .iter()
            .zip(&lies)
            .enumerate()
            .map(|(index, (draft, lie))| {
                let known = self.drafts.get(index).zip(self.lies.get(index));
                match (known, self.surfaces.get(index)) {
                    (Some((own, own_lie)), Some(surface))
                        if Arc::ptr_eq(own, draft) && own_lie == lie =>
                    {
                        Arc::clone(surface)
                    }
                    _ => Arc::new(draft.lying(index, lie)),
                }
            })
            .collect();
        self.surfaces = surfaces;
        (self.drafts, self.lies) = (drafts, lies);
        self.surfaces.clone()
    }

    /// Forgets the meetings of drafts that are no more, once there are many
    /// more meetings than have just been asked for.
    fn forget_old(&mut self, drafts: &[Arc<Draft>], met: usize) {
        if self.meetings.len() > 2 * met + 64 {
            let there: FxHashSet<usize> = drafts.iter().map(address).collect();
            let is_there = |draft: &Arc<Draft>| there.contains(&address(draft));
            self.meetings
                .retain(|_, met| is_there(&met.drafts.0) && is_there(&met.drafts.1));
        }
    }

    fn lies(&mut self, drafts: &[Arc<Draft>]) -> Vec<Lie> {
        let mut lies = vec![Lie::default(); drafts.len()];
        let mut met = 0;
        let mut by_west: Vec<usize> = (0..drafts.len())
            .filter(|index| {
                drafts
                    .get(*index)
                    .is_some_and(|draft| draft.corners.is_some())
            })
            .collect();
        let west = |index: &usize| {
            let corners = drafts.get(*index).and_then(|draft| draft.corners);
            corners.map_or(f64::INFINITY, |(low, _)| low.x)
        };
        by_west.sort_by(|one, other| west(one).total_cmp(&west(other)));
        for (at, one) in by_west.iter().enumerate() {
            for other in by_west.iter().skip(at + 1) {
                let (Some(first), Some(second)) = (drafts.get(*one), drafts.get(*other)) else {
                    break;
                };
                let (Some((low, high)), Some((other_low, other_high))) =
                    (first.corners, second.corners)
                else {
                    break;
                };
                // They are sorted by their west side: none further on meets
                // this one. Surfaces on the same ground are an error by
                // themselves; nothing more is worked out of how they lie to
                // others, so that many of them cost no more than a few.
                let is_done = |index: usize| {
                    let lie = lies.get(index);
                    lie.is_none_or(|lie: &Lie| lie.overlaps.is_some())
                };
                if is_done(*one) || other_low.x > high.x + NEAR {
                    break;
                }
                let is_near = other_low.y <= high.y + NEAR && other_high.y >= low.y - NEAR;
                if !is_near || is_done(*other) {
                    continue;
                }
                let pair = (address(first), address(second));
                let known = self.meetings.entry(pair).or_insert_with(|| Met {
                    meeting: meeting(first, second),
                    drafts: (Arc::clone(first), Arc::clone(second)),
                });
                meet(&mut lies, *one, *other, &known.meeting);
                met += 1;
            }
        }
        self.forget_old(drafts, met);
        lies
    }
}

fn address(draft: &Arc<Draft>) -> usize {
    Arc::as_ptr(draft).addr()
}

/// How two surfaces lie to each other.
fn meeting(first: &Draft, second: &Draft) -> Meeting {
    let (Some(a), Some(b)) = (&first.surface.outline, &second.surface.outline) else {
        return Meeting::Beside(Arc::default(), Arc::default());
    };
    let common = intersection_area(a, b).unwrap_or(0.0);
    if common > SLIVER {
        return Meeting::Overlap(common);
    }
    Meeting::Beside(shared(a, b).into(), shared(b, a).into())
}

fn meet(lies: &mut [Lie], one: usize, other: usize, meeting: &Meeting) {
    match meeting {
        Meeting::Overlap(common) => {
            if let Some(lie) = lies.get_mut(one) {
                lie.overlaps = Some((other, *common));
            }
        }
        Meeting::Beside(of_first, of_second) => {
            for (index, against, found) in [(one, other, of_first), (other, one, of_second)] {
                if let Some(lie) = lies.get_mut(index) {
                    let stretches = found.iter().map(|stretch| (*stretch, against));
                    lie.stretches.extend(stretches);
                }
            }
        }
    }
}

impl Draft {
    /// The surface, lying so to the others.
    fn lying(&self, index: usize, lie: &Lie) -> Surface {
        let mut surface = self.surface.clone();
        surface.index = index;
        surface.overlaps = lie.overlaps;
        sides(&mut surface, &lie.stretches);
        for (edging, along) in surface.edgings.iter_mut().zip(&self.along) {
            edging.along = along.among(&surface.sides);
        }
        surface
    }
}

/// Parts the edges of a surface where what they stand against changes.
fn sides(surface: &mut Surface, stretches: &[(Stretch, usize)]) {
    let Some(outline) = &surface.outline else {
        return;
    };
    let only: Vec<Stretch> = stretches.iter().map(|(stretch, _)| *stretch).collect();
    let mut divided: Outline = outline.divided(&only);
    let mut sides: Vec<Side> = Vec::new();
    let boundaries = std::iter::once(&mut divided.outer).chain(&mut divided.holes);
    for edge in boundaries.flat_map(|boundary| &mut boundary.edges) {
        let against_building = surface
            .meets
            .iter()
            .any(|edges| edges.value.1.contains(&edge.tag));
        let neighbour = stretches
            .iter()
            .find(|(stretch, _)| stretch.covers(edge))
            .map(|(_, other)| *other);
        let contact = match (against_building, neighbour) {
            (true, _) => Contact::Building,
            (false, Some(other)) => Contact::Surface(other),
            (false, None) => Contact::Free,
        };
        sides.push(Side {
            edge: edge.tag,
            contact,
        });
        edge.tag = Tag::try_from(sides.len() - 1).unwrap_or(crate::geometry::NO_TAG);
    }
    surface.sides = sides;
    surface.outline = Some(divided);
}
