//! A text and where it lies: from a file or from standard input.

use std::path::{Path, PathBuf};

use super::arguments::StdinArguments;
use super::problem::Problem;
use crate::host::absolute;
use crate::host::{text_at, text_from};
use crate::report::{Unread, shown_path};
use crate::text::Text;

/// A text, and where it lies.
pub(crate) struct Source {
    /// Its path: absolute, parted by `/`.
    pub path: String,
    /// The text.
    pub text: Text,
}

impl Source {
    /// The text of a file; or why there is none, its path as seen from
    /// `folder`.
    pub(crate) fn at(path: &str, folder: &str) -> Result<Source, Unread> {
        match text_at(Path::new(path)) {
            Ok(text) => Ok(Source {
                path: path.to_owned(),
                text,
            }),
            Err(why) => Err(Unread {
                path: shown_path(path, folder),
                why,
            }),
        }
    }

    /// The text of the one spec that a command names, or of standard input
    /// where it names none, or `-`.
    pub(crate) fn named(
        spec: Option<&Path>,
        stdin: &StdinArguments,
        folder: &str,
    ) -> Result<Source, Problem> {
        let file = spec.filter(|spec| *spec != Path::new("-") && stdin.stdin_path.is_none());
        let read = match file {
            Some(file) => Source::at(&path_of(file)?, folder),
            None => Source::from_input(stdin, folder)?,
        };
        read.map_err(|unread| Problem::with_file(unread.path, unread.why))
    }

    /// The text on standard input, as if it were at the path that was given; within,
    /// why it is no text.
    pub(crate) fn from_input(
        arguments: &StdinArguments,
        folder: &str,
    ) -> Result<Result<Source, Unread>, Problem> {
        let named = arguments
            .stdin_path
            .clone()
            .unwrap_or_else(|| PathBuf::from("-"));
        let path = path_of(&named)?;
        Ok(match text_from(&mut std::io::stdin().lock(), 0) {
            Ok(text) => Ok(Source { path, text }),
            Err(why) => Err(Unread {
                path: shown_path(&path, folder),
                why,
            }),
        })
    }
}

/// A path of the command line as the analysis knows it.
pub(crate) fn path_of(path: &Path) -> Result<String, Problem> {
    absolute(path).ok_or_else(|| Problem::with_file(path.display(), "its name is not text"))
}

/// The current folder, from which paths are shown.
pub(crate) fn current_folder() -> Result<String, Problem> {
    path_of(Path::new("."))
}
