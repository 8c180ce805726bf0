//! A review: what the check of several files came to.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::fingerprint::state_of;
use super::row::{Row, cautions, rows};
use super::shown_path;
use crate::analysis::Analysis;
use crate::text::{Lines, Text};

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

/// A file that was checked. It keeps what is told of it and no more, for
/// there may be many.
#[derive(Debug)]
pub struct Reviewed {
    /// Its path as shown.
    pub path: String,
    /// Its whole path.
    pub full_path: String,
    /// Every other path that was read or looked for.
    pub reads: Vec<String>,
    /// Known again as long as the spec and all that it reads are as they
    /// were; none where nobody asks.
    pub state: Option<String>,
    /// The files that its findings point at, by their place among the files
    /// of the analysis; the file itself comes first.
    pub pages: Vec<Option<Page>>,
    /// Its findings in order of place, then rule, each with its place in the
    /// file.
    pub rows: Vec<Row>,
    /// Whether nothing is written in it yet, comments apart.
    pub is_blank: bool,
    /// What whoever builds the job is cautioned of. It is no finding: it is
    /// neither counted nor denied.
    pub cautions: Vec<Row>,
}

/// A file's text and its lines.
#[derive(Debug, Clone)]
pub struct Page {
    /// The text.
    pub text: Text,
    /// Its lines.
    pub lines: Arc<Lines>,
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
    pub fn new(analysis: &Analysis, folder: &str) -> Reviewed {
        let rows = rows(analysis, folder);
        let is_shown = |index: usize| {
            let mut spots = rows.iter().flat_map(Row::spots);
            spots.any(|spot| spot.file == index)
        };
        let pages = analysis.files.iter().enumerate().map(|(index, file)| {
            is_shown(index).then(|| Page {
                text: file.tree.text.clone(),
                lines: file.lines.clone(),
            })
        });
        let own = analysis.files.first();
        let mut lines = own.into_iter().flat_map(|file| file.tree.lines());
        Reviewed {
            is_blank: lines.all(|line| line.word().is_empty()),
            path: shown_path(&analysis.path, folder),
            full_path: analysis.path.clone(),
            reads: analysis.reads.clone(),
            state: None,
            pages: pages.collect(),
            cautions: cautions(analysis, folder),
            rows,
        }
    }

    /// The same with its state, for a baseline.
    #[must_use]
    pub fn with_state(self, analysis: &Analysis) -> Reviewed {
        let texts = analysis.files.iter().map(|file| &*file.tree.text);
        Reviewed {
            state: Some(state_of(texts)),
            ..self
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
