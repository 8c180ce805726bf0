//! Outlines that enclose nothing that can be told.

use crate::findings::Severity;
use crate::rules::{Check, Family, Rule};

/// An outline that does not come back to its start.
pub(crate) static OUTLINE_OPEN: Rule = Rule {
    name: "outline-open",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "An outline that does not come back to its start.",
    reason: "An open line has no area.",
    remedy: "Close it, or correct the step that is wrong.",
    limits: &[],
    sources: &[],
    breaks: "\
shape court
  start        (0 m, 0 m)
  east         6 m, named north
  south        4 m
  «west         6 m»
  # no rectangle
",
    keeps: "\
shape court
  start        (0 m, 0 m)
  east         6 m, named north
  south        4 m
  west         6 m
  close
  # no rectangle
",
    mended: Some(
        "\
shape court
  start        (0 m, 0 m)
  east         6 m, named north
  south        4 m
  west         6 m
  close
  # no rectangle
",
    ),
    check: Check::Reading,
};

/// An outline that crosses or touches itself.
pub(crate) static OUTLINE_CROSSED: Rule = Rule {
    name: "outline-crossed",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "An outline that crosses or touches itself.",
    reason: "Such a line has no clear inside.",
    remedy: "Correct the step that is wrong.",
    limits: &[],
    sources: &[],
    breaks: "\
shape court
  start        (0 m, 0 m)
  east         6 m, named north
  to           (0 m, -4 m)
  to           (6 m, -4 m)
  «close»
  # no rectangle
",
    keeps: "\
shape court
  start        (0 m, 0 m)
  east         6 m, named north
  to           (6 m, -4 m)
  to           (0 m, -4 m)
  close
  # no rectangle
",
    mended: None,
    check: Check::Reading,
};

/// An outline that encloses nothing, or of which a cut leaves nothing.
pub(crate) static OUTLINE_EMPTY: Rule = Rule {
    name: "outline-empty",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "An outline that encloses nothing, or of which a cut leaves nothing.",
    reason: "There is no surface to build.",
    remedy: "Give the shape an outline, or make the cut smaller.",
    limits: &[],
    sources: &[],
    breaks: "\
shape court
  «cut          all»

shape all
  rectangle    8 m by 8 m
",
    keeps: "\
shape court
  cut          pit

shape pit
  rectangle    1 m by 1 m, at (1 m, 1 m)
",
    mended: None,
    check: Check::Reading,
};

/// An outline that falls into pieces, or whose parts meet only in a point.
pub(crate) static OUTLINE_SPLIT: Rule = Rule {
    name: "outline-split",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "An outline that falls into pieces, or whose parts meet only in a point.",
    reason: "A shape is one piece; of several, nobody can tell which is meant.",
    remedy: "Make each piece a shape of its own.",
    limits: &[],
    sources: &[],
    breaks: "\
shape court
  «cut          strip»

shape strip
  rectangle    1 m by 8 m, at (2 m, -1 m)
",
    keeps: "\
shape court
  cut          strip

shape strip
  rectangle    1 m by 3 m, at (2 m, -1 m)
",
    mended: None,
    check: Check::Reading,
};

/// A closing edge that is out of square, or very short, where every other step is square.
pub(crate) static OUTLINE_ASKEW: Rule = Rule {
    name: "outline-askew",
    family: Family::Text,
    severity: Severity::Advisory,
    looks_at: "A closing edge that is out of square, or very short, where every other step is square.",
    reason: "A step miscounted by an inch shows nowhere else.",
    remedy: "Count the steps again; if the edge is meant, write it with `to`.",
    limits: &[],
    sources: &[],
    breaks: "\
shape court
  start        (0 m, 0 m)
  east         6 m, named north
  south        4 m
  west         5.9 m
  «close»
  # no rectangle
",
    keeps: "\
shape court
  start        (0 m, 0 m)
  east         6 m, named north
  south        4 m
  west         6 m
  close
  # no rectangle
",
    mended: None,
    check: Check::Reading,
};

/// A rounded or cut corner too large for its sides.
pub(crate) static CORNER_LARGE: Rule = Rule {
    name: "corner-large",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A rounded or cut corner too large for its sides.",
    reason: "The corner would begin before its side does.",
    remedy: "Make the corner smaller, or the sides longer.",
    limits: &[],
    sources: &[],
    breaks: "\
shape court
  rectangle    6 m by 4 m, «corners 3 m»
",
    keeps: "\
shape court
  rectangle    6 m by 4 m, corners 2 m
",
    mended: None,
    check: Check::Reading,
};

/// An arc whose radius is shorter than half the line between its ends.
pub(crate) static ARC_SHORT: Rule = Rule {
    name: "arc-short",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "An arc whose radius is shorter than half the line between its ends.",
    reason: "No such arc reaches from one end to the other.",
    remedy: "Make the radius longer.",
    limits: &[],
    sources: &[],
    breaks: "\
shape court
  start        (0 m, 0 m)
  east         6 m, named north
  south        4 m
  curve        to (0 m, -4 m), «radius 2 m»
  close
  # no rectangle
",
    keeps: "\
shape court
  start        (0 m, 0 m)
  east         6 m, named north
  south        4 m
  curve        to (0 m, -4 m), radius 5 m
  close
  # no rectangle
",
    mended: Some(
        "\
shape court
  start        (0 m, 0 m)
  east         6 m, named north
  south        4 m
  curve        to (0 m, -4 m), radius 3 m
  close
  # no rectangle
",
    ),
    check: Check::Reading,
};

/// A cut that touches nothing, or an addition that lies wholly inside.
pub(crate) static CUT_IDLE: Rule = Rule {
    name: "cut-idle",
    family: Family::Edges,
    severity: Severity::Advisory,
    looks_at: "A cut that touches nothing, or an addition that lies wholly inside.",
    reason: "It changes no figure, and so is probably in the wrong place.",
    remedy: "Move it to where it is meant, or take it out.",
    limits: &[],
    sources: &[],
    breaks: "\
shape court
  «cut          pit»

shape pit
  rectangle    1 m by 1 m, at (8 m, 1 m)
",
    keeps: "\
shape court
  cut          pit

shape pit
  rectangle    1 m by 1 m, at (2 m, 1 m)
",
    mended: None,
    check: Check::Reading,
};
