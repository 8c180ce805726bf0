//! Which pegs a surface has, and where each stands.

use std::collections::{BTreeMap, BTreeSet};

use super::Peg;
use super::arcs::{Reach, arcs_of};
use super::digs::{Digs, DrivenInto};
use super::marks::Marks;
use super::sides::{Walked, is_filled, laid, walked_round};
use super::taping::taping;
use crate::geometry::{Edge, Outline, Point, Vector};
use crate::model::{Job, Surface};
use crate::quantities::trace::Trace;

/// Two points nearer than this, in metres, are one peg.
const ONE_PEG: f64 = 5e-4;

/// Nearer than this, in metres, two pegs are in each other's way.
const SIDE_BY_SIDE: f64 = 0.15;

/// Where sides turn by less than this, as the sine of the angle, they run on.
const RUNS_ON: f64 = 1e-6;

/// How much farther out than square a peg may stand on the line of an edge that
/// meets the next at a slant.
const MOST_SLANT: f64 = 4.0;

/// How a peg stands to the edges of its surface.
#[derive(Debug, Clone, PartialEq)]
pub enum Stands {
    /// Where two edges meet, named in the clockwise order.
    Corner(String, String),
    /// Along an edge, so far from its start in the clockwise order, in metres.
    Along(String, f64),
    /// At the centre of an arc.
    Centre(String),
    /// On the line of one edge, past another and clear of the dig.
    Past(String, String),
    /// Square out of an edge, clear of the dig.
    OutOf(String),
    /// Out of a corner that points into the surface, clear of the dig.
    OutOfCorner(String, String),
}

impl Stands {
    /// The edge that it is set out from.
    fn of(self) -> String {
        match self {
            Stands::Corner(edge, _)
            | Stands::Along(edge, _)
            | Stands::Centre(edge)
            | Stands::Past(edge, _)
            | Stands::OutOf(edge)
            | Stands::OutOfCorner(edge, _) => edge,
        }
    }
}

/// A peg of a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct PegOn {
    /// Its number.
    pub peg: u32,
    /// How it stands to the surface.
    pub stands: Stands,
    /// Of a shape that comes again to which of them it stands so, counted from
    /// the one that the shape draws, and how many there are.
    pub nth: Option<(usize, usize)>,
    /// What holds it. One that is not to stand clear goes when it is dug there.
    pub driven_into: DrivenInto,
    /// The finished level there in metres, the plane carried on outside the
    /// surface; `None` where levels and fall give no plane.
    pub level_m: Option<f64>,
}

/// A peg that is to stand clear of the dig: what it is set out from, and where
/// it stands if nothing else is dug there.
type Beyond = (Point, Point, Stands);

/// The pegs of a job so far.
#[derive(Debug)]
pub(super) struct Pegs {
    marks: Option<Marks>,
    digs: Digs,
    all: Vec<Peg>,
    /// The edges of holes in which no peg stands clear of the dig, each with its
    /// surface.
    cramped: BTreeSet<(String, String)>,
    /// Which of them stand in each square of the ground, so that those near a
    /// point are found among thousands.
    squares: BTreeMap<(i64, i64), Vec<usize>>,
}

impl Pegs {
    /// No pegs yet; those that are to stand clear do so of what is dug.
    pub(crate) fn new(marks: Option<Marks>, digs: Digs) -> Pegs {
        Pegs {
            marks,
            digs,
            all: Vec::new(),
            cramped: BTreeSet::new(),
            squares: BTreeMap::new(),
        }
    }

    /// All of them.
    pub(crate) fn all(&self) -> &[Peg] {
        &self.all
    }

    /// All of them, and the edges of holes in which none stands clear of the
    /// dig, each with its surface.
    pub(crate) fn into_all(self) -> (Vec<Peg>, BTreeSet<(String, String)>) {
        (self.all, self.cramped)
    }

    /// The pegs of a surface, of each of its shape if that comes again, and the
    /// numbers of the corners of each loop.
    pub(crate) fn of_surface(
        &mut self,
        job: &Job,
        surface: &Surface,
    ) -> (Vec<PegOn>, Vec<Vec<u32>>) {
        let outlines = laid(surface);
        let count = outlines.len();
        let (mut on, mut corners) = (Vec::new(), Vec::new());
        for own in outlines.into_iter().enumerate() {
            let nth = (count > 1).then_some((own.0 + 1, count));
            let (pegs, loops) = self.of_outline(job, surface, own);
            on.extend(pegs.into_iter().map(|peg| PegOn { nth, ..peg }));
            corners.extend(loops);
        }
        // Of a peg that stands in two ways to a surface the first is told.
        let mut reported = BTreeSet::new();
        on.retain(|own| reported.insert(own.peg));
        (on, corners)
    }

    /// The pegs of one of the outlines of a surface.
    fn of_outline(
        &mut self,
        job: &Job,
        surface: &Surface,
        (place, outline): (usize, &Outline),
    ) -> (Vec<PegOn>, Vec<Vec<u32>>) {
        let setting_out = job.setting_out.as_ref();
        let clear = setting_out.and_then(|own| own.clear.as_ref());
        let clear = clear.map(|clear| clear.value.si());
        let nearest_to = self.marks.map(|marks| marks.first);
        let (mut on, mut corners) = (Vec::new(), Vec::new());
        let mut beyond: Vec<Beyond> = Vec::new();
        for (number, sides) in walked_round(surface, (place, outline), nearest_to)
            .into_iter()
            .enumerate()
        {
            let first = beyond.len();
            let mut edges = sides.iter().map(|side| side.edge.tag);
            if edges.all(|edge| is_filled(job, surface, edge)) {
                continue;
            }
            let before = sides.iter().cycle().skip(sides.len().saturating_sub(1));
            let mut own_corners = Vec::new();
            for (before, side) in before.zip(&sides) {
                if runs_on(before, side) {
                    continue;
                }
                let stands = Stands::Corner(before.name.clone(), side.name.clone());
                let peg = self.put(surface, side.edge.start, stands);
                own_corners.push(peg.peg);
                on.push(peg);
                if let Some(clear) = clear {
                    beyond.extend(clear_of_corner(before, side, clear));
                }
            }
            for side in &sides {
                for (at, along) in parted(job, surface, side) {
                    let out = side.edge.direction_at(along).left();
                    match clear.filter(|_| !side.is_building) {
                        Some(clear) => {
                            let stands = Stands::OutOf(side.name.clone());
                            beyond.push((at, at + out * (side.overdig_m + clear), stands));
                        }
                        None => {
                            let stands = Stands::Along(side.name.clone(), along);
                            on.push(self.put(surface, at, stands));
                        }
                    }
                }
            }
            if number > 0 && sides.iter().all(|side| side.is_free) {
                let own = beyond.split_off(first);
                let reach = clear.unwrap_or_default();
                let stands = |own: &Beyond| stands_clear_in(&sides, own.1, reach);
                let (kept, cramped): (Vec<_>, Vec<_>) = own.into_iter().partition(stands);
                beyond.extend(kept);
                let names = cramped.into_iter().map(|(.., stands)| stands.of());
                self.cramped
                    .extend(names.map(|side| (surface.name.value.clone(), side)));
            }
            corners.push(own_corners);
        }
        let arcs = arcs_of(job, surface, (outline, self.digs.walls()), &Trace::silent());
        for arc in arcs.iter().filter(|arc| arc.reach == Reach::Open) {
            on.push(self.put(surface, arc.centre, Stands::Centre(arc.name.clone())));
        }
        on.extend(self.put_clear(surface, beyond, clear.unwrap_or_default()));
        (on, corners)
    }

    /// Puts the pegs that are to stand so far clear of every dig.
    fn put_clear(&mut self, surface: &Surface, mut beyond: Vec<Beyond>, clear: f64) -> Vec<PegOn> {
        // A peg out of a corner, or out of an end of an arc, is on the line of no
        // edge: where others stand it would be in their way.
        let is_spare = |stands: &Stands| matches!(stands, Stands::OutOfCorner(..));
        beyond.sort_by_key(|(.., stands)| is_spare(stands));
        let mut on = Vec::new();
        for (from, meant, stands) in beyond {
            let (at, driven_into) = self.digs.clear(from, meant, clear);
            let is_held = driven_into == DrivenInto::Ground;
            let is_on_no_line = is_spare(&stands) || matches!(stands, Stands::OutOf(_));
            let is_left_out = is_spare(&stands) && !is_held;
            if is_left_out || is_on_no_line && self.is_in_the_way(at) {
                continue;
            }
            on.push(PegOn {
                driven_into,
                ..self.put(surface, at, stands)
            });
        }
        on
    }

    /// Whether a peg at a point would be in the way of one that stands beside
    /// it.
    fn is_in_the_way(&self, at: Point) -> bool {
        let mut near = self.near(at);
        near.any(|(_, peg)| {
            let apart = peg.at.distance(at);
            apart > ONE_PEG && apart < SIDE_BY_SIDE
        })
    }

    /// The pegs that may stand within [`SIDE_BY_SIDE`] of a point, with their
    /// places in the list.
    fn near(&self, at: Point) -> impl Iterator<Item = (usize, &Peg)> {
        let (column, row) = square(at);
        let columns = column.saturating_sub(1)..=column.saturating_add(1);
        let rows = move || row.saturating_sub(1)..=row.saturating_add(1);
        let around = columns.flat_map(move |column| rows().map(move |row| (column, row)));
        let found = around
            .filter_map(|square| self.squares.get(&square))
            .flatten();
        found.filter_map(|index| Some((*index, self.all.get(*index)?)))
    }

    /// The peg at a point, which may stand there already.
    fn put(&mut self, surface: &Surface, at: Point, stands: Stands) -> PegOn {
        let known = {
            let mut near = self.near(at);
            let known = near.find(|(_, peg)| peg.at.distance(at) <= ONE_PEG);
            known.map(|(index, _)| index)
        };
        let index = known.unwrap_or_else(|| {
            let marks = self.marks.as_ref();
            let taping = marks.map(|marks| taping(marks, at, &Trace::silent()));
            self.all.push(Peg { at, taping });
            let index = self.all.len() - 1;
            self.squares.entry(square(at)).or_default().push(index);
            index
        });
        PegOn {
            peg: u32::try_from(index + 1).unwrap_or(u32::MAX),
            stands,
            nth: None,
            driven_into: DrivenInto::Ground,
            level_m: surface.level_at(at),
        }
    }
}

/// The square of the ground in which a point lies.
fn square(at: Point) -> (i64, i64) {
    let along = |metres: f64| (metres / SIDE_BY_SIDE).floor() as i64;
    (along(at.x), along(at.y))
}

/// Whether a point in a hole is as far clear of the dig at each of its sides as
/// it was meant to be of its own: where a hole is narrow it is not.
fn stands_clear_in(sides: &[Walked], at: Point, clear: f64) -> bool {
    let is_clear = |side: &Walked| side.edge.distance_to(at) > side.overdig_m + clear - ONE_PEG;
    sides.iter().all(is_clear)
}

/// Whether one side runs on in the next with nothing to peg between them.
fn runs_on(before: &Walked, side: &Walked) -> bool {
    let (way, on) = (
        before.edge.direction_at_end(),
        side.edge.direction_at_start(),
    );
    let is_straight = way.cross(on).abs() <= RUNS_ON && way.dot(on) > 0.0;
    is_straight && !before.edge.is_arc() && !side.edge.is_arc()
}

/// The points that part a side as is asked, each with how far along it lies.
fn parted(job: &Job, surface: &Surface, side: &Walked) -> Vec<(Point, f64)> {
    let asked = job.setting_out.iter().flat_map(|own| &own.pegs);
    let asked =
        asked.filter(|pegs| pegs.surface == surface.index && pegs.edges.contains(&side.edge.tag));
    let length = side.edge.length();
    let parts = asked.map(|pegs| pegs.parts_of(length)).max();
    equal_parts(&side.edge, parts.unwrap_or(1))
}

/// The points that part an edge in so many equal parts.
fn equal_parts(edge: &Edge, parts: u32) -> Vec<(Point, f64)> {
    (1..parts)
        .map(|index| {
            let along = edge.length() * f64::from(index) / f64::from(parts);
            (edge.point_at(along), along)
        })
        .collect()
}

/// The pegs of a corner that stand clear of the dig: one on the line of each
/// of its edges. Where a line would run into the building there is none.
fn clear_of_corner(before: &Walked, side: &Walked, clear: f64) -> Vec<Beyond> {
    let corner = side.edge.start;
    let (way, on) = (
        before.edge.direction_at_end(),
        side.edge.direction_at_start(),
    );
    let turn = way.cross(on);
    let names = (before.name.clone(), side.name.clone());
    if turn.abs() <= RUNS_ON {
        // Arcs that run on in the next side: one peg does.
        let out = side.out_at_start() * (before.overdig_m.max(side.overdig_m) + clear);
        let is_against = before.is_building || side.is_building;
        let peg = (corner, corner + out, Stands::OutOf(names.1));
        return (!is_against).then_some(peg).into_iter().collect();
    }
    if turn > 0.0 {
        // A corner that points into the surface: past it lies the dig.
        let (one, other) = (before.out_at_end(), side.out_at_start());
        let middle = (one + other).unit();
        let reach = (before.overdig_m.max(side.overdig_m) + clear) / middle.dot(one).max(0.1);
        let is_against = before.is_building || side.is_building;
        let stands = Stands::OutOfCorner(names.0, names.1);
        let peg = (corner, corner + middle * reach, stands);
        return (!is_against).then_some(peg).into_iter().collect();
    }
    let slant = (1.0 / -turn).min(MOST_SLANT);
    let beyond = |of: &Walked, past: &Walked, way: Vector, out: Vector| {
        let (step, stands) = match of.edge.is_arc() {
            true => (out * (of.overdig_m + clear), Stands::OutOf(of.name.clone())),
            false => {
                let step = way * ((past.overdig_m + clear) * slant);
                (step, Stands::Past(of.name.clone(), past.name.clone()))
            }
        };
        let is_against = if of.edge.is_arc() {
            of.is_building
        } else {
            past.is_building
        };
        (!is_against).then(|| (corner, corner + step, stands))
    };
    let pegs = [
        beyond(before, side, way, before.out_at_end()),
        beyond(side, before, -on, side.out_at_start()),
    ];
    pegs.into_iter().flatten().collect()
}
