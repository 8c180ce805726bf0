//! What is said about a spec: findings, the places they point at, and the
//! edits that would put them right.
//!
//! The room uses `text`, `syntax` (for the names of sections), `sources` (for
//! regions) and `units`.
//! What a rule *is* stands in `rules`; here is only what it found.

mod finding;
mod fix;
mod list;
mod place;

pub use finding::{Acceptance, Borrowed, Finding, LimitFrom, Measured, Related, Said, Severity};
pub use fix::{Change, Fix};
pub use list::{FindingList, Part};
pub use place::{FileId, Place, SectionRef};
