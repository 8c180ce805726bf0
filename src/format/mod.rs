//! Laying a text out: the same job, written the one plain way.
//!
//! A section is laid out line by line and read again; a line that would not
//! read as it did before, or would be laid out differently a second time,
//! stays as it was written. So the layout can change no meaning, whatever the
//! text. What cannot be read, and a line with a fault, is left alone.
//!
//! A section's layout depends on its own text, the kind in force above it and
//! what stands next below; a [`Memory`] keeps it as long as those are the same.
//!
//! This room uses `text`, `syntax`, `units` and `vocabulary`.

mod columns;
mod file;
mod items;
mod line;
mod memory;
mod part;
mod plain;
mod same;
mod seam;
mod section;
mod token;
mod typing;

pub use file::formatted;
pub use memory::Memory;
pub use typing::on_type;

#[cfg(test)]
mod tests;
