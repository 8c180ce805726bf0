//! What grows with a text grows no faster than it: work that is done is
//! counted, and no clock is looked at.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::sync::{Arc, Mutex};

use drylay::analysis::{Analyser, Analysis, Files};
use drylay::findings::FileId;
use drylay::model::read_section;
use drylay::syntax::Tree;
use drylay::text::Text;
use drylay::vocabulary::SECTIONS;

use crate::checked::checked;
use crate::folder::{Folder, TODAY};

/// Files that count what is asked of them.
struct Counted {
    folder: Folder,
    asked: Mutex<BTreeMap<(&'static str, String), usize>>,
}

impl Counted {
    fn of(folder: Folder) -> Counted {
        Counted {
            folder,
            asked: Mutex::default(),
        }
    }

    fn count(&self, what: &'static str, path: &str) {
        let mut asked = self.asked.lock().expect("nobody fails meanwhile");
        *asked.entry((what, path.to_owned())).or_default() += 1;
    }

    fn analysis(&self, path: &str) -> Arc<Analysis> {
        let text = self.folder.text(path);
        Analyser::new().analyse(path, text, self, TODAY)
    }
}

impl Files for Counted {
    fn read(&self, path: &str) -> Result<Text, String> {
        self.count("read", path);
        self.folder.read(path)
    }

    fn exists(&self, path: &str) -> bool {
        self.count("exists", path);
        self.folder.exists(path)
    }

    fn list(&self, folder: &str) -> Arc<[String]> {
        self.count("list", folder);
        self.folder.list(folder)
    }
}

/// A spec that uses so many libraries, or the first of a chain of them.
fn libraries(count: usize, is_chain: bool) -> Folder {
    let mut files = BTreeMap::new();
    let mut spec = "job \"Grown\"\n  units metric\n  region uk\n\n".to_owned();
    for at in 0..count {
        if !is_chain || at == 0 {
            let _ = writeln!(spec, "use \"library-{at}.patio\"\n");
        }
        let next = match is_chain && at + 1 < count {
            true => format!("use \"library-{}.patio\"\n\n", at + 1),
            false => String::new(),
        };
        let library = format!("{next}material grit-{at}\n  density 1.6 t/m3\n");
        files.insert(format!("/jobs/library-{at}.patio"), library);
    }
    files.insert("/jobs/spec.patio".to_owned(), spec);
    let files = files.iter();
    Folder::with(files.map(|(path, text)| (path.as_str(), text.as_str())))
}

#[test]
fn libraries_are_read_once_each_however_they_are_used() {
    for is_chain in [false, true] {
        for count in [25, 50, 100] {
            let files = Counted::of(libraries(count, is_chain));
            files.analysis("/jobs/spec.patio");
            let asked = files.asked.lock().expect("nobody fails meanwhile");
            let reads = asked.iter().filter(|((what, _), _)| *what == "read");
            assert!(reads.clone().all(|(_, times)| *times == 1), "{asked:?}");
            // A chain is followed so far and no farther.
            assert!(reads.count() <= count + 8, "{asked:?}");
            let all: usize = asked.values().sum();
            assert!(
                all <= 2 * count + 8,
                "{all} questions for {count} libraries"
            );
        }
    }
}

/// Each line of the language with each of its words again and again: nothing
/// nests with it, and no phrase is told of more than once.
#[test]
fn a_line_that_repeats_itself_is_soon_told_of() {
    const TIMES: usize = 400;
    let mut read = 0;
    for kind in SECTIONS {
        for key in kind.keys {
            let words: BTreeSet<&str> = key.example.split(' ').skip(1).collect();
            for again in words.into_iter().chain([key.example]) {
                let line = format!("  {}{}\n", key.example, format!(" {again}").repeat(TIMES));
                let text = format!(
                    "{}\n{line}",
                    kind.example.lines().next().unwrap_or(kind.word)
                );
                let tree = Tree::parse(Text::from(text.as_str()));
                let placed = tree.sections.first().expect("a section");
                let phrases = TIMES * again.matches(',').count();
                let found = read_section(&text, placed, FileId(0), None).findings;
                assert!(
                    found.len() < phrases + 60,
                    "{} findings: {}",
                    found.len(),
                    &line[..60]
                );
                read += 1;
            }
        }
    }
    assert!(read > 400, "{read} lines");
}

/// A shape that is added to the one before it, again and again: each holds
/// its own edges and names and those that it took, each once.
#[test]
fn a_chain_of_added_shapes_grows_by_what_is_added() {
    let held = |count: usize| -> usize {
        let mut text = "job \"Chain\"\n  units metric\n  region uk\n".to_owned();
        for at in 0..count {
            let _ = write!(
                text,
                "\nshape bay-{at}\n  start ({at} m, 0)\n  east 1 m, named front-{at}\n  \
                 north {} m\n  west 1 m\n  close\n",
                1 + at % 2
            );
            if at > 0 {
                let _ = writeln!(text, "  add bay-{}", at - 1);
            }
        }
        let folder = Folder::with([("/jobs/chain.patio", text.as_str())]);
        let path = "/jobs/chain.patio";
        let analysis = Analyser::new().analyse(path, folder.text(path), &folder, TODAY);
        let shape = analysis.job.shapes.values().last().expect("a shape");
        let outline = shape.outline.as_ref().expect("an outline");
        let area = (0..count).map(|at| 1.0 + (at % 2) as f64).sum::<f64>();
        assert!((outline.area() - area).abs() < 1e-6, "{count} bays");
        let names = shape.labels.iter().map(|label| label.names().count());
        outline.edges().count() + names.sum::<usize>() + shape.lost.len()
    };
    let (few, many) = (held(30), held(120));
    assert!(many <= 4 * few + 8, "{few} of 30 and {many} of 120");
}

/// A shape that is added again and again to the one that it lies in is called
/// by its name once, and not as often as it was added.
#[test]
fn what_is_added_again_and_again_is_named_once() {
    let text = |times: usize| {
        format!(
            "shape bit\n  rectangle 1 m by 1 m\n\nshape big\n  rectangle 2 m by 1 m\n{}\nsurface court\n  shape big\n",
            "  add bit\n".repeat(times)
        )
    };
    let called = |times: usize| -> usize {
        let checked = checked(&text(times));
        let big = checked.analysis().job.shapes.get("big").expect("a shape");
        big.labels.iter().map(|label| label.names().count()).sum()
    };
    let grown = called(40) - called(20);
    assert_eq!(grown, 20 * 4, "four edges each, by one name each");
}
