//! The units that are written in a section, for the rules that ask.

use super::section::SectionReading;
use super::source::Source;
use crate::syntax::{ItemKind, Line, Phrase};
use crate::text::Span;
use crate::units::{System, find_unit};

impl SectionReading {
    /// Notes the units that are written, for the rules that ask.
    pub(super) fn note_units(&mut self, source: &Source<'_>) {
        let line: &Line = source.line;
        for phrase in &line.phrases {
            self.note_phrase(source, phrase, 0);
        }
    }

    fn note_phrase(&mut self, source: &Source<'_>, phrase: &Phrase, depth: usize) {
        for item in &phrase.items {
            match &item.kind {
                ItemKind::Number { terms, .. } => {
                    for unit in terms.iter().filter_map(|term| term.unit) {
                        self.note_unit(source, unit);
                    }
                }
                ItemKind::Per { unit } => self.note_unit(source, *unit),
                ItemKind::Word
                    if ["ton", "tons", "gal"]
                        .iter()
                        .any(|unit| source.is_word(item, unit)) =>
                {
                    self.note_unit(source, item.span);
                }
                ItemKind::Group { phrases } | ItemKind::Call { phrases, .. } if depth < 64 => {
                    for inner in phrases {
                        self.note_phrase(source, inner, depth + 1);
                    }
                }
                _ => {}
            }
        }
    }

    fn note_unit(&mut self, source: &Source<'_>, span: Span) {
        let written = source.slice(span);
        if self.first_length.is_none() {
            self.first_length = match written {
                "'" | "′" | "’" | "\"" | "″" | "”" | "''" | "’’" => {
                    Some(System::Imperial)
                }
                _ => find_unit(written)
                    .filter(|unit| unit.dimension == crate::units::Dimension::LENGTH)
                    .and_then(|unit| unit.system),
            };
        }
        if ["ton", "tons", "gal"]
            .iter()
            .any(|unit| unit.eq_ignore_ascii_case(written))
        {
            self.unclear_units
                .push((written.to_lowercase(), source.place(span)));
        }
    }
}
