//! `cut-idle`: a cut or an add that changes nothing.

use crate::findings::Severity;
use crate::rules::{Check, Family, Rule};
use crate::sources::Source;

/// A cut that touches nothing, or an add that lies wholly inside.
pub static CUT_IDLE: Rule = Rule {
    name: "cut-idle",
    family: Family::Edges,
    severity: Severity::Advice,
    looks_at: "A shape that is cut out and touches nothing of the other, or is added and lies wholly inside it.",
    reason: "It was meant to change the outline; most likely it stands in the wrong place.",
    remedy: "Move it to where it belongs, or take the line out.",
    limits: &[],
    sources: &[Source::computed("the outlines of the spec itself")],
    breaks: "\
shape tree-pit
  rectangle    1 m by 1 m, at (8 m, 1 m)

shape court
  rectangle    6 m by 4 m
  «cut          tree-pit»
",
    keeps: "\
shape tree-pit
  rectangle    1 m by 1 m, at (3 m, 1 m)

shape court
  rectangle    6 m by 4 m
  cut          tree-pit
",
    mended: None,
    check: Check::Reading,
};
