//! How a job is set out, in each format: the marks, the pegs by two tapes, their
//! levels, the rod below the string, the marks under the board, arcs and checks.
//!
//! Text and Markdown lay the same tables out; CSV has a line for each point;
//! JSON has everything, in SI.

mod csv;
mod json;
mod markdown;
mod reasons;
mod tables;
mod text;
mod words;

pub use csv::setout_csv;
pub use json::setout_json;
pub use markdown::setout_markdown;
pub use text::setout_text;

pub(super) use reasons::unknown as setout_unknown;
pub(super) use words::{level as setout_level, marks as setout_marks, tape as setout_tape};

pub(super) use tables::{
    Table as SetoutTable, spot_heading as setout_spot_heading, spot_tables as setout_spot_tables,
    tables as setout_tables,
};

#[cfg(test)]
pub(super) use json::Document;
