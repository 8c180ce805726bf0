//! What was measured beside what is designed.

use super::workings;
use crate::analysis::Analysis;
use crate::findings::Place;
use crate::ide::cursor::Cursor;
use crate::quantities::FigureRef;

/// How the figures of the `measured` section under the pointer came about: at
/// its heading and at each of its readings.
pub(crate) fn cards(analysis: &Analysis, cursor: &Cursor<'_>) -> Vec<String> {
    let word = cursor.in_file(cursor.line.word);
    let is_here = |place: Place| {
        let span = analysis.span(place);
        span.is_some_and(|(file, span)| file == 0 && span.start == word.start)
    };
    let all = analysis.job.measured.iter().enumerate();
    let here = all.filter(|(_, own)| {
        is_here(own.place) || own.points.iter().any(|point| is_here(point.place))
    });
    let figures = here.map(|(index, _)| FigureRef::Measured(index));
    figures
        .filter_map(|of| workings::card(analysis, of))
        .collect()
}
