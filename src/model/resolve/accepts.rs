//! The `accept` lines of a file.

use super::super::job::{Accept, Stated};
use super::super::reading::Entry;
use super::evaluate::Resolver;
use super::want::Range;
use crate::findings::FileId;
use crate::vocabulary::ValueKind;

impl Resolver<'_> {
    /// The `accept` lines of the file itself, in order.
    pub(crate) fn accepts(&mut self) -> Vec<Accept> {
        let files = self.files;
        let mut accepts = Vec::new();
        for (file, input) in (0..).map(FileId).zip(files) {
            let is_own = file == FileId(0);
            for section in input.sections.iter() {
                // At its margin a library accepts nothing for those that use it.
                if is_own && section.is("accept") {
                    let heading = section.heading();
                    accepts.extend(heading.and_then(|entry| self.accept(entry, file, false)));
                }
                for entry in section.all("accept") {
                    accepts.extend(self.accept(entry, file, true));
                }
            }
        }
        accepts
    }

    fn accept(&mut self, entry: &Entry, file: FileId, inside_section: bool) -> Option<Accept> {
        let (rule, place) = entry.filled.name("RULE")?;
        // How long it holds, or how far, could stand in what cannot be read.
        if !entry.is_sound {
            return None;
        }
        let figure = self.wanted(
            &entry.filled,
            "FIGURE",
            ValueKind::Quantity,
            Range::Any,
            file,
        );
        let text = |clause: &str, slot: &str| {
            let (text, _) = entry.clause(clause)?.filled.text(slot)?;
            Some(text.to_owned()).filter(|text| !text.trim().is_empty())
        };
        let until = match entry.clause("until") {
            None => None,
            Some(clause) => {
                let (date, place) = clause.filled.date("DATE")?;
                Some(self.real_day(date, place).then(|| date.to_owned())?)
            }
        };
        let last = entry
            .clauses
            .last()
            .map_or(entry.place, |clause| clause.place);
        Some(Accept {
            rule: Stated::new(rule.to_owned(), place),
            figure,
            reason: text("because", "REASON"),
            by: text("by", "NAME"),
            until,
            place: entry.place.to(last),
            inside_section,
        })
    }
}
