//! One name in every spec that sees it: those of the workspace that use the
//! file it stands in, open or not, and what those use in turn.

use std::collections::{BTreeSet, VecDeque};
use std::path::Path;

use super::checking::Analysers;
use super::session::Session;
use super::snapshot::Snapshot;
use crate::analysis::Files;
use crate::host::{text_at, today};
use crate::text::Span;

/// A place of a name: the path of its file, and where in it.
pub(crate) type Spot = (String, Span);

/// What a name is asked for.
pub(crate) struct Question<'a> {
    /// Words that matter besides the name.
    pub others: &'a [&'a str],
    /// How far a spec that is not open must be known.
    pub known: Known,
    /// Whether nobody waits for the answer any more.
    pub is_over: &'a dyn Fn() -> bool,
}

/// How far a spec is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Known {
    /// Its words only; its job is empty.
    Words,
    /// All of it.
    Whole,
}

/// Asks one spec after the other for the places of a name, beginning with the
/// one at a byte of which it stands. `ask` is given a spec, one of its files by
/// its index and a byte of that at which the name stands, and gives the places
/// that the spec sees; it is asked once for every spec that reads a file with
/// such a place and in which, or in what it uses, the name or another word
/// that matters is written. Only one spec is held at a time. A question that
/// nobody waits for any more ends between two specs.
pub(crate) fn everywhere<E>(
    session: &mut Session,
    first: &Snapshot,
    offset: u32,
    question: &Question<'_>,
    mut ask: impl FnMut(&Session, &Snapshot, usize, u32) -> Result<Vec<(usize, Span)>, E>,
) -> Result<(), E> {
    let mut seen = BTreeSet::from([first.analysis.path.clone()]);
    let mut followed = BTreeSet::new();
    let found = ask(session, first, 0, offset)?;
    let mut spots = VecDeque::from(named(first, &found));
    let words = Words::new(first, &found, question.others);
    let mut analysers = Analysers::default();
    while let Some((path, span)) = spots.pop_front() {
        if !followed.insert(path.clone()) {
            continue;
        }
        for reader in session.readers(&path) {
            if (question.is_over)() {
                return Ok(());
            }
            if !seen.insert(reader.clone()) || !session.mentions(&reader, &followed, &words) {
                continue;
            }
            let Some(snapshot) = session.look_at_spec(&reader, &mut analysers, question.known)
            else {
                continue;
            };
            let mut files = snapshot.analysis.files.iter();
            if let Some(file) = files.position(|file| file.path == path) {
                let found = ask(session, &snapshot, file, span.start)?;
                spots.extend(named(&snapshot, &found));
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
    fn new(snapshot: &Snapshot, found: &[(usize, Span)], others: &[&str]) -> Words {
        let name = found.first().and_then(|(file, span)| {
            let file = snapshot.analysis.files.get(*file)?;
            Some(span.slice(&file.tree.text))
        });
        let others = others.iter().map(|word| word.trim());
        let words = name.into_iter().chain(others);
        let mut words: Vec<String> = words.map(str::to_ascii_lowercase).collect();
        if !words.iter().all(|word| word.is_ascii()) {
            words.clear();
        }
        Words(words)
    }

    fn stand_in(&self, text: &str) -> bool {
        let text = text.to_ascii_lowercase();
        self.0.is_empty() || self.0.iter().any(|word| text.contains(word))
    }
}

fn named(snapshot: &Snapshot, places: &[(usize, Span)]) -> Vec<Spot> {
    let files = &snapshot.analysis.files;
    let spot = |(file, span): &(usize, Span)| Some((files.get(*file)?.path.clone(), *span));
    places.iter().filter_map(spot).collect()
}

impl Session {
    /// The specs, open or not, whose last analysis read a path.
    pub(super) fn readers(&self, path: &str) -> Vec<String> {
        let mut readers = self.index.readers.of(path);
        let open = self.documents.iter();
        let open = open.filter(|(_, document)| document.check.has_read(path));
        readers.extend(open.map(|(own, _)| own.clone()));
        readers.sort();
        readers.dedup();
        readers
    }

    /// Whether one of some words stands in a spec, or in a file that it reads
    /// but for some.
    fn mentions(&self, spec: &str, but: &BTreeSet<String>, words: &Words) -> bool {
        let mut paths = self.index.readers.reads_of(spec);
        let open = self.documents.get(spec);
        let analysis = open.and_then(|document| document.check.analysis.as_ref());
        paths.extend(analysis.iter().flat_map(|analysis| analysis.reads.clone()));
        paths.push(spec.to_owned());
        let files = self.files();
        let mut others = paths.iter().filter(|path| !but.contains(*path));
        others.any(|path| {
            let text = match path == spec && open.is_none() {
                // Its own text is read past the memory of the disk, which would
                // grow with every spec.
                true => text_at(Path::new(path)),
                false => files.read(path),
            };
            text.is_ok_and(|text| words.stand_in(&text))
        })
    }

    /// A spec as it is now, open or not; one that is not, as far as it must be
    /// known.
    pub(super) fn look_at_spec(
        &mut self,
        path: &str,
        analysers: &mut Analysers,
        known: Known,
    ) -> Option<Snapshot> {
        if let Some(document) = self.documents.get(path) {
            return self.look(&document.uri.clone());
        }
        let text = text_at(Path::new(path)).ok()?;
        let analyser = analysers.under(self.standard(path));
        let analysis = match known {
            Known::Words => analyser.read(path, text, &self.files()),
            Known::Whole => analyser.analyse(path, text, &self.files(), &today()),
        };
        Some(self.shown(analysis))
    }
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;
    use std::convert::Infallible;

    use tower_lsp::lsp_types::{DidOpenTextDocumentParams, TextDocumentItem, Url};

    use super::super::fixture;
    use super::*;
    use crate::ide;

    /// A session in which a library is open and some specs that use it; all looked
    /// at. And where the library is.
    fn session(specs: usize) -> (Session, Url) {
        let (_runtime, mut session) = fixture::session();
        let address = |name: &str| Url::parse(&format!("file:///none/{name}.patio")).unwrap();
        let spec = "use \"library.patio\"\n\nlet wide = 2 * gap\n".to_owned();
        let specs = (0..specs).map(|number| (address(&number.to_string()), spec.clone()));
        let library = (address("library"), "let gap = 1 in\n".to_owned());
        for (uri, text) in std::iter::once(library).chain(specs) {
            let text_document = TextDocumentItem::new(uri.clone(), "patio".to_owned(), 1, text);
            session.open(DidOpenTextDocumentParams { text_document });
            session.look(&uri);
        }
        (session, address("library"))
    }

    #[test]
    fn a_question_that_nobody_waits_for_ends_between_two_specs() {
        for (patience, asked) in [(usize::MAX, 6), (3, 4), (0, 1)] {
            let (mut session, library) = session(5);
            let snapshot = session.look(&library).unwrap();
            let count = Cell::new(0);
            let left = Cell::new(patience);
            let question = Question {
                others: &[],
                known: Known::Words,
                is_over: &|| left.replace(left.get().saturating_sub(1)) == 0,
            };
            let done = everywhere(
                &mut session,
                &snapshot,
                4,
                &question,
                |_, snapshot, file, at| {
                    count.set(count.get() + 1);
                    let places = ide::places_of(&snapshot.analysis, file, at).into_iter();
                    Ok::<_, Infallible>(places.map(|place| (place.file, place.span)).collect())
                },
            );
            assert_eq!((done, count.get()), (Ok(()), asked), "{patience}");
        }
    }
}
