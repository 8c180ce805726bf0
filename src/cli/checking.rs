//! Checking texts and files, several at a time.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use rayon::prelude::*;
use rustc_hash::FxHashSet;

use super::arguments::CheckArguments;
use super::clocks::Clocks;
use super::output::tell;
use super::problem::Problem;
use super::search::Search;
use super::source::{Source, current_folder, path_of};
use crate::analysis::{Analyser, Analysis};
use crate::host::{Disk, RememberedDisk, text_at, today};
use crate::model::FileKind;
use crate::report::{Review, Reviewed, Row, Unread, shown_path};
use crate::rules::{self, Stopwatch, untimed};

/// How specs are checked, and which of their findings are wanted.
pub(crate) struct Checking<'a> {
    arguments: &'a CheckArguments,
    /// The folder from which paths are shown.
    pub folder: String,
    date: String,
    /// The disk as it is at this check, remembered from one spec to the next.
    pub disk: RememberedDisk,
    standard: Option<String>,
    /// What the checks cost, where that is asked for.
    pub clocks: Clocks,
}

impl Checking<'_> {
    /// As the arguments ask for.
    pub(crate) fn new(arguments: &CheckArguments) -> Result<Checking<'_>, Problem> {
        Ok(Checking {
            arguments,
            folder: current_folder()?,
            date: arguments.date.clone().unwrap_or_else(today),
            disk: RememberedDisk::default(),
            standard: arguments.standard.as_deref().map(standard).transpose()?,
            clocks: Clocks::default(),
        })
    }

    /// The files that the arguments name, by paths or by folders.
    pub(crate) fn search(&self) -> Search {
        let is_named = self.arguments.stdin.stdin_path.is_some();
        // A named input stands in for the default path, and so do changed files.
        let here = [PathBuf::from(".")];
        let paths = match self.names_changed_files() {
            true => &here[..],
            false => &self.arguments.paths,
        };
        let paths = paths.iter().filter(|path| !is_named && !is_input(path));
        let search = Search::of(&paths.cloned().collect::<Vec<_>>(), &self.folder);
        for empty in &search.empty {
            tell(&format!("{empty}: there is no .patio file in it"));
        }
        search
    }

    /// Whether a text is to be read from standard input.
    pub(crate) fn reads_input(&self) -> bool {
        self.arguments.stdin.stdin_path.is_some()
            || !self.names_changed_files() && self.arguments.paths.iter().any(is_input)
    }

    /// The text on standard input.
    pub(crate) fn input(&self) -> Result<Result<Source, Unread>, Problem> {
        Source::from_input(&self.arguments.stdin, &self.folder)
    }

    /// The review of everything that the arguments name.
    pub(crate) fn review(&self, search: Search) -> Result<Review, Problem> {
        let mut read = Vec::new();
        if self.reads_input() {
            read.push(
                self.input()?
                    .map(|source| self.one(&mut self.analyser(), source)),
            );
        }
        match search.specs.as_slice() {
            [only] => read.push(self.at(only).map(|source| self.lone(source))),
            several => {
                let of_files = several.par_iter().map_init(
                    || self.analyser(),
                    |analyser, path| self.at(path).map(|source| self.one(analyser, source)),
                );
                read.par_extend(of_files);
            }
        }
        let (mut files, mut unread) = (Vec::new(), search.unread);
        for one in read {
            match one {
                Ok(file) => files.push(file),
                Err(why) => unread.push(why),
            }
        }
        self.keep_affected(&mut files)?;
        files.sort_by(|one, other| one.path.cmp(&other.path));
        unread.sort_by(|one: &Unread, other| one.path.cmp(&other.path));
        Ok(Review {
            files,
            date: self.date.clone(),
            standard: self
                .standard
                .as_ref()
                .map(|path| shown_path(path, &self.folder)),
            unread,
            ..Review::default()
        })
    }

    /// Whether the paths are those of changed files: after `--` no name is
    /// taken for an option, whatever it is.
    fn names_changed_files(&self) -> bool {
        let affected_by = self.arguments.affected_by.as_ref();
        affected_by.is_some_and(Vec::is_empty)
    }

    /// Leaves out the files that none of the changed files can have changed.
    fn keep_affected(&self, files: &mut Vec<Reviewed>) -> Result<(), Problem> {
        let changed = match (self.names_changed_files(), &self.arguments.affected_by) {
            (true, _) => &self.arguments.paths[..],
            (false, Some(changed)) => changed,
            (false, None) => return Ok(()),
        };
        let changed: Vec<String> = changed
            .iter()
            .map(|path| path_of(path))
            .collect::<Result<_, _>>()?;
        let read: FxHashSet<&str> = files
            .iter()
            .flat_map(|file| std::iter::once(&file.full_path).chain(&file.reads))
            .map(String::as_str)
            .collect();
        for path in &changed {
            // One that was removed may well concern those that still read it.
            if !read.contains(path.as_str()) && !Path::new(path).exists() {
                let path = shown_path(path, &self.folder);
                tell(&format!(
                    "{path} is not there, and no spec reads it: nothing is checked for it"
                ));
            }
        }
        let changed: FxHashSet<&str> = changed.iter().map(String::as_str).collect();
        files.retain(|file| {
            let mut paths = std::iter::once(&file.full_path).chain(&file.reads);
            paths.any(|path| changed.contains(path.as_str()))
        });
        Ok(())
    }

    /// A new analyser, which remembers what it has read.
    pub(crate) fn analyser(&self) -> Analyser {
        match &self.standard {
            Some(path) => Analyser::with_standard(path.clone()),
            None => Analyser::new(),
        }
    }

    fn at(&self, path: &str) -> Result<Source, Unread> {
        Source::at(path, &self.folder)
    }

    /// Checks the only text there is. What was worked out is not taken apart
    /// again: of a long spec that takes as long as some of the work, and the
    /// program is about to end.
    fn lone(&self, source: Source) -> Reviewed {
        let mut analyser = self.analyser();
        let analysis = self.analysis(&mut analyser, source);
        let file = self.reviewed(&analysis);
        std::mem::forget((analyser, analysis));
        file
    }

    /// Checks one text of several.
    pub(crate) fn one(&self, analyser: &mut Analyser, source: Source) -> Reviewed {
        self.reviewed(&self.analysis(analyser, source))
    }

    fn analysis(&self, analyser: &mut Analyser, source: Source) -> Arc<Analysis> {
        let clock = |name, work: &mut dyn FnMut()| self.clocks.time(name, work);
        let watch: Stopwatch<'_> = match self.arguments.timings {
            true => &clock,
            false => &untimed,
        };
        let Source { path, text } = source;
        analyser.analyse_timed(&path, text, &self.disk, &self.date, watch)
    }

    /// What is told of an analysis, of the rules that are asked for.
    fn reviewed(&self, analysis: &Analysis) -> Reviewed {
        let mut file = Reviewed::new(analysis, &self.folder);
        if self.arguments.baseline.is_some() || self.arguments.write_baseline.is_some() {
            file = file.with_state(analysis);
        }
        file.rows.retain(|row| self.is_wanted(row));
        file.cautions.retain(|row| self.is_wanted(row));
        file
    }

    /// Whether a finding is of a rule or a family that is asked for.
    fn is_wanted(&self, row: &Row) -> bool {
        let (names, families) = (&self.arguments.rule, &self.arguments.family);
        let is_named = names.iter().any(|rule| *rule == row.rule);
        let is_of_family = || {
            let family = rules::find(row.rule).map(|rule| rule.family);
            family.is_some_and(|family| families.contains(&family))
        };
        names.is_empty() && families.is_empty() || is_named || is_of_family()
    }
}

fn is_input(path: &PathBuf) -> bool {
    path == Path::new("-")
}

/// The path of a standard that is named, if it can be read and is one.
fn standard(path: &Path) -> Result<String, Problem> {
    let text = text_at(path).map_err(|why| Problem::with_file(path.display(), why))?;
    let full = path_of(path)?;
    let read = Analyser::new().analyse(&full, text, &Disk, &today());
    match read.job.kind {
        FileKind::Standard => Ok(full),
        _ => Err(Problem::with_file(
            path.display(),
            "it is not a standard: it has no `standard` section",
        )),
    }
}
