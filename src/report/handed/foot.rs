//! What stands at the end: what was accepted and why, what to be careful of,
//! what was assumed, and what is not known.

use super::{Reader, said};
use crate::analysis::Analysis;
use crate::drawing::Block;
use crate::model::Origin;
use crate::quantities::{FigureRef, working};
use crate::report::{cautions, unknown};
use crate::text::capital;

/// The end of a report.
pub(crate) fn blocks(analysis: &Analysis, reader: Reader) -> Vec<Block> {
    let mut parts = vec![("Take care", cautions(analysis))];
    if reader.builds() {
        parts.push(("Accepted, and why", accepted(analysis)));
    }
    parts.push(("Assumed", assumed(analysis, reader)));
    // What is not known of the cost is none of the client's or the crew's.
    if reader == Reader::Office {
        parts.push(("Not known", unknown(analysis)));
    }
    let parts = parts.into_iter().filter(|(_, lines)| !lines.is_empty());
    parts
        .flat_map(|(heading, lines)| {
            let lines = lines.iter().map(|line| said(line)).collect();
            [Block::Heading(heading.to_owned()), Block::List(lines)]
        })
        .collect()
}

fn accepted(analysis: &Analysis) -> Vec<String> {
    let findings = analysis.findings.iter();
    let accepted = findings.filter_map(|finding| {
        let accepted = finding.accepted.as_ref()?;
        let by = accepted.by.as_ref();
        let by = by.map_or(String::new(), |by| format!(", {by}"));
        let until = accepted.until.as_ref();
        let until = until.map_or(String::new(), |until| format!(", until {until}"));
        Some(format!(
            "{} Accepted because {}{by}{until}.",
            sentence(&finding.message),
            accepted.reason
        ))
    });
    accepted.collect()
}

/// A message as a sentence.
fn sentence(message: &str) -> String {
    let message = capital(message);
    match message.ends_with(['.', '?', '!']) {
        true => message,
        false => message + ".",
    }
}

/// Every default that a figure rests on, once, with its source; for a client
/// those alone on which rests what is built.
fn assumed(analysis: &Analysis, reader: Reader) -> Vec<String> {
    let figures = FigureRef::all(&analysis.figures);
    let reported = figures.filter(|figure| reader.builds() || is_of_what_is_built(*figure));
    let mut lines: Vec<String> = Vec::new();
    for figure in reported {
        let Some(working) = working(&analysis.job, &analysis.figures, figure) else {
            continue;
        };
        for input in &working.inputs {
            let Some(Origin::Default { what, source }) = &input.origin else {
                continue;
            };
            let line = format!("{what}: {} ({})", input.value, source.cited());
            if !lines.contains(&line) {
                lines.push(line);
            }
        }
    }
    lines
}

/// Whether a figure is of what the client gets, and not of how it is made and
/// paid for.
const fn is_of_what_is_built(figure: FigureRef) -> bool {
    matches!(
        figure,
        FigureRef::Shape(_) | FigureRef::Levels(_) | FigureRef::Water(_) | FigureRef::Layout(_)
    )
}
