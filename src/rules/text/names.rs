//! Words and names that do not exist, or stand for two things.

use crate::findings::Severity;
use crate::rules::{Check, Family, Rule};

/// A section kind, key, clause or word of a list that does not exist.
pub(crate) static WORD_UNKNOWN: Rule = Rule {
    name: "word-unknown",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A section kind, key, clause or word of a list that does not exist.",
    reason: "A misspelt key is a requirement that nobody reads.",
    remedy: "Write the word that was meant.",
    limits: &[],
    sources: &[],
    breaks: "\
site
  # no soil
  «siol»         gravel
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

/// A name that nothing defines.
pub(crate) static NAME_UNKNOWN: Rule = Rule {
    name: "name-unknown",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A name that nothing defines.",
    reason: "What depends on it has no figure.",
    remedy: "Write the name that was meant, or define it.",
    limits: &[],
    sources: &[],
    breaks: "\
surface court
  shape        «cuort»

shape court
  rectangle    6 m by 4 m
",
    keeps: "\
surface court
  shape        court

shape court
  rectangle    6 m by 4 m
",
    mended: Some(
        "\
surface court
  shape        court

shape court
  rectangle    6 m by 4 m
",
    ),
    check: Check::Reading,
};

/// A drain's name in quotes, where it is text and no name.
pub(crate) static NAME_QUOTED: Rule = Rule {
    name: "name-quoted",
    family: Family::Text,
    severity: Severity::Warning,
    looks_at: "A text that spells the name of a drain, with or without an article, where the drain itself could stand.",
    reason: "Text in quotes leads nowhere: the drain gets none of that water, and is too small for it.",
    remedy: "Write the drain's name without quotes; or call one of the two something else.",
    limits: &[],
    sources: &[],
    breaks: "\
surface court
  water        to «\"side gully\"»

drain side-gully
  gully        clay-gully, at (3 m, -0.15 m)
  to           \"storm drain\"
",
    keeps: "\
surface court
  water        to side-gully

drain side-gully
  gully        clay-gully, at (3 m, -0.15 m)
  to           \"storm drain\"
",
    mended: Some(
        "\
surface court
  water        to side-gully

drain side-gully
  gully        clay-gully, at (3 m, -0.15 m)
  to           \"storm drain\"
",
    ),
    check: Check::Reading,
};

/// Two definitions of one name, or two names that differ only by case.
pub(crate) static NAME_TWICE: Rule = Rule {
    name: "name-twice",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "Two definitions of one name, or two names that differ only by case; a material that differs so from the built-in one that is used.",
    reason: "Nobody can tell which of them a line means.",
    remedy: "Give one of them another name; to change a material, say `like` its own name.",
    limits: &[],
    sources: &[],
    breaks: "\
shape «Court»
  rectangle    1 m by 1 m, at (6 m, 0 m)

surface court

surface path
  shape        Court
  build        sand-set
  edging       steel-edge, along free
",
    keeps: "\
shape court
  rectangle    6 m by 4 m

shape path
  rectangle    1 m by 1 m, at (6 m, 0 m)

surface court

surface path
  shape        path
  build        sand-set
  edging       steel-edge, along free
",
    mended: None,
    check: Check::Reading,
};

/// A let, material or mix named like a unit, a direction, a function or a small word.
pub(crate) static NAME_RESERVED: Rule = Rule {
    name: "name-reserved",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A let, material or mix named like a unit, a direction, a function or a small word, and a shape or an edge named free.",
    reason: "The line would be read as the unit or the word, not the name.",
    remedy: "Give it another name.",
    limits: &[],
    sources: &[],
    breaks: "\
build sand-set
  bed          ton, 30 mm

material «ton»
  like         sharp-sand
",
    keeps: "\
build sand-set
  bed          bag-sand, 30 mm

material bag-sand
  like         sharp-sand
",
    mended: None,
    check: Check::Reading,
};

/// A let, shape, build, mix or material that nothing uses.
pub(crate) static NAME_UNUSED: Rule = Rule {
    name: "name-unused",
    family: Family::Text,
    severity: Severity::Advisory,
    looks_at: "A let, shape, build, mix or material that nothing uses.",
    reason: "It may be left over, or the line that should name it may be missing.",
    remedy: "Take it out, or use it.",
    limits: &[],
    sources: &[],
    breaks: "\
let «margin» = 150 mm
",
    keeps: "\
let margin = 150 mm

shape court
  rectangle    6 m + margin by 4 m
",
    mended: None,
    check: Check::Reading,
};
