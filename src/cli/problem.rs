//! What keeps a command from doing its work.

use std::fmt;
use std::io;

/// Why a command could not do its work, in words for people.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem(pub String);

impl Problem {
    /// A problem with a file.
    pub fn with_file(path: impl fmt::Display, why: impl fmt::Display) -> Problem {
        Problem(format!("{path}: {why}"))
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

/// What went wrong with a file, in words.
pub fn in_words(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file".to_owned(),
        io::ErrorKind::PermissionDenied => "it may not be opened".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
        io::ErrorKind::StorageFull => "there is no room left for it".to_owned(),
        _ => error.to_string(),
    }
}
