//! The mark under a level board: how far the finish drops over its length.

use super::super::measures::{Length, Slope};
use super::super::term::Term;
use super::super::trace::Trace;
use super::sides::walked;
use crate::geometry::{Facet, Vector};
use crate::model::{Job, Origin, Sourced, Surface};
use crate::sources::Source;
use crate::units::System;

/// A slope along which a drop is less than anybody reads off a board: 0.1 mm
/// in a metre.
const LEVEL_ENOUGH: f64 = 1e-4;

/// Two ways that differ by fewer degrees are one.
const SAME_WAY: f64 = 0.5;

/// Where the length of the usual board comes from.
static USUAL: Source = Source::COMMON_PRACTICE;

/// The mark under the low end of a level board.
#[derive(Debug, Clone, PartialEq)]
pub struct BoardMark {
    /// How the board lies.
    pub lies: BoardLies,
    /// The slope, as a fraction of one.
    pub slope: f64,
    /// How far below the board's end the finish lies, in metres.
    pub down_m: f64,
    /// How far along the board that is, in metres, where not at its end: what
    /// falls to a drain ends there.
    pub at_m: Option<f64>,
    /// Toward which bearing it falls, in degrees; `None` where it is level.
    pub toward_degrees: Option<f64>,
}

/// How a board lies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BoardLies {
    /// The steepest way.
    Steepest,
    /// Along an edge; of one in several pieces that fall differently along
    /// this piece, counted from 1 where there are more.
    Along(String, Option<u32>),
    /// Square from an edge toward the drain to which the surface falls.
    From(String),
}

impl BoardLies {
    /// How it lies, as a sheet says it, an edge by this name.
    pub fn words(&self, edge: impl Fn(&str) -> String) -> String {
        match self {
            BoardLies::Steepest => "the steepest way".to_owned(),
            BoardLies::Along(name, None) => edge(name),
            BoardLies::Along(name, Some(piece)) => format!("{}, piece {piece}", edge(name)),
            BoardLies::From(name) => format!("in from {}", edge(name)),
        }
    }
}

/// The length of the board in metres: as stated, or what a crew usually has.
/// `None` where what is stated could not be made out.
pub fn board_length(job: &Job) -> Option<Sourced<f64>> {
    let setting_out = job.setting_out.as_ref();
    if setting_out.is_some_and(|own| own.is_unread("board")) {
        return None;
    }
    if let Some(stated) = setting_out.and_then(|own| own.board.as_ref()) {
        return Some(Sourced {
            value: stated.value.si(),
            origin: Origin::Line(stated.place),
        });
    }
    Some(Sourced {
        value: match job.heading.system() {
            System::Imperial => 8.0 * 0.3048,
            System::Metric => 2.0,
        },
        origin: Origin::Default {
            what: "board",
            source: &USUAL,
        },
    })
}

/// The marks under the board for a surface: the steepest way first, then each
/// straight edge once; of one that falls to a drain square in from each edge.
/// None where levels and fall give no plane.
pub(super) fn boards(job: &Job, surface: &Surface, trace: &Trace) -> Vec<BoardMark> {
    let Some(board) = board_length(job).filter(|_| surface.has_levels()) else {
        return Vec::new();
    };
    let board = trace.sourced("board", &board, Length);
    let Some(plane) = surface.plane else {
        let marks = surface.facets.iter();
        let marks = marks.map(|facet| from_edge(surface, facet, board, trace));
        return marks.flatten().collect();
    };
    let steepest = trace.found("steepest fall", Slope(plane.slope()), "the finished plane");
    let way = plane.fall_direction();
    let mut marks = vec![mark(BoardLies::Steepest, steepest, way, board, trace)];
    let sides = walked(surface).into_iter().flatten();
    for side in sides.filter(|side| !side.edge.is_arc()) {
        let along = side.edge.chord().unit();
        let fall = plane.fall_toward(along);
        let way = if fall < 0.0 { -along } else { along };
        let how = format!("the finished plane along {}", side.name);
        let slope = trace.found(format!("fall along {}", side.name), Slope(fall.abs()), how);
        let own = BoardLies::Along(side.name.clone(), None);
        let own = mark(own, slope, Some(way), board, trace);
        let mut pieces = marks
            .iter()
            .filter(|known| known.edge() == Some(&side.name));
        if !pieces.any(|known| known.falls_as(&own)) {
            marks.push(own);
        }
    }
    number(&mut marks);
    marks
}

/// Numbers the pieces of each edge of which several fall differently.
fn number(marks: &mut [BoardMark]) {
    let names: Vec<Option<String>> = marks.iter().map(|mark| mark.edge().cloned()).collect();
    for (index, mark) in marks.iter_mut().enumerate() {
        let is_same = |name: &&Option<String>| name.is_some() && Some(*name) == names.get(index);
        let before = names.iter().take(index).filter(is_same).count();
        if let BoardLies::Along(_, piece) = &mut mark.lies
            && names.iter().filter(is_same).count() > 1
        {
            *piece = u32::try_from(before + 1).ok();
        }
    }
}

impl BoardMark {
    /// The edge along which the board lies.
    fn edge(&self) -> Option<&String> {
        match &self.lies {
            BoardLies::Along(name, _) => Some(name),
            _ => None,
        }
    }

    /// Whether it falls as much and the same way as another.
    fn falls_as(&self, other: &BoardMark) -> bool {
        let apart = |(one, other): (f64, f64)| {
            let apart = (one - other).rem_euclid(360.0);
            apart.min(360.0 - apart)
        };
        let bearings = self.toward_degrees.zip(other.toward_degrees);
        let is_same_way = bearings.map_or(
            self.toward_degrees.is_none() && other.toward_degrees.is_none(),
            |both| apart(both) < SAME_WAY,
        );
        is_same_way && (self.slope - other.slope).abs() <= LEVEL_ENOUGH
    }
}

/// The mark under the board square in from an edge, no farther than the drain.
fn from_edge<'t>(
    surface: &Surface,
    facet: &Facet,
    board: Term<'t, Length>,
    trace: &'t Trace,
) -> Option<BoardMark> {
    let mut sides = walked(surface).into_iter().flatten();
    let name = sides.find(|side| facet.is_along(&side.edge))?.name;
    let slope = facet.plane.slope();
    let slope = trace.found(
        format!("fall from {name}"),
        Slope(slope),
        "the finished plane there",
    );
    let is_short = facet.run < board.value.0;
    let reach = match is_short {
        true => trace.term(format!("from {name} to the drain"), Length(facet.run)),
        false => board,
    };
    Some(BoardMark {
        at_m: is_short.then_some(facet.run),
        ..mark(
            BoardLies::From(name),
            slope,
            Some(facet.downhill()),
            reach,
            trace,
        )
    })
}

fn mark<'t>(
    lies: BoardLies,
    slope: Term<'t, Slope>,
    way: Option<Vector>,
    board: Term<'t, Length>,
    trace: &'t Trace,
) -> BoardMark {
    let down = trace.gives("mark below the end of the board", slope * board);
    let is_level = slope.value.0 <= LEVEL_ENOUGH;
    BoardMark {
        lies,
        at_m: None,
        slope: slope.value.0,
        down_m: down.value.0,
        toward_degrees: way.filter(|_| !is_level).map(Vector::bearing),
    }
}
