//! Files that cannot be used.

use crate::findings::Severity;
use crate::rules::{Check, Family, Rule};

/// A `use` of a file that is not there, whose letter case differs, or that has
/// errors of its own.
pub(crate) static USE_MISSING: Rule = Rule {
    name: "use-missing",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A `use` of a file that is not there, whose letter case differs or that has errors of its own, and a `like` of a standard that is not there.",
    reason: "Whatever the file defines is missing; a name whose case differs is found on one machine and not on the next.",
    remedy: "Write the path as the file is named, seen from this file's folder.",
    limits: &[],
    sources: &[],
    breaks: "\
use «\"office/mixes.patio\"»
",
    keeps: "\
shape court
  rectangle    6 m by 4 m
",
    mended: None,
    check: Check::Reading,
};

/// A `use` of a file outside the folder that holds the specs.
pub(crate) static USE_OUTSIDE: Rule = Rule {
    name: "use-outside",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A `use` of a file outside the folder that holds the specs, and a `like` of a standard by a path that is not relative.",
    reason: "Such a path works on one machine only.",
    remedy: "Keep shared files in the practice's folder, the one with its standard.patio, and write the path from this file's folder. Without a standard, only what lies in the folder of the spec can be used.",
    limits: &[],
    sources: &[],
    breaks: "\
use «\"/office/mixes.patio\"»
",
    keeps: "\
shape court
  rectangle    6 m by 4 m
",
    mended: None,
    check: Check::Reading,
};
