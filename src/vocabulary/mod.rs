//! The language as one table: what kinds of section there are, which keys
//! stand in each, what a key's value looks like and which clauses may follow.
//!
//! Checking, completion, hover help, the formatter, the colouring of editors
//! and the language reference all come out of this table. It uses `units`
//! for dimensions, `sources` for regions, and nothing else. The trade's words
//! by region stand here too.

mod choices;
mod examples;
mod form;
mod kind;
mod other_words;
mod plain_words;
mod roles;
mod section;
mod sections;
mod spelling;
mod trade_words;
mod usual;
mod words;

pub use choices::{
    BorderSide, BrickClass, ByPiece, Choice, Consistency, Durability, Handrail, Measure, MixUse,
    MortarType, Pattern, Sense, SeverityWord, Sharing, SoilWord, State, Swing, Task, Taxed, Top,
    Turn, Use, Walls, Weekday,
};
pub use examples::{examples_in, in_currency};
pub use form::{Form, Part};
pub use kind::{NameSpace, ValueKind};
pub use other_words::other_word;
#[cfg(test)]
pub(crate) use other_words::other_words;
pub use plain_words::is_plain;
pub use roles::Role;
pub use section::{Clause, Key, SectionKind};
pub use sections::{SECTIONS, section};
pub use spelling::{other_spelling, reads_as, renamed, spelled_in};
pub use trade_words::Term;
pub use usual::{Bounds, Usual};
pub use words::{
    ALL_EDGES, DIRECTIONS, FREE, FUNCTIONS, SMALL_WORDS, VALUE_COLUMN, compass_word, entry,
    is_reserved,
};
