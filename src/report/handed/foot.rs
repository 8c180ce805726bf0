//! What stands at the end: what was accepted and why, what to be careful of,
//! what was assumed, and what is not known.

use super::{Reader, plain, said};
use crate::analysis::Analysis;
use crate::drawing::Block;
use crate::model::Origin;
use crate::quantities::{FigureRef, working};
use crate::report::words::listed;
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

/// What was taken where nothing is stated: of what, how the working calls it,
/// what it comes to with its source, and the figures that rest on it.
struct Taken {
    what: &'static str,
    name: String,
    comes_to: String,
    figures: Vec<String>,
}

/// Every default that a figure rests on, once, with its source; for a client
/// those alone on which rests what is built, and without it. Of several that are called alike
/// each says what it is in the working, or for which figures.
fn assumed(analysis: &Analysis, reader: Reader) -> Vec<String> {
    let figures = FigureRef::all(&analysis.figures);
    let reported = figures.filter(|figure| reader.builds() || is_of_what_is_built(*figure));
    let mut all: Vec<Taken> = Vec::new();
    for figure in reported {
        let Some(working) = working(&analysis.job, &analysis.figures, figure) else {
            continue;
        };
        for input in &working.inputs {
            let Some(Origin::Default { what, source }) = &input.origin else {
                continue;
            };
            // How a thing is known is for those who answer for it.
            let comes_to = match reader.builds() {
                true => format!("{} ({})", input.value, source.cited()),
                false => input.value.clone(),
            };
            let mut known = all.iter_mut();
            let title = plain(&working.title);
            match known.find(|own| own.what == *what && own.comes_to == comes_to) {
                Some(own) if own.figures.contains(&title) => {}
                Some(own) => own.figures.push(title),
                None => all.push(Taken {
                    what,
                    name: plain(&input.name),
                    comes_to,
                    figures: vec![title],
                }),
            }
        }
    }
    let lines = all.iter().map(|own| {
        let alike = || all.iter().filter(|other| other.what == own.what);
        let named_alike = alike().filter(|other| other.name == own.name).count();
        let of = match (alike().count(), named_alike) {
            (1, _) => String::new(),
            (_, 1) => format!(", {}", own.name),
            _ => format!(", for {}", some_of(&own.figures)),
        };
        format!("{}{of}: {}", own.what, own.comes_to)
    });
    lines.collect()
}

/// The most figures that are named one by one.
const MOST_NAMED: usize = 3;

/// The names of some figures, and how many more there are.
fn some_of(names: &[String]) -> String {
    match names.len() {
        0..=MOST_NAMED => listed(names),
        count => {
            let first: Vec<&str> = names
                .iter()
                .take(MOST_NAMED - 1)
                .map(String::as_str)
                .collect();
            format!("{} and {} more", first.join(", "), count + 1 - MOST_NAMED)
        }
    }
}

/// Whether a figure is of what the client gets, and not of how it is made and
/// paid for.
const fn is_of_what_is_built(figure: FigureRef) -> bool {
    matches!(
        figure,
        FigureRef::Shape(_) | FigureRef::Levels(_) | FigureRef::Water(_) | FigureRef::Layout(_)
    )
}
