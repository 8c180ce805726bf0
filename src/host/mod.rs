//! The machine that the program runs on: its disk and its clock. The two
//! shells, `cli` and `server`, reach the world through this room; nothing
//! else does.

mod clock;
mod disk;
mod search;
mod stamp;
mod write;

pub use clock::today;
pub use disk::{in_words, leads_out, names_in, text_at, text_from};
pub use search::{Looked, is_spec, specs_below};
pub use stamp::{Stamp, stamp};
pub use write::{is_same_file, write_whole};
