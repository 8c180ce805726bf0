//! The setting out as JSON, for programs: in SI, the unit in the key, as
//! `grammar/setout.schema.json` says. What is not known is null.

use crate::report::json;
use serde::Serialize;

use super::reasons::{assumed, unknown};
use super::words::{spot, stands};
use crate::analysis::Analysis;
use crate::geometry::Point;
use crate::model::Job;
use crate::quantities::{
    ArcFigures, BoardLies, BoardMark, Check, DrivenInto, GridLevel, Marks, Offset, Peg, PegOn,
    Reach, RodMark, RodTop, Spot, Stands, SurfaceSettingOut, WorkOn, board_length, setting_out,
};
use crate::report::standing::Standing;
use crate::units::System;

/// How a job is set out, as one JSON document.
pub fn setout_json(analysis: &Analysis) -> String {
    let job = &analysis.job;
    let found = setting_out(job);
    let system = job.heading.system();
    let title = job.heading.title.as_ref();
    let document = Document {
        version: 1,
        title: title.map(|title| title.value.as_str()),
        units: match system {
            System::Imperial => "imperial",
            System::Metric => "metric",
        },
        check: Standing::of(analysis),
        marks: found.marks.as_ref().map(marks),
        board_m: board_length(job).map(|board| board.value),
        pegs: (1..).zip(&found.pegs).map(peg).collect(),
        surfaces: found
            .surfaces
            .iter()
            .map(|own| surface(own, &analysis.job))
            .collect(),
        points: found.spots.iter().map(point).collect(),
        assumed: assumed(analysis, &found),
        unknown: unknown(analysis, &found),
    };
    json::written(&document)
}

/// What `drylay setout --format json` writes: metres, null where a figure is not known.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(in crate::report) struct Document<'a> {
    version: u32,
    title: Option<&'a str>,
    /// `imperial` or `metric`, as the job has it; every figure here is in metres all the same.
    units: &'static str,
    /// Nothing is set out from a spec with errors.
    check: Standing,
    /// Null where none are stated and nothing meets the building.
    marks: Option<MarksLine>,
    /// How long the board under the level is.
    board_m: Option<f64>,
    /// Every peg once, in the order of their numbers.
    pegs: Vec<PegLine>,
    /// The surfaces, in order.
    surfaces: Vec<Surface<'a>>,
    /// The points of drains and steps, and of shapes that come again.
    points: Vec<PointLine<'a>>,
    /// What was taken where nothing is stated.
    assumed: Vec<String>,
    /// Why figures are null.
    unknown: Vec<String>,
}

/// A point of the plan.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct At {
    east_m: f64,
    north_m: f64,
}

/// The two marks from which tapes are held.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct MarksLine {
    a: At,
    b: At,
    /// Whether the spec states them; otherwise they are the ends of the building edge.
    stated: bool,
}

/// A peg.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct PegLine {
    number: u32,
    east_m: f64,
    north_m: f64,
    from_a_m: Option<f64>,
    from_b_m: Option<f64>,
    /// How far along the line from A toward B; negative behind A.
    along_m: Option<f64>,
    /// How far square out of that line, to its side.
    out_m: Option<f64>,
    /// `left`, `right` or `in line`, as one stands at A and looks to B.
    side: Option<&'static str>,
    /// Null at a mark.
    tapes_cross_degrees: Option<f64>,
    /// False where they cross under 30 or over 150 degrees.
    tapes_fix_it: Option<bool>,
}

/// A point of a drain or of steps.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct PointLine<'a> {
    label: &'a str,
    /// The drain that it is of; null for one of anything else.
    drain: Option<&'a str>,
    /// The flight that it is of; null for one of anything else.
    steps: Option<&'a str>,
    /// The surface of whose shape it is one of several; left out for others.
    #[serde(skip_serializing_if = "Option::is_none")]
    surface: Option<&'a str>,
    /// In words.
    #[serde(rename = "where")]
    stands: String,
    east_m: f64,
    north_m: f64,
    /// The invert of a drain, the level of the foot or the top of steps, the
    /// finished level of a surface.
    level_m: Option<f64>,
    /// Of a gully or a channel, the level of its grating there; left out for
    /// others.
    #[serde(skip_serializing_if = "Option::is_none")]
    grating_m: Option<f64>,
    from_a_m: Option<f64>,
    from_b_m: Option<f64>,
    /// From A toward B; negative behind A.
    along_m: Option<f64>,
    /// Square out of that line, to its side.
    out_m: Option<f64>,
    /// `left`, `right` or `in line`, as one stands at A and looks to B.
    side: Option<&'static str>,
    /// False where the tapes cross under 30 or over 150 degrees.
    tapes_fix_it: Option<bool>,
}

/// How a surface is set out.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Surface<'a> {
    name: &'a str,
    /// Its pegs, some of which other surfaces have too.
    pegs: Vec<On<'a>>,
    /// How far below the string line each top lies, the same at every peg.
    below_string: Vec<Mark>,
    /// The same in its borders that lie on a build of their own; left out where
    /// there are none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    borders: Vec<Border<'a>>,
    /// The mark under the low end of a level board.
    board_marks: Vec<Board<'a>>,
    arcs: Vec<Arc<'a>>,
    /// The straight ways between two pegs that prove it.
    checks: Vec<Across>,
    /// The grid of levels, if one is asked for.
    grid: Vec<Level>,
}

/// A border on a build of its own.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Border<'a> {
    name: &'a str,
    /// How far below the string line each top lies in it.
    below_string: Vec<Mark>,
}

/// Where a peg of a surface stands.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct On<'a> {
    peg: u32,
    /// `corner`, `along`, `centre` or `clear`; `wall` for a mark on it.
    kind: &'static str,
    /// In words.
    #[serde(rename = "where")]
    stands: String,
    /// Of a shape that comes again to which of them, counted from the one that
    /// the shape draws; left out for others.
    #[serde(skip_serializing_if = "Option::is_none")]
    nth: Option<usize>,
    /// What is dug where it stands though it is to stand clear, as a string
    /// reaches no clear ground on its line; left out where it stands clear.
    #[serde(skip_serializing_if = "Option::is_none")]
    in_dig_of: Option<&'a str>,
    /// The finished level, the plane carried on outside the surface.
    level_m: Option<f64>,
}

/// A top below the string line.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Mark {
    /// `finish`, `dig`, or the layer whose top it is.
    mark: &'static str,
    material: Option<String>,
    below_m: Option<f64>,
}

/// A mark under the end of a level board.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Board<'a> {
    /// The edge; null for the steepest way.
    along: Option<&'a str>,
    /// The edge from which it lies square in, toward the drain to which the
    /// surface falls; only of such a surface.
    #[serde(skip_serializing_if = "Option::is_none")]
    from: Option<&'a str>,
    slope: f64,
    down_m: f64,
    /// How far along the board that is, where the drain lies nearer than the
    /// board is long.
    #[serde(skip_serializing_if = "Option::is_none")]
    at_m: Option<f64>,
    /// A bearing; null where it is level.
    toward_degrees: Option<f64>,
}

/// An arc of the outline.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Arc<'a> {
    name: &'a str,
    centre: At,
    radius_m: f64,
    chord_m: f64,
    height_m: f64,
    length_m: f64,
    centre_reached: bool,
    /// From the chord, the same both ways from its middle, where the centre cannot be reached.
    offsets: Vec<OffsetLine>,
}

/// An offset from a chord.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct OffsetLine {
    from_middle_m: f64,
    offset_m: f64,
}

/// The straight way between two pegs.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Across {
    from: u32,
    to: u32,
    distance_m: f64,
}

/// A level of the grid.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Level {
    along_m: f64,
    out_m: f64,
    east_m: f64,
    north_m: f64,
    level_m: f64,
}

fn at(point: Point) -> At {
    At {
        east_m: point.x,
        north_m: point.y,
    }
}

fn marks(own: &Marks) -> MarksLine {
    MarksLine {
        a: at(own.first),
        b: at(own.second),
        stated: own.place.is_some(),
    }
}

fn peg((number, own): (u32, &Peg)) -> PegLine {
    let taping = own.taping.as_ref();
    PegLine {
        number,
        east_m: own.at.x,
        north_m: own.at.y,
        from_a_m: taping.map(|taping| taping.from_first_m),
        from_b_m: taping.map(|taping| taping.from_second_m),
        along_m: taping.map(|taping| taping.along_m),
        out_m: taping.map(|taping| taping.out_m),
        side: taping.map(|taping| taping.aside.word()),
        tapes_cross_degrees: taping.and_then(|taping| taping.crossing_degrees),
        tapes_fix_it: taping.map(|taping| !taping.is_weak()),
    }
}

fn point(own: &Spot) -> PointLine<'_> {
    let taping = own.taping.as_ref();
    let (is_of_steps, is_of_surface) = match own.on {
        WorkOn::Steps(_) => (true, false),
        WorkOn::Surface(_) => (false, true),
        WorkOn::Drain(_) => (false, false),
    };
    let name = Some(own.name.as_str());
    PointLine {
        label: &own.label,
        drain: name.filter(|_| !is_of_steps && !is_of_surface),
        steps: name.filter(|_| is_of_steps),
        surface: name.filter(|_| is_of_surface),
        stands: spot(own.of),
        east_m: own.at.x,
        north_m: own.at.y,
        level_m: own.level_m,
        grating_m: own.grating_m,
        from_a_m: taping.map(|taping| taping.from_first_m),
        from_b_m: taping.map(|taping| taping.from_second_m),
        along_m: taping.map(|taping| taping.along_m),
        out_m: taping.map(|taping| taping.out_m),
        side: taping.map(|taping| taping.aside.word()),
        tapes_fix_it: taping.map(|taping| !taping.is_weak()),
    }
}

fn surface<'a>(own: &'a SurfaceSettingOut, job: &Job) -> Surface<'a> {
    Surface {
        name: &own.name,
        pegs: own.pegs.iter().map(|peg| on(peg, job)).collect(),
        below_string: own.rod.iter().map(mark).collect(),
        borders: own
            .border_rods
            .iter()
            .map(|(name, marks)| Border {
                name,
                below_string: marks.iter().map(mark).collect(),
            })
            .collect(),
        board_marks: own.boards.iter().map(board).collect(),
        arcs: own.arcs.iter().map(arc).collect(),
        checks: own.checks.iter().map(check).collect(),
        grid: own.grid.iter().map(level).collect(),
    }
}

fn on<'a>(own: &'a PegOn, job: &Job) -> On<'a> {
    On {
        peg: own.peg,
        kind: match own.stands {
            _ if own.driven_into == DrivenInto::Wall => "wall",
            Stands::Corner(..) => "corner",
            Stands::Along(..) => "along",
            Stands::Centre(..) => "centre",
            Stands::Past(..) | Stands::OutOf(..) | Stands::OutOfCorner(..) => "clear",
        },
        stands: stands(own, job),
        nth: own.nth.map(|(nth, _)| nth),
        in_dig_of: match &own.driven_into {
            DrivenInto::Dig(name) => Some(name),
            DrivenInto::Ground | DrivenInto::Wall => None,
        },
        level_m: own.level_m,
    }
}

fn mark(own: &RodMark) -> Mark {
    let (mark, material) = match &own.top {
        RodTop::Finish => ("finish", None),
        RodTop::Layer(role, material) => (role.word(), Some(material.clone())),
        RodTop::Dig => ("dig", None),
    };
    Mark {
        mark,
        material,
        below_m: own.below_m,
    }
}

fn board(own: &BoardMark) -> Board<'_> {
    let (along, from) = match &own.lies {
        BoardLies::Steepest => (None, None),
        BoardLies::Along(edge, _) => (Some(edge.as_str()), None),
        BoardLies::From(edge) => (None, Some(edge.as_str())),
    };
    Board {
        along,
        from,
        slope: own.slope,
        down_m: own.down_m,
        at_m: own.at_m,
        toward_degrees: own.toward_degrees,
    }
}

fn arc(own: &ArcFigures) -> Arc<'_> {
    let offset = |own: &Offset| OffsetLine {
        from_middle_m: own.from_middle_m,
        offset_m: own.offset_m,
    };
    Arc {
        name: &own.name,
        centre: at(own.centre),
        radius_m: own.radius_m,
        chord_m: own.chord_m,
        height_m: own.height_m,
        length_m: own.length_m,
        centre_reached: own.reach == Reach::Open,
        offsets: own.offsets.iter().map(offset).collect(),
    }
}

fn check(own: &Check) -> Across {
    Across {
        from: own.from,
        to: own.to,
        distance_m: own.distance_m,
    }
}

fn level(own: &GridLevel) -> Level {
    Level {
        along_m: own.along_m,
        out_m: own.out_m,
        east_m: own.at.x,
        north_m: own.at.y,
        level_m: own.level_m,
    }
}
