//! What is handed out: the findings of a check and the take-off of a job, in
//! each format, and the reference pages.
//!
//! The room is pure: it is given analyses and gives text back, and touches no
//! file. One file holds one format. It uses everything up to `analysis`.

mod cautions;
mod columns;
mod findings_json;
mod fingerprint;
pub mod reference;
mod review;
mod row;
mod sections;
mod shown_path;
mod summary;
mod takeoff_csv;
mod takeoff_json;
mod takeoff_text;
mod trade;
mod unknown;
mod words;

pub use cautions::cautions;
pub use findings_json::findings_json;
pub use review::{Review, Reviewed, Unread};
pub use row::{Accepted, Mending, Row, Spot, spot};
pub use shown_path::shown_path;
pub use summary::Summary;
pub use takeoff_csv::takeoff_csv;
pub use takeoff_json::takeoff_json;
pub use takeoff_text::takeoff_text;
pub use unknown::unknown;
pub use words::{WIDTH, counted, listed, wrapped};
