//! What is coloured, kept section by section from one edit to the next.

use std::sync::Arc;

use super::{Token, painter};
use crate::analysis::File;
use crate::ide::names::{self, Edges, ShapeEdges};
use crate::model::{LogicalSection, SectionReading, kind_after};
use crate::syntax::{PerSection, Placed};
use crate::text::Span;
use crate::vocabulary::SectionKind;

/// What was coloured of a file the last time. A fresh one colours
/// the same, only later.
#[derive(Debug, Default)]
pub struct Colours {
    sections: PerSection<Known>,
    edges: Edges,
    /// How many sections were coloured the last time.
    painted: usize,
}

/// What is known of a section.
#[derive(Debug)]
struct Known {
    /// What it was read as.
    reading: Option<Arc<SectionReading>>,
    /// The kind in force above it.
    above: Option<&'static SectionKind>,
    /// The kind that its entries belong to.
    in_force: Option<&'static SectionKind>,
    /// What it says of its edges, if it begins a shape.
    edges: Option<Arc<ShapeEdges>>,
    /// The shape that its bare edges belong to.
    shape: Option<String>,
    /// What stands in it, in bytes from its start, once it was asked for.
    tokens: Option<Arc<[Token]>>,
}

impl Colours {
    /// How many sections were coloured the last time: what an edit costs.
    pub fn painted(&self) -> usize {
        self.painted
    }

    /// What stands in a stretch of a file, in order and apart.
    pub fn within(&mut self, file: &File, wanted: Span) -> Vec<Token> {
        self.look(file);
        let sections = &file.tree.sections;
        let first = sections.partition_point(|placed| placed.span().end < wanted.start);
        let below = sections.iter().enumerate().skip(first);
        let mut tokens = Vec::new();
        for (index, placed) in below.take_while(|(_, placed)| placed.start <= wanted.end) {
            let own = self.section(file, index, placed);
            let own = own.iter().map(|token| Token {
                span: token.span.shift(placed.start),
                ..*token
            });
            tokens.extend(own.filter(|token| token.span.overlaps(wanted)));
        }
        tokens
    }

    /// What stands in each section of a file, in bytes from its start; the
    /// same object as before where nothing has changed.
    pub fn sections(&mut self, file: &File) -> Vec<Arc<[Token]>> {
        self.look(file);
        let sections = file.tree.sections.iter().enumerate();
        sections
            .map(|(index, placed)| self.section(file, index, placed))
            .collect()
    }

    /// Goes on to the sections that the file has now; forgets the colours of
    /// those that may have others.
    fn look(&mut self, file: &File) {
        self.painted = 0;
        let before = self.shapes();
        let mut above = None;
        let mut parts = parts(file);
        self.sections.renew(&file.tree.sections, |placed, known| {
            let part = parts.next();
            let known = known.filter(|known| known.holds(part, above));
            let known = known.unwrap_or_else(|| {
                let text = file.tree.section_text(placed);
                Known::of(part, above, kind_after(text, placed, above))
            });
            above = known.in_force;
            known
        });
        let after = self.shapes();
        let same = |(one, other): (&Arc<ShapeEdges>, &Arc<ShapeEdges>)| {
            Arc::ptr_eq(one, other) || one == other
        };
        if before.len() != after.len() || !before.iter().zip(&after).all(same) {
            self.edges = after.iter().map(Arc::as_ref).collect();
            self.sections
                .iter_mut()
                .for_each(|known| known.tokens = None);
        }
    }

    /// What the shapes say of their edges, in order.
    fn shapes(&self) -> Vec<Arc<ShapeEdges>> {
        let known = self.sections.iter();
        known.filter_map(|known| known.edges.clone()).collect()
    }

    /// What stands in a section, coloured now if it was not yet.
    fn section(&mut self, file: &File, index: usize, placed: &Placed) -> Arc<[Token]> {
        let (painted, edges) = (&mut self.painted, &self.edges);
        let Some(known) = self.sections.get_mut(index) else {
            return Arc::default();
        };
        let tokens = known.tokens.get_or_insert_with(|| {
            *painted += 1;
            let reading = known.reading.as_deref();
            let names = reading.map_or_else(Vec::new, |reading| {
                names::of_section(&file.tree, reading, edges, known.shape.clone())
            });
            Arc::from(painter::painted(&file.tree, placed, known.in_force, names))
        });
        Arc::clone(tokens)
    }
}

impl Known {
    /// A section that is part of another, or all of it.
    fn of(
        part: Option<Part<'_>>,
        above: Option<&'static SectionKind>,
        in_force: Option<&'static SectionKind>,
    ) -> Known {
        let own = part.map(|part| part.of);
        let begins = part.filter(|part| part.is_first);
        Known {
            reading: part.map(|part| Arc::clone(part.reading)),
            above,
            in_force,
            edges: begins
                .and_then(|part| ShapeEdges::of(part.of))
                .map(Arc::new),
            shape: own.and_then(names::shape_of),
            tokens: None,
        }
    }

    /// Whether it is still what a section is.
    fn holds(&self, part: Option<Part<'_>>, above: Option<&'static SectionKind>) -> bool {
        let word = |kind: Option<&'static SectionKind>| kind.map(|kind| kind.word);
        // One that goes on elsewhere may have changed there.
        let is_same = |part: Part<'_>| {
            let reading = self.reading.as_ref();
            part.of.more.is_empty() && reading.is_some_and(|own| Arc::ptr_eq(own, part.reading))
        };
        word(self.above) == word(above) && part.is_some_and(is_same)
    }
}

/// A section as a part of one that may have lost an indent.
#[derive(Clone, Copy)]
struct Part<'a> {
    of: &'a LogicalSection,
    reading: &'a Arc<SectionReading>,
    is_first: bool,
}

/// The parts of a file's sections, one for each section of its tree.
fn parts(file: &File) -> impl Iterator<Item = Part<'_>> {
    file.sections.iter().flat_map(|of| {
        let parts = of.parts().enumerate();
        parts.map(move |(number, reading)| Part {
            of,
            reading,
            is_first: number == 0,
        })
    })
}

#[cfg(test)]
mod tests {
    use super::super::TokenKind;
    use super::*;
    use crate::analysis::{Analyser, NoFiles};

    use crate::ide::fixture::{COURT, analysed};

    #[test]
    fn every_word_has_its_kind() {
        let text = format!("{COURT}accept fall-flat 1:75, because \"it is # covered\" # why\n");
        let found = Colours::default().within(&analysed(&text).files[0], Span::from(0..text.len()));
        let kinds = |word: &str| -> Vec<TokenKind> {
            let own = found.iter().filter(|token| token.span.slice(&text) == word);
            let mut kinds: Vec<TokenKind> = own.map(|token| token.kind).collect();
            kinds.dedup();
            kinds
        };
        for (word, kind) in [
            ("surface", TokenKind::Keyword),
            ("fall", TokenKind::Property),
            ("away", TokenKind::Modifier),
            ("lifts", TokenKind::Modifier),
            ("quay", TokenKind::Variable),
            ("gap", TokenKind::Variable),
            ("court", TokenKind::Type),
            ("sharp-sand", TokenKind::Type),
            ("dry", TokenKind::EnumMember),
            ("fall-flat", TokenKind::EnumMember),
            ("1:50", TokenKind::Number),
            ("100 mm", TokenKind::Number),
            ("*", TokenKind::Operator),
            ("\"it is # covered\"", TokenKind::String),
            ("# why", TokenKind::Comment),
            ("# Rolled twice.", TokenKind::Comment),
        ] {
            assert_eq!(kinds(word), [kind], "{word}");
        }
        let given = found.iter().filter(|token| token.is_definition);
        assert_eq!(given.count(), 7);
    }

    #[test]
    fn tokens_are_in_order_apart_and_in_one_line() {
        let odd = "shape a\n  east 24'\r\n   6\", named,\n    wall\nlet x = \"a\n(\n  what # is\n";
        for text in [COURT, odd, &COURT.replace('\n', "\r\n")] {
            let analysis = analysed(text);
            let all = Colours::default().within(&analysis.files[0], Span::from(0..text.len()));
            for pair in all.windows(2) {
                assert!(pair[0].span.end <= pair[1].span.start, "{pair:?}");
            }
            assert!(
                all.iter()
                    .all(|token| !token.span.slice(text).contains(['\n', '\r']))
            );
            let half = Span::new(0, text.len() as u32 / 2);
            let part = Colours::default().within(&analysis.files[0], half);
            assert!(all.starts_with(&part), "{part:?}");
        }
    }

    /// How many sections are coloured when the court is changed in turn.
    #[test]
    fn an_edit_colours_the_section_that_it_touches() {
        let (mut analyser, mut colours) = (Analyser::new(), Colours::default());
        for (from, to, painted) in [
            ("", "", 7),
            ("", "", 0),
            ("south        4 m", "south        5 m", 1),
            ("", "", 1),
            ("2 * 5 mm", "2 * 4 mm", 1),
            ("", "", 1),
            // What an edge is called may be used by any other.
            ("named quay", "named wharf", 7),
        ] {
            let text = COURT.replacen(from, to, 1);
            let analysis =
                analyser.analyse("a.patio", text.as_str().into(), &NoFiles, "2027-01-12");
            let whole = Span::from(0..text.len());
            let kept = colours.within(&analysis.files[0], whole);
            assert_eq!(
                kept,
                Colours::default().within(&analysed(&text).files[0], whole),
                "{to}"
            );
            assert_eq!(colours.painted(), painted, "{to}");
        }
    }
}
