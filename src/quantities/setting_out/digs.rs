//! The ground that is dug for surfaces, flights and drains: what is to stand
//! clear of a dig stands clear of them all.

use crate::geometry::{Edge, Outline, Point, Vector, widened};
use crate::model::{Contact, Job, Surface};
use crate::quantities::drains;
use crate::quantities::footings::kerb_width_m;
use crate::quantities::steps;

/// The least way, in metres, between a peg and a dig that it was not set out
/// from: nearer to the edge the ground gives way.
const FIRM: f64 = 0.15;

/// The longest string along which a peg is moved out, in metres.
const LONGEST_STRING: f64 = 30.0;

/// The step, in metres, by which the far side of a dig is looked for, and how
/// often what is found is halved.
const STEP: f64 = 0.1;
const HALVINGS: u32 = 40;

/// What is less than this, in metres, is rounding.
const ROUNDING: f64 = 1e-6;

/// What holds a peg.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum DrivenInto {
    /// The ground.
    Ground,
    /// None: it is a mark on the wall, to which its line comes.
    Wall,
    /// Ground that is dug for this, though it was to stand clear: on its line
    /// a string reaches no other.
    Dig(String),
}

/// Everything that is dug in a job, and the walls between which it is.
#[derive(Debug, Default)]
pub(super) struct Digs {
    all: Vec<Dig>,
    walls: Vec<Edge>,
}

/// The dig for one thing.
#[derive(Debug)]
struct Dig {
    /// What it is dug for.
    name: String,
    outline: Outline,
    corners: (Point, Point),
}

impl Digs {
    /// Those of a job between its walls, as far as their outlines are known.
    pub(crate) fn of(job: &Job, walls: Vec<Edge>) -> Digs {
        let surfaces = job.surfaces.iter().flat_map(|own| {
            let outlines = of_surface(own).into_iter();
            outlines.map(|outline| (own.name.value.clone(), outline))
        });
        let flights = job.steps.iter().filter_map(|own| {
            let base = own.base.as_ref();
            let beyond = base.map_or(0.0, |base| base.layer.beyond_m());
            let outline = steps::steps(job, own).flight?.outline(beyond)?;
            Some((own.name.value.clone(), outline))
        });
        let drains = job.drains.iter();
        let drains = drains.filter_map(|own| Some((own.name.value.clone(), drains::dug(own)?)));
        let all = surfaces.chain(flights).chain(drains);
        Digs {
            all: all
                .map(|(name, outline)| Dig {
                    name,
                    corners: outline.bounding_box(),
                    outline,
                })
                .collect(),
            walls,
        }
    }

    /// The walls of the job.
    pub(crate) fn walls(&self) -> &[Edge] {
        &self.walls
    }

    /// Where a peg is put that is set out from a point and meant to stand so far
    /// clear of the dig there: where it is meant to, or farther out on the same
    /// line, past what else is dug; on the wall, where the line comes to one.
    pub(crate) fn clear(&self, from: Point, meant: Point, clear: f64) -> (Point, DrivenInto) {
        let way = (meant - from).unit();
        let firm = FIRM.min(clear) - ROUNDING;
        let (mut at, mut first) = (meant, None);
        while from.distance(at) < LONGEST_STRING {
            if let Some(on_wall) = self.wall_between(from, at) {
                return (on_wall, DrivenInto::Wall);
            }
            let Some(dig) = self.dug(at, firm) else {
                return (at, DrivenInto::Ground);
            };
            first = first.or(Some(dig));
            let Some(past) = dig.past(at, way) else { break };
            at = past + way * clear;
        }
        let name = first.map_or_else(String::new, |dig| dig.name.clone());
        (meant, DrivenInto::Dig(name))
    }

    /// The nearest point of a wall on a straight way, which comes to it at an
    /// end of the wall too.
    fn wall_between(&self, from: Point, to: Point) -> Option<Point> {
        let meets = |wall: &&Edge| {
            let (way, along) = (to - from, wall.chord());
            let apart = along.cross(from - wall.start) * along.cross(to - wall.start);
            let between = way.cross(wall.start - from) * way.cross(wall.end - from);
            apart < -ROUNDING && between < ROUNDING
        };
        let met = self.walls.iter().filter(meets);
        let met = met.map(|wall| {
            let (way, along) = (to - from, wall.chord());
            from + way * ((wall.start - from).cross(along) / way.cross(along))
        });
        met.min_by(|one, other| from.distance(*one).total_cmp(&from.distance(*other)))
    }

    /// The dig in which a point lies, or nearer to which than so far.
    fn dug(&self, at: Point, firm: f64) -> Option<&Dig> {
        self.all.iter().find(|dig| dig.is_near(at, firm))
    }
}

impl Dig {
    fn is_near(&self, at: Point, reach: f64) -> bool {
        let (low, high) = self.corners;
        let is_beside = at.x < low.x - reach || at.x > high.x + reach;
        let is_over = at.y < low.y - reach || at.y > high.y + reach;
        if is_beside || is_over {
            return false;
        }
        self.outline.contains(at) || self.outline.distance_to_boundary(at) < reach
    }

    /// The last point of it on a straight way from a point; `None` where a
    /// string is too short to tell.
    fn past(&self, from: Point, way: Vector) -> Option<Point> {
        let is_in = |along: f64| self.is_near(from + way * along, 0.0);
        let steps = (LONGEST_STRING / STEP) as u32;
        // Just before it the way leads into it first.
        let entry = (0..=4)
            .map(|step| f64::from(step) * 0.5 * STEP)
            .find(|at| is_in(*at));
        let Some(entry) = entry else {
            return Some(from);
        };
        let out = (1..=steps).map(|step| entry + f64::from(step) * STEP);
        let mut outside = out.into_iter().find(|along| !is_in(*along))?;
        let mut inside = outside - STEP;
        for _ in 0..HALVINGS {
            let middle = 0.5 * (inside + outside);
            match is_in(middle) {
                true => inside = middle,
                false => outside = middle,
            }
        }
        Some(from + way * inside)
    }
}

/// What is dug for a surface, piece by piece; nothing where all of it lies
/// there already. Where it is not known what lies past an edge, it is dug there.
fn of_surface(own: &Surface) -> Vec<Outline> {
    let build = own.build.as_ref().map(|build| &build.value);
    let dug = || {
        let layers = build.into_iter().flat_map(|build| &build.layers);
        layers.filter(|layer| layer.existing.is_none())
    };
    if build.is_some() && dug().next().is_none() {
        return Vec::new();
    }
    let beyond = dug().map(|layer| layer.beyond_m()).fold(0.0, f64::max);
    let is_open = |edge: &Edge| match own.contact(edge.tag) {
        Some(Contact::Unplaced(_)) => true,
        _ => own.is_open(edge.tag),
    };
    let outlines = own.outlines();
    let layers = outlines
        .map(|outline| widened(outline, beyond, &is_open).unwrap_or_else(|_| outline.clone()));
    // A kerb and its haunch may go past the layers.
    let width = |edge: &Edge| kerb_width_m(own, edge.tag);
    let kerbs = own.edges().map(&width).filter(|wide| *wide > beyond);
    let mut kerbs: Vec<f64> = kerbs.collect();
    kerbs.sort_by(f64::total_cmp);
    kerbs.dedup();
    let kerbs = kerbs.into_iter().flat_map(|wide| {
        let outlines = own.outlines();
        outlines.filter_map(move |outline| {
            widened(outline, wide, &|edge: &Edge| width(edge) >= wide).ok()
        })
    });
    layers.chain(kerbs).collect()
}
