//! Where the reading of the workspace stands.

use std::collections::BTreeMap;

use indexmap::IndexSet;

use super::progress::Progress;
use super::pull::Pull;
use super::readers::Readers;
use crate::server::numbered::Numbered;
use crate::server::session::Session;
use crate::server::symbols::Section;

/// Something to be done once everything is read.
pub(crate) type Later = Box<dyn FnOnce(&mut Session) + Send>;

/// Where the reading of the workspace stands.
#[derive(Default)]
pub(crate) struct Index {
    /// The specs that were found, each with what is kept of it; nothing of one
    /// that is open or not read yet.
    pub specs: BTreeMap<String, Option<Closed>>,
    /// Who reads what, of those that are not open.
    pub readers: Readers,
    /// The specs that are to be read, each once.
    pub due: IndexSet<String>,
    /// While a spec is being read, the paths that have changed meanwhile.
    pub under_way: Option<Vec<String>>,
    /// Whether folders are being searched.
    pub search: Search,
    /// Whether something was found that a client that asks does not know.
    pub has_news: bool,
    /// The display of how far it has come.
    pub progress: Option<Progress>,
    /// The questions for all findings that wait until all is read.
    pub pulls: Vec<Pull>,
    /// What else waits until all is read.
    pub later: Vec<Later>,
    /// Whether files are being looked at for changes.
    pub is_looking: bool,
    /// Whether the workspace was searched at all.
    pub is_begun: bool,
    /// Whether every folder of it was.
    pub is_whole: bool,
}

/// What is kept of a spec that is not open.
#[derive(Debug, Default)]
pub(crate) struct Closed {
    /// Its findings.
    pub found: Numbered,
    /// Whether the client was sent findings of it.
    pub is_told: bool,
    /// Its sections.
    pub sections: Box<[Section]>,
}

/// Whether folders are being searched.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum Search {
    /// They are not.
    #[default]
    Idle,
    /// They are.
    Running,
    /// They are, and are to be again afterwards.
    Again,
}

impl Index {
    /// Whether nothing is left to be searched or read.
    pub(crate) fn is_done(&self) -> bool {
        self.search == Search::Idle && self.under_way.is_none() && self.due.is_empty()
    }

    /// How many specs are left to be read.
    pub(crate) fn left(&self) -> usize {
        self.due.len() + usize::from(self.under_way.is_some())
    }

    /// A path has changed: whatever reads it is to be read again, and so is
    /// the spec itself.
    pub(crate) fn touch(&mut self, path: &str) {
        self.due.extend(self.readers.of(path));
        if self.specs.contains_key(path) {
            self.due.insert(path.to_owned());
        }
        if let Some(changed) = &mut self.under_way {
            changed.push(path.to_owned());
        }
    }
}
