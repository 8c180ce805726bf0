//! Setting out: where each peg stands, by tapes from two marks; how high; how
//! far below the string line each layer lies; and what proves it square.
//!
//! Worked out when a sheet asks for it, and not at each edit: it takes nothing
//! but the job, and no other figure hangs on it.

mod arcs;
mod boards;
mod checks;
mod digs;
mod grid;
mod marks;
mod pegs;
mod rods;
mod sides;
mod spots;
mod taping;

use std::collections::BTreeSet;

use super::trace::{Trace, Working};
use crate::geometry::{Edge, Point};
use crate::model::{Job, Surface};

pub use arcs::{ArcFigures, Offset, Reach};
pub use boards::{BoardLies, BoardMark, board_length};
pub use checks::Check;
pub use digs::DrivenInto;
pub use grid::GridLevel;
pub use marks::Marks;
pub use pegs::{PegOn, Stands};
pub use rods::{RodMark, RodTop};
pub use spots::{Spot, SpotOf, unplaced};
pub use taping::{Aside, Taping};

/// How a job is set out on the ground. Lengths and levels are in metres, `None`
/// where they cannot be known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SettingOutFigures {
    /// The two marks that every peg is taped from; `None` if none are stated
    /// and nothing meets the building.
    pub marks: Option<Marks>,
    /// Every peg once, in the order of their numbers.
    pub pegs: Vec<Peg>,
    /// The edges of holes too narrow for a peg to stand clear of the dig in
    /// them, each with its surface.
    pub cramped: BTreeSet<(String, String)>,
    /// The surfaces, in order.
    pub surfaces: Vec<SurfaceSettingOut>,
    /// The points of drains and steps.
    pub spots: Vec<Spot>,
}

/// A peg; its number is its place in the list, counted from 1.
#[derive(Debug, Clone, PartialEq)]
pub struct Peg {
    /// Where it stands.
    pub at: Point,
    /// How it is found from the marks, if there are any.
    pub taping: Option<Taping>,
}

/// How a surface is set out.
#[derive(Debug, Clone, PartialEq)]
pub struct SurfaceSettingOut {
    /// Its name.
    pub name: String,
    /// Its pegs.
    pub pegs: Vec<PegOn>,
    /// What lies below its string lines, from the top down.
    pub rod: Vec<RodMark>,
    /// The same in its borders that lie on a build of their own, each by its
    /// name.
    pub border_rods: Vec<(String, Vec<RodMark>)>,
    /// The marks under the board: the steepest way first, then each straight
    /// edge; of what falls to a drain square in from each edge. None where
    /// levels and fall give no plane.
    pub boards: Vec<BoardMark>,
    /// Its arcs.
    pub arcs: Vec<ArcFigures>,
    /// The straight ways between two pegs that prove it.
    pub checks: Vec<Check>,
    /// The grid of levels, if one is asked for and they are known.
    pub grid: Vec<GridLevel>,
}

/// Works out how a job is set out.
pub fn setting_out(job: &Job) -> SettingOutFigures {
    let marks = marks::marks(job);
    // Found once: every outline is looked at among all of them.
    let walls = sides::building_edges(job);
    let mut pegs = pegs::Pegs::new(marks, digs::Digs::of(job, walls.clone()));
    let surface = |own: &Surface, pegs: &mut pegs::Pegs| {
        let (on, corners) = pegs.of_surface(job, own);
        SurfaceSettingOut {
            name: own.name.value.clone(),
            pegs: on,
            rod: rods::rod(job, own, &Trace::silent()),
            border_rods: job
                .surfaces
                .iter()
                .filter(|border| border.border_of == Some(own.index))
                .map(|border| {
                    (
                        border.name.value.clone(),
                        rods::rod(job, border, &Trace::silent()),
                    )
                })
                .collect(),
            boards: boards::boards(job, own, &Trace::silent()),
            checks: checks::checks(&corners, pegs.all()),
            grid: grid::grid(job, own, marks),
            arcs: arcs::arcs(job, own, &walls, &Trace::silent()),
        }
    };
    let surfaces = job.surfaces.iter().filter(|own| !own.is_border());
    let surfaces = surfaces.map(|own| surface(own, &mut pegs)).collect();
    let (all, cramped) = pegs.into_all();
    SettingOutFigures {
        marks,
        pegs: all,
        cramped,
        surfaces,
        spots: spots::spots(job, marks.as_ref()),
    }
}

/// How each figure of the setting out comes about: the pegs by their numbers,
/// then the strings, boards and arcs of each surface.
pub fn setting_out_workings(job: &Job) -> Vec<Working> {
    let found = setting_out(job);
    let system = job.heading.system();
    let mut workings = Vec::new();
    let place_of = |number: u32| {
        let surfaces = job.surfaces.iter().zip(&found.surfaces);
        let mut owners = surfaces.filter(|(_, own)| own.pegs.iter().any(|on| on.peg == number));
        owners.next().map(|(surface, _)| surface.place)
    };
    for (number, peg) in (1..).zip(&found.pegs) {
        if let (Some(marks), Some(place)) = (&found.marks, place_of(number)) {
            let trace = Trace::of(format!("peg {number}"), place, system);
            taping::taping(marks, peg.at, &trace);
            workings.extend(trace.working());
        }
    }
    for spot in &found.spots {
        if let Some(marks) = &found.marks {
            let trace = Trace::of(format!("point {}", spot.label), spot.place, system);
            taping::taping(marks, spot.at, &trace);
            workings.extend(trace.working());
        }
    }
    let walls = sides::building_edges(job);
    type Work = fn(&Job, &Surface, &[Edge], &Trace);
    let parts: [(&str, Work); 3] = [
        ("depths below the string", |job, own, _, trace| {
            rods::rod(job, own, trace);
        }),
        ("marks under the board", |job, own, _, trace| {
            boards::boards(job, own, trace);
        }),
        ("arcs", |job, own, walls, trace| {
            arcs::arcs(job, own, walls, trace);
        }),
    ];
    for surface in job.surfaces.iter() {
        for (what, work) in parts {
            let title = format!("{what} of {}", surface.name.value);
            let trace = Trace::of(title, surface.place, system);
            work(job, surface, &walls, &trace);
            workings.extend(trace.working());
        }
    }
    workings.retain(|working| !working.steps.is_empty());
    workings
}
