//! Lines, marks and numbers that cannot be read as they stand.

use crate::findings::Severity;
use crate::rules::{Check, Family, Rule};

/// A line that could not be read: it starts with no word, is too long, or leaves a parenthesis open.
pub(crate) static LINE_UNREAD: Rule = Rule {
    name: "line-unread",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A line that could not be read: it starts with no word, is too long, or leaves a parenthesis open.",
    reason: "Nothing on such a line is checked, computed or ordered.",
    remedy: "Start an entry with its key; close every parenthesis in its line.",
    limits: &[],
    sources: &[],
    breaks: "\
site
  soil         gravel
  «// old well near the fence»
",
    keeps: "\
site
  soil         gravel
  # old well near the fence
",
    mended: None,
    check: Check::Reading,
};

/// A word, mark or number that has no meaning where it stands.
pub(crate) static WORD_STRAY: Rule = Rule {
    name: "word-stray",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A word, mark or number that has no meaning where it stands.",
    reason: "Somebody meant something by it; skipped in silence, it would be lost.",
    remedy: "Take it out, or write it in a form that the entry takes.",
    limits: &[],
    sources: &[],
    breaks: "\
shape court
  rectangle    «about» 6 m by 4 m
",
    keeps: "\
shape court
  rectangle    6 m by 4 m
",
    mended: Some(
        "\
shape court
  rectangle 6 m by 4 m
",
    ),
    check: Check::Reading,
};

/// A comma with nothing after it, or one that is missing before a clause.
pub(crate) static COMMA_STRAY: Rule = Rule {
    name: "comma-stray",
    family: Family::Text,
    severity: Severity::Warning,
    looks_at: "A comma with nothing after it, or one that is missing before a clause.",
    reason: "A comma at a line's end makes the next line part of it, if that one is indented deeper; elsewhere it hides what was meant.",
    remedy: "Take the comma out, or put the missing one in.",
    limits: &[],
    sources: &[],
    breaks: "\
shape court
  rectangle    6 m by 4 m«,»
",
    keeps: "\
shape court
  rectangle    6 m by 4 m
",
    mended: Some(
        "\
shape court
  rectangle    6 m by 4 m
",
    ),
    check: Check::Reading,
};

/// A `#` that touches a digit.
pub(crate) static COMMENT_UNCLEAR: Rule = Rule {
    name: "comment-unclear",
    family: Family::Text,
    severity: Severity::Warning,
    looks_at: "A `#` that touches a digit.",
    reason: "It starts a comment, and what was meant as a stone's number or as pounds is lost with the rest of the line.",
    remedy: "Write `lb` for pounds and `No.` for a number, or put a space after the `#`.",
    limits: &[],
    sources: &[],
    breaks: "\
build sand-set
  base         crushed-stone, 150 mm compacted, beyond 150 mm  «#»57 stone
",
    keeps: "\
build sand-set
  base         crushed-stone, 150 mm compacted, beyond 150 mm  # 57 stone
",
    mended: Some(
        "\
build sand-set
  base         crushed-stone, 150 mm compacted, beyond 150 mm  # 57 stone
",
    ),
    check: Check::Reading,
};

/// A minus that could subtract, make a value negative, or mean a range.
pub(crate) static MINUS_UNCLEAR: Rule = Rule {
    name: "minus-unclear",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A minus that could subtract, make a value negative, or mean a range.",
    reason: "Each reading gives another figure, and a level with the wrong sign floods the house.",
    remedy: "Put a space on both sides to subtract; put it first to make the value negative.",
    limits: &[],
    sources: &[],
    breaks: "\
let depth = 200 mm «-»50 mm

shape court
  rectangle    6 m by 4 m, at (depth, 0 m)
",
    keeps: "\
let depth = 200 mm - 50 mm

shape court
  rectangle    6 m by 4 m, at (depth, 0 m)
",
    mended: Some(
        "\
let depth = 200 mm - 50 mm

shape court
  rectangle    6 m by 4 m, at (depth, 0 m)
",
    ),
    check: Check::Reading,
};

/// A number or date that can be read in two ways, or is too large.
pub(crate) static NUMBER_UNCLEAR: Rule = Rule {
    name: "number-unclear",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A number or date that can be read in two ways, or is too large.",
    reason: "1,5 m is one and a half in one country and two numbers in the next; 4/12 is a day in April or in December.",
    remedy: "Write it in the form the program reads: a point for decimals, `1:60` for a slope, `2027-04-12` for a date.",
    limits: &[],
    sources: &[],
    breaks: "\
surface court
  fall         «1 in 60» away from north
",
    keeps: "\
surface court
  fall         1:50 away from north
",
    mended: Some(
        "\
surface court
  fall         1:60 away from north
",
    ),
    check: Check::Reading,
};

/// Text whose closing quote is missing.
pub(crate) static TEXT_UNCLOSED: Rule = Rule {
    name: "text-unclosed",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "Text whose closing quote is missing.",
    reason: "It takes in the rest of its line, clauses and all.",
    remedy: "Close it.",
    limits: &[],
    sources: &[],
    breaks: "\
site
  soil         gravel
  datum        «\"hall floor»
",
    keeps: "\
site
  soil         gravel
  datum        \"hall floor\"
",
    mended: Some(
        "\
site
  soil         gravel
  datum        \"hall floor\"
",
    ),
    check: Check::Reading,
};
