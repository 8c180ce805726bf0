//! Entries that stand twice, are missing, or are in the wrong place.

use crate::findings::Severity;
use crate::rules::{Check, Family, Rule};

/// An entry, clause or section given twice where only one counts.
pub(crate) static ENTRY_TWICE: Rule = Rule {
    name: "entry-twice",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "An entry, clause or section given twice where only one counts.",
    reason: "Only the first one counts, and the second may be the one that was meant.",
    remedy: "Keep one of them.",
    limits: &[],
    sources: &[],
    breaks: "\
site
  soil         gravel
  «soil         clay»
",
    keeps: "\
site
  soil         gravel
",
    mended: Some(
        "\
site
  soil         gravel
",
    ),
    check: Check::Reading,
};

/// A required entry that is not there, or an entry with no value.
pub(crate) static ENTRY_MISSING: Rule = Rule {
    name: "entry-missing",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A required entry that is not there, or an entry with no value.",
    reason: "Without it nothing in the section can be worked out.",
    remedy: "Write it.",
    limits: &[],
    sources: &[],
    breaks: "\
«surface court»
  # no shape
",
    keeps: "\
surface court
  shape        court
",
    mended: None,
    check: Check::Reading,
};

/// An entry in a section that has no such entry, or one that has lost its indent.
pub(crate) static ENTRY_MISPLACED: Rule = Rule {
    name: "entry-misplaced",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "An entry in a section that has no such entry, or one that has lost its indent.",
    reason: "It is skipped, or read as part of another section.",
    remedy: "Move it to the section that it belongs to, or indent it.",
    limits: &[],
    sources: &[],
    breaks: "\
site
  soil         gravel
  «fall»         1:50 toward south
",
    keeps: "\
site
  soil         gravel
",
    mended: None,
    check: Check::Reading,
};
