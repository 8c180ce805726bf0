//! The machine that the program runs on: its disk and its clock. The two
//! shells, `cli` and `server`, reach the world through this room; nothing
//! else does.

mod clock;
mod disk;
mod files;
mod process;
mod search;
mod stamp;
mod watch;
mod write;

pub use clock::today;
pub use disk::{in_words, text_at, text_from};
pub(crate) use files::{Disk, RememberedDisk, absolute};
pub(crate) use process::watch_process;
pub use search::{Looked, is_spec, specs_below};
pub(crate) use watch::Watch;
pub use write::{is_same_file, write_whole};
