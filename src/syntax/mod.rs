//! From text to a lossless tree: every byte of the text is in exactly one
//! line, and no text is so wrong that it has no tree.
//!
//! A text is parted into sections, a section into logical lines, and each
//! line is read on its own by the grammar in `grammar/patio.pest`, so that a
//! mistake costs its line at most and an edit reads one line again. What the
//! words mean is not known here.
//!
//! This room may use `text` only. It is the only one that knows the parser.

mod blank;
mod edit;
mod grammar;
mod items;
mod line;
mod logical_line;
mod minus;
mod open_ends;
mod parse;
mod per_section;
mod phrases;
mod physical_line;
mod place;
mod recent;
mod section;
mod section_split;
mod tree;
mod untouched;

#[cfg(test)]
mod tests;

pub use per_section::PerSection;
pub use place::PlacedLine;
pub use tree::{
    Fault, FaultKind, Item, ItemKind, Line, LineKind, Operator, Phrase, Placed, Section, SectionId,
    Term, Tree,
};
