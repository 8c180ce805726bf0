//! The one pipeline: from the text of a spec, and whatever other files it
//! reads, to its figures and findings. The editor and the command line both
//! ask here.
//!
//! The room uses everything up to `rules`. It reads no file itself: it asks
//! [`Files`], which the shells implement.

mod analyser;
mod elsewhere;
mod extends;
mod files;
mod own_units;
mod path;
mod root;
mod sources;
mod standards;

pub use analyser::{Analyser, Analysis, File};
pub use files::{Files, NoFiles};
pub(crate) use path::folder;
pub use root::root_of;
pub(crate) use root::standard_places;
