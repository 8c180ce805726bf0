//! Where a fact comes from, and how it is known.
//!
//! Every limit of a rule, every figure of the catalogue and every default
//! names its source with one of these. The room uses no other.

mod region;

use std::fmt;

pub use region::Region;

/// How a fact came to be known to the people who wrote it down here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Known {
    /// The value was seen in a copy of the document.
    Read,
    /// Somebody else's quotation or summary of the document was seen.
    SecondHand,
    /// Recalled and not seen: to be confirmed before it is relied on.
    Memory,
    /// Judged from what the document prints, and not printed there.
    Judged,
    /// A rule of thumb of the trade, with no document behind it.
    CommonPractice,
    /// Exact mathematics or a definition.
    Computed,
}

impl Known {
    /// The words that are shown beside a source.
    pub const fn words(self) -> &'static str {
        match self {
            Known::Read => "read in a copy of the document",
            Known::SecondHand => "known second hand",
            Known::Memory => "from memory, confirm before relying on it",
            Known::Judged => "judged from it, not printed there",
            Known::CommonPractice => "common practice, no source",
            Known::Computed => "computed",
        }
    }

    /// The same in short, where a limit is cited in a line.
    pub const fn word(self) -> &'static str {
        match self {
            Known::Read => "read",
            Known::SecondHand => "second hand",
            Known::Memory => "from memory: confirm it",
            Known::Judged => "judged",
            Known::CommonPractice => "common practice, no source",
            Known::Computed => "computed",
        }
    }
}

/// A published document, the part of it, and how the fact is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Source {
    /// Title and edition; empty for common practice.
    pub document: &'static str,
    /// Section, table or page; empty if the whole document is meant.
    pub section: &'static str,
    /// How it is known.
    pub known: Known,
}

impl Source {
    /// A value seen in a copy of the document.
    pub const fn read(document: &'static str, section: &'static str) -> Source {
        Source {
            document,
            section,
            known: Known::Read,
        }
    }

    /// A value known from somebody's quotation of the document.
    pub const fn second_hand(document: &'static str, section: &'static str) -> Source {
        Source {
            document,
            section,
            known: Known::SecondHand,
        }
    }

    /// A value recalled, not seen.
    pub const fn memory(document: &'static str, section: &'static str) -> Source {
        Source {
            document,
            section,
            known: Known::Memory,
        }
    }

    /// Mathematics or a definition; `document` says of what.
    pub const fn computed(document: &'static str) -> Source {
        Source {
            document,
            section: "",
            known: Known::Computed,
        }
    }

    /// A rule of thumb with no document behind it.
    pub const COMMON_PRACTICE: Source = Source {
        document: "",
        section: "",
        known: Known::CommonPractice,
    };
}

impl Source {
    /// The source beside a limit: `ICPI Tech Spec 3, base past the edge; read`.
    pub fn cited(&self) -> String {
        let known = self.known.word();
        match (self.document, self.section) {
            ("", _) => known.to_owned(),
            (document, "") => format!("{document}; {known}"),
            (document, section) => format!("{document}, {section}; {known}"),
        }
    }
}

impl fmt::Display for Source {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.document, self.section) {
            ("", _) => out.write_str(self.known.words()),
            (document, "") => write!(out, "{document} ({})", self.known.words()),
            (document, section) => write!(out, "{document}, {section} ({})", self.known.words()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_source_is_shown_with_how_it_is_known() {
        for (source, shown) in [
            (
                Source::read("A Manual, 2020", "table 3"),
                "A Manual, 2020, table 3 (read in a copy of the document)",
            ),
            (
                Source::memory("A Code", ""),
                "A Code (from memory, confirm before relying on it)",
            ),
            (Source::COMMON_PRACTICE, "common practice, no source"),
        ] {
            assert_eq!(source.to_string(), shown);
        }
    }
}
