//! What keeps a command from doing its work.

use std::fmt;

/// Why a command could not do its work, in words for people.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Problem(pub String);

impl Problem {
    /// A problem with a file.
    pub(crate) fn with_file(path: impl fmt::Display, why: impl fmt::Display) -> Problem {
        Problem(format!("{path}: {why}"))
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}
