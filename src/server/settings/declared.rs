//! The settings that there are.

use crate::ide::HintKind;

/// The section of an editor's settings that they stand in.
pub const SECTION: &str = "drylay";

/// In which units figures are shown.
pub(crate) const UNITS: &str = "units";
/// Which standard applies.
pub(crate) const STANDARD: &str = "standard";
/// Whether specs that are not open are checked.
pub(crate) const WORKSPACE: &str = "findings.workspace";
/// Which findings are shown as errors.
pub(crate) const DENY: &str = "findings.deny";
/// Which findings are shown at all.
pub(crate) const SHOW: &str = "findings.show";
/// Whether a hover repeats what a finding says.
pub(crate) const HOVER: &str = "findings.hover";
/// Whether a hover may hold a picture.
pub(crate) const PICTURES: &str = "hover.pictures";

/// One setting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Setting {
    /// Its name within the section: `hints.areas`.
    pub name: String,
    /// What it is for, in a sentence or two.
    pub help: String,
    /// What it takes, and what holds where it is not set.
    pub takes: Takes,
}

/// What a setting takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Takes {
    /// Yes or no.
    Switch {
        /// What holds where it is not set.
        usual: bool,
    },
    /// One of some words, each with what it does. The first holds where it is
    /// not set.
    Word(&'static [(&'static str, &'static str)]),
    /// The path of a file; none where it is not set.
    Path,
}

impl Takes {
    /// What it takes, in words.
    pub fn in_words(self) -> String {
        match self {
            Takes::Switch { .. } => "`true` or `false`".to_owned(),
            Takes::Word(words) => {
                let words = words.iter().map(|(word, _)| format!("`\"{word}\"`"));
                let words = words.collect::<Vec<_>>().join(", ");
                match words.rsplit_once(", ") {
                    Some((rest, last)) => format!("{rest} or {last}"),
                    None => words,
                }
            }
            Takes::Path => "the path of a file, in quotes".to_owned(),
        }
    }

    /// What holds where it is not set, as it would be written.
    pub fn usual(self) -> String {
        match self {
            Takes::Switch { usual } => usual.to_string(),
            Takes::Word(words) => format!("\"{}\"", words.first().map_or("", |(word, _)| word)),
            Takes::Path => "\"\"".to_owned(),
        }
    }
}

/// The name of the setting that switches a kind of hint.
pub(crate) fn of_hint(kind: HintKind) -> String {
    format!("hints.{}", kind.setting())
}

/// Every setting, in the order in which they are shown.
pub fn declared() -> Vec<Setting> {
    let hints = HintKind::ALL.iter().map(|kind| Setting {
        name: of_hint(*kind),
        help: format!("Show at the ends of lines: {}", lower(kind.help())),
        takes: Takes::Switch { usual: true },
    });
    let others = OTHERS.iter().map(|(name, help, takes)| Setting {
        name: (*name).to_owned(),
        help: (*help).to_owned(),
        takes: *takes,
    });
    hints.chain(others).collect()
}

fn lower(sentence: &str) -> String {
    let mut letters = sentence.chars();
    let first = letters.next().into_iter().flat_map(char::to_lowercase);
    first.chain(letters).collect()
}

const OTHERS: &[(&str, &str, Takes)] = &[
    (
        UNITS,
        "The units in which hints, hovers and the figures over surfaces are shown. What a spec \
         says and what findings say stays as it is.",
        Takes::Word(&[
            ("job", "The units of each job."),
            ("imperial", "Feet and inches, pounds and US tons."),
            ("metric", "Millimetres and metres, kilograms and tonnes."),
        ]),
    ),
    (
        STANDARD,
        "A standard that applies to every spec, in place of those in the folders above it. A \
         relative path is seen from the folder of the workspace that it is set for, or from the \
         first.",
        Takes::Path,
    ),
    (
        WORKSPACE,
        "Check the specs in the folders of the workspace that are not open, too.",
        Takes::Switch { usual: true },
    ),
    (
        DENY,
        "Show findings of this severity or worse as errors: those at which the practice's \
         own check fails.",
        Takes::Word(&[
            ("error", "Errors only."),
            ("warning", "Errors and warnings."),
            ("advisory", "Everything."),
        ]),
    ),
    (
        SHOW,
        "Show findings of this severity or worse only.",
        Takes::Word(&[
            ("advisory", "Everything."),
            ("warning", "Warnings and errors."),
            ("error", "Errors only."),
        ]),
    ),
    (
        HOVER,
        "Begin the hover over a finding with its message, for an editor that does not show the \
         message there itself. The limit, whose it is, and what to do are always shown.",
        Takes::Switch { usual: false },
    ),
    (
        PICTURES,
        "Show the layers of a build to scale, as a picture, in the hover over its heading, for an \
         editor that shows pictures there.",
        Takes::Switch { usual: false },
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_setting_has_its_own_name_and_a_sentence() {
        let all = declared();
        for (index, setting) in all.iter().enumerate() {
            assert!(setting.help.ends_with('.'), "{setting:?}");
            let same = all.iter().filter(|other| other.name == setting.name);
            assert_eq!(same.count(), 1, "{}", setting.name);
            assert!(!setting.takes.usual().is_empty(), "{index}");
        }
        assert_eq!(Takes::Word(&[("a", "")]).in_words(), "`\"a\"`");
    }
}
