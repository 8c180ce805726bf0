//! The schedule of a job in each format: the tasks, what each waits for, and
//! who does what on which day.

mod calendar;
mod csv;
mod json;
mod text;

pub use calendar::schedule_ics;
pub use csv::schedule_csv;
pub use json::schedule_json;
pub use text::schedule_text;

#[cfg(test)]
pub(super) use json::Document;
