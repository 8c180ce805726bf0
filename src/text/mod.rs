//! Plain text: texts that many hold, byte spans, the one line index, edits
//! and the smallest change between two texts.
//!
//! This room knows nothing of patios and uses no other room. Every function
//! is total: offsets that lie outside a text, or inside a character, are
//! brought to the nearest sound place instead of failing.

mod article;
mod ascending;
mod capital;
mod clean;
mod common;
mod difference;
mod edit;
mod lines;
mod shared;
mod span;

pub use article::with_article;
pub(crate) use ascending::Ascending;
pub use capital::capital;
pub use clean::{Shown, clean, is_unshown};
pub use common::Common;
pub use difference::smallest_edits;
pub use edit::{Edit, apply};
pub use lines::{Encoding, Lines, Position};
pub use shared::{Origin, Text};
pub use span::Span;
