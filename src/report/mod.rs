//! What is handed out: the findings of a check and the take-off of a job, in
//! each format, and the page that shows a job in a browser.
//!
//! The room is pure: it is given analyses and gives text back, and touches no
//! file. One file holds one format. It uses everything up to `drawing`.

mod applied;
mod as_built_json;
mod baseline;
mod bearing;
mod cautions;
mod checkstyle;
mod columns;
mod drains_json;
mod drains_unknown;
mod explain;
mod explain_word;
mod explanation;
mod facets_json;
mod figure_list;
mod figure_tables;
mod figure_value;
mod findings_json;
mod fingerprint;
mod github;
mod handed;
mod json;
mod junit;
mod laying_json;
mod line_difference;
mod markdown;
mod mended;
mod money_json;
mod preview;
mod review;
mod row;
mod sarif;
mod schedule;
mod sections;
mod setout;
mod shown_path;
mod spreadsheet;
mod standards;
mod standing;
mod statistics;
mod steps_json;
mod summary;
mod takeoff_csv;
mod takeoff_json;
mod takeoff_markdown;
mod takeoff_text;
mod timings;
mod trade;
mod unknown;
mod variation;
mod water_json;
mod words;
mod xml;

#[cfg(test)]
mod tests;

pub use baseline::Baseline;
pub use cautions::{LOCAL_RULES, cautions};
pub use checkstyle::checkstyle;
pub use explain::{explained, listed_rules};
pub use explain_word::{explained_word, explained_words};
pub use explanation::{explanation, table_row};
pub use findings_json::findings_json;
pub use github::github;
pub use handed::{Handing, Reader, report_html, report_pages, setout_pages};
pub use junit::junit;
pub use line_difference::line_difference;
pub use mended::mended;
pub use preview::{PREVIEW, Shell, preview};
pub use review::{Page, Review, Reviewed, Unread};
pub use row::{Accepted, Mending, Row, Spot, spot};
pub use sarif::sarif;
pub use schedule::{schedule_csv, schedule_ics, schedule_json, schedule_text};
pub use setout::{setout_csv, setout_json, setout_markdown, setout_text};
pub use shown_path::{path_from, shown_path};
pub use spreadsheet::takeoff_xlsx;
pub use standards::standards;
pub use statistics::statistics;
pub use summary::Summary;
pub use takeoff_csv::takeoff_csv;
pub use takeoff_json::takeoff_json;
pub use takeoff_markdown::takeoff_markdown;
pub use takeoff_text::{SheetLayout, takeoff_text};
pub use timings::{Timing, timings};
pub use unknown::unknown;
pub use variation::{
    Comparison, State, World, comparison_json, comparison_markdown, comparison_text,
};
pub use words::{WIDTH, bound, counted, listed, wrapped};
