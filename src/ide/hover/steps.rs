//! A flight of steps, and how its figures came about.

use super::workings;
use crate::analysis::Analysis;
use crate::findings::Place;
use crate::ide::cursor::Cursor;
use crate::ide::markdown::paragraphs;
use crate::quantities::{FigureRef, Flight, StepsFigure};
use crate::units::{System, show};

/// What a flight comes to: risers, going and run, and how steep it is.
pub(crate) fn card(analysis: &Analysis, name: &str) -> Option<String> {
    let mut all = analysis.figures.steps.iter();
    let own = all.find(|steps| steps.name == name)?;
    let system = analysis.job.heading.system();
    let lines = match (&own.flight, own.unknown) {
        (Some(flight), _) => in_words(flight, system),
        (None, why) => why.unwrap_or_default().to_owned(),
    };
    Some(paragraphs([format!("**{name}** · steps"), lines]))
}

/// `4 risers of 150 mm, going 350 mm, run 1.05 m, 23.2°`.
fn in_words(flight: &Flight, system: System) -> String {
    let length = |metres| show::length(metres, system);
    let risers = match flight.risers {
        1 => "1 riser".to_owned(),
        more => format!("{more} risers"),
    };
    format!(
        "{risers} of {}, going {}, run {}, {}",
        length(flight.riser_m),
        length(flight.going_m),
        length(flight.run_m),
        show::angle(flight.pitch_degrees)
    )
}

/// How the figures of the line under the pointer came about: at the heading
/// those of the flight and its dig, at an entry those of what it states.
pub(crate) fn cards(analysis: &Analysis, cursor: &Cursor<'_>) -> Vec<String> {
    let word = cursor.in_file(cursor.line.word);
    let is_here = |place: Place| {
        let span = analysis.span(place);
        span.is_some_and(|(file, span)| file == 0 && span.start == word.start)
    };
    let all = analysis
        .job
        .steps
        .iter()
        .enumerate()
        .flat_map(|(steps, own)| {
            let of = StepsFigure::ALL.into_iter();
            let here = of.filter(move |figure| is_here(figure.place(own)));
            here.map(move |figure| FigureRef::Steps { steps, figure })
        });
    all.filter_map(|of| workings::card(analysis, of)).collect()
}
