//! Marks of writing where a comma or a colon belongs, or nothing does.

use super::entry::Reader;
use super::value::Entry;
use crate::findings::{Finding, Fix, Severity};
use crate::syntax::Item;

impl Reader<'_, '_> {
    /// `crushed-stone: 150 mm`, `beyond 150 mm.`: a mark of writing where a
    /// comma belongs, or at the end of a line, where nothing does.
    pub(super) fn mark_after_value(&mut self, left: &[Item], entry: &mut Entry) -> bool {
        let Some((mark, rest)) = left.split_first() else {
            return false;
        };
        let place = self.source.place(mark.span);
        let shown = self.source.slice(mark.span);
        match (shown, rest) {
            (";", [_, ..]) if self.row.word == "parts" => {
                let message = "parts are joined by `:` and not by `;`";
                let finding = Finding::new("comma-stray", place, message);
                let finding = finding.severity(Severity::Error);
                let before = self.with_blank_before(place);
                self.findings
                    .push(finding.fix(Fix::judged("Write `:`", before, " :")));
                entry.complete = false;
            }
            (":" | ";", [_, ..]) if !self.row.clauses.is_empty() => {
                let before = self.with_blank_before(place);
                let message = format!("a comma belongs here and not `{shown}`");
                self.findings.push(
                    Finding::new("comma-stray", place, message)
                        .severity(Severity::Warning)
                        .fix(Fix::safe("Write a comma", before, ",")),
                );
                self.clause(rest, entry);
            }
            ("." | ";", []) => {
                let message = format!("a line needs no `{shown}` at its end");
                self.findings.push(
                    Finding::new("word-stray", place, message)
                        .severity(Severity::Warning)
                        .fix(Fix::safe(format!("Take out the `{shown}`"), place, "")),
                );
            }
            _ => return false,
        }
        true
    }
}
