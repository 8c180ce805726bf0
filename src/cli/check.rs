//! `drylay check`: the findings of specs.

use std::path::{Path, PathBuf};

use rayon::prelude::*;

use super::arguments::{CheckArguments, FindingsFormat, When};
use super::disk::{Disk, text_at};
use super::findings_text::findings_text;
use super::output::{tell, write_result};
use super::problem::Problem;
use super::run::{COULD_NOT, FOUND, GOOD, Status};
use super::search::Search;
use super::source::{Source, current_folder, path_of};
use super::terminal::Look;
use super::today::today;
use crate::analysis::Analyser;
use crate::findings::Severity;
use crate::report::{Review, Reviewed, Summary, Unread, findings_json, shown_path};

/// Checks specs and writes what is found.
pub fn check(arguments: &CheckArguments, color: When) -> Result<Status, Problem> {
    let review = review(arguments)?;
    let file = arguments.output.output.as_deref();
    let text = match arguments.format {
        FindingsFormat::Text => {
            findings_text(&review, &Look::of(color, arguments.ascii, file.is_some()))
        }
        FindingsFormat::Json => findings_json(&review),
    };
    write_result(&text, file)?;
    for unread in &review.unread {
        tell(&format!("{}: {}", unread.path, unread.why));
    }
    let denied = Severity::from(arguments.deny);
    let gravest = Summary::of(&review).gravest();
    Ok(match gravest.is_some_and(|gravest| gravest >= denied) {
        _ if !review.unread.is_empty() => COULD_NOT,
        true => FOUND,
        false => GOOD,
    })
}

/// The review that the arguments ask for.
fn review(arguments: &CheckArguments) -> Result<Review, Problem> {
    let folder = current_folder()?;
    let date = arguments.date.clone().unwrap_or_else(today);
    let standard = arguments.standard.as_deref().map(standard).transpose()?;
    let (input, search) = sources(arguments, &folder)?;
    let checking = Checking {
        folder: &folder,
        date: &date,
        standard: standard.as_deref(),
    };
    let (mut files, mut unread) = checking.of(input, &search.specs);
    unread.extend(search.unread);
    files.sort_by(|one, other| one.path.cmp(&other.path));
    unread.sort_by(|one, other| one.path.cmp(&other.path));
    Ok(Review {
        files,
        date: date.clone(),
        standard: standard.as_ref().map(|path| shown_path(path, &folder)),
        unread,
    })
}

/// A text from standard input, if one is asked for, and the files to read.
type Sources = (Option<Result<Source, Unread>>, Search);

fn sources(arguments: &CheckArguments, folder: &str) -> Result<Sources, Problem> {
    let is_input = |path: &&PathBuf| path.as_path() == Path::new("-");
    let named = arguments.stdin.stdin_path.is_some();
    let input = match named || arguments.paths.iter().any(|path| is_input(&path)) {
        true => Some(Source::from_input(&arguments.stdin, folder)?),
        false => None,
    };
    // A named input stands in for the default path.
    let files = arguments
        .paths
        .iter()
        .filter(|path| !named && !is_input(path));
    let search = Search::of(&files.cloned().collect::<Vec<_>>(), folder);
    for empty in &search.empty {
        tell(&format!("{empty}: there is no .patio file in it"));
    }
    Ok((input, search))
}

/// The path of a standard that is named, if it can be read.
fn standard(path: &Path) -> Result<String, Problem> {
    text_at(path).map_err(|why| Problem::with_file(path.display(), why))?;
    path_of(path)
}

/// How specs are checked.
struct Checking<'a> {
    folder: &'a str,
    date: &'a str,
    standard: Option<&'a str>,
}

impl Checking<'_> {
    /// Checks a text and files, several at a time.
    fn of(
        &self,
        input: Option<Result<Source, Unread>>,
        specs: &[String],
    ) -> (Vec<Reviewed>, Vec<Unread>) {
        let input = input.map(|source| source.map(|source| self.one(&mut self.analyser(), source)));
        let read = specs.par_iter().map_init(
            || self.analyser(),
            |analyser, path| Source::at(path, self.folder).map(|source| self.one(analyser, source)),
        );
        let mut all: Vec<Result<Reviewed, Unread>> = read.collect();
        all.extend(input);
        let (mut files, mut unread) = (Vec::new(), Vec::new());
        for one in all {
            match one {
                Ok(file) => files.push(file),
                Err(why) => unread.push(why),
            }
        }
        (files, unread)
    }

    fn analyser(&self) -> Analyser {
        match self.standard {
            Some(path) => Analyser::with_standard(path.to_owned()),
            None => Analyser::new(),
        }
    }

    fn one(&self, analyser: &mut Analyser, source: Source) -> Reviewed {
        let analysis = analyser.analyse(&source.path, source.text, &Disk, self.date);
        Reviewed::new(analysis, self.folder)
    }
}
