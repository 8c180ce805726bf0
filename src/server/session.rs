//! All that is open: the texts, how far each is checked, what was read from
//! disk, and the user's settings.

use std::mem;
use std::path::Path;
use std::sync::Arc;

use indexmap::IndexSet;
use tower_lsp::lsp_types::*;

use super::capabilities::{ClientSide, WATCHES, watched_files};
use super::checking::{Check, Due, analyser};
use super::client_requests::ClientRequests;
use super::diagnostics;
use super::documents::{Document, Documents};
use super::files::OpenFirst;
use super::numbered::Numbered;
use super::paths;
use super::settings::{Scopes, Settings};
use super::snapshot::{Snapshot, TextSnapshot};
use super::workspace::{Index, Roots, Worker};
use super::writer::Writer;
use crate::analysis::Analysis;
use crate::host::{RememberedDisk, text_at, today};

/// What is open, and all that is kept of it.
pub(crate) struct Session {
    /// What the client can do.
    pub client: ClientSide,
    /// What the user has set.
    pub settings: Scopes,
    /// The folders of the workspace.
    pub roots: Roots,
    /// What is open, and how far each of them is checked.
    pub(super) documents: Documents,
    /// What was read from disk.
    pub(super) disk: Arc<RememberedDisk>,
    /// Where the specs that are not open stand.
    pub(super) index: Index,
    /// Who reads them.
    pub(super) worker: Worker,
    /// How many sets of findings and other things were numbered.
    numbered: u64,
    /// The number of the last question for settings.
    settings_asked: u64,
    /// What goes out.
    pub(super) writer: Writer,
    /// What is asked of the client.
    pub(super) client_requests: ClientRequests,
}

impl Session {
    /// An empty session.
    pub(crate) fn new(writer: Writer, client_requests: ClientRequests, worker: Worker) -> Session {
        Session {
            client: ClientSide::default(),
            settings: Scopes::default(),
            roots: Roots::default(),
            documents: Documents::default(),
            disk: Arc::default(),
            index: Index::default(),
            worker,
            numbered: 0,
            settings_asked: 0,
            writer,
            client_requests,
        }
    }

    /// The client is ready: its specs are searched, and their files watched.
    pub(crate) fn begin(&mut self) {
        self.search();
        if self.client.can(WATCHES) {
            // Not every client can watch what lies outside its own folders.
            let elsewhere = "workspace.didChangeWatchedFiles.relativePatternSupport";
            let above = match self.client.can(elsewhere) {
                true => self.roots.above(self.disk.as_ref()),
                false => Vec::new(),
            };
            self.client_requests.watch(watched_files(&above));
        } else {
            self.client_requests.look_around();
        }
        self.ask_for_settings(false);
    }

    /// A document is opened, or opened anew.
    pub(crate) fn open(&mut self, params: DidOpenTextDocumentParams) {
        let item = params.text_document;
        let path = paths::of(&item.uri);
        self.leave_to_document(&path, &item.uri);
        let mut document = Document::new(item.uri, item.version, item.text);
        if let Some(before) = self.documents.get_mut(&path) {
            document.check = mem::take(&mut before.check);
        }
        document.check.make_due(Due::Edited);
        let standard = self.standard(&path);
        if let Some(known) = self.worker.lately(&path, standard.as_deref()) {
            document.check.analyser = Some(known);
        }
        self.documents.insert(path.clone(), document);
        self.changed_outside(&[path]);
    }

    /// Changes a document's text; does nothing if it is not open.
    pub(crate) fn change(&mut self, params: DidChangeTextDocumentParams) {
        let VersionedTextDocumentIdentifier { uri, version } = params.text_document;
        let path = paths::of(&uri);
        if let Some(document) = self.documents.get_mut(&path) {
            document.change(version, params.content_changes, self.client.encoding);
            document.check.make_due(Due::Edited);
            self.touch(&path);
        }
    }

    /// A document is saved: what it reads from disk is read anew.
    pub(crate) fn save(&mut self, params: DidSaveTextDocumentParams) {
        let path = paths::of(&params.text_document.uri);
        if let Some(document) = self.documents.get_mut(&path) {
            document.check.make_due(Due::Outside);
        }
        self.changed_outside(&[path]);
    }

    /// A document is closed: its findings go, and its text on disk counts.
    pub(crate) fn close(&mut self, params: DidCloseTextDocumentParams) {
        let path = paths::of(&params.text_document.uri);
        if let Some(document) = self.documents.shift_remove(&path) {
            if !self.client.pulls {
                self.publish(document.uri, None, Vec::new());
            }
            self.changed_outside(std::slice::from_ref(&path));
            self.take_back(&path);
        }
    }

    /// Files have changed on disk, or come, or gone.
    pub(crate) fn changed_outside(&mut self, paths: &[String]) {
        self.disk = Arc::default();
        for path in paths {
            self.touch(path);
        }
        self.look_for_new(paths);
    }

    /// The same of the files at some addresses.
    pub(crate) fn changed_at<'a>(&mut self, addresses: impl Iterator<Item = &'a str>) {
        let paths: Vec<String> = addresses.filter_map(paths::of_text).collect();
        self.changed_outside(&paths);
    }

    /// The client tells that settings have changed, or what they are now.
    pub(crate) fn change_settings(&mut self, params: DidChangeConfigurationParams) {
        let sent_none = params.settings.is_null();
        if !sent_none {
            self.configure(|scopes| scopes.set(params.settings));
        }
        self.ask_for_settings(sent_none);
    }

    /// Asks the client for its settings, if it can be asked: for those of each
    /// folder where there are several, whose settings it does not send by
    /// itself, and for all if it has `sent_none`.
    pub(super) fn ask_for_settings(&mut self, sent_none: bool) {
        let folders = match self.roots.all() {
            [] | [_] => Vec::new(),
            several => several.to_vec(),
        };
        if !self.client.can("workspace.configuration") || folders.is_empty() && !sent_none {
            return;
        }
        self.settings_asked = self.fresh_number();
        let question = self.settings_asked;
        let requests = &self.client_requests;
        requests.ask_for_settings(&folders.clone(), move |session, values| {
            // Of several answers under way the last question's counts.
            if session.settings_asked == question {
                let mut values = values.into_iter();
                let whole = values.next().unwrap_or_default();
                let each = folders.into_iter().zip(values).collect();
                session.configure(|scopes| scopes.set_each(whole, each));
            }
        });
    }

    /// The user's settings change in some way, which gives what is wrong with
    /// them; that is told.
    pub(crate) fn configure(&mut self, change: impl FnOnce(&mut Scopes) -> Vec<String>) {
        let mut settings = self.settings.clone();
        let wrong = change(&mut settings);
        wrong
            .into_iter()
            .for_each(|wrong| self.client_requests.warn(wrong));
        let before = mem::replace(&mut self.settings, settings);
        if self.settings.holds_as(&before) {
            return;
        }
        self.tell_of_standards(&before);
        for (path, Document { check, .. }) in &mut self.documents {
            let standard = |scopes: &Scopes| scopes.standard(path, &self.roots);
            if standard(&self.settings) != standard(&before) {
                check.analyser = None;
            }
            check.make_due(Due::Outside);
        }
        match self.settings.checked(&self.roots) != before.checked(&self.roots) {
            true => self.search(),
            false => self.read_all_again(),
        }
        self.client_requests.refresh();
    }

    /// Tells of standards that are newly named and cannot be used.
    fn tell_of_standards(&self, before: &Scopes) {
        let folders = self.roots.all().iter();
        let places = folders.map(|folder| format!("{folder}/"));
        let named = places.chain([String::new()]).filter_map(|place| {
            let known = before.standard(&place, &self.roots);
            let named = self.settings.standard(&place, &self.roots)?;
            (known.as_ref() != Some(&named)).then_some(named)
        });
        for named in named.collect::<IndexSet<String>>() {
            if let Err(why) = text_at(Path::new(&named)) {
                let wrong = format!("The standard `{named}` cannot be used: {why}.");
                self.client_requests.warn(wrong);
            }
        }
    }

    /// The settings that hold for a spec.
    pub(crate) fn settings_of(&self, path: &str) -> &Settings {
        self.settings.of(path, &self.roots)
    }

    /// The standard that the user names for a spec.
    pub(super) fn standard(&self, path: &str) -> Option<String> {
        self.settings.standard(path, &self.roots)
    }

    /// Every document whose last analysis read or looked for a path is to be
    /// analysed again.
    fn touch(&mut self, path: &str) {
        for (own, document) in &mut self.documents {
            if own != path && document.check.has_read(path) {
                document.check.make_due(Due::Outside);
            }
        }
        self.index.touch(path);
    }

    /// Does one thing that waits while no message does; false if nothing
    /// waits. A finished result is sent before the next analysis is begun,
    /// both after the messages that came meanwhile, and what is not open comes
    /// last.
    pub(crate) fn step(&mut self) -> bool {
        let mut open = self.documents.iter();
        if let Some((path, _)) = open.find(|(_, document)| document.check.is_ready()) {
            self.send(&path.clone());
            return true;
        }
        let due = self
            .documents
            .iter()
            .filter(|(_, document)| document.check.due != Due::No);
        let Some((path, _)) = due.max_by_key(|(_, document)| document.check.due) else {
            return self.read_next();
        };
        let path = path.clone();
        self.analyse(&path);
        if self.check(&path).is_some_and(|check| check.is_overdue()) {
            self.send(&path);
        }
        true
    }

    /// How far a document is checked, if it is open.
    fn check(&mut self, path: &str) -> Option<&mut Check> {
        Some(&mut self.documents.get_mut(path)?.check)
    }

    /// A document that is open, analysed as its text is now.
    pub(crate) fn look(&mut self, uri: &Url) -> Option<Snapshot> {
        let path = paths::of(uri);
        if self.check(&path)?.due != Due::No {
            self.analyse(&path);
        }
        let analysis = Arc::clone(self.check(&path)?.analysis.as_ref()?);
        Some(self.shown(analysis))
    }

    /// An analysis as the client sees it.
    pub(super) fn shown(&self, analysis: Arc<Analysis>) -> Snapshot {
        let encoding = self.client.encoding;
        Snapshot { analysis, encoding }
    }

    /// The same, its figures in the units that the user wants to see.
    pub(crate) fn look_in_wanted_units(&mut self, uri: &Url) -> Option<Snapshot> {
        let snapshot = self.look(uri)?;
        let Some(units) = self.settings_of(&snapshot.analysis.path).units else {
            return Some(snapshot);
        };
        let analysis = self.check(&snapshot.analysis.path)?.in_units(units)?;
        Some(self.shown(analysis))
    }

    /// A document that is open, and the byte of a place in it.
    pub(crate) fn look_at(
        &mut self,
        place: &TextDocumentPositionParams,
    ) -> Option<(Snapshot, u32)> {
        let snapshot = self.look(&place.text_document.uri)?;
        let offset = snapshot.own()?.offset(place.position);
        Some((snapshot, offset))
    }

    /// The text of a document that is open, read as it is now, and what was
    /// found of it before.
    pub(crate) fn read_text(&mut self, uri: &Url) -> Option<(TextSnapshot, &mut Check)> {
        let path = paths::of(uri);
        let standard = self.standard(&path);
        let document = self.documents.get_mut(&path)?;
        let text = document.text().clone();
        let snapshot = TextSnapshot {
            file: document.check.read(&path, text, standard),
            encoding: self.client.encoding,
        };
        Some((snapshot, &mut document.check))
    }

    /// The files as they are now: what is open, over the disk.
    pub(super) fn files(&self) -> OpenFirst {
        let open = self.documents.iter();
        let open = open.map(|(path, own)| (path.clone(), own.text().clone()));
        OpenFirst {
            open: open.collect(),
            disk: Arc::clone(&self.disk),
        }
    }

    /// Any spec, open or not, analysed as it is now; or, in words, why it
    /// cannot be read.
    pub(crate) fn read(&mut self, uri: &Url) -> Result<Arc<Analysis>, String> {
        if let Some(snapshot) = self.look(uri) {
            return Ok(snapshot.analysis);
        }
        let path = paths::of(uri);
        let text = text_at(Path::new(&path))?;
        let mut analyser = analyser(self.standard(&path));
        Ok(analyser.analyse(&path, text, &self.files(), &today()))
    }

    /// The version of a document that is open.
    pub(crate) fn version(&self, uri: &Url) -> Option<i32> {
        Some(self.documents.get(&paths::of(uri))?.version)
    }

    /// A document's findings, if it is open.
    pub(crate) fn findings(&mut self, uri: &Url) -> Option<&Numbered> {
        let snapshot = self.look(uri)?;
        let findings = diagnostics::of(&snapshot, self);
        let fresh = self.fresh_number();
        let asked = &mut self.check(&snapshot.analysis.path)?.asked;
        asked.take(findings, fresh);
        Some(asked)
    }

    /// A number that was not given before.
    pub(crate) fn fresh_number(&mut self) -> u64 {
        self.numbered += 1;
        self.numbered
    }

    /// The addresses of all open documents, in the order in which they were
    /// opened.
    pub(crate) fn addresses(&self) -> Vec<Url> {
        let documents = self.documents.values();
        documents.map(|document| document.uri.clone()).collect()
    }

    /// The address of a path, spelled as the client spells it if it has the
    /// document open.
    pub(crate) fn address(&self, path: &str) -> Option<Url> {
        let open = self.documents.get(path);
        open.map_or_else(|| paths::address(path), |own| Some(own.uri.clone()))
    }

    fn analyse(&mut self, path: &str) {
        let standard = self.standard(path);
        let files = self.files();
        let Some(document) = self.documents.get_mut(path) else {
            return;
        };
        // What its own edit changes, the client asks for by itself.
        if document.check.due == Due::Outside {
            self.client_requests.refresh();
        }
        let mut analyser = document.check.begin(standard);
        let text = document.text().clone();
        let analysis = analyser.analyse(path, text, &files, &today());
        // It may be that of an analysis from before it was opened.
        if let Some(own) = analysis.files.first() {
            document.share(&own.tree.text);
        }
        document.check.finish(analyser, analysis);
    }

    /// Sends a document's findings, unless the client asks for them itself.
    fn send(&mut self, path: &str) {
        let Some(document) = self.documents.get_mut(path) else {
            return;
        };
        document.check.sent();
        if self.client.pulls {
            return;
        }
        let analysis = document.check.analysis.clone();
        let (uri, version) = (document.uri.clone(), Some(document.version));
        let findings = analysis.map(|own| diagnostics::of(&self.shown(own), self));
        self.publish(uri, version, findings.unwrap_or_default());
    }

    /// Sends findings of a document, which are of a version if it is open.
    pub(super) fn publish(&self, uri: Url, version: Option<i32>, findings: Vec<Diagnostic>) {
        self.writer
            .publish(PublishDiagnosticsParams::new(uri, findings, version));
    }
}
