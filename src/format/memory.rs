//! The edits that lay a text out, kept section by section from one edit of
//! the text to the next.

use super::part::part;
use super::seam::{BYTE_ORDER_MARK, Edge, Opening};
use super::section::{Laid, laid_section};
use crate::syntax::{PerSection, Placed, Tree};
use crate::text::{Edit, Span, smallest_edits};
use crate::vocabulary::SectionKind;

/// What was found of a text when it was last laid out. A fresh one finds the
/// same, only later.
#[derive(Debug, Default)]
pub struct Memory {
    sections: PerSection<Known>,
    /// How many sections were laid out the last time.
    laid: usize,
}

/// What is known of a section.
#[derive(Debug)]
struct Known {
    /// The kind in force above it.
    above: Option<&'static SectionKind>,
    /// Whether it stands at the start of the file.
    is_first: bool,
    opening: Opening,
    edge: Edge,
    /// Whether it starts with a byte-order mark that is not the file's.
    is_marked: bool,
    /// What stands after it and, that being so, the edits that lay it out,
    /// counted from its start.
    edits: Option<(String, Box<[Edit]>)>,
}

impl Memory {
    /// How many sections were laid out the last time: what an edit costs.
    pub fn laid(&self) -> usize {
        self.laid
    }

    /// The edits that lay a text out, each as small as can be; only those in
    /// the lines of `range` if one is given.
    ///
    /// Where laying out those lines alone would change what the text says,
    /// the whole of their sections is laid out.
    pub fn edits(&mut self, tree: &Tree, range: Option<Span>) -> Vec<Edit> {
        self.laid = 0;
        let mut texts = self.look(tree);
        let is_marked = self.sections.iter().find(|known| !known.edge.is_empty);
        // A mark from further down must not become the file's own.
        if is_marked.is_some_and(|first| first.is_marked) {
            return Vec::new();
        }
        self.settle(tree, &mut texts);
        let mut all: Vec<Edit> = Vec::new();
        for (placed, known) in tree.sections.iter().zip(self.sections.iter()) {
            let own = known.edits.iter().flat_map(|(_, edits)| edits);
            for edit in own {
                let span = edit.span.shift(placed.start);
                match all.last_mut().filter(|last| last.span.end == span.start) {
                    Some(last) => {
                        last.span = last.span.join(span);
                        last.text.push_str(&edit.text);
                    }
                    None => all.push(Edit::new(span, edit.text.clone())),
                }
            }
        }
        match range {
            None => all,
            Some(range) => part(tree, &all, range),
        }
    }

    /// Lays out the sections that are not known as they are now; gives the
    /// text of each of those, by its place.
    fn look(&mut self, tree: &Tree) -> Vec<(usize, Laid)> {
        let mut texts = Vec::new();
        let mut above = None;
        let mut index = 0;
        self.sections.renew(&tree.sections, |placed, known| {
            let word = |kind: Option<&'static SectionKind>| kind.map(|kind| kind.word);
            let is_first = placed.start == 0;
            let known = known
                .filter(|known| known.is_first == is_first && word(known.above) == word(above))
                .unwrap_or_else(|| {
                    let opening = Opening::of(tree, placed, above);
                    let laid = laid_section(tree, placed, opening.in_force);
                    let known = Known {
                        above,
                        is_first,
                        opening,
                        edge: Edge::of(&laid, opening.own),
                        is_marked: laid.text.starts_with(BYTE_ORDER_MARK),
                        edits: None,
                    };
                    texts.push((index, laid));
                    known
                });
            above = known.opening.in_force;
            index += 1;
            known
        });
        self.laid = texts.len();
        texts
    }

    /// Finds the edits of each section, from the last to the first: what
    /// stands after one hangs on the next of which something is left.
    fn settle(&mut self, tree: &Tree, texts: &mut Vec<(usize, Laid)>) {
        let mut laid_again = 0;
        let mut below: Option<&Edge> = None;
        let sections = tree.sections.iter().zip(self.sections.iter_mut());
        for (index, (placed, known)) in sections.enumerate().rev() {
            let own = match texts.last().is_some_and(|(at, _)| *at == index) {
                true => texts.pop().map(|(_, laid)| laid),
                false => None,
            };
            let seam = known.edge.seam(below);
            let holds = known.edits.as_ref().is_some_and(|(own, _)| *own == seam);
            if !holds {
                let laid = own.unwrap_or_else(|| {
                    laid_again += 1;
                    laid_section(tree, placed, known.opening.in_force)
                });
                let edits = edits(tree, placed, &laid.text, &seam);
                known.edits = Some((seam, edits));
            }
            if !known.edge.is_empty {
                below = Some(&known.edge);
            }
        }
        self.laid += laid_again;
    }
}

/// The edits of one section, counted from its start.
fn edits(tree: &Tree, placed: &Placed, laid: &str, seam: &str) -> Box<[Edit]> {
    let old = tree.section_text(placed);
    let is_marked = placed.start == 0 && old.starts_with(BYTE_ORDER_MARK);
    let mark = if is_marked { BYTE_ORDER_MARK } else { "" };
    let new = [mark, laid, seam].concat();
    match old == new {
        true => Box::default(),
        false => smallest_edits(old, &new).into_boxed_slice(),
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::format::formatted;
    use crate::text::apply;

    const SPEC: &str = "site\n  soil clay\nlet a = 5 m\nlet b = 5 m\n\n\nshape s\n  square 4 m\n\
        surface s\n  shape s\n";

    /// How many sections of a text are laid out when it is changed to others
    /// in turn.
    fn laid(texts: &[&str]) -> Vec<usize> {
        let mut memory = Memory::default();
        let mut tree = Tree::parse("".into());
        let texts = texts.iter().map(|text| {
            tree = tree.edited((*text).into());
            let edits = memory.edits(&tree, None);
            assert_eq!(apply(text, &edits), Some(formatted(&tree)));
            memory.laid()
        });
        texts.collect()
    }

    #[test]
    fn an_edit_lays_out_the_section_that_it_touches() {
        let inside = SPEC.replace("square 4 m", "square  5 m");
        assert_eq!(laid(&[SPEC, &inside, SPEC, SPEC]), [5, 1, 1, 0]);
        // A let that is no longer alone has a blank line before it.
        let more = SPEC.replace("let b = 5 m\n", "let b = 5 m\n  x\n");
        assert_eq!(laid(&[SPEC, &more]), [5, 2]);
        let fewer = SPEC.replace("surface s\n  shape s\n", "");
        assert_eq!(laid(&[SPEC, &fewer]), [5, 1]);
    }

    proptest! {
        #[test]
        fn what_is_kept_is_what_a_fresh_look_finds(
            edits in prop::collection::vec((0usize..90, 0usize..12, "(let a = 1|\n|\r|\r\n|  soil|# b|\u{FEFF}|shape|x| ){0,3}"), 1..6),
        ) {
            let mut text = SPEC.to_owned();
            let mut tree = Tree::parse(text.as_str().into());
            let mut memory = Memory::default();
            memory.edits(&tree, None);
            for (start, length, new) in edits {
                let start = text.floor_char_boundary(start.min(text.len()));
                let end = text.floor_char_boundary((start + length).min(text.len()));
                text.replace_range(start..end, &new);
                tree = tree.edited(text.as_str().into());
                let kept = memory.edits(&tree, None);
                let fresh = Tree::parse(text.as_str().into());
                prop_assert_eq!(&kept, &Memory::default().edits(&fresh, None));
                prop_assert_eq!(apply(&text, &kept), Some(formatted(&fresh)));
            }
        }
    }
}
