//! One name in every spec that sees it: those of the workspace that use the
//! file it stands in, open or not, and what those use in turn.

use std::collections::{BTreeSet, VecDeque};
use std::path::Path;
use std::sync::Arc;

use super::checking::analyser;
use super::desk::Desk;
use super::look::Look;
use crate::analysis::Analyser;
use crate::host::{text_at, today};
use crate::text::Span;

/// A place of a name: the path of its file, and where in it.
pub type Spot = (String, Span);

/// Asks one spec after the other for the places of a name, beginning with the
/// one at a byte of which it stands. `ask` is given a spec, one of its files by
/// its index and a byte of that at which the name stands, and gives the places
/// that the spec sees; it is asked once for every spec that reads a file with
/// such a place. Only one spec is held at a time.
pub fn everywhere<E>(
    desk: &mut Desk,
    first: &Look,
    offset: u32,
    mut ask: impl FnMut(&Desk, &Look, usize, u32) -> Result<Vec<(usize, Span)>, E>,
) -> Result<(), E> {
    let mut seen = BTreeSet::from([first.analysis.path.clone()]);
    let mut followed = BTreeSet::new();
    let mut spots: VecDeque<Spot> = VecDeque::new();
    let mut found = ask(desk, first, 0, offset)?;
    spots.extend(named(first, &found));
    let mut analyser = analyser(desk.standard());
    while let Some((path, span)) = spots.pop_front() {
        if !followed.insert(path.clone()) {
            continue;
        }
        for reader in desk.readers(&path) {
            if !seen.insert(reader.clone()) {
                continue;
            }
            let Some(look) = desk.look_at(&reader, &mut analyser) else {
                continue;
            };
            let mut files = look.analysis.files.iter();
            if let Some(file) = files.position(|file| file.path == path) {
                found = ask(desk, &look, file, span.start)?;
                spots.extend(named(&look, &found));
            }
        }
    }
    Ok(())
}

fn named(look: &Look, places: &[(usize, Span)]) -> Vec<Spot> {
    let files = &look.analysis.files;
    let known = places
        .iter()
        .filter_map(|(file, span)| Some((files.get(*file)?.path.clone(), *span)));
    known.collect()
}

impl Desk {
    /// The specs, open or not, whose last analysis read a path.
    pub(super) fn readers(&self, path: &str) -> Vec<String> {
        let mut readers = self.survey.readers.of(path);
        readers.extend(self.open_readers(path));
        readers.sort();
        readers.dedup();
        readers
    }

    /// A spec, open or not, analysed as it is now.
    pub(super) fn look_at(&mut self, path: &str, analyser: &mut Analyser) -> Option<Look> {
        if let Some(uri) = self
            .documents
            .get(path)
            .map(|document| document.uri.clone())
        {
            return self.look(&uri);
        }
        let text = text_at(Path::new(path)).ok()?;
        let analysis = analyser.analyse(path, text, &self.files(), &today());
        Some(Look {
            analysis: Arc::clone(&analysis),
            encoding: self.client.encoding,
        })
    }
}
