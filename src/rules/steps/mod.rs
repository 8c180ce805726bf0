//! Rules of steps: risers, treads, and what keeps people from falling.

mod edge_high;
mod flight_long;
mod flight_unsupported;
mod going_short;
mod handrail_missing;
mod nosing_long;
mod path_narrow;
mod pitch_steep;
mod rise_missing;
mod riser_high;
mod riser_low;
mod risers_uneven;
mod step_proportion;
mod steps_apart;
mod tread_flat;
mod tread_heavy;
mod tread_loose;
mod tread_steep;
mod tread_thin;

use super::{Context, Rule};
use crate::findings::{Finding, Fix, Place};
use crate::model::{Steps, Tread};
use crate::quantities::Flight;
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::entry;

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &rise_missing::RISE_MISSING,
    &riser_high::RISER_HIGH,
    &riser_low::RISER_LOW,
    &risers_uneven::RISERS_UNEVEN,
    &going_short::GOING_SHORT,
    &pitch_steep::PITCH_STEEP,
    &flight_long::FLIGHT_LONG,
    &step_proportion::STEP_PROPORTION,
    &path_narrow::PATH_NARROW,
    &handrail_missing::HANDRAIL_MISSING,
    &edge_high::EDGE_HIGH,
    &nosing_long::NOSING_LONG,
    &tread_flat::TREAD_FLAT,
    &tread_steep::TREAD_STEEP,
    &tread_loose::TREAD_LOOSE,
    &tread_thin::TREAD_THIN,
    &tread_heavy::TREAD_HEAVY,
    &flight_unsupported::FLIGHT_UNSUPPORTED,
    &steps_apart::STEPS_APART,
];

/// Treads and risers that everybody can climb, in the US.
const ADA_TREADS: Source = Source::read(
    "ABA and ADA Standards, 504.2 Treads and Risers",
    "risers of 4 to 7 in, treads of 11 in at least",
);

/// Goings of American stairs.
const IRC_GOINGS: Source = Source::second_hand(
    "International Residential Code",
    "R311.7.5, treads of 10 in at least, as a town's code page prints it",
);

/// Risers of American stairs beside one another.
const IRC_EVEN: Source = Source::second_hand(
    "International Residential Code",
    "R311.7.5, risers within 3/8 in of one another, as a county's handout prints it",
);

/// Handrails of American stairs.
const IRC_HANDRAILS: Source = Source::second_hand(
    "International Residential Code",
    "R311.7.8, a handrail at flights of four or more risers, as a county's handout prints it",
);

/// The width of American stairs.
const IRC_WIDTH: Source = Source::second_hand(
    "International Residential Code",
    "R311.7.1, stairways 36 in wide, as a code book's excerpt prints it",
);

/// English stairs for everybody.
const APPROVED_K_GENERAL: Source = Source::read(
    "Approved Document K (England, 2013)",
    "table 1.1, general access stairs, risers from 150 to 170 mm, goings from 250 to 400 mm",
);

/// How steep English private stairs may be.
const APPROVED_K_PITCH: Source = Source::read(
    "Approved Document K (England, 2013)",
    "table 1.1, private stairs no steeper than 42 degrees",
);

/// Two risers and a going, in England.
const APPROVED_K_STRIDE: Source = Source::read(
    "Approved Document K (England, 2013)",
    "table 1.1, two risers and a going from 550 to 700 mm",
);

/// Goings in Australia.
const NCC_GOINGS: Source = Source::second_hand(
    "National Construction Code 2022 (Australia)",
    "11.2.2, goings from 240 to 355 mm",
);

/// Two risers and a going, in Australia.
const NCC_STRIDE: Source = Source::second_hand(
    "National Construction Code 2022 (Australia)",
    "11.2.2, two risers and a going from 550 to 700 mm",
);

/// Risers beside one another in Australia.
const ABCB_EVEN: Source = Source::read(
    "National Construction Code 2022 (Australia), the board's guide to D3D14",
    "neighbouring risers within 5 mm of one another",
);

/// The flights whose figures are known.
fn flights<'a>(context: &Context<'a>) -> impl Iterator<Item = (&'a Steps, &'a Flight)> {
    let (job, figures) = (context.job, context.figures);
    let all = job.steps.iter().zip(figures.steps.iter());
    all.filter_map(|(own, figures)| Some((own.as_ref(), figures.flight.as_ref()?)))
}

/// The flights that have treads of their own, with those.
fn treads<'a>(context: &Context<'a>) -> impl Iterator<Item = (&'a Steps, &'a Tread)> {
    let with_treads = flights(context).filter(|(_, flight)| flight.treads() > 0);
    with_treads.filter_map(|(own, _)| Some((own, own.tread.as_ref()?)))
}

/// Where the number of risers is stated; the flight's name if it is not.
fn risers_place(own: &Steps) -> Place {
    let stated = own.risers.as_ref();
    stated.map_or(own.name.place, |stated| stated.place)
}

/// A finding with a fix that states so many risers.
fn with_risers(finding: Finding, own: &Steps, count: u32) -> Finding {
    let risers = if count == 1 { "riser" } else { "risers" };
    let title = format!("Build {count} {risers}");
    finding.fix(match &own.risers {
        Some(stated) => Fix::judged(title, stated.place, count.to_string()),
        None => Fix::judged(
            title,
            own.place.end(),
            format!("\n  {}", entry("risers", &count.to_string())),
        ),
    })
}

/// A length in metres as a quantity.
fn length(metres: f64) -> Option<Quantity> {
    Quantity::near(metres, Dimension::LENGTH)
}
