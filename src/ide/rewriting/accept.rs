//! Standing by a finding; the reason is left to be written.

use super::{Rewriting, RewritingKind, edit, line_end};
use crate::analysis::Analysis;
use crate::model::kind_after;
use crate::rules::{self, Check};
use crate::syntax::LineKind;
use crate::text::Span;

/// An `accept` line for each finding that a stretch touches and that may be
/// accepted: under the line that it stands on, or at the end of the file.
pub(crate) fn accepts(analysis: &Analysis, wanted: Span) -> Vec<Rewriting> {
    let findings = analysis.findings.iter().enumerate();
    findings
        .filter(|(_, finding)| finding.accepted.is_none())
        .filter(|(_, finding)| {
            // What is found in the text itself is put right, not accepted.
            let rule = rules::find(finding.rule);
            rule.is_some_and(|rule| !matches!(rule.check, Check::Reading))
                && analysis.limits.firm(finding.rule).is_none()
        })
        .filter_map(|(index, finding)| {
            let (0, span) = analysis.span(finding.place)? else {
                return None;
            };
            if span.start > wanted.end || wanted.start > span.end {
                return None;
            }
            let (at, text) = line_for(analysis, span.start, finding.rule)?;
            Some(Rewriting {
                title: format!("Accept {} with a reason", finding.rule),
                kind: RewritingKind::Accept,
                finding: Some(index),
                cursor: reason_in(at, &text),
                edits: vec![edit(Span::at(at), text)],
            })
        })
        .collect()
}

/// Between the quotes of the reason, once the line stands.
fn reason_in(at: u32, line: &str) -> Option<u32> {
    Some(at + line.find("\"\"")? as u32 + 1)
}

/// Where an `accept` line goes, and the line.
fn line_for(analysis: &Analysis, offset: u32, rule: &str) -> Option<(u32, String)> {
    let file = analysis.files.first()?;
    let tree = &file.tree;
    let text: &str = &tree.text;
    let end = line_end(text);
    let mut in_force = None;
    let own = tree.sections.iter().find(|placed| {
        in_force = kind_after(tree.section_text(placed), placed, in_force);
        placed.span().contains(offset)
    })?;
    let takes_accept = in_force.is_some_and(|kind| kind.key("accept").is_some());
    let mut lines = tree.lines_of(own);
    let line = lines.find(|line| line.span().contains(offset))?;
    let is_written = matches!(line.line.kind, LineKind::Heading | LineKind::Entry);
    if takes_accept && is_written {
        let has_end = line.text.ends_with(['\n', '\r']);
        let entry = format!("  accept        {rule}, because \"\"");
        let text = if has_end {
            format!("{entry}{end}")
        } else {
            format!("{end}{entry}")
        };
        return Some((line.span().end, text));
    }
    let before = if text.ends_with(['\n', '\r']) {
        ""
    } else {
        end
    };
    let line = format!("{before}{end}accept {rule}, because \"\"{end}");
    Some((text.len() as u32, line))
}

#[cfg(test)]
mod tests {
    use super::super::tests::rewritten;
    use crate::ide::fixture::{COURT, analysed};

    #[test]
    fn the_line_stands_under_the_finding_and_takes_it_once_it_has_a_reason() {
        let flat = COURT.replace("fall         1:50", "fall         1:4¦00");
        let text = rewritten(&flat, "Accept fall-flat").expect("a finding to accept");
        assert!(
            text.contains("quay\n  accept        fall-flat, because \"\"\n  build"),
            "{text}"
        );
        let reasoned = text.replace("because \"\"", "because \"it lies under a roof\"");
        let analysis = analysed(&reasoned);
        let mut flat = analysis
            .findings
            .iter()
            .filter(|one| one.rule == "fall-flat");
        assert!(flat.all(|finding| finding.accepted.is_some()));
    }

    #[test]
    fn what_is_misread_is_not_accepted() {
        let broken = COURT.replace("  fabric ", "  fab¦rik ");
        assert_eq!(rewritten(&broken, "Accept"), None);
        assert_eq!(
            rewritten(&COURT.replace("1:50", "1:5¦0"), "Accept fall"),
            None
        );
    }
}
