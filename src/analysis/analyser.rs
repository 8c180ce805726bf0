//! One analysis: a spec's text in, its job, figures and findings out.

use std::collections::BTreeSet;
use std::sync::Arc;

use rustc_hash::FxHashMap;

use super::Files;
use super::elsewhere::{faulty_files, name_other_files};
use super::extends::check_extends;
use super::own_units::own_units_first;
use super::sources::{Kept, Loaded, Sources, gather};
use super::standards::standards_for;
use crate::findings::{FileId, Finding, FindingList, Place};
use crate::model::{self, FileKind, Job, LogicalSection, Standard, read_standard};
use crate::quantities::{self, Figures};
use crate::rules::{self, Context, Limits, Stopwatch, timed, untimed};
use crate::syntax::Tree;
use crate::text::{Lines, Span, Text};

/// A file that an analysis read.
#[derive(Debug, Clone)]
pub struct File {
    /// Its path.
    pub path: String,
    /// Its tree, which holds its text.
    pub tree: Tree,
    /// Its lines.
    pub lines: Arc<Lines>,
    /// Its sections, read.
    pub sections: Arc<Vec<LogicalSection>>,
}

/// What is known of a spec, a library or a standard.
#[derive(Debug, Clone)]
pub struct Analysis {
    /// Its path.
    pub path: String,
    /// The files that were read; a [`FileId`] is an index here, and 0 is the
    /// file itself.
    pub files: Vec<File>,
    /// What it says.
    pub job: Job,
    /// For a standard, what it says.
    pub standard: Option<Arc<Standard>>,
    /// Its figures.
    pub figures: Figures,
    /// The limits in force.
    pub limits: Limits,
    /// The standards that apply, the nearest first: their paths.
    pub standards: Vec<String>,
    /// What was found in the file itself, in order of place, then rule.
    pub findings: FindingList,
    /// Every other path that was read or looked for: when one of them
    /// changes, so may this.
    pub reads: Vec<String>,
}

impl Analysis {
    /// The file of a place, by index, and the place in it in bytes.
    pub fn span(&self, place: Place) -> Option<(usize, Span)> {
        let index = place.section.file.0 as usize;
        let file = self.files.get(index)?;
        let placed = file.tree.find(place.section.section)?;
        Some((index, place.span.shift(placed.start)))
    }

    /// The text at a place; empty if it is gone.
    pub fn text(&self, place: Place) -> &str {
        self.span(place)
            .and_then(|(index, span)| Some((self.files.get(index)?, span)))
            .map_or("", |(file, span)| span.slice(&file.tree.text))
    }

    /// Where an entry of the file itself stands, by what an edit elsewhere
    /// does not move: its section among those of the file and its line among
    /// those of the section, both from 0.
    pub fn ordinal(&self, place: Place) -> Option<(usize, usize)> {
        let own = self.files.first().filter(|_| place.section.file.0 == 0)?;
        let sections = &own.tree.sections;
        let at = |placed: &crate::syntax::Placed| placed.id == place.section.section;
        let section = sections.iter().position(at)?;
        let lines = &sections.get(section)?.section.lines;
        let line = lines
            .iter()
            .rposition(|(start, _)| *start <= place.span.start)?;
        Some((section, line))
    }

    /// The line of a place in its file, from 0, with the file's index.
    pub fn line(&self, place: Place) -> Option<(usize, u32)> {
        let (index, span) = self.span(place)?;
        Some((index, self.files.get(index)?.lines.line_of(span.start)))
    }

    /// The text of the file itself.
    pub fn own_text(&self) -> &str {
        self.files.first().map_or("", |file| &file.tree.text)
    }

    /// What a check of this job may look at, for those who show rules and
    /// limits.
    pub fn context(&self) -> Context<'_> {
        Context::new(&self.job, &self.figures, &self.limits)
    }
}

/// Analyses one file again and again, and keeps between the times what an
/// edit has not touched.
#[derive(Debug, Default)]
pub struct Analyser {
    kept: FxHashMap<String, Kept>,
    memory: Memory,
    standard: Option<String>,
}

/// What was worked out, room by room, so that an edit costs no more than what
/// it touches.
#[derive(Debug, Default)]
struct Memory {
    /// The paths of the files, the file itself first.
    paths: Vec<String>,
    job: model::Memory,
    figures: quantities::Memory,
    findings: rules::Memory,
}

impl Analyser {
    /// An analyser that has seen nothing yet.
    pub fn new() -> Analyser {
        Analyser::default()
    }

    /// An analyser that applies one standard, wherever the file lies.
    pub fn with_standard(path: String) -> Analyser {
        Analyser {
            standard: Some(path),
            ..Analyser::default()
        }
    }

    /// How many lines were read by the grammar in the last analysis of a
    /// path: what an edit costs.
    pub fn lines_parsed(&self, path: &str) -> usize {
        self.kept.get(path).map_or(0, Kept::lines_parsed)
    }

    /// The file that an analysis of a text begins with: read, and nothing
    /// worked out of it yet. An analysis of the same text takes it over.
    pub fn read_text(&mut self, path: &str, text: Text) -> File {
        let kept = self.kept.entry(path.to_owned()).or_default();
        kept.load(path, text, FileId(0)).into()
    }

    /// Analyses a text that lies, or will lie, at a path. `today`, such as
    /// `2027-01-12`, settles which acceptances have run out.
    pub fn analyse(
        &mut self,
        path: &str,
        text: Text,
        files: &dyn Files,
        today: &str,
    ) -> Arc<Analysis> {
        self.analyse_timed(path, text, files, today, &untimed)
    }

    /// The same, each rule and each step under its name on a stopwatch.
    pub fn analyse_timed(
        &mut self,
        path: &str,
        text: Text,
        files: &dyn Files,
        today: &str,
        watch: Stopwatch<'_>,
    ) -> Arc<Analysis> {
        let mut sources = timed(watch, "reading", || {
            gather(path, text, files, &mut self.kept)
        });
        let mut analysis = Analysis::unread(path, &sources);
        let is_standard = sources
            .inputs
            .first()
            .is_some_and(|own| own.kind == FileKind::Standard);
        let own = is_standard.then(|| read_standard(&sources.inputs).0);
        let (applied, unread) = standards_for(
            path,
            own.as_ref(),
            self.standard.as_deref(),
            files,
            &mut self.kept,
            sources.loaded.len(),
            &mut analysis.reads,
        );
        for standard in unread {
            sources.tell_of_standard(&standard.path, &standard.why);
        }
        for standard in applied {
            let loaded = standard.loaded;
            if standard.errors > 0 {
                sources.tell_of_standard_in_error(&loaded.path, standard.errors);
            }
            analysis.standards.push(loaded.path.clone());
            analysis.limits.standards.push(standard.standard);
            analysis.files.push(File::from(loaded));
        }
        if is_standard {
            analysis.read_as_standard(&sources, files);
        } else {
            self.memory.go_on_with(&analysis.files);
            analysis.read_as_job(&sources, &mut self.memory, today, watch);
        }
        self.keep_only(&analysis.files);
        Arc::new(analysis)
    }

    /// Only reads a text and what it uses: enough to follow names and paths.
    /// Its job is empty, nothing is worked out and nothing found.
    pub fn read(&mut self, path: &str, text: Text, files: &dyn Files) -> Arc<Analysis> {
        let sources = gather(path, text, files, &mut self.kept);
        let analysis = Analysis::unread(path, &sources);
        self.keep_only(&analysis.files);
        Arc::new(analysis)
    }

    fn keep_only(&mut self, files: &[File]) {
        let seen: BTreeSet<&str> = files.iter().map(|file| file.path.as_str()).collect();
        self.kept.retain(|path, _| seen.contains(path.as_str()));
    }
}

impl Memory {
    /// Forgets what does not hold of these files.
    fn go_on_with(&mut self, files: &[File]) {
        let paths = files.iter().map(|file| &file.path);
        if self.paths.iter().eq(paths.clone()) {
            return;
        }
        let of_same_file = self.paths.first() == paths.clone().next();
        if !of_same_file {
            *self = Memory::default();
        }
        // Findings name the other files.
        self.findings = rules::Memory::default();
        self.paths = paths.cloned().collect();
    }
}

impl From<Loaded> for File {
    fn from(loaded: Loaded) -> File {
        File {
            path: loaded.path,
            tree: loaded.tree,
            lines: loaded.lines,
            sections: loaded.sections,
        }
    }
}

impl Analysis {
    /// The files of a spec, before anything is made of them.
    fn unread(path: &str, sources: &Sources) -> Analysis {
        Analysis {
            path: path.to_owned(),
            files: sources.loaded.iter().cloned().map(File::from).collect(),
            job: Job::default(),
            standard: None,
            figures: Figures::default(),
            limits: Limits::default(),
            standards: Vec::new(),
            findings: FindingList::default(),
            reads: sources.reads.clone(),
        }
    }

    fn read_as_standard(&mut self, sources: &Sources, files: &dyn Files) {
        let (standard, mut findings) = read_standard(&sources.inputs);
        let outer = self.limits.standards.iter().map(Arc::as_ref);
        rules::tell_what_limits_take(&standard, &mut findings);
        findings.extend(rules::check_standard(&standard, outer));
        self.job.kind = FileKind::Standard;
        findings.extend(check_extends(&self.path, &standard, files));
        findings.extend(sources.findings.iter().cloned());
        self.standard = Some(Arc::new(standard));
        let findings = findings.into_iter().map(|mut finding| {
            finding.severity = rules::severity_of(&finding);
            Arc::new(finding)
        });
        self.findings = self.in_order(findings.collect());
    }

    fn read_as_job(
        &mut self,
        sources: &Sources,
        memory: &mut Memory,
        today: &str,
        watch: Stopwatch<'_>,
    ) {
        self.job = timed(watch, "resolving", || memory.job.resolve(&sources.inputs));
        // What went wrong with the files is weighed and accepted as all else.
        self.job.findings.extend(sources.findings.iter().cloned());
        let faulty = faulty_files(&sources.inputs, &self.job.findings);
        self.job.findings.extend(faulty);
        self.figures = timed(watch, "figures", || memory.figures.figures(&self.job));
        let context = self.context().on(today);
        let own = self.files.first().map(|own| own.tree.sections.iter());
        let sections = own.into_iter().flatten().map(|placed| placed.id);
        let finish = |finding: &mut Arc<Finding>| {
            name_other_files(self, finding);
            own_units_first(self, finding);
        };
        let at = |place| self.span(place);
        let found = memory.findings.run(&context, sections, &at, finish, watch);
        self.findings = match self.job.accepts.is_empty() {
            true => found.own,
            false => {
                let accepted = || rules::accepted(&context, &found, today);
                self.in_order(timed(watch, "accepting", accepted))
            }
        };
    }

    /// The findings that lie in the file itself, in order of place, then rule.
    fn in_order(&self, mut findings: Vec<Arc<Finding>>) -> FindingList {
        findings.retain(|finding| finding.place.section.file == FileId(0));
        let mut placed: Vec<(Span, Arc<Finding>)> = findings
            .into_iter()
            .filter_map(|finding| Some((self.span(finding.place)?.1, finding)))
            .collect();
        placed.sort_by(|(a, one), (b, other)| {
            (a.start, a.end, one.rule, &one.message).cmp(&(
                b.start,
                b.end,
                other.rule,
                &other.message,
            ))
        });
        let findings = placed.into_iter().map(|(_, finding)| finding);
        rules::merge_same(findings, &|place| self.span(place))
            .into_iter()
            .collect()
    }
}
