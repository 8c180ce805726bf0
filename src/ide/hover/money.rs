//! What hire and the lines of a budget come to.

use super::workings;
use crate::analysis::Analysis;
use crate::findings::Place;
use crate::ide::cursor::Cursor;
use crate::quantities::FigureRef;

/// How the figure of the line under the pointer came about: at a hire what it
/// costs, at the budget's heading the total, at an entry of it its amount.
pub(crate) fn cards(analysis: &Analysis, cursor: &Cursor<'_>) -> Vec<String> {
    let Some(money) = &analysis.figures.money else {
        return Vec::new();
    };
    let word = cursor.in_file(cursor.line.word);
    let is_here = |place: Place| {
        let span = analysis.span(place);
        span.is_some_and(|(file, span)| file == 0 && span.start == word.start)
    };
    let hires = analysis.job.hires.iter().enumerate();
    let hires = hires
        .filter(|(_, hire)| is_here(hire.place))
        .map(|(index, _)| FigureRef::Hire(index));
    // Of the sums that stand at the heading the last one is all of it.
    let costs = money.costs.iter().enumerate().rev();
    let cost = costs
        .filter(|(_, line)| is_here(line.place))
        .map(|(index, _)| FigureRef::Cost(index))
        .next();
    let quotes = money.quotes.iter().enumerate();
    let quotes = quotes
        .filter(|(_, quote)| is_here(quote.place))
        .map(|(index, _)| FigureRef::Quote(index));
    let all = hires.chain(cost).chain(quotes);
    all.filter_map(|of| workings::card(analysis, of)).collect()
}
