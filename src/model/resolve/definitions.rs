//! The files of an analysis as the resolver sees them, and which section
//! defines which name.

use std::sync::Arc;

use rustc_hash::{FxHashMap, FxHashSet};

use super::super::job::{FileKind, Stated};
use super::super::reading::{Entry, SectionReading};
use crate::findings::{FileId, Finding, Fix, Place, SectionRef, Severity};
use crate::vocabulary::{NameSpace, SectionKind};

/// A file with its sections read.
#[derive(Debug, Clone, Default)]
pub struct FileInput {
    /// Its path, as findings name it.
    pub path: String,
    /// What kind of file it is.
    pub kind: FileKind,
    /// Its sections, those that had lost their indent joined to the one
    /// above.
    pub sections: Arc<Vec<LogicalSection>>,
    /// The files that it uses, directly.
    pub uses: Vec<FileId>,
    /// Whether it uses others that could not be read, and with them names
    /// that are not known here.
    pub lacks_some: bool,
    /// The `use` of the spec itself that led to it; none of the spec.
    pub asked_at: Option<Place>,
}

/// A section, with the sections that go on with it.
#[derive(Debug, Clone)]
pub struct LogicalSection {
    /// The part that has the heading.
    pub first: Arc<SectionReading>,
    /// The parts that go on with it.
    pub more: Vec<Arc<SectionReading>>,
}

impl FileKind {
    /// The kind of a file by its sections.
    pub fn of(sections: &[LogicalSection]) -> FileKind {
        let has = |kind: &str| sections.iter().any(|section| section.is(kind));
        if has("standard") {
            FileKind::Standard
        } else if has("job") {
            FileKind::Spec
        } else {
            FileKind::Library
        }
    }
}

/// Whether a finding of a part that goes on with the section above tells of the
/// indent that its first line has lost.
fn is_of_indent(part: &SectionReading, finding: &Finding) -> bool {
    finding.rule == "entry-misplaced" && finding.place == part.word
}

/// Joins sections that had lost their indent to the one above.
pub fn joined(readings: impl ExactSizeIterator<Item = Arc<SectionReading>>) -> Vec<LogicalSection> {
    let mut sections: Vec<LogicalSection> = Vec::with_capacity(readings.len());
    for reading in readings {
        match sections.last_mut() {
            Some(section) if reading.continues => section.more.push(reading),
            _ => sections.push(LogicalSection {
                first: reading,
                more: Vec::new(),
            }),
        }
    }
    sections
}

impl LogicalSection {
    /// Its parts; the first has the heading.
    pub fn parts(&self) -> impl Iterator<Item = &Arc<SectionReading>> {
        std::iter::once(&self.first).chain(&self.more)
    }

    /// Whether it is what another was, text and all.
    pub fn is_same(&self, other: &LogicalSection) -> bool {
        Arc::ptr_eq(&self.first, &other.first)
            && self.more.len() == other.more.len()
            && self
                .more
                .iter()
                .zip(&other.more)
                .all(|(own, other)| Arc::ptr_eq(own, other))
    }

    /// Its kind.
    pub fn kind(&self) -> Option<&'static SectionKind> {
        self.first.kind
    }

    /// Whether its kind is this one.
    pub fn is(&self, kind: &str) -> bool {
        self.kind().is_some_and(|own| own.word == kind)
    }

    /// Where it is.
    pub fn at(&self) -> SectionRef {
        self.first.at
    }

    /// The word of its heading.
    pub fn word(&self) -> Place {
        self.first.word
    }

    /// Its heading.
    pub fn heading(&self) -> Option<&Entry> {
        self.first.heading.as_ref()
    }

    /// The whole of its heading's line.
    pub fn place(&self) -> Place {
        self.heading().map_or(self.word(), |heading| heading.place)
    }

    /// The name that it defines.
    pub fn name(&self) -> Option<Stated<&str>> {
        let (name, place) = self.heading()?.filled.name("NAME")?;
        Some(Stated::new(name, place))
    }

    /// Its entries, in order.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.parts().flat_map(|part| &part.entries)
    }

    /// Whether a line of it could not be made out at all, so that what seems to
    /// be missing may be there.
    pub fn has_lost_line(&self) -> bool {
        self.parts().any(|part| part.has_lost_line)
    }

    /// Whether anything in it could not be read as it stands.
    pub fn is_any_unread(&self) -> bool {
        let heading = self.heading().into_iter();
        self.has_lost_heading()
            || self.has_lost_line()
            || heading.chain(self.entries()).any(|entry| !entry.is_sound)
    }

    /// The first entry with this key.
    pub fn entry(&self, key: &str) -> Option<&Entry> {
        self.entries()
            .find(|entry| entry.key.is_some_and(|own| own.word == key))
    }

    /// The entries with this key.
    pub fn all<'a>(&'a self, key: &'a str) -> impl Iterator<Item = &'a Entry> {
        self.entries()
            .filter(move |entry| entry.key.is_some_and(|own| own.word == key))
    }

    /// Whether its heading could not be made out.
    pub fn has_lost_heading(&self) -> bool {
        self.first.has_lost_heading
    }

    /// Where `ton` or `gal` is written in it.
    pub fn unclear_units(&self) -> impl Iterator<Item = Stated<String>> {
        self.parts().flat_map(|part| {
            part.unclear_units
                .iter()
                .map(|(unit, place)| Stated::new(unit.clone(), *place))
        })
    }

    /// What its reading found, but for lost indents that are told together.
    pub fn about_lines(&self) -> impl Iterator<Item = &Finding> {
        let is_told_together = |part: &SectionReading, finding: &Finding| {
            self.more.len() > 1 && part.continues && is_of_indent(part, finding)
        };
        self.parts().flat_map(move |part| {
            let own = part.findings.iter();
            own.filter(move |finding| !is_told_together(part, finding))
        })
    }

    /// Lines one after the other that have lost their indent are one mistake,
    /// and one fix.
    fn lost_indents(&self) -> Option<Finding> {
        let of_part = |part: &Arc<SectionReading>| {
            let mut own = part.findings.iter();
            own.find(|finding| is_of_indent(part, finding)).cloned()
        };
        let each: Vec<Finding> = self.more.iter().filter_map(of_part).collect();
        let first = each.first().filter(|_| self.more.len() > 1)?;
        let message = format!(
            "{} lines have lost their indent; they are read as entries of the {} above",
            each.len(),
            self.kind()?.noun()
        );
        let fixes = each.iter().flat_map(|finding| &finding.fixes);
        let together = Fix {
            title: "Indent them".into(),
            safe: true,
            changes: fixes.flat_map(|fix| fix.changes.iter().cloned()).collect(),
        };
        let finding = Finding::new(first.rule, first.place, message);
        Some(finding.severity(Severity::Warning).fix(together))
    }

    /// What its entries give to say as a whole: those that stand twice, and
    /// required ones that are missing.
    pub fn about_entries(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        let Some(kind) = self.kind() else {
            return findings;
        };
        findings.extend(self.lost_indents());
        let mut seen: Vec<(&str, Place, bool)> = Vec::with_capacity(kind.keys.len());
        for entry in self.entries() {
            let Some(key) = entry.key else { continue };
            if key.repeats {
                continue;
            }
            match seen.iter_mut().find(|(word, ..)| *word == key.word) {
                // One that cannot be read may be another entry: this one may be
                // the only one, and is not to go for it.
                Some((_, first, is_sound)) if !*is_sound => {
                    (*first, *is_sound) = (entry.place, entry.is_sound);
                }
                Some((_, first, _)) => findings.push(
                    Finding::new(
                        "entry-twice",
                        entry.place,
                        format!(
                            "`{}` is given twice in this section; the first counts",
                            key.word
                        ),
                    )
                    .related(*first, "first given here")
                    .fix(Fix::judged("Take this line out", entry.line, "")),
                ),
                None => seen.push((key.word, entry.place, entry.is_sound)),
            }
        }
        for key in kind.keys.iter().filter(|key| key.required) {
            let is_told = || self.about_lines().any(|finding| may_be(finding, key.word));
            let is_said = seen.iter().any(|(word, ..)| *word == key.word);
            if !is_said && !is_told() && !self.has_lost_line() {
                findings.push(
                    Finding::new(
                        "entry-missing",
                        self.place(),
                        format!("this {} has no `{}`", kind.noun(), key.word),
                    )
                    .help(format!("It is written `{}`.", key.example)),
                );
            }
        }
        findings
    }

    /// Whether an entry in it, or its heading, accepts something.
    pub fn accepts(&self) -> bool {
        self.is("accept") || self.entry("accept").is_some()
    }

    /// Whether what others see of it unasked is what they see of another: what
    /// it defines and where, what it changes by `like`, and of which shape it
    /// lays several.
    pub fn is_known_as(&self, other: &LogicalSection) -> bool {
        let like = |section: &LogicalSection| {
            let (name, _) = section.entry("like")?.filled.name("NAME")?;
            Some(name.to_owned())
        };
        self.at() == other.at()
            && self.word() == other.word()
            && self.kind().map(|kind| kind.word) == other.kind().map(|kind| kind.word)
            && self.name() == other.name()
            && self.first.unknown_name == other.first.unknown_name
            && like(self) == like(other)
            && self.repeats() == other.repeats()
    }
}

/// A section that defines a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct Definition {
    /// The file.
    pub file: FileId,
    /// Its index among the file's sections.
    pub section: usize,
}

/// Which sections define which names.
#[derive(Debug, Default)]
pub(crate) struct Definitions {
    spaces: FxHashMap<NameSpace, FxHashMap<String, Vec<Definition>>>,
    /// The names of each space, sorted.
    names: FxHashMap<NameSpace, Vec<String>>,
    /// Names that sections of unknown kind would have defined: not to be
    /// reported missing.
    pub excused: FxHashSet<String>,
}

impl Definitions {
    /// Collects the definitions of all files.
    pub(crate) fn of(files: &[FileInput]) -> Definitions {
        let mut definitions = Definitions::default();
        for (file, input) in (0..).map(FileId).zip(files) {
            for (index, section) in input.sections.iter().enumerate() {
                definitions
                    .excused
                    .extend(section.first.unknown_name.clone());
                let space = section.kind().and_then(|kind| kind.defines);
                if let (Some(space), Some(name)) = (space, section.name()) {
                    definitions
                        .spaces
                        .entry(space)
                        .or_default()
                        .entry(name.value.to_owned())
                        // Most names stand once.
                        .or_insert_with(|| Vec::with_capacity(1))
                        .push(Definition {
                            file,
                            section: index,
                        });
                }
            }
        }
        for (space, own) in &definitions.spaces {
            let mut names: Vec<String> = own.keys().cloned().collect();
            names.sort_unstable();
            definitions.names.insert(*space, names);
        }
        definitions
    }

    /// The sections that define a name, in order of files.
    pub(crate) fn all(&self, space: NameSpace, name: &str) -> &[Definition] {
        self.spaces
            .get(&space)
            .and_then(|names| names.get(name))
            .map_or(&[], |found| found.as_slice())
    }

    /// Every name of a space, sorted.
    pub(crate) fn names(&self, space: NameSpace) -> &[String] {
        self.names.get(&space).map_or(&[], Vec::as_slice)
    }
}

/// The finding for a name that stands twice.
pub(crate) fn twice(name: &str, noun: &str, place: Place, first: Place) -> Finding {
    Finding::new(
        "name-twice",
        place,
        format!("`{name}` already names {noun}; one of them needs another name"),
    )
    .severity(Severity::Error)
    .related(first, "the first one is here")
}

/// Whether a finding tells of a line that may be an entry of this key: one that
/// could not be read, or whose first word was meant to be it.
fn may_be(finding: &Finding, key: &str) -> bool {
    let writes_key = |fix: &Fix| fix.changes.iter().any(|change| &*change.text == key);
    match finding.rule {
        "line-unread" => true,
        "word-unknown" => finding.fixes.iter().any(writes_key),
        _ => false,
    }
}
