//! One name in every spec that sees it: those of the workspace that use the
//! file it stands in, open or not, and what those use in turn.

use std::collections::{BTreeSet, VecDeque};
use std::path::Path;
use std::sync::Arc;

use super::checking::Analysers;
use super::desk::Desk;
use super::look::Look;
use crate::analysis::Files;
use crate::host::{text_at, today};
use crate::text::Span;

/// A place of a name: the path of its file, and where in it.
pub type Spot = (String, Span);

/// Asks one spec after the other for the places of a name, beginning with the
/// one at a byte of which it stands. `ask` is given a spec, one of its files by
/// its index and a byte of that at which the name stands, and gives the places
/// that the spec sees; it is asked once for every spec that reads a file with
/// such a place and in which, or in what it uses, the name or one of `others`
/// is written. Only one spec is held at a time.
pub fn everywhere<E>(
    desk: &mut Desk,
    first: &Look,
    offset: u32,
    others: &[&str],
    mut ask: impl FnMut(&Desk, &Look, usize, u32) -> Result<Vec<(usize, Span)>, E>,
) -> Result<(), E> {
    let mut seen = BTreeSet::from([first.analysis.path.clone()]);
    let mut followed = BTreeSet::new();
    let mut spots: VecDeque<Spot> = VecDeque::new();
    let mut found = ask(desk, first, 0, offset)?;
    spots.extend(named(first, &found));
    let words = Words::new(first, &found, others);
    let mut analysers = Analysers::default();
    while let Some((path, span)) = spots.pop_front() {
        if !followed.insert(path.clone()) {
            continue;
        }
        for reader in desk.readers(&path) {
            if !seen.insert(reader.clone()) || !desk.mentions(&reader, &followed, &words) {
                continue;
            }
            let Some(look) = desk.look_at(&reader, &mut analysers) else {
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

/// Words to be looked for in texts, in whatever letter case.
struct Words(Vec<String>);

impl Words {
    /// What stands at the first of some places, and other words; none if it is
    /// not certain that they can be found by their letters.
    fn new(look: &Look, found: &[(usize, Span)], others: &[&str]) -> Words {
        let name = found.first().and_then(|(file, span)| {
            let file = look.analysis.files.get(*file)?;
            Some(span.slice(&file.tree.text))
        });
        let words = name
            .into_iter()
            .chain(others.iter().map(|word| word.trim()));
        let words: Vec<String> = words.map(str::to_ascii_lowercase).collect();
        match words.iter().all(|word| word.is_ascii()) {
            true => Words(words),
            false => Words(Vec::new()),
        }
    }

    fn stand_in(&self, text: &str) -> bool {
        let text = text.to_ascii_lowercase();
        self.0.is_empty() || self.0.iter().any(|word| text.contains(word))
    }
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

    /// Whether one of some words stands in a spec, or in a file that it reads
    /// but for some.
    fn mentions(&self, spec: &str, but: &BTreeSet<String>, words: &Words) -> bool {
        let mut paths = self.survey.readers.reads_of(spec);
        let check = self
            .checks
            .get(spec)
            .and_then(|check| check.analysis.as_ref());
        paths.extend(check.iter().flat_map(|analysis| analysis.reads.clone()));
        paths.push(spec.to_owned());
        let files = self.files();
        let mut others = paths.iter().filter(|path| !but.contains(*path));
        others.any(
            |path| match path == spec && !self.documents.contains_key(spec) {
                // Its own text is read past the memory of the disk, which would
                // grow with every spec.
                true => text_at(Path::new(path)).is_ok_and(|text| words.stand_in(&text)),
                false => files.read(path).is_some_and(|text| words.stand_in(&text)),
            },
        )
    }

    /// A spec, open or not, analysed as it is now.
    pub(super) fn look_at(&mut self, path: &str, analysers: &mut Analysers) -> Option<Look> {
        if let Some(uri) = self
            .documents
            .get(path)
            .map(|document| document.uri.clone())
        {
            return self.look(&uri);
        }
        let text = text_at(Path::new(path)).ok()?;
        let analyser = analysers.under(self.standard(path));
        let analysis = analyser.analyse(path, text, &self.files(), &today());
        Some(Look {
            analysis: Arc::clone(&analysis),
            encoding: self.client.encoding,
        })
    }
}
