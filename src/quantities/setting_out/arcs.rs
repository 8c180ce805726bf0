//! Arcs: swung from their centre where it can be reached, by offsets from the
//! chord where it cannot.

use super::super::measures::{Count, Length};
use super::super::trace::Trace;
use super::sides::{is_filled, laid, name_of};
use crate::geometry::{Edge, Outline, Point};
use crate::model::{Job, Surface};
use crate::units::{System, show};

/// The longest radius that is swung with a tape, in metres.
const LONGEST_TAPE: f64 = 30.0;

/// The most steps on either side of the chord's middle.
const MOST_STEPS: f64 = 30.0;

/// Whether the centre of an arc can be reached with a tape.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// It can.
    Open,
    /// The building is between the centre and the arc.
    BehindBuilding,
    /// The radius is longer than a tape.
    Long,
}

/// A point of an arc by its offset from the chord.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offset {
    /// How far along the chord from its middle, in metres, to either side.
    pub from_middle_m: f64,
    /// How far square out of the chord the arc lies there, in metres.
    pub offset_m: f64,
}

/// An arc of a surface. Lengths are in metres.
#[derive(Debug, Clone, PartialEq)]
pub struct ArcFigures {
    /// What it is called.
    pub name: String,
    /// The arc itself, as it runs in the outline.
    pub edge: Edge,
    /// Its centre.
    pub centre: Point,
    /// Its radius.
    pub radius_m: f64,
    /// The straight way between its ends.
    pub chord_m: f64,
    /// How far its middle stands out of the chord.
    pub height_m: f64,
    /// Its length.
    pub length_m: f64,
    /// Whether its centre can be reached.
    pub reach: Reach,
    /// Its offsets from the chord, from the middle to one end; none where the
    /// centre can be reached, or where it is longer than half a circle.
    pub offsets: Vec<Offset>,
}

impl ArcFigures {
    /// Whether this arc and the one after it are the two halves of a circle.
    pub fn makes_a_circle_with(&self, next: &ArcFigures) -> bool {
        let is_half = |own: &ArcFigures| (own.edge.bulge.abs() - 1.0).abs() < 1e-9;
        is_half(self) && is_half(next) && self.centre.distance(next.centre) < 1e-6
    }
}

/// The arcs of a surface, in the order of its outline; of a shape that comes
/// again those of the one that it draws.
pub(super) fn arcs(job: &Job, surface: &Surface, walls: &[Edge], trace: &Trace) -> Vec<ArcFigures> {
    let outline = laid(surface).into_iter().next();
    outline.map_or_else(Vec::new, |own| arcs_of(job, surface, (own, walls), trace))
}

/// The arcs of one of the outlines of a surface, among the walls of the job.
pub(super) fn arcs_of(
    job: &Job,
    surface: &Surface,
    (outline, walls): (&Outline, &[Edge]),
    trace: &Trace,
) -> Vec<ArcFigures> {
    let Some(shape) = surface.shape.as_ref().map(|shape| &shape.value) else {
        return Vec::new();
    };
    let own = outline.edges();
    let own = own.filter(|edge| !is_filled(job, surface, edge.tag));
    let arcs = own.filter_map(|edge| {
        let centre = edge.centre()?;
        let name = name_of(shape, edge);
        let chord = trace.input(
            format!("chord of {name}"),
            Length(edge.chord().length()),
            None,
        );
        let height = 0.5 * chord.value.0 * edge.bulge.abs();
        let height = trace.input(format!("height of {name}"), Length(height), None);
        let (m, c) = (height.called("height"), chord.called("chord"));
        let number = |of: f64| trace.term(show::number(of), Count(of));
        let radius = m / number(2.0) + c * c / m / number(8.0);
        let radius = trace.gives(format!("radius of {name}"), radius);
        let reach = reach(edge, centre, walls);
        let is_offset = reach != Reach::Open && edge.bulge.abs() <= 1.0;
        Some(ArcFigures {
            edge: *edge,
            centre,
            radius_m: radius.value.0,
            chord_m: chord.value.0,
            height_m: height.value.0,
            length_m: edge.length(),
            reach,
            offsets: match is_offset {
                true => offsets(edge, step(job, surface, edge), trace),
                false => Vec::new(),
            },
            name,
        })
    });
    arcs.collect()
}

fn reach(edge: &Edge, centre: Point, walls: &[Edge]) -> Reach {
    let mut ways = [edge.start, edge.midpoint(), edge.end].into_iter();
    let is_barred = |to: Point| walls.iter().any(|wall| crosses(centre, to, wall));
    match () {
        () if ways.any(is_barred) => Reach::BehindBuilding,
        () if edge.radius() > LONGEST_TAPE => Reach::Long,
        () => Reach::Open,
    }
}

/// Whether the straight way between two points goes through a wall; one that
/// ends at it does not. A curved wall is taken for its chord.
fn crosses(from: Point, to: Point, wall: &Edge) -> bool {
    let apart = |side: f64, other: f64| side * other < 0.0 && side.abs().min(other.abs()) > 1e-9;
    let (way, along) = (to - from, wall.chord());
    apart(way.cross(wall.start - from), way.cross(wall.end - from))
        && apart(along.cross(from - wall.start), along.cross(to - wall.start))
}

/// The greatest step along the chord: as pegs are asked for along this edge,
/// or what is easily sighted.
fn step(job: &Job, surface: &Surface, edge: &Edge) -> f64 {
    let asked = job.setting_out.iter().flat_map(|own| &own.pegs);
    let mut asked =
        asked.filter(|pegs| pegs.surface == surface.index && pegs.edges.contains(&edge.tag));
    asked.next().map_or_else(
        || match job.heading.system() {
            System::Imperial => 2.0 * 0.3048,
            System::Metric => 0.5,
        },
        |pegs| pegs.spacing.value.si(),
    )
}

/// The offsets of an arc from its chord at equal steps from its middle,
/// y = m − (R − √(R² − x²)).
pub(super) fn offsets(edge: &Edge, step: f64, trace: &Trace) -> Vec<Offset> {
    let (radius, half) = (edge.radius(), 0.5 * edge.chord().length());
    let height = half * edge.bulge.abs();
    let steps = (half / step - 1e-9).ceil().clamp(1.0, MOST_STEPS);
    let one = half / steps;
    (0..=steps as u32)
        .map(|index| {
            let from_middle = f64::from(index) * one;
            // The same as R − √(R² − x²), without losing what a long radius would.
            let root = ((radius - from_middle) * (radius + from_middle))
                .max(0.0)
                .sqrt();
            let drop = from_middle * from_middle / (radius + root);
            let x = trace.term("x", Length(from_middle));
            let m = trace.term("height", Length(height));
            let words = ["", " − (radius − √(radius² − ", "²))"];
            let offset = m.joined(words, x, |_, _| Length(height - drop));
            let name = format!("offset at {} of the half chord", share(index, steps));
            Offset {
                from_middle_m: from_middle,
                offset_m: trace.gives(name, offset).value.0,
            }
        })
        .collect()
}

/// `2/6`.
fn share(index: u32, steps: f64) -> String {
    format!("{index}/{steps}")
}
