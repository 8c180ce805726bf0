//! What the session does about the workspace, a little at each turn.

use std::collections::BTreeSet;
use std::mem;
use std::path::Path;
use std::sync::Arc;

use tokio::sync::oneshot::Sender;
use tower_lsp::lsp_types::*;

use super::index::{Later, Search};
use super::progress::Progress;
use super::pull::{Pull, Reports};
use super::worker::{Done, Reading, Task};
use crate::analysis::{Analysis, folder};
use crate::host::is_spec;
use crate::server::capabilities::WATCHES;
use crate::server::session::Session;
use crate::server::symbols::Section;
use crate::server::{diagnostics, paths, symbols};

/// From how many specs on the client is asked to show how far their reading
/// has come.
const MANY: usize = 100;

/// In a workspace of more specs than this, those that are not open are not
/// looked at again and again for changes; what they read is.
const MOST_LOOKED_AT: usize = 2_000;

impl Session {
    /// The folders of the workspace are searched anew in which the specs that
    /// are not open are of interest; all of them while something waits that
    /// wants to know every spec.
    pub(crate) fn search(&mut self) {
        let folders = match self.index.later.is_empty() {
            true => self.settings.checked(&self.roots),
            false => self.roots.all().to_vec(),
        };
        if !folders.is_empty() {
            return self.search_in(folders);
        }
        self.forget_specs(|_| true);
        self.index.due.clear();
        self.index.is_begun = false;
        self.rest_if_done();
    }

    /// Folders of the workspace come and go.
    pub(crate) fn change_folders(&mut self, params: DidChangeWorkspaceFoldersParams) {
        let [come, gone] = [params.event.added, params.event.removed].map(|folders| {
            let paths = folders.iter().map(|folder| paths::of(&folder.uri));
            paths.collect::<Vec<_>>()
        });
        self.roots.change(come, &gone);
        self.search();
        self.ask_for_settings(false);
    }

    fn search_in(&mut self, folders: Vec<String>) {
        self.index.is_begun = true;
        if self.index.search != Search::Idle {
            self.index.search = Search::Again;
            return;
        }
        self.index.search = Search::Running;
        self.index.is_whole = folders.len() == self.roots.all().len();
        self.worker.tell(Task::Search(folders));
    }

    /// Does something once all is searched and read; at once if it is.
    pub(crate) fn when_read(&mut self, later: Later) {
        if !self.index.is_begun || !self.index.is_whole {
            self.search_in(self.roots.all().to_vec());
        }
        // The user may have cut the reading short.
        for (path, kept) in &self.index.specs {
            if kept.is_none() && !self.documents.contains_key(path) {
                self.index.due.insert(path.clone());
            }
        }
        if self.index.is_done() {
            later(self);
        } else {
            self.index.later.push(later);
        }
    }

    /// Answers a question for all findings, once all is read.
    pub(crate) fn pull(
        &mut self,
        params: WorkspaceDiagnosticParams,
        reply: Sender<WorkspaceDiagnosticReport>,
    ) {
        let pull = Pull::new(params, reply);
        match self.index.is_done() {
            true => self.answer(pull),
            false => self.index.pulls.push(pull),
        }
    }

    /// Every spec that is open or in the folders of the workspace, in order.
    pub(crate) fn known_specs(&self) -> BTreeSet<String> {
        let open = self.documents.keys().filter(|path| path.starts_with('/'));
        open.chain(self.index.specs.keys()).cloned().collect()
    }

    /// The sections of the specs that are not open, each with the spec's path.
    pub(crate) fn closed_sections(&self) -> impl Iterator<Item = (&str, &Section)> {
        let specs = self.index.specs.iter();
        let closed = specs.filter_map(|(path, kept)| Some((path.as_str(), kept.as_ref()?)));
        closed.flat_map(|(path, closed)| closed.sections.iter().map(move |own| (path, own)))
    }

    /// What the worker has done.
    pub(crate) fn done(&mut self, done: Done) {
        match done {
            Done::Found(specs, is_all) => self.found(specs, is_all),
            Done::Read(path, analysis) => self.was_read(&path, analysis),
            Done::Looked(changed) => {
                self.index.is_looking = false;
                if !changed.is_empty() {
                    self.changed_outside(&changed);
                }
            }
        }
        self.rest_if_done();
    }

    /// Has the worker look whether files have changed that are read or might be,
    /// for a client that does not watch them.
    pub(crate) fn look_around(&mut self) {
        if self.index.is_looking {
            return;
        }
        let open = self.documents.values();
        let analyses = open.filter_map(|document| document.check.analysis.as_ref());
        let mut paths: BTreeSet<&String> = analyses.flat_map(|own| &own.reads).collect();
        paths.extend(self.index.readers.read_paths());
        let mut folders = BTreeSet::new();
        if self.index.specs.len() <= MOST_LOOKED_AT {
            paths.extend(self.index.specs.keys());
            let specs = self.index.specs.keys();
            folders.extend(specs.map(|path| folder(path).to_owned()));
            folders.extend(self.roots.all().iter().cloned());
        }
        paths.retain(|path| !self.documents.contains_key(*path));
        let all = paths.into_iter().cloned().chain(folders);
        self.worker.tell(Task::Look(all.collect()));
        self.index.is_looking = true;
    }

    /// Some files have changed, come or gone: specs among them are read again,
    /// and the folders searched if one is not known.
    pub(in crate::server) fn look_for_new(&mut self, changed: &[String]) {
        if !self.client.can(WATCHES) {
            self.worker.tell(Task::Note(changed.to_vec()));
        }
        let is_new = |path: &String| {
            let is_known = self.index.specs.contains_key(path);
            !is_known && self.roots.of(path).is_some() && !self.documents.contains_key(path)
                || !is_spec(Path::new(path))
        };
        if self.index.is_begun && changed.iter().any(is_new) {
            self.search();
        }
    }

    /// A spec is opened: from now on its document tells of it.
    pub(in crate::server) fn leave_to_document(&mut self, path: &str, uri: &Url) {
        let Some(kept) = self.index.specs.get_mut(path) else {
            return;
        };
        let was_told = mem::take(kept).is_some_and(|closed| closed.is_told);
        // A client may spell the address in another way.
        if let Some(own) = paths::address(path).filter(|own| was_told && own != uri) {
            self.publish(own, None, Vec::new());
        }
    }

    /// A spec is closed: from now on its text on disk counts.
    pub(in crate::server) fn take_back(&mut self, path: &str) {
        match self.index.specs.contains_key(path) {
            true => drop(self.index.due.insert(path.to_owned())),
            false if self.roots.of(path).is_some() && self.index.is_begun => self.search(),
            false => {}
        }
    }

    /// Every spec that is not open is to be read again.
    pub(in crate::server) fn read_all_again(&mut self) {
        let index = &mut self.index;
        index.due.extend(index.specs.keys().cloned());
    }

    /// The client wants no more of a display: what is not read stays so until
    /// it changes.
    pub(crate) fn stop_reading(&mut self, params: WorkDoneProgressCancelParams) {
        let progress = self.index.progress.as_ref();
        if progress.is_some_and(|progress| progress.token == params.token) {
            self.index.due.clear();
            self.rest_if_done();
        }
    }

    /// Hands the worker the next spec; false if there is none or it is at work.
    pub(in crate::server) fn read_next(&mut self) -> bool {
        if self.index.under_way.is_some() {
            return false;
        }
        // From the end: taking the first would move up all the rest.
        while let Some(path) = self.index.due.pop() {
            if self.documents.contains_key(&path) {
                continue;
            }
            self.worker.tell(Task::Read(Reading {
                standard: self.standard(&path),
                path,
                files: self.files(),
            }));
            self.index.under_way = Some(Vec::new());
            return true;
        }
        self.rest_if_done();
        false
    }

    fn found(&mut self, specs: Vec<String>, is_all: bool) {
        if mem::take(&mut self.index.search) == Search::Again {
            self.search();
            return;
        }
        if !self.index.is_begun {
            return;
        }
        if !is_all {
            self.client_requests.warn(
                "The folders of the workspace are too large: not every spec in them is checked \
                 unless it is open."
                    .to_owned(),
            );
        }
        self.forget_specs(|path| specs.binary_search(path).is_err());
        for path in specs {
            if !self.index.specs.contains_key(&path) {
                self.index.due.insert(path.clone());
                self.index.specs.insert(path, None);
            }
        }
        let left = self.index.left();
        if left >= MANY
            && self.client.can("window.workDoneProgress")
            && self.index.progress.is_none()
        {
            let number = self.fresh_number();
            let progress = Progress::begin(&self.client_requests, &self.writer, number, left);
            self.index.progress = Some(progress);
        }
    }

    fn was_read(&mut self, path: &str, analysis: Option<Arc<Analysis>>) {
        let changed = self.index.under_way.take().unwrap_or_default();
        let left = self.index.left();
        if let Some(progress) = &mut self.index.progress {
            progress.left(left);
        }
        let is_of_interest = self.index.specs.contains_key(path);
        if !is_of_interest || self.documents.contains_key(path) || self.index.due.contains(path) {
            return;
        }
        let Some(analysis) = analysis else {
            self.forget(path);
            return;
        };
        // What it read has changed while it was read.
        let concerns_it = |one: &String| one == path || analysis.reads.contains(one);
        if changed.iter().any(concerns_it) {
            self.index.due.insert(path.to_owned());
            return;
        }
        self.index.readers.set(path, &analysis.reads);
        self.keep(path, analysis);
    }

    /// Keeps what is needed of a spec that was read, and tells the client of
    /// its findings.
    fn keep(&mut self, path: &str, analysis: Arc<Analysis>) {
        let snapshot = self.shown(analysis);
        let mut findings = match self.settings_of(path).workspace {
            true => diagnostics::of(&snapshot, self),
            false => Vec::new(),
        };
        // Fixes are offered once it is open.
        findings.iter_mut().for_each(|finding| finding.data = None);
        let sections = symbols::sections(&snapshot);
        let (fresh, asks) = (self.fresh_number(), self.client.pulls);
        let Some((kept, uri)) = self.index.specs.get_mut(path).zip(paths::address(path)) else {
            return;
        };
        let closed = kept.get_or_insert_default();
        closed.sections = sections;
        closed.is_told = !asks && !findings.is_empty();
        let is_news = closed.found.take(findings.clone(), fresh);
        if asks {
            self.index.has_news |= is_news;
            for pull in &mut self.index.pulls {
                pull.tell(&self.writer, &uri, &closed.found);
            }
        } else if is_news {
            self.publish(uri, None, findings);
        }
    }

    /// A spec is gone, and its findings with it.
    fn forget(&mut self, path: &str) {
        self.index.readers.forget(path);
        let Some(kept) = self.index.specs.remove(path).flatten() else {
            return;
        };
        if let Some(uri) = paths::address(path).filter(|_| kept.is_told) {
            self.publish(uri, None, Vec::new());
        }
        self.index.has_news |= !kept.found.findings.is_empty();
    }

    fn forget_specs(&mut self, are_gone: impl Fn(&String) -> bool) {
        let specs = self.index.specs.keys();
        let gone: Vec<String> = specs.filter(|path| are_gone(path)).cloned().collect();
        gone.iter().for_each(|path| self.forget(path));
    }

    /// Does what has waited until all is read, if all is.
    fn rest_if_done(&mut self) {
        if !self.index.is_done() {
            return;
        }
        self.index.progress = None;
        for pull in mem::take(&mut self.index.pulls) {
            self.answer(pull);
        }
        for later in mem::take(&mut self.index.later) {
            later(self);
        }
        if mem::take(&mut self.index.has_news) {
            self.client_requests.refresh();
        }
    }

    fn answer(&mut self, pull: Pull) {
        if pull.is_over() {
            return;
        }
        let mut reports = Reports::new();
        for uri in self.addresses() {
            if pull.is_over() {
                return;
            }
            let version = self.version(&uri);
            if let Some(found) = self.findings(&uri) {
                let report = pull.report(&uri, version, found);
                reports.insert(uri, report);
            }
        }
        for (path, kept) in &self.index.specs {
            if let (Some(closed), Some(uri)) = (kept, paths::address(path)) {
                let report = pull.report(&uri, None, &closed.found);
                reports.insert(uri, report);
            }
        }
        pull.answer(&self.writer, reports);
    }
}
