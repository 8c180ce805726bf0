//! The schedule of a job in each format: the tasks, what each waits for, and
//! who does what on which day.

mod calendar;
mod csv;
mod day_by_day;
mod json;
mod text;

pub use calendar::schedule_ics;
pub use csv::schedule_csv;
pub(super) use day_by_day::{day_by_day, hire_days};
pub use json::schedule_json;
pub use text::schedule_text;

#[cfg(test)]
pub(super) use json::Document;
