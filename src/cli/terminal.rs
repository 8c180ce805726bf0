//! How text looks where it goes.

use std::io::IsTerminal;

use super::arguments::When;
use crate::text::{Shown, clean};

/// The width that text is laid out for where there is no screen.
const WIDTH: usize = 100;

/// How text looks where it goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Look {
    /// Whether it is coloured.
    pub is_coloured: bool,
    /// Whether it is drawn with plain characters only; `None` asks the
    /// screen.
    pub is_ascii: Option<bool>,
    /// Its width; `None` asks the screen.
    pub width: Option<usize>,
}

impl Look {
    /// The look of a result that goes to a file or to standard output.
    pub(crate) fn of(color: When, ascii: bool, to_file: bool) -> Look {
        let on_screen = !to_file && std::io::stdout().is_terminal();
        let is_set = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
        // One that draws no lines and knows no colours.
        let is_dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
        let is_coloured = match color {
            When::Always => true,
            When::Never => false,
            When::Auto => on_screen && !is_set("NO_COLOR") && !is_dumb,
        };
        Look {
            is_coloured,
            is_ascii: (ascii || on_screen && is_dumb).then_some(true),
            width: (!on_screen || is_dumb).then_some(WIDTH),
        }
    }

    /// The text, bold where text is coloured.
    pub(crate) fn bold(&self, text: &str) -> String {
        let text = clean(text, Shown::Line);
        match self.is_coloured {
            true => format!("\u{1b}[1m{text}\u{1b}[0m"),
            false => text.into_owned(),
        }
    }
}
