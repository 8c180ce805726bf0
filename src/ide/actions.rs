//! The fixes of findings, as actions that an editor offers.

use crate::analysis::Analysis;
use crate::text::Span;

/// A fix that is offered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Action {
    /// What it does, as an order.
    pub title: String,
    /// Whether it is the one to take without being looked at.
    pub preferred: bool,
    /// The finding that it puts right, by its index in the analysis.
    pub finding: usize,
    /// Its changes, none overlapping another.
    pub edits: Vec<ActionEdit>,
}

/// One replaced stretch of one file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ActionEdit {
    /// The file, by its index in the analysis.
    pub file: usize,
    /// What is replaced, in bytes of the file.
    pub span: Span,
    /// What takes its place.
    pub text: String,
}

/// The fixes of the findings that a stretch of the checked file touches, the
/// likeliest first. A fix that changes what cannot be found is left out.
pub fn actions(analysis: &Analysis, wanted: Span) -> Vec<Action> {
    let mut actions = Vec::new();
    for (index, finding) in analysis.findings.iter().enumerate() {
        let touches = |(file, span): (usize, Span)| {
            file == 0 && span.start <= wanted.end && wanted.start <= span.end
        };
        if finding.accepted.is_some() || !analysis.span(finding.place).is_some_and(touches) {
            continue;
        }
        for (number, fix) in finding.fixes.iter().enumerate() {
            let edits: Vec<ActionEdit> = fix
                .changes
                .iter()
                .filter_map(|change| {
                    let (file, span) = analysis.span(change.place)?;
                    Some(ActionEdit {
                        file,
                        span,
                        text: change.text.to_string(),
                    })
                })
                .collect();
            if edits.len() == fix.changes.len() {
                let preferred = fix.safe && number == 0;
                actions.push(Action {
                    title: fix.title.to_string(),
                    preferred,
                    finding: index,
                    edits,
                });
            }
        }
    }
    actions
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{COURT, analysed};
    use crate::text::{Edit, apply};

    #[test]
    fn a_fix_is_offered_where_its_finding_stands_and_mends_the_text() {
        let broken = COURT.replace("  fabric ", "  fabrik ");
        let analysis = analysed(&broken);
        let at = broken.find("fabrik").unwrap();
        let offered = actions(&analysis, Span::at(at as u32 + 2));
        let [action] = offered.as_slice() else {
            panic!("{offered:?}")
        };
        let finding = analysis.findings.get(action.finding);
        assert_eq!(finding.map(|own| own.rule), Some("word-unknown"));
        let edits: Vec<Edit> = action
            .edits
            .iter()
            .map(|edit| Edit::new(edit.span, edit.text.clone()))
            .collect();
        assert_eq!(apply(&broken, &edits).as_deref(), Some(COURT));
        assert_eq!(actions(&analysis, Span::at(0)), []);
    }
}
