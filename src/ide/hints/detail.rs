//! What stands behind a hint, for whoever points at it: the working of its
//! figure, and where the first thing that went into it is written.

use super::{Hint, HintOf};
use crate::analysis::Analysis;
use crate::findings::Place;
use crate::ide::hover;
use crate::ide::names;
use crate::model::Origin;
use crate::quantities::{FigureRef, working};
use crate::text::Span;

/// How many surfaces of one build are worked out in full.
const MOST: usize = 3;

/// What stands behind a hint.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HintDetail {
    /// How the figure was worked out, as Markdown; empty if there is nothing
    /// to tell.
    pub markdown: String,
    /// Where the first input that stands on another line is written: the file
    /// by its index in the analysis, and the place in it.
    pub input: Option<(usize, Span)>,
}

/// What stands behind a hint of this analysis.
pub fn hint_detail(analysis: &Analysis, hint: &Hint) -> HintDetail {
    let figures = match hint.of {
        HintOf::Itself => Vec::new(),
        HintOf::Figure(of) => vec![of],
        HintOf::Layer(place) => layers_at(analysis, place),
        HintOf::Let(place) => return of_let(analysis, place),
    };
    let cards = figures.iter().take(MOST);
    let cards: Vec<String> = cards
        .filter_map(|of| hover::of_figure(analysis, *of))
        .collect();
    let own_line = line_at(analysis, hint.offset);
    let inputs = figures.iter().flat_map(|of| inputs_of(analysis, *of));
    let mut elsewhere =
        inputs.filter(|(file, span)| *file != 0 || line_at(analysis, span.start) != own_line);
    HintDetail {
        markdown: cards.join("\n\n"),
        // The edges of a shape go in as the outline runs, not as written.
        input: match hint.of {
            HintOf::Figure(FigureRef::Shape(_)) => elsewhere.min(),
            _ => elsewhere.next(),
        },
    }
}

fn layers_at(analysis: &Analysis, place: Place) -> Vec<FigureRef> {
    let surfaces = analysis.figures.surfaces.iter().enumerate();
    let layers = surfaces.flat_map(|(surface, own)| {
        let layers = own.layers.iter().enumerate();
        let same = layers.filter(move |(_, layer)| layer.place == place);
        same.map(move |(layer, _)| FigureRef::Layer { surface, layer })
    });
    layers.collect()
}

/// Where what went into a figure is written, in the order in which it went in.
fn inputs_of(analysis: &Analysis, of: FigureRef) -> Vec<(usize, Span)> {
    let working = working(&analysis.job, &analysis.figures, of);
    let inputs = working.map(|working| working.inputs).unwrap_or_default();
    let written = inputs.into_iter().filter_map(|input| match input.origin? {
        Origin::Line(place) => analysis.span(place),
        Origin::Catalogue { .. } | Origin::Default { .. } => None,
    });
    written.collect()
}

/// A let in both systems of units, and the first let that it is made of.
fn of_let(analysis: &Analysis, place: Place) -> HintDetail {
    let mut lets = analysis.job.lets.iter();
    let own = lets.find(|(name, _)| name.place == place);
    let value = own.and_then(|(_, value)| value.as_ref());
    let both = value.map(hover::in_both_systems).unwrap_or_default();
    let used = analysis
        .span(place)
        .filter(|(file, _)| *file == 0)
        .and_then(|(_, span)| {
            let line = line_at(analysis, span.start)?;
            names::used_on(analysis, line)
        });
    HintDetail {
        markdown: both,
        input: used.and_then(|at| names::definitions(analysis, at).into_iter().next()),
    }
}

fn line_at(analysis: &Analysis, offset: u32) -> Option<u32> {
    let lines = &analysis.files.first()?.lines;
    Some(lines.line_of(offset))
}

#[cfg(test)]
mod tests {
    use super::super::hints;
    use super::*;
    use crate::ide::fixture::{COURT, analysed};

    #[test]
    fn a_hint_tells_its_working_and_leads_to_an_input() {
        let analysis = analysed(COURT);
        let all = hints(&analysis, Span::from(0..COURT.len()), |_| true);
        for (label, tells, leads) in [
            ("= 10 mm", "10 mm = 3/8\"", None),
            (
                "24 m² · 20 m round",
                "**shape court**",
                Some("east         6 m"),
            ),
            ("4 m north", "", None),
            (
                "2 % · drops 80 mm",
                "drop",
                Some("level        -150 mm at quay"),
            ),
            ("7.63 t", "**base of court**", Some("shape        court")),
            ("17 bags", "bed-mix", Some("bed          bed-mix, 40 mm")),
            ("order 7.7 t", "hard-stone", Some("sold         by t")),
        ] {
            let hint = all.iter().find(|hint| hint.label.starts_with(label));
            let detail = hint_detail(&analysis, hint.expect(label));
            assert!(
                detail.markdown.contains(tells),
                "{label}: {}",
                detail.markdown
            );
            let line = detail.input.map(|(_, span)| {
                let from = COURT[..span.start as usize]
                    .rfind('\n')
                    .map_or(0, |at| at + 1);
                COURT[from..].lines().next().unwrap_or_default().trim()
            });
            match (leads, line) {
                (Some(leads), Some(line)) => assert!(line.starts_with(leads), "{label}: {line}"),
                (leads, line) => assert_eq!(leads, line, "{label}"),
            }
        }
    }

    #[test]
    fn a_let_leads_to_the_let_that_it_is_made_of() {
        let text = "let gap = 5 mm\nlet wide = 2 m + 3 * gap\n";
        let analysis = analysed(text);
        let all = hints(&analysis, Span::from(0..text.len()), |_| true);
        let input = |index: usize| hint_detail(&analysis, &all[index]).input;
        assert_eq!(input(0), None);
        assert_eq!(input(1).map(|(_, span)| span.slice(text)), Some("gap"));
    }
}
