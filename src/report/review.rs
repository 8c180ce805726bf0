//! A review: what the check of several files came to.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::row::{Row, rows};
use super::shown_path;
use crate::analysis::Analysis;

/// What the check of several files came to. Every format of the findings is
/// made from one.
#[derive(Debug, Default)]
pub struct Review {
    /// The files that were checked, in order of their shown paths.
    pub files: Vec<Reviewed>,
    /// The day that settles which acceptances have run out: `2027-01-12`.
    pub date: String,
    /// The standard that was applied to every file, if one was named.
    pub standard: Option<String>,
    /// How many findings a baseline has taken out as known.
    pub known: usize,
    /// The findings that a baseline knows and that are no longer found: their
    /// fingerprints, by shown path.
    pub put_right: BTreeMap<String, Vec<String>>,
    /// The files that could not be read.
    pub unread: Vec<Unread>,
}

/// A file that was checked.
#[derive(Debug)]
pub struct Reviewed {
    /// Its path as shown.
    pub path: String,
    /// What it came to.
    pub analysis: Arc<Analysis>,
    /// Its findings in order of place, then rule, each with its place in the
    /// file.
    pub rows: Vec<Row>,
}

/// A file that could not be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unread {
    /// Its path as shown.
    pub path: String,
    /// Why, as a clause: `it is not there`.
    pub why: String,
}

impl Reviewed {
    /// A checked file, its paths shown as seen from a folder.
    pub fn new(analysis: Arc<Analysis>, folder: &str) -> Reviewed {
        Reviewed {
            path: shown_path(&analysis.path, folder),
            rows: rows(&analysis, folder),
            analysis,
        }
    }

    /// The rows that no acceptance took.
    pub fn standing(&self) -> impl Iterator<Item = &Row> {
        self.rows.iter().filter(|row| row.accepted.is_none())
    }
}

impl Review {
    /// The rows of all files that no acceptance took, with their files.
    pub fn standing(&self) -> impl Iterator<Item = (&Reviewed, &Row)> {
        let of = |file| Reviewed::standing(file).map(move |row| (file, row));
        self.files.iter().flat_map(of)
    }
}
