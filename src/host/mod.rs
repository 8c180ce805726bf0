//! The machine that the program runs on: its disk and its clock. The two
//! shells, `cli` and `server`, reach the world through this room; nothing
//! else does.

mod clock;
mod disk;
mod search;
mod stamp;

pub use clock::today;
pub use disk::{in_words, names_in, text_at, text_of};
pub use search::{Looked, is_spec, specs_below};
pub use stamp::{Stamp, stamp};
