//! The mark under a level board: how far the finish drops over its length.

use super::super::measures::{Length, Slope};
use super::super::term::Term;
use super::super::trace::Trace;
use super::sides::walked;
use crate::geometry::Vector;
use crate::model::{Job, Origin, Sourced, Surface};
use crate::sources::Source;
use crate::units::System;

/// A slope along which a drop is less than anybody reads off a board: 0.1 mm
/// in a metre.
const LEVEL_ENOUGH: f64 = 1e-4;

/// Where the length of the usual board comes from.
static USUAL: Source = Source::COMMON_PRACTICE;

/// The mark under the low end of a level board.
#[derive(Debug, Clone, PartialEq)]
pub struct BoardMark {
    /// The edge that the board lies along; `None` for the steepest way.
    pub along: Option<String>,
    /// The slope, as a fraction of one.
    pub slope: f64,
    /// How far below the board's end the finish lies, in metres.
    pub down_m: f64,
    /// Toward which bearing it falls, in degrees; `None` where it is level.
    pub toward_degrees: Option<f64>,
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
/// straight edge once. None where levels and fall give no plane.
pub(super) fn boards(job: &Job, surface: &Surface, trace: &Trace) -> Vec<BoardMark> {
    let (Some(plane), Some(board)) = (surface.plane, board_length(job)) else {
        return Vec::new();
    };
    let board = trace.sourced("board", &board, Length);
    let steepest = trace.found("steepest fall", Slope(plane.slope()), "the finished plane");
    let mut marks = vec![mark(None, steepest, plane.fall_direction(), board, trace)];
    let sides = walked(surface, None).into_iter().flatten();
    for side in sides.filter(|side| !side.edge.is_arc()) {
        let along = side.edge.chord().unit();
        let fall = plane.fall_toward(along);
        let way = if fall < 0.0 { -along } else { along };
        let how = format!("the finished plane along {}", side.name);
        let slope = trace.found(format!("fall along {}", side.name), Slope(fall.abs()), how);
        let known = |mark: &BoardMark| mark.along.as_deref() == Some(side.name.as_str());
        if !marks.iter().any(known) {
            marks.push(mark(
                Some(side.name.clone()),
                slope,
                Some(way),
                board,
                trace,
            ));
        }
    }
    marks
}

fn mark<'t>(
    along: Option<String>,
    slope: Term<'t, Slope>,
    way: Option<Vector>,
    board: Term<'t, Length>,
    trace: &'t Trace,
) -> BoardMark {
    let down = trace.gives("mark below the end of the board", slope * board);
    let is_level = slope.value.0 <= LEVEL_ENOUGH;
    BoardMark {
        along,
        slope: slope.value.0,
        down_m: down.value.0,
        toward_degrees: way.filter(|_| !is_level).map(Vector::bearing),
    }
}
