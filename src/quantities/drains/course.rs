//! The course of a drain on the plan: from its head to its outlet, and what
//! lies over it on the way.

use crate::geometry::{Edge, Plane, Point};
use crate::model::{Drain, DrainBody, DrainKind, DrainLine, Job, Surface};
use crate::quantities::dig::{dug_beyond, dug_depth};

/// A way along the plan from the head of a drain to its outlet. What stands
/// at a point has its head and its outlet there, and no pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// Where it begins.
    pub head: Point,
    /// Where it ends.
    pub outlet: Point,
    /// Its pieces, end to end, each under one thing.
    pub pieces: Vec<CoursePiece>,
    /// Whether nothing says which way the water runs: its edge is level, and
    /// the order in which the edges are written is taken for it.
    pub is_way_assumed: bool,
}

/// A piece of a course.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoursePiece {
    /// The line or arc, the way that the water runs.
    pub edge: Edge,
    /// How far from the head it begins, in metres.
    pub from_m: f64,
    /// The finished surface over it, or the ground.
    pub top: Option<Plane>,
    /// From where it is dug: the underside of a surface's dig, or the ground.
    pub dug_from: Option<Plane>,
    /// The surface that it lies under, by its index in the job.
    pub under: Option<usize>,
    /// What a surface beside it is dug for past its edge: how far, and down to
    /// where.
    pub beside: Option<(f64, Plane)>,
    /// Of a channel along a free edge, the ground past that edge, and how far
    /// the surface is dug past it.
    pub past_edge: Option<(f64, Plane)>,
}

/// Two points of a course this near one another, in metres, are one.
const SAME_POINT: f64 = 1e-6;

impl CoursePiece {
    /// How far from the head it ends, in metres.
    pub fn to_m(&self) -> f64 {
        self.from_m + self.edge.length()
    }
}

impl Course {
    /// The course of a drain; `None` where it is not stated, does not hold
    /// together, or does not say which way the water runs.
    pub fn of(job: &Job, drain: &Drain) -> Option<Course> {
        let line = &drain.line.as_ref()?.value;
        let (start, end) = line.ends()?;
        if let DrainLine::At(_) = line {
            return Some(Course {
                head: start,
                outlet: end,
                pieces: Vec::new(),
                is_way_assumed: false,
            });
        }
        let way = is_turned(job, drain, (start, end))?;
        let is_turned = way == Some(true);
        let mut edges: Vec<Edge> = line.edges().to_vec();
        let (mut head, mut outlet) = (start, end);
        if is_turned {
            edges.reverse();
            edges.iter_mut().for_each(|edge| *edge = edge.reversed());
            (head, outlet) = (end, start);
        }
        let mut pieces = Vec::new();
        let mut from = 0.0;
        for edge in edges {
            pieces.extend(over(job, drain, &edge, from));
            from += edge.length();
        }
        Some(Course {
            head,
            outlet,
            pieces,
            is_way_assumed: way.is_none(),
        })
    }

    /// Its length in metres.
    pub fn length(&self) -> f64 {
        self.pieces.last().map_or(0.0, CoursePiece::to_m)
    }

    /// How far from the head the point of it nearest to a point lies.
    pub fn distance_along(&self, point: Point) -> f64 {
        let off = |piece: &&CoursePiece| piece.edge.distance_to(point);
        let nearest = self
            .pieces
            .iter()
            .min_by(|one, other| off(one).total_cmp(&off(other)));
        nearest.map_or(0.0, |piece| {
            let along = piece.edge.distance_along(point);
            piece.from_m + along.clamp(0.0, piece.edge.length())
        })
    }
}

/// Whether the water runs against the order in which the line is written;
/// `Some(None)` along an edge that is level, where nothing else says which way;
/// `None` if that is not known.
fn is_turned(job: &Job, drain: &Drain, (start, end): (Point, Point)) -> Option<Option<bool>> {
    let DrainLine::Along { surface, .. } = &drain.line.as_ref()?.value else {
        return Some(Some(false));
    };
    let along = end - start;
    let is_against = |forward: f64| (forward.abs() > SAME_POINT).then_some(forward < 0.0);
    if let Some(toward) = drain.toward {
        return is_against(along.dot(toward)).map(Some);
    }
    let stated: Vec<(f64, Point)> = drain
        .inverts
        .iter()
        .filter_map(|invert| Some((invert.value.value.si(), invert.at?)))
        .collect();
    if let [(first, at), (second, other), ..] = stated.as_slice() {
        let by_levels = is_against((first - second) * (*other - *at).dot(along));
        if by_levels.is_some() {
            return by_levels.map(Some);
        }
    }
    if let Some(next) = job.drain_after(drain)
        && let Some((begins, ends)) = next.line.as_ref().and_then(|line| line.value.ends())
    {
        let off = |point: Point| point.distance(begins).min(point.distance(ends));
        return is_against(off(start) - off(end)).map(Some);
    }
    let surface = surface_of(job, surface)?;
    let falls = surface.level_at(start)? - surface.level_at(end)?;
    Some(is_against(falls))
}

/// The surface with a name.
fn surface_of<'a>(job: &'a Job, name: &str) -> Option<&'a Surface> {
    let mut surfaces = job.surfaces.iter();
    let found = surfaces.find(|surface| surface.name.value == name);
    found.map(AsRef::as_ref)
}

/// The surface along whose edge a drain runs.
pub(crate) fn beside<'a>(job: &'a Job, drain: &Drain) -> Option<&'a Surface> {
    match &drain.line.as_ref()?.value {
        DrainLine::Along { surface, .. } => surface_of(job, surface),
        _ => None,
    }
}

/// A piece of a line parted where it comes under something else.
fn over(job: &Job, drain: &Drain, edge: &Edge, from_m: f64) -> Vec<CoursePiece> {
    let ground = job.site.ground.as_ref().map(|ground| ground.plane);
    let open = |edge: Edge, from_m: f64| CoursePiece {
        edge,
        from_m,
        top: ground,
        dug_from: ground,
        under: None,
        beside: None,
        past_edge: None,
    };
    let index = |surface: &Surface| {
        let mut all = job.surfaces.iter();
        all.position(|own| own.section == surface.section)
    };
    let covered = |edge: Edge, from_m: f64, surface: &Surface| CoursePiece {
        edge,
        from_m,
        top: surface.plane_at(edge.midpoint()),
        dug_from: underside(surface, &edge, ground),
        under: index(surface),
        beside: None,
        past_edge: None,
    };
    // What runs along an edge lies on one side of it.
    if let Some(surface) = beside(job, drain) {
        return match drain.body.as_ref().map(|body| &body.value) {
            Some(DrainBody::Trench { .. }) => vec![CoursePiece {
                beside: dug_past(surface, edge, ground),
                ..open(*edge, from_m)
            }],
            _ => vec![CoursePiece {
                past_edge: open_past(surface, edge, ground),
                ..covered(*edge, from_m, surface)
            }],
        };
    }
    let length = edge.length();
    let mut stretches: Vec<(f64, f64, &Surface)> = Vec::new();
    for surface in job.surfaces.iter() {
        // Borders on builds of their own are dug for by themselves.
        let parts = surface.bed_parts().into_iter();
        let inside = parts.flat_map(|part| part.outline.stretches_inside(edge));
        stretches.extend(inside.map(|(from, to)| (from, to, surface.as_ref())));
    }
    stretches.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut pieces = Vec::new();
    let mut done = 0.0;
    for (from, to, surface) in stretches {
        // Where two surfaces overlap, the first is taken.
        let from = f64::max(from, done);
        if to - from <= SAME_POINT {
            continue;
        }
        if from - done > SAME_POINT {
            pieces.push(open(edge.between(done, from), from_m + done));
        }
        pieces.push(covered(edge.between(from, to), from_m + from, surface));
        done = to;
    }
    if length - done > SAME_POINT {
        pieces.push(open(edge.between(done, length), from_m + done));
    }
    pieces
}

/// What a surface over a drain is dug down to: the underside of its dig, or
/// the ground where that lies lower still.
fn underside(surface: &Surface, edge: &Edge, ground: Option<Plane>) -> Option<Plane> {
    let middle = edge.midpoint();
    let underside = surface.plane_at(middle)?.raised(-dug_depth(surface)?);
    let lower = ground.filter(|ground| ground.level_at(middle) < underside.level_at(middle));
    Some(lower.unwrap_or(underside))
}

/// How far a surface is dug past an edge of its shape, if it is so all along
/// it, and down to where.
fn dug_past(surface: &Surface, edge: &Edge, ground: Option<Plane>) -> Option<(f64, Plane)> {
    let sides = surface.sides.iter().zip(0..);
    let own = sides.filter(|(side, _)| side.edge == edge.tag);
    let past = own
        .map(|(_, tag)| dug_beyond(surface, tag))
        .reduce(f64::min);
    let past = past.filter(|past| *past > 0.0)?;
    Some((past, underside(surface, edge, ground)?))
}

/// The ground past an edge that is open all along, and how far a surface is
/// dug past it.
fn open_past(surface: &Surface, edge: &Edge, ground: Option<Plane>) -> Option<(f64, Plane)> {
    let sides = || surface.sides.iter().zip(0..);
    let own = || sides().filter(|(side, _)| side.edge == edge.tag);
    let is_open = own().count() > 0 && own().all(|(_, tag)| surface.is_open(tag));
    let past = own().map(|(_, tag)| dug_beyond(surface, tag));
    let past = past.reduce(f64::min).filter(|_| is_open)?;
    Some((past, ground?))
}

/// What lies over a point: the finished surface or the ground, and from where
/// it is dug there.
pub(crate) fn over_point(job: &Job, at: Point) -> (Option<Plane>, Option<Plane>) {
    let ground = job.site.ground.as_ref().map(|ground| ground.plane);
    // A border lies on what it borders, and is dug for by itself.
    let over = || job.surfaces.iter().filter(|surface| surface.contains(at));
    match over().find(|own| own.is_border()).or(over().next()) {
        Some(surface) => {
            let spot = Edge::line(at, at, 0);
            (surface.plane_at(at), underside(surface, &spot, ground))
        }
        None => (ground, ground),
    }
}

/// The level of the grating of a gully or a channel at a point of it: that of
/// the finish or the ground there. `None` of what has no grating.
pub(crate) fn grating(job: &Job, drain: &Drain, at: Point) -> Option<f64> {
    let kind = drain.kind()?;
    if !matches!(kind, DrainKind::Gully | DrainKind::Channel) {
        return None;
    }
    match beside(job, drain) {
        Some(surface) => surface.level_at(at),
        None => Some(over_point(job, at).0?.level_at(at)),
    }
}

/// The surfaces that a drain lies under or in, by their indices, each once.
pub(crate) fn lies_under(job: &Job, drain: &Drain) -> Vec<usize> {
    let Some(line) = drain.line.as_ref().map(|line| &line.value) else {
        return Vec::new();
    };
    let mut all: Vec<usize> = match line {
        DrainLine::At(at) => {
            let surfaces = job.surfaces.iter().enumerate();
            let over = surfaces.filter(|(_, surface)| surface.contains(*at));
            over.map(|(index, _)| index).collect()
        }
        _ => {
            let edges = line.edges().iter();
            let pieces = edges.flat_map(|edge| over(job, drain, edge, 0.0));
            pieces.filter_map(|piece| piece.under).collect()
        }
    };
    all.sort_unstable();
    all.dedup();
    all
}
