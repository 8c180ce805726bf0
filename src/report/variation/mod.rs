//! Two states of a spec beside each other: which figures and findings
//! changed, by how much, and the lines that caused it. One file holds what
//! changed of one kind, one holds each format.

mod causes;
mod changed_lines;
mod comparison;
mod figure_changes;
mod finding_changes;
mod json;
mod markdown;
mod passages;
mod said_lines;
mod shared;
mod text;

pub use causes::World;
pub use comparison::{Comparison, State};
pub use json::comparison_json;
pub use markdown::comparison_markdown;
pub use text::comparison_text;
