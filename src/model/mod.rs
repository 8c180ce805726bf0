//! The job as meaning: what the text says, with names resolved and values
//! typed, each with the place that states it.
//!
//! `reading` matches sections against the vocabulary; `resolve` evaluates
//! what was read into a [`Job`]. The room uses `text`, `syntax`, `units`,
//! `geometry`, `findings`, `vocabulary` and `materials`.

mod catalogue;
mod job;
mod reading;
mod resolve;

pub use catalogue::built_in;
pub use job::*;
pub use reading::{
    Argument, Entry, Expression, Filled, SectionReading, Value, is_bare, is_lost_entry, kind_after,
    literal, nearest, read_lost_entry, read_section,
};
pub use resolve::{FileInput, LogicalSection, Memory, joined, read_standard};
