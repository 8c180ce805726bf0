//! The job's surfaces as they lie on the paper.

use crate::geometry::{Edge, Loop, Motion, NO_TAG, Outline, Point, Vector};
use crate::model::{Border, Contact, Job, Surface};

/// The most steps across a surface in which places on it are looked for.
const STEPS: f64 = 28.0;

/// How places of the plan become places of the paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct View {
    /// Millimetres of paper to a metre of ground.
    pub scale: f64,
    /// Where the plan's origin lies on the paper.
    pub origin: Point,
}

impl View {
    /// A place on the paper.
    pub(crate) fn point(&self, point: Point) -> Point {
        self.origin + (point - Point::ORIGIN) * self.scale
    }

    /// An outline on the paper.
    pub(crate) fn outline(&self, outline: &Outline) -> Outline {
        let boundary = |one: &Loop| Loop {
            edges: one.edges.iter().map(|edge| self.edge(edge)).collect(),
        };
        Outline {
            outer: boundary(&outline.outer),
            holes: outline.holes.iter().map(boundary).collect(),
        }
    }

    fn edge(&self, edge: &Edge) -> Edge {
        Edge {
            start: self.point(edge.start),
            end: self.point(edge.end),
            ..*edge
        }
    }
}

/// A surface with its outline on the paper.
#[derive(Debug, Clone)]
pub(crate) struct Ground<'j> {
    /// The surface.
    pub surface: &'j Surface,
    /// Its outline in millimetres, or one of several of its shape.
    pub outline: Outline,
    /// How that lies to the one that the shape draws; `None` if it is that.
    motion: Option<Motion>,
    /// Its place among them.
    index: usize,
}

impl<'j> Ground<'j> {
    /// The outlines of the surfaces of a job.
    pub(crate) fn of_job(job: &'j Job, view: &View) -> Vec<Ground<'j>> {
        // Borders are drawn with what they border.
        let surfaces = job.surfaces.iter().filter(|own| !own.is_border());
        let grounds = surfaces.flat_map(|surface| {
            let motions = surface.repeat.iter().flat_map(|own| &own.motions);
            let motions = std::iter::once(None).chain(motions.map(Some));
            let outlines = surface.outlines().zip(motions).enumerate();
            outlines.map(|(index, (outline, motion))| Ground {
                surface,
                outline: view.outline(outline),
                motion: motion.copied(),
                index,
            })
        });
        grounds.collect()
    }

    /// Whether it is the outline that the shape draws: what is said once of a
    /// surface is said there.
    pub(crate) const fn is_drawn_by_shape(&self) -> bool {
        self.motion.is_none()
    }

    /// Whether it is dimensioned: of a row of one shape the first and the last,
    /// of one that turns along a path the first.
    pub(crate) fn is_dimensioned(&self) -> bool {
        let is_last = self.index == self.surface.others.len();
        self.is_drawn_by_shape() || is_last && self.turn() == 0.0
    }

    /// What of a shape that comes again lies in a hole.
    pub(crate) fn filling<'g>(grounds: &'g [Ground<'j>], hole: &Loop) -> Option<&'g Ground<'j>> {
        let corners = hole.edges.iter().map(|edge| edge.start);
        let (low, high) = corners.clone().zip(corners).reduce(|all, one| {
            let low = Point::new(all.0.x.min(one.0.x), all.0.y.min(one.0.y));
            (low, Point::new(all.1.x.max(one.1.x), all.1.y.max(one.1.y)))
        })?;
        let middle = low.midpoint(high);
        let mut repeated = grounds.iter().filter(|own| own.surface.repeat.is_some());
        repeated.find(|own| own.outline.contains(middle))
    }

    /// What a border leaves of it, on the plan; `None` where that is not known.
    pub(crate) fn left_by(&self, border: &Border) -> Option<Vec<Outline>> {
        let own = self.index.checked_sub(1);
        match own.and_then(|index| border.others_left.get(index)) {
            Some(left) => Some(left.clone()),
            None => {
                let left = border.left.as_ref()?.iter();
                Some(left.map(|piece| self.laid(piece)).collect())
            }
        }
    }

    /// Where on the plan something of the outline that the shape draws lies of
    /// this one.
    fn laid(&self, outline: &Outline) -> Outline {
        match &self.motion {
            Some(motion) => motion.outline(outline),
            None => outline.clone(),
        }
    }

    /// Where on the plan a point of the outline that the shape draws lies of
    /// this one.
    pub(crate) fn laid_point(&self, at: Point) -> Point {
        self.motion.map_or(at, |motion| motion.point(at))
    }

    /// How far it is turned from the outline that the shape draws, in radians.
    pub(crate) fn turn(&self) -> f64 {
        self.motion.map_or(0.0, |motion| motion.turn)
    }

    /// The edges that stand against something of a kind.
    pub(crate) fn edges_at(&self, wanted: impl Fn(Contact) -> bool) -> impl Iterator<Item = &Edge> {
        self.outline
            .edges()
            .filter(move |edge| self.surface.contact(edge.tag).is_some_and(&wanted))
    }

    /// Its middle, as far in as its outline allows: the centre of gravity, or
    /// a place inside if that lies in a hole or a bay.
    pub(crate) fn middle(&self) -> Point {
        let centre = self.outline.centroid();
        if self.outline.contains(centre) {
            return centre;
        }
        let inside = self.places(3.0);
        inside.first().copied().unwrap_or(centre)
    }

    /// Places inside, on a grid of this step or a wider one, those nearest to
    /// the middle first.
    pub(crate) fn places(&self, step: f64) -> Vec<Point> {
        let (low, high) = self.outline.bounding_box();
        let centre = self.outline.centroid();
        let size = (high - low).x.max((high - low).y);
        // So many steps across are enough for any surface.
        let step = step.max(size / STEPS);
        let count = |low: f64, high: f64| ((high - low) / step).floor().clamp(0.0, STEPS) as u32;
        let (columns, rows) = (count(low.x, high.x), count(low.y, high.y));
        let mut places: Vec<Point> = (0..=columns)
            .flat_map(|column| (0..=rows).map(move |row| (column, row)))
            .map(|(column, row)| {
                let off = |index: u32, count: u32| f64::from(index) - f64::from(count) / 2.0;
                let middle = low.midpoint(high);
                middle + Vector::new(off(column, columns), off(row, rows)) * step
            })
            .chain([centre])
            .filter(|place| self.outline.contains(*place))
            .collect();
        places.sort_by(|a, b| a.distance(centre).total_cmp(&b.distance(centre)));
        places
    }
}

/// The two directions that a plan's dimensions run in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Frame {
    /// To the right on the paper, or nearest to it.
    pub along: Vector,
    /// Upward on the paper, or nearest to it.
    pub across: Vector,
}

impl Frame {
    /// The frame that most of the straight edges keep to.
    pub(crate) fn of(grounds: &[Ground<'_>]) -> Frame {
        let mut angles: Vec<(f64, f64)> = Vec::new();
        for edge in grounds.iter().flat_map(|ground| ground.outline.edges()) {
            if edge.is_arc() {
                continue;
            }
            let way = edge.chord();
            let quarter = std::f64::consts::FRAC_PI_2;
            let mut angle = way.y.atan2(way.x).rem_euclid(quarter);
            // −45° to 45°, so that a right angle is none.
            if angle > quarter / 2.0 + 1e-9 {
                angle -= quarter;
            }
            match angles
                .iter_mut()
                .find(|(own, _)| (*own - angle).abs() < 1e-4)
            {
                Some((_, sum)) => *sum += way.length(),
                None => angles.push((angle, way.length())),
            }
        }
        // Of two that weigh the same, the one nearest to upright.
        let best = angles.iter().max_by(|(a, sum), (b, other)| {
            let heavier = (sum - other) / sum.max(*other);
            match heavier.abs() < 1e-6 {
                true => b.abs().total_cmp(&a.abs()),
                false => sum.total_cmp(other),
            }
        });
        let angle = best.map_or(0.0, |(angle, _)| *angle);
        let along = match angle.abs() < 1e-9 {
            true => Vector::new(1.0, 0.0),
            false => Vector::new(1.0, 0.0).turned(angle),
        };
        Frame {
            along,
            across: along.left(),
        }
    }
}

/// An edge moved to its left by so much; an arc stays about its centre. None
/// where nothing would be left of it.
pub(crate) fn moved_left(edge: &Edge, distance: f64) -> Option<Edge> {
    let move_end = |at: Point, way: Vector| at + way.left() * distance;
    let start = move_end(edge.start, edge.direction_at_start());
    let end = move_end(edge.end, edge.direction_at_end());
    let turns_over = edge.is_arc() && edge.bulge.signum() * distance >= edge.radius();
    (!turns_over).then_some(Edge {
        start,
        end,
        ..*edge
    })
}

/// The strip between an edge and the same moved to its right: outside a
/// surface.
pub(crate) fn strip_outside(edge: &Edge, depth: f64) -> Option<Outline> {
    let far = moved_left(edge, -depth)?;
    let line = |from, to| Edge::line(from, to, NO_TAG);
    Some(Outline {
        outer: Loop {
            edges: vec![
                edge.reversed(),
                line(edge.start, far.start),
                far,
                line(far.end, edge.end),
            ],
        },
        holes: Vec::new(),
    })
}

/// Chains of edges that follow one another round their loops, each where
/// `wanted` says so. A chain that goes all the way round is closed.
pub(crate) fn chains(outline: &Outline, wanted: impl Fn(&Edge) -> bool) -> Vec<(Vec<Edge>, bool)> {
    let mut chains = Vec::new();
    for boundary in outline.loops() {
        let edges = &boundary.edges;
        let Some(gap) = edges.iter().position(|edge| !wanted(edge)) else {
            chains.push((edges.clone(), true));
            continue;
        };
        let mut chain: Vec<Edge> = Vec::new();
        for edge in edges.iter().cycle().skip(gap).take(edges.len() + 1) {
            if wanted(edge) {
                chain.push(*edge);
            } else if !chain.is_empty() {
                chains.push((std::mem::take(&mut chain), false));
            }
        }
    }
    chains
}

/// A chain moved to its left, its corners mitred.
pub(crate) fn chain_moved(chain: &[Edge], is_closed: bool, distance: f64) -> Vec<Edge> {
    let count = chain.len();
    let neighbour = |at: usize, next: bool| -> Option<&Edge> {
        match (next, is_closed) {
            (true, true) => chain.get((at + 1) % count),
            (true, false) => chain.get(at + 1),
            (false, true) => chain.get((at + count - 1) % count),
            (false, false) => at.checked_sub(1).and_then(|before| chain.get(before)),
        }
    };
    let mitre = |before: Vector, after: Vector| {
        let (a, b) = (before.left(), after.left());
        let both = 1.0 + a.dot(b);
        // Past a sharp corner a mitre would reach too far.
        if both < 0.3 {
            b
        } else {
            (a + b) * (1.0 / both)
        }
    };
    let moved = chain.iter().enumerate().map(|(at, edge)| {
        let (first, last) = (edge.direction_at_start(), edge.direction_at_end());
        let start = neighbour(at, false).map_or(first.left(), |before| {
            mitre(before.direction_at_end(), first)
        });
        let end = neighbour(at, true)
            .map_or(last.left(), |after| mitre(last, after.direction_at_start()));
        Edge {
            start: edge.start + start * distance,
            end: edge.end + end * distance,
            ..*edge
        }
    });
    moved.collect()
}
