//! The rim of a surface: what becomes of water that comes to each part of it.

use std::sync::Arc;

use super::mouths::{BESIDE, Mouth};
use crate::geometry::{ALONGSIDE, Beam, Edge, Loop, Outline, Plane, Point, Tag, Vector, beams};
use crate::model::{Contact, Drain, DrainKind, DrainLine, Edging, Job, Surface};

/// A neighbour that stands higher by more, in metres, holds water up; what
/// lies within it is as good as flush. The last digit is for rounding.
const FLUSH: f64 = 0.003 + 1e-7;

/// What becomes of water that comes to a part of a rim.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fate {
    /// It runs off the edge.
    Off,
    /// It runs onto another surface, by its index in the job.
    Onto(usize),
    /// It is taken: by a drain, by its index in the job, or by a channel of
    /// which the surface alone tells.
    Drained(Option<usize>),
    /// It cannot get over, and runs along.
    Shut(Shut),
    /// The level of one of two surfaces is not known.
    Unknown(usize),
}

/// What holds water up at an edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shut {
    /// The building.
    Building,
    /// An edging that stands proud.
    Proud,
    /// A surface that stands higher, by its index.
    Higher(usize),
    /// A surface that falls to the same edge, by its index.
    Facing(usize),
}

/// A part of a rim with one fate; its edge's tag is its index.
#[derive(Debug, Clone, Copy)]
pub(super) struct Part {
    pub edge: Edge,
    /// The side of the surface that it is a part of; none of a drain inside.
    pub side: Option<Tag>,
    /// The loop that it belongs to.
    loop_of: usize,
    pub fate: Fate,
}

/// A side that turns off the fall by no more, as its share, is taken to run
/// straight down it: 1 mm in 500 is less than a corner is set out to.
const STRAIGHT: f64 = 2e-3;

/// A part of a rim that runs straight down the fall. What comes in over it
/// leaves with the beam beside it.
#[derive(Debug)]
struct Side {
    edge: Edge,
    /// The beam, by its index.
    beam: usize,
    /// Whether the part lies at the start of the beam's way out, as it is
    /// walked.
    is_at_start: bool,
}

/// The rim of a surface that falls, and the beams down it.
#[derive(Debug)]
pub(super) struct Rim {
    pub downhill: Vector,
    pub plane: Option<Plane>,
    pub parts: Vec<Part>,
    pub beams: Vec<Beam>,
    straight: Vec<Side>,
}

/// The way that water runs on a surface, if its fall or its levels say so.
pub(super) fn downhill(surface: &Surface) -> Option<Vector> {
    let gradient = match (&surface.plane, &surface.fall) {
        (_, Some(fall)) => fall.gradient(),
        (Some(plane), None) if surface.levels.len() > 1 => plane.gradient(),
        _ => return None,
    };
    let downhill = -gradient;
    (downhill.length() > 0.0 && downhill.length().is_finite()).then_some(downhill)
}

impl Rim {
    /// The rim of a surface; `None` where its outline or its fall is not
    /// known, or it is level.
    pub(crate) fn of(job: &Job, surface: &Surface, mouths: &[Mouth]) -> Option<Rim> {
        let area = surface.area_m2().filter(|_| !surface.is_border())?;
        let downhill = downhill(surface)?;
        let mut parts: Vec<Part> = Vec::new();
        let mut cut = Outline::default();
        // Of a shape that comes again water runs off each: from the one to the
        // next there is no way.
        let loops = surface.outlines().flat_map(Outline::loops);
        for (loop_of, own) in loops.enumerate() {
            let mut edges = Vec::with_capacity(own.edges.len());
            let fates = own.edges.iter().flat_map(|edge| fates(job, surface, edge));
            let fates = fates.flat_map(|part| at_turns(part, downhill));
            for (edge, fate) in fates.flat_map(|part| at_mouths(part, mouths)) {
                let tag = Tag::try_from(parts.len()).ok()?;
                let side = Some(edge.tag);
                let edge = Edge { tag, ..edge };
                edges.push(edge);
                parts.push(Part {
                    edge,
                    side,
                    loop_of,
                    fate,
                });
            }
            match loop_of {
                0 => cut.outer = Loop { edges },
                _ => cut.holes.push(Loop { edges }),
            }
        }
        let mut beams = beams(&cut, downhill);
        let (least, most) = surface.bounding_box()?;
        for mouth in mouths {
            let tag = Tag::try_from(parts.len()).ok()?;
            let line = mouth.across(downhill, tag);
            let is_past = |from: f64, to: f64, least: f64, most: f64| {
                from.max(to) < least - BESIDE || from.min(to) > most + BESIDE
            };
            if is_past(line.start.x, line.end.x, least.x, most.x)
                || is_past(line.start.y, line.end.y, least.y, most.y)
            {
                continue;
            }
            let reach = |beam: &Beam| match parts.get(beam.exit.tag as usize) {
                Some(Part {
                    fate: Fate::Off, ..
                }) => BESIDE,
                _ => 0.0,
            };
            beams = beams
                .iter()
                .flat_map(|beam| beam.parted_by(downhill, &line, reach(beam)))
                .collect();
            parts.push(Part {
                edge: line,
                side: None,
                loop_of: usize::MAX,
                fate: Fate::Drained(Some(mouth.drain)),
            });
        }
        let sum: f64 = beams.iter().map(Beam::area).sum();
        // Never a figure that does not add up.
        let adds_up = (sum - area).abs() <= 1e-6 * area;
        adds_up.then(|| Rim {
            straight: straight(&parts, &beams, downhill.unit()),
            downhill,
            plane: surface.plane,
            parts,
            beams,
        })
    }

    /// What leaves over a part of the rim, or over a stretch of it: beams, each
    /// with the parts beside it over which water comes in as well.
    pub(crate) fn leaving(&self, tag: Tag, stretch: Option<&Edge>) -> Vec<(Beam, Vec<&Edge>)> {
        let own = self.beams.iter().enumerate();
        let own = own.filter(|(_, beam)| beam.exit.tag == tag);
        let leaving = own.filter_map(|(index, whole)| {
            let beam = match stretch {
                Some(stretch) => whole.between(self.downhill, stretch.start, stretch.end)?,
                None => *whole,
            };
            let reaches = |side: &&Side| {
                let (own, all) = match side.is_at_start {
                    true => (beam.exit.start, whole.exit.start),
                    false => (beam.exit.end, whole.exit.end),
                };
                side.beam == index && own.distance(all) <= ALONGSIDE
            };
            let beside = self.straight.iter().filter(reaches);
            Some((beam, beside.map(|side| &side.edge).collect()))
        });
        leaving.collect()
    }

    pub(crate) fn part(&self, tag: Tag) -> Option<&Part> {
        self.parts.get(tag as usize)
    }

    /// Whether the fall holds water to an edge, or runs along it.
    pub(crate) fn presses(&self, edge: &Edge) -> bool {
        let inward = edge.direction_at(0.5 * edge.length()).left();
        inward.dot(self.downhill.unit()) <= STRAIGHT
    }

    /// The parts before and after another round its loop.
    pub(crate) fn beside(&self, part: &Part, is_after: bool) -> Option<&Part> {
        let own: Vec<&Part> = self
            .parts
            .iter()
            .filter(|other| other.loop_of == part.loop_of)
            .collect();
        let place = own
            .iter()
            .position(|other| other.edge.tag == part.edge.tag)?;
        let step = if is_after { 1 } else { own.len() - 1 };
        own.get((place + step) % own.len()).copied()
    }
}

/// The parts that run straight down the fall and that no beam enters by.
fn straight(parts: &[Part], beams: &[Beam], downhill: Vector) -> Vec<Side> {
    let across = downhill.left();
    let down = |point: Point| downhill.dot(point - Point::default());
    let beside = |part: &Part| {
        let edge = part.edge;
        let run = edge.end - edge.start;
        let off = STRAIGHT * run.length();
        let is_entry = || beams.iter().any(|beam| beam.entry.tag == edge.tag);
        if part.side.is_none() || edge.is_arc() || across.dot(run).abs() > off || is_entry() {
            return None;
        }
        // The surface lies on the left of its rim as it is walked.
        let is_at_start = downhill.dot(run) > 0.0;
        let low = if is_at_start { edge.end } else { edge.start };
        let apart = |beam: &Beam| {
            let (top, foot) = match is_at_start {
                true => (beam.entry.end, beam.exit.start),
                false => (beam.entry.start, beam.exit.end),
            };
            let apart = across.dot(foot - low).abs();
            let is_beside = apart <= off + ALONGSIDE
                && down(top) < down(low)
                && down(low) <= down(foot) + off + ALONGSIDE;
            (is_beside && beam.exit.tag != edge.tag).then_some(apart)
        };
        let near = beams.iter().enumerate();
        let near = near.filter_map(|(index, beam)| Some((index, apart(beam)?)));
        let (beam, _) = near.min_by(|(_, one), (_, other)| one.total_cmp(other))?;
        Some(Side {
            edge,
            beam,
            is_at_start,
        })
    };
    parts.iter().filter_map(beside).collect()
}

/// What a part runs along of another surface's part: the stretch of the
/// other, as it is walked.
pub(super) fn along(part: &Edge, other: &Edge) -> Option<Edge> {
    let length = other.length();
    let ends = [part.start, part.end].map(|end| other.distance_along(end).clamp(0.0, length));
    let [first, second] = ends;
    let (from, to) = (first.min(second), first.max(second));
    let is_long = to - from > ALONGSIDE;
    let middle = other.point_at(0.5 * (from + to));
    (is_long && part.distance_to(middle) <= 2.0 * ALONGSIDE).then(|| other.between(from, to))
}

/// The parts of an edge with what becomes of water that comes to each.
fn fates(job: &Job, surface: &Surface, edge: &Edge) -> Vec<(Edge, Fate)> {
    if let Some(taker) = taker(job, surface, edge.tag) {
        return vec![(*edge, Fate::Drained(taker))];
    }
    if is_proud(surface, edge.tag) {
        return vec![(*edge, Fate::Shut(Shut::Proud))];
    }
    let other = match surface.contact(edge.tag) {
        Some(Contact::Building) => return vec![(*edge, Fate::Shut(Shut::Building))],
        Some(Contact::Surface(other)) => other,
        Some(Contact::Unplaced(other)) => return vec![(*edge, Fate::Unknown(other))],
        Some(Contact::Free) | None => return vec![(*edge, Fate::Off)],
    };
    let Some(neighbour) = job.surfaces.get(other) else {
        return vec![(*edge, Fate::Off)];
    };
    let theirs = || shared_with(neighbour, surface.index, edge);
    if let Some(taker) = theirs().find_map(|other| taker(job, neighbour, other.tag)) {
        return vec![(*edge, Fate::Drained(taker))];
    }
    if theirs().any(|other| is_proud(neighbour, other.tag)) {
        return vec![(*edge, Fate::Shut(Shut::Proud))];
    }
    let (Some(own), Some(theirs)) = (surface.plane, neighbour.plane_along(edge)) else {
        return vec![(*edge, Fate::Unknown(other))];
    };
    let height = theirs.less(&own);
    let mut cuts = vec![0.0, edge.length()];
    for level in [-FLUSH, FLUSH] {
        let stretches = height.stretches_between(edge, level, f64::INFINITY);
        cuts.extend(stretches.iter().flat_map(|(from, to)| [*from, *to]));
    }
    let their_fall = downhill(neighbour).map(Vector::unit);
    // Round an arc their water comes to the edge here and leaves it there.
    if let Some(fall) = their_fall.filter(|_| edge.is_arc()) {
        cuts.extend(turns(edge, fall));
    }
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|next, before| *next - *before <= ALONGSIDE);
    if let Some(last) = cuts.last_mut() {
        *last = edge.length();
    }
    // Their outward is this edge's inward.
    let falls_here =
        |part: &Edge| their_fall.is_some_and(|fall| part.inward_share(fall).1 > STRAIGHT);
    let parts = cuts.iter().zip(cuts.iter().skip(1));
    let parts = parts.map(|(from, to)| {
        let part = match cuts.len() {
            2 => *edge,
            _ => edge.between(*from, *to),
        };
        let stands = height.level_at(part.midpoint());
        let fate = match stands {
            stands if stands > FLUSH => Fate::Shut(Shut::Higher(other)),
            stands if stands >= -FLUSH && falls_here(&part) => Fate::Shut(Shut::Facing(other)),
            _ => Fate::Onto(other),
        };
        (part, fate)
    });
    parts.collect()
}

/// The edges of a neighbour along an edge that it shares with a surface.
fn shared_with<'a>(
    neighbour: &'a Surface,
    own: usize,
    edge: &'a Edge,
) -> impl Iterator<Item = &'a Edge> {
    let theirs = neighbour.edges();
    theirs
        .filter(move |other| neighbour.contact(other.tag) == Some(Contact::Surface(own)))
        .filter(move |other| along(edge, other).is_some())
}

/// What takes the water along an edge of a surface's outline: a drain that
/// runs there, by its index, or a channel of which the surface alone tells.
fn taker(job: &Job, surface: &Surface, tag: Tag) -> Option<Option<usize>> {
    let edge = surface.sides.get(tag as usize)?.edge;
    let runs_here = |drain: &Arc<Drain>| {
        let takes = matches!(drain.kind(), Some(DrainKind::Channel | DrainKind::Trench));
        let line = drain.line.as_ref().map(|line| &line.value);
        takes
            && matches!(line, Some(DrainLine::Along { surface: own, tags, .. })
                if *own == surface.name.value && tags.contains(&edge))
    };
    let drain = job.drains.iter().position(runs_here);
    let is_told = || surface.channel_at(edge).is_some();
    (drain.is_some() || is_told()).then_some(drain)
}

/// Whether an edging along an edge of a surface's outline stands proud, so
/// that water stops at it.
fn is_proud(surface: &Surface, tag: Tag) -> bool {
    let stands = |edging: &Edging| {
        let above = edging.above.as_ref();
        above.is_some_and(|above| above.value.si() > FLUSH)
    };
    let mut edgings = surface.edgings.iter();
    edgings.any(|edging| stands(edging) && edging.along.contains(&tag))
}

/// A part of a rim that shuts water in, parted where a drain takes what runs
/// along it.
fn at_mouths((edge, fate): (Edge, Fate), mouths: &[Mouth]) -> Vec<(Edge, Fate)> {
    if !matches!(fate, Fate::Shut(_)) {
        return vec![(edge, fate)];
    }
    let feet = mouths.iter().flat_map(|mouth| mouth.feet(&edge));
    let mut cuts = cuts_at(&edge, feet);
    if cuts.len() == 2 {
        return vec![(edge, fate)];
    }
    // On the level, water runs to the nearer of two.
    let halves = cuts.iter().zip(cuts.iter().skip(1));
    let halves: Vec<f64> = halves.map(|(from, to)| 0.5 * (from + to)).collect();
    cuts.extend(halves);
    cuts.sort_by(f64::total_cmp);
    between(edge, &cuts, fate)
}

/// A part of an arc that shuts water in, parted where the fall runs square to
/// it and where it runs along it: between those the water runs one way, and it
/// leaves where the arc turns off, however the arc is drawn.
fn at_turns((edge, fate): (Edge, Fate), downhill: Vector) -> Vec<(Edge, Fate)> {
    if !matches!(fate, Fate::Shut(_)) || !edge.is_arc() {
        return vec![(edge, fate)];
    }
    between(
        edge,
        &cuts_at(&edge, turns(&edge, downhill).into_iter()),
        fate,
    )
}

/// Where a fall runs square to an arc and where it runs along it, as distances
/// along the arc; an end of it where it does neither.
fn turns(edge: &Edge, fall: Vector) -> [f64; 4] {
    [fall, -fall, fall.left(), -fall.left()].map(|way| edge.distance_along(edge.farthest(way)))
}

/// The ends of an edge and what lies between them, as distances along it.
fn cuts_at(edge: &Edge, along: impl Iterator<Item = f64>) -> Vec<f64> {
    let length = edge.length();
    let inside = along.filter(|along| *along > ALONGSIDE && *along < length - ALONGSIDE);
    let mut cuts: Vec<f64> = inside.chain([0.0, length]).collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|next, before| *next - *before <= ALONGSIDE);
    cuts
}

/// The parts of an edge between cuts, with one fate.
fn between(edge: Edge, cuts: &[f64], fate: Fate) -> Vec<(Edge, Fate)> {
    let parts = cuts.iter().zip(cuts.iter().skip(1));
    let part = |from: f64, to: f64| match cuts.len() {
        2 => edge,
        _ => edge.between(from, to),
    };
    parts.map(|(from, to)| (part(*from, *to), fate)).collect()
}
