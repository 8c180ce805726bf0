//! Figures of the setting out in words.

use crate::geometry::Point;
use crate::model::Job;
use crate::quantities::{DrivenInto, Marks, PegOn, SpotOf, Stands};
use crate::report::trade::{UNKNOWN, fixed};
use crate::units::{System, show};
use crate::vocabulary::spelled_in;

/// A length off a tape: `24' 6 1/2"`, `7.468 m`, as many digits in every row.
pub(in crate::report) fn tape(metres: f64, system: System) -> String {
    match system {
        System::Imperial => show::length(metres, system),
        System::Metric => fixed(metres, 3, "m"),
    }
}

/// A level or a small depth: `-6 1/2"`, `-165 mm`.
pub(in crate::report) fn level(metres: f64, system: System) -> String {
    match system {
        System::Imperial => show::length(metres, system),
        System::Metric => fixed(metres * 1000.0, 0, "mm"),
    }
}

/// What is known, or a dash.
pub(super) fn known(
    value: Option<f64>,
    system: System,
    shown: fn(f64, System) -> String,
) -> String {
    value.map_or_else(|| UNKNOWN.to_owned(), |value| shown(value, system))
}

/// Where the marks stand and how far apart: `A (0.000 m, 0.000 m) and B (8.000 m,
/// 0.000 m), 8.000 m apart`.
pub(in crate::report) fn marks(marks: &Marks, system: System) -> String {
    let at = |point: Point| format!("({}, {})", tape(point.x, system), tape(point.y, system));
    let (first, second) = (marks.first, marks.second);
    let apart = tape(first.distance(second), system);
    format!("A {} and B {}, {apart} apart", at(first), at(second))
}

/// How a peg stands to its surface: `wall / east`, `bow, 3' 7 1/2" along`,
/// `south, past east, 2 of 8`; and what holds it, if not ground that stays.
pub(super) fn stands(on: &PegOn, job: &Job) -> String {
    let words = to_its_edges(&on.stands, job);
    let of = on.nth.map(|(nth, count)| format!(", {nth} of {count}"));
    let words = words + &of.unwrap_or_default();
    match &on.driven_into {
        DrivenInto::Ground => words,
        DrivenInto::Wall => words + ", on the wall",
        DrivenInto::Dig(name) => format!("{words}; in the dig of {name}"),
    }
}

fn to_its_edges(stands: &Stands, job: &Job) -> String {
    let system = job.heading.system();
    match stands {
        Stands::Corner(one, other) if one == other => format!("on {one}"),
        Stands::Corner(one, other) => format!("{one} / {other}"),
        Stands::Along(edge, along) => format!("{edge}, {} along", tape(*along, system)),
        Stands::Centre(arc) => {
            let centre = spelled_in(job.heading.region(), "centre");
            format!("{centre} of {arc}")
        }
        Stands::Past(edge, past) => format!("{edge}, past {past}"),
        Stands::OutOf(edge) => format!("square out of {edge}"),
        Stands::OutOfCorner(one, other) => format!("out of {one} / {other}"),
    }
}

/// What a point is of a drain, of steps or of several of a shape: `head`,
/// `foot, left`, `middle, 2 of 8`.
pub(super) fn spot(of: SpotOf) -> String {
    let side = |is_left: bool| if is_left { "left" } else { "right" };
    match of {
        SpotOf::Head => "head".to_owned(),
        SpotOf::Bend(number) => format!("bend {number}"),
        SpotOf::Outlet => "outlet".to_owned(),
        SpotOf::End => "end".to_owned(),
        SpotOf::Middle => "middle".to_owned(),
        SpotOf::Corner(is_north, is_east) => {
            let (one, other) = (
                if is_north { "north" } else { "south" },
                if is_east { "east" } else { "west" },
            );
            format!("{one}-{other} corner")
        }
        SpotOf::Foot(is_left) => format!("foot, {}", side(is_left)),
        SpotOf::Top(is_left) => format!("top, {}", side(is_left)),
        SpotOf::Nth(number, count) => format!("middle, {number} of {count}"),
    }
}
