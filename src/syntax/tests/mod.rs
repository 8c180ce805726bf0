//! Tests of the room as a whole.

mod dump;
mod edits;
mod forms;
mod hostile;
mod lines;
mod samples;
