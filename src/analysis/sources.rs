//! The files of an analysis: the spec, and by any road what it uses.

use std::sync::Arc;

use rayon::prelude::*;
use rustc_hash::FxHashMap;

use super::Files;
use super::path;
use super::root::root_of;
use crate::findings::{FileId, Finding, Fix, Place};
use crate::model::{
    FileInput, FileKind, LogicalSection, SectionReading, is_bare, is_lost_entry, joined,
    kind_after, nearest, read_lost_entry, read_section,
};
use crate::syntax::{Placed, SectionId, Tree};
use crate::text::{Lines, Text, is_unshown};
use crate::vocabulary::SectionKind;

/// More files than this are not brought together by `use`.
const MOST_FILES: usize = 1000;

/// So deep may files use one another.
const DEEPEST: usize = 64;

/// So many names of a folder are looked at for one that may be meant.
const MOST_NAMES: usize = 1000;

/// From how many new sections on they are read side by side.
const MANY_SECTIONS: usize = 1024;

/// What is kept of a file between analyses.
#[derive(Debug, Default)]
pub(crate) struct Kept {
    tree: Option<Tree>,
    lines: Option<Arc<Lines>>,
    readings: Vec<KeptReading>,
    sections: Arc<Vec<LogicalSection>>,
    said: Said,
}

/// What a file says of itself as a whole.
#[derive(Debug, Clone, Default)]
struct Said {
    kind: FileKind,
    /// The paths of its `use` lines.
    uses: Arc<[(String, Place)]>,
}

/// What a section says, and by what it was read.
#[derive(Debug, Clone)]
struct KeptReading {
    id: SectionId,
    hash: u64,
    file: FileId,
    /// The kind of the section above it, on which the reading of a line that
    /// has lost its indent depends.
    in_force: Kind,
    /// Whether it is read as an entry of that, though its word could start a
    /// section.
    is_entry: bool,
    /// The kind that is in force after it.
    after: Kind,
    reading: Arc<SectionReading>,
}

type Kind = Option<&'static SectionKind>;

/// A section, the kind in force above it and whether it is an entry of that one
/// that lost its indent, and its reading if it is kept.
type Asked<'t> = (&'t Placed, (Kind, bool), Result<KeptReading, Kind>);

/// A file that was read.
#[derive(Debug, Clone)]
pub struct Loaded {
    /// Its path.
    pub path: String,
    /// Its tree.
    pub tree: Tree,
    /// Its lines.
    pub lines: Arc<Lines>,
    /// Its sections, read.
    pub sections: Arc<Vec<LogicalSection>>,
    /// What kind of file it is.
    kind: FileKind,
}

impl Loaded {
    /// The file as it is worked out, before it is known what it uses.
    pub fn input(&self) -> FileInput {
        FileInput {
            path: self.path.clone(),
            kind: self.kind,
            sections: Arc::clone(&self.sections),
            ..FileInput::default()
        }
    }
}

/// The files of an analysis, the spec first.
#[derive(Debug, Default)]
pub(crate) struct Sources {
    /// The files, as text.
    pub loaded: Vec<Loaded>,
    /// The files, as read sections.
    pub inputs: Vec<FileInput>,
    /// Paths that could not be used, told at the line that asks for them.
    pub findings: Vec<Finding>,
    /// Every path that was read or looked for.
    pub reads: Vec<String>,
}

impl Sources {
    /// Tells of a standard above the file that cannot be read: nothing says so
    /// but the limits that are missing. It is told where the file begins.
    pub(crate) fn tell_of_standard(&mut self, standard: &str, why: &str) {
        self.tell_at_beginning(format!(
            "a {} that applies here cannot be read: {why}",
            path::name(standard)
        ));
    }

    /// Tells of a standard with errors of its own: what those lines were to set
    /// does not hold, and whoever checks a spec alone would never see it.
    pub(crate) fn tell_of_standard_in_error(&mut self, standard: &str, errors: usize) {
        let errors = match errors {
            1 => "an error".to_owned(),
            _ => format!("{errors} errors"),
        };
        self.tell_at_beginning(format!(
            "the {} that applies here has {errors}: what is wrong there does not hold. Mend it first",
            path::name(standard)
        ));
    }

    fn tell_at_beginning(&mut self, message: String) {
        let own = self.inputs.first().and_then(|own| own.sections.first());
        if let Some(first) = own {
            self.findings
                .push(Finding::new("use-missing", first.word(), message));
        }
    }
}

impl Kept {
    /// A file's text as a tree and as read sections.
    pub(crate) fn load(&mut self, path: &str, text: Text, file: FileId) -> Loaded {
        let tree = self.tree(text);
        let lines = self.lines(&tree.text);
        if !self.read_in_place(&tree, file) {
            self.read(&tree, file);
        }
        Loaded {
            path: path.to_owned(),
            tree,
            lines,
            sections: Arc::clone(&self.sections),
            kind: self.said.kind,
        }
    }

    /// How many lines the grammar read when the tree was last made.
    pub(crate) fn lines_parsed(&self) -> usize {
        self.tree.as_ref().map_or(0, |tree| tree.parsed_lines)
    }

    /// The tree of a text, what can be taken from the last one taken.
    fn tree(&mut self, text: Text) -> Tree {
        let tree = match self.tree.take() {
            Some(tree) => {
                let common = tree.text.common_with(&text);
                if common.is_all_of(&tree.text) && common.is_all_of(&text) {
                    self.tree = Some(tree.clone());
                    return tree;
                }
                if let Some(lines) = &mut self.lines {
                    Arc::make_mut(lines).edit(&text, common);
                }
                tree.into_edited(text, common)
            }
            None => {
                self.lines = None;
                Tree::parse(text)
            }
        };
        self.tree = Some(tree.clone());
        tree
    }

    fn lines(&mut self, text: &str) -> Arc<Lines> {
        self.lines
            .get_or_insert_with(|| Arc::new(Lines::new(text)))
            .clone()
    }

    /// Reads the sections again that an edit has changed, where each of them
    /// is still the one that it was; whether that could be done.
    fn read_in_place(&mut self, tree: &Tree, file: FileId) -> bool {
        let is_of_file = |kept: &KeptReading| kept.file == file;
        let touched = tree.sections.get(tree.touched.clone()).unwrap_or_default();
        let from = tree.touched.start.saturating_sub(1);
        let beside = tree.touched.end.saturating_add(1).min(tree.sections.len());
        let beside = tree.sections.get(from..beside).unwrap_or_default();
        if beside.iter().any(|placed| is_bare(tree, placed)) {
            return false;
        }
        // A section that goes on with the one above it is no place of its own.
        let same_places = self.readings.len() == tree.sections.len()
            && self.sections.len() == tree.sections.len()
            && self.readings.first().is_some_and(is_of_file)
            && self.ids_are(tree);
        if !same_places {
            return false;
        }
        let mut says_anew = false;
        for (index, placed) in tree.touched.clone().zip(touched) {
            let Some(kept) = self.readings.get_mut(index) else {
                return false;
            };
            if kept.hash == placed.section.hash {
                continue;
            }
            let text = tree.section_text(placed);
            let reading = Arc::new(read_section(text, placed, file, kept.in_force));
            let after = kind_after(text, placed, kept.in_force);
            let word = |kind: Kind| kind.map(|kind| kind.word);
            if reading.continues || word(after) != word(kept.after) {
                return false;
            }
            says_anew |= says_of_file(&kept.reading) || says_of_file(&reading);
            (kept.hash, kept.after) = (placed.section.hash, after);
            kept.reading = Arc::clone(&reading);
            if let Some(section) = Arc::make_mut(&mut self.sections).get_mut(index) {
                section.first = reading;
            }
        }
        if says_anew {
            self.said = Said::by(&self.sections);
        }
        true
    }

    /// Whether the readings are those of a tree's sections, one for one.
    fn ids_are(&self, tree: &Tree) -> bool {
        let read = self.readings.iter().map(|kept| kept.id);
        read.eq(tree.sections.iter().map(|placed| placed.id))
    }

    /// Reads the sections; those that an edit has not touched are taken over.
    fn read(&mut self, tree: &Tree, file: FileId) {
        let mut known = Known::of(std::mem::take(&mut self.readings));
        let mut in_force: Kind = None;
        // Which kind is in force where is told one after the other; then what
        // is new is read, side by side if it is much.
        let asked: Vec<Asked<'_>> = tree
            .sections
            .iter()
            .enumerate()
            .map(|(index, placed)| {
                let above = (in_force, is_lost_entry(tree, index, in_force));
                let kept = known
                    .take(placed.id)
                    .filter(|kept| kept.holds_for(placed, above, file))
                    .ok_or_else(|| match above {
                        (in_force, true) => in_force,
                        (above, false) => kind_after(tree.section_text(placed), placed, above),
                    });
                in_force = match &kept {
                    Ok(kept) => kept.after,
                    Err(after) => *after,
                };
                (placed, above, kept)
            })
            .collect();
        let fresh = asked.iter().filter(|(.., kept)| kept.is_err()).count();
        let read = |(placed, above, kept): (&Placed, (Kind, bool), Result<KeptReading, Kind>)| {
            let (in_force, is_entry) = above;
            let text = tree.section_text(placed);
            kept.unwrap_or_else(|after| KeptReading {
                id: placed.id,
                hash: placed.section.hash,
                file,
                in_force,
                is_entry,
                after,
                reading: Arc::new(match is_entry {
                    true => read_lost_entry(text, placed, file, in_force),
                    false => read_section(text, placed, file, in_force),
                }),
            })
        };
        self.readings = if fresh < MANY_SECTIONS {
            asked.into_iter().map(read).collect()
        } else {
            asked.into_par_iter().map(read).collect()
        };
        let readings = self.readings.iter().map(|kept| Arc::clone(&kept.reading));
        self.sections = Arc::new(joined(readings));
        self.said = Said::by(&self.sections);
    }
}

/// Whether a section says something of its file as a whole.
fn says_of_file(section: &SectionReading) -> bool {
    let kinds = ["job", "standard", "use"];
    section.kind.is_some_and(|kind| kinds.contains(&kind.word))
}

impl Said {
    fn by(sections: &[LogicalSection]) -> Said {
        let uses = sections.iter().filter(|section| section.is("use"));
        let uses = uses.filter_map(|section| {
            let (path, place) = section.heading()?.filled.text("PATH")?;
            Some((path.to_owned(), place))
        });
        Said {
            kind: FileKind::of(sections),
            uses: uses.collect(),
        }
    }
}

impl KeptReading {
    fn holds_for(&self, placed: &Placed, (in_force, is_entry): (Kind, bool), file: FileId) -> bool {
        let word = |kind: Kind| kind.map(|kind| kind.word);
        self.hash == placed.section.hash
            && word(self.in_force) == word(in_force)
            && self.is_entry == is_entry
            && self.file == file
    }
}

/// The readings that are kept, to be taken in their order, nearly always.
struct Known {
    readings: Vec<Option<KeptReading>>,
    next: usize,
    by_id: Option<FxHashMap<SectionId, usize>>,
}

impl Known {
    fn of(readings: Vec<KeptReading>) -> Known {
        Known {
            readings: readings.into_iter().map(Some).collect(),
            next: 0,
            by_id: None,
        }
    }

    fn take(&mut self, id: SectionId) -> Option<KeptReading> {
        let is_it =
            |kept: &&mut Option<KeptReading>| kept.as_ref().is_some_and(|kept| kept.id == id);
        if let Some(kept) = self.readings.get_mut(self.next).filter(is_it) {
            self.next += 1;
            return kept.take();
        }
        let readings = &self.readings;
        let by_id = self.by_id.get_or_insert_with(|| {
            let places = readings.iter().enumerate();
            places
                .filter_map(|(place, kept)| Some((kept.as_ref()?.id, place)))
                .collect()
        });
        let place = *by_id.get(&id)?;
        self.next = place + 1;
        self.readings.get_mut(place)?.take()
    }
}

/// Reads a file and everything that it uses. `kept` holds what can be taken
/// over from the last time, by path.
pub(crate) fn gather(
    path: &str,
    text: Text,
    files: &dyn Files,
    kept: &mut FxHashMap<String, Kept>,
) -> Sources {
    let mut gathering = Gathering {
        files,
        kept,
        root: None,
        sources: Sources::default(),
        ids: FxHashMap::default(),
        under_way: Vec::new(),
        own_line: None,
    };
    gathering.add(path.to_owned(), text);
    gathering.sources
}

struct Gathering<'a> {
    files: &'a dyn Files,
    kept: &'a mut FxHashMap<String, Kept>,
    root: Option<String>,
    sources: Sources,
    ids: FxHashMap<String, FileId>,
    /// The files that led here, by which a circle is seen.
    under_way: Vec<String>,
    /// The `use` of the file itself that led here.
    own_line: Option<Place>,
}

impl Gathering<'_> {
    fn add(&mut self, path: String, text: Text) -> FileId {
        let file = FileId(u16::try_from(self.sources.loaded.len()).unwrap_or(u16::MAX));
        self.ids.insert(path.clone(), file);
        let kept = self.kept.entry(path.clone()).or_default();
        let loaded = kept.load(&path, text, file);
        let wanted = Arc::clone(&kept.said.uses);
        self.sources.inputs.push(FileInput {
            asked_at: self.own_line,
            ..loaded.input()
        });
        self.sources.loaded.push(loaded);
        self.under_way.push(path.clone());
        let mut uses = Vec::new();
        for (relative, place) in wanted.iter() {
            if file == FileId(0) {
                self.own_line = Some(*place);
            }
            uses.extend(self.used(&path, relative, *place));
        }
        self.under_way.pop();
        if let Some(input) = self.sources.inputs.get_mut(file.0 as usize) {
            input.lacks_some = uses.len() < wanted.len();
            input.uses = uses;
        }
        file
    }

    fn root(&mut self) -> String {
        let files = self.files;
        let spec = self
            .sources
            .loaded
            .first()
            .map_or_else(String::new, |own| own.path.clone());
        self.root
            .get_or_insert_with(|| root_of(&spec, files))
            .clone()
    }

    /// The file that a `use` asks for.
    fn used(&mut self, from: &str, relative: &str, place: Place) -> Option<FileId> {
        let outside = |message: String| Finding::new("use-outside", place, message);
        if path::is_absolute(relative) {
            self.tell(outside(format!(
                "\"{relative}\" is not relative: write the path as seen from this file's folder"
            )));
            return None;
        }
        if relative.contains('\\') {
            let forward = relative.replace('\\', "/");
            self.tell(
                Finding::new("use-missing", place, "folders are separated by `/`").fix(Fix::safe(
                    format!("Write `{forward}`"),
                    place,
                    format!("\"{forward}\""),
                )),
            );
            return None;
        }
        let root = self.root();
        let full =
            path::joined(path::folder(from), relative).filter(|full| path::is_inside(full, &root));
        let Some(full) = full else {
            let message = format!("\"{relative}\" leads out of the folder that holds these specs");
            self.tell(outside(message).help(
                "Put a standard.patio with a line standard \"…\" into the folder that holds both: what lies below it may be used",
            ));
            return None;
        };
        if self.under_way.contains(&full) {
            self.tell(Finding::new(
                "circular",
                place,
                format!("\"{relative}\" uses this file in turn; one of the two must go without"),
            ));
            return None;
        }
        if let Some(known) = self.ids.get(&full) {
            return Some(*known);
        }
        self.sources.reads.push(full.clone());
        if self.sources.loaded.len() >= MOST_FILES {
            self.tell_at_own_line(format!("more than {MOST_FILES} files are used here"));
            return None;
        }
        if self.under_way.len() > DEEPEST {
            self.tell_at_own_line(format!(
                "files use one another more than {DEEPEST} deep here: use the last ones directly"
            ));
            return None;
        }
        if let Some(actual) = self.other_case(&full) {
            let written = path::beside(relative, &actual);
            self.tell(
                Finding::new(
                    "use-missing",
                    place,
                    format!("the letter case differs from the file's name, \"{written}\""),
                )
                .fix(Fix::safe(
                    format!("Write \"{written}\""),
                    place,
                    format!("\"{written}\""),
                )),
            );
            return None;
        }
        if self.files.leads_out(&full, &root) {
            self.tell(outside(format!(
                "\"{relative}\" is a link that leads out of the folder that holds these specs"
            )));
            return None;
        }
        match self.files.read(&full) {
            Ok(text) => Some(self.add(full, text)),
            Err(why) if self.files.exists(&full) => {
                let message = format!("\"{relative}\" cannot be read: {why}");
                self.tell(Finding::new("use-missing", place, message));
                None
            }
            Err(_) => {
                let finding = Finding::new(
                    "use-missing",
                    place,
                    format!("there is no file \"{relative}\" that can be read"),
                );
                let near = self.near_name(from, &full);
                self.tell(match near.map(|near| path::beside(relative, &near)) {
                    Some(meant) => {
                        finding
                            .help(format!("Did you mean \"{meant}\"?"))
                            .fix(Fix::judged(
                                format!("Write \"{meant}\""),
                                place,
                                format!("\"{meant}\""),
                            ))
                    }
                    None => finding,
                });
                None
            }
        }
    }

    /// The file in the same folder that may be meant, if one is near enough
    /// and is not the one that asks.
    fn near_name(&self, from: &str, full: &str) -> Option<String> {
        let folder = path::folder(full);
        let names = self.files.list(folder);
        let may_be_meant = |name: &&str| {
            name.ends_with(".patio")
                && !name.contains('"')
                && !name.contains(is_unshown)
                && format!("{folder}/{name}") != from
        };
        let names = names.iter().take(MOST_NAMES);
        let names = names.map(String::as_str).filter(may_be_meant);
        nearest(path::name(full), names).map(str::to_owned)
    }

    /// The name that the file really has, if only its letter case differs.
    fn other_case(&self, full: &str) -> Option<String> {
        let wanted = path::name(full);
        let names = self.files.list(path::folder(full));
        let is_there = names.binary_search_by(|name| name.as_str().cmp(wanted));
        if is_there.is_ok() {
            return None;
        }
        let lower = wanted.to_lowercase();
        let mut others = names.iter().take(MOST_NAMES);
        others.find(|name| name.to_lowercase() == lower).cloned()
    }

    /// Tells of too much being used, once at the line of the file itself that
    /// led there: what is told in a library is told to nobody here.
    fn tell_at_own_line(&mut self, message: String) {
        let Some(place) = self.own_line else { return };
        let finding = Finding::new("use-outside", place, message);
        if !self.sources.findings.contains(&finding) {
            self.tell(finding);
        }
    }

    fn tell(&mut self, finding: Finding) {
        self.sources.findings.push(finding);
    }
}
