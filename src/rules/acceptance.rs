//! The rules about acceptances and standards. They are found by `accepted`
//! and `check_standard`, which hear what the other rules found.

use super::{Check, Family, Rule};
use crate::findings::Severity;
use crate::sources::Source;

pub(crate) static RULES: &[&Rule] = &[
    &ACCEPT_REASONLESS,
    &ACCEPT_EXPIRED,
    &ACCEPT_IDLE,
    &ACCEPT_WIDE,
    &ACCEPT_FIRM,
    &LIMIT_UNKNOWN,
];

/// What the language itself lays down.
const LANGUAGE: &[Source] = &[Source::computed("the specification language")];

pub(crate) static ACCEPT_REASONLESS: Rule = Rule {
    name: "accept-reasonless",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "An acceptance without a reason, and a standard that eases or switches off a rule without one.",
    reason: "Without its reason nobody can tell later whether the acceptance still holds.",
    remedy: "Add because and the reason in quotes; until then nothing is accepted.",
    limits: &[],
    sources: LANGUAGE,
    breaks: "«accept fall-flat»\n",
    keeps: "\
site
  accept       datum-missing, because \"the drawing gives it\"
  # no datum
",
    mended: None,
    check: Check::Reading,
};

pub(crate) static ACCEPT_EXPIRED: Rule = Rule {
    name: "accept-expired",
    family: Family::Text,
    severity: Severity::Warning,
    looks_at: "An acceptance whose last day has gone by, or comes within 30 days.",
    reason: "It was accepted for a time only; after that someone has to look at it again.",
    remedy: "Put the finding right, or look again and give a new day.",
    limits: &[],
    sources: LANGUAGE,
    breaks: "\
site
  «accept       datum-missing, because \"the drawing gives it\", until 2020-06-30»
  # no datum
",
    keeps: "\
site
  accept       datum-missing, because \"the drawing gives it\"
  # no datum
",
    mended: None,
    check: Check::Reading,
};

pub(crate) static ACCEPT_IDLE: Rule = Rule {
    name: "accept-idle",
    family: Family::Text,
    severity: Severity::Advisory,
    looks_at: "An acceptance that takes no finding.",
    reason: "What was accepted has been fixed, was never there, or comes from another section; left standing, the line would hide the next one.",
    remedy: "Remove it; or move it to the section that the finding comes from.",
    limits: &[],
    sources: LANGUAGE,
    breaks: "«accept fall-flat, because \"the lawn is lower\"»\n",
    keeps: "\
site
  accept       datum-missing, because \"the drawing gives it\"
  # no datum
",
    mended: Some("\n"),
    check: Check::Reading,
};

pub(crate) static ACCEPT_WIDE: Rule = Rule {
    name: "accept-wide",
    family: Family::Text,
    severity: Severity::Advisory,
    looks_at: "An acceptance at the margin that takes findings in more than one section.",
    reason: "It was most likely written for one of them; the others go unseen.",
    remedy: "Write it into each section that it is meant for.",
    limits: &[],
    sources: LANGUAGE,
    breaks: "\
shape walk
  rectangle    3 m by 1 m, at (0 m, 0 m)

surface walk
  shape        walk
  level        -160 mm at north
  fall         1:50 toward south

shape yard
  rectangle    3 m by 1 m, at (8 m, 0 m)

surface yard
  shape        yard
  level        -160 mm at north
  fall         1:50 toward south

«accept outfall-missing, because \"the lawn takes it\"»
",
    keeps: "\
shape walk
  rectangle    3 m by 1 m, at (0 m, 0 m)

surface walk
  shape        walk
  level        -160 mm at north
  fall         1:50 toward south

accept outfall-missing, because \"the lawn takes it\"
",
    mended: None,
    check: Check::Reading,
};

pub(crate) static ACCEPT_FIRM: Rule = Rule {
    name: "accept-firm",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "An acceptance, an ease, an off or a more lenient limit of a rule that a standard holds firm.",
    reason: "The practice has decided that this rule is kept in every job.",
    remedy: "Put the finding right and remove the line, or have the standard changed.",
    limits: &[],
    sources: LANGUAGE,
    breaks: "\
standard \"House rules\"
  firm         fall-flat
  off          «fall-flat», because \"our gardens drain well\"
",
    keeps: "\
standard \"House rules\"
  firm         fall-flat
  off          fall-steep, because \"our terraces are for play\"
",
    mended: None,
    check: Check::Reading,
};

pub(crate) static LIMIT_UNKNOWN: Rule = Rule {
    name: "limit-unknown",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A rule, row or limit that a standard or an acceptance names and that does not exist, or that measures something else.",
    reason: "The line sets nothing, while it reads as if it did.",
    remedy: "Write the name of the rule or row as it is listed, and the limit in its own kind of unit.",
    limits: &[],
    sources: LANGUAGE,
    breaks: "\
standard \"House rules\"
  limit        «fall-flt» 1:60
",
    keeps: "\
standard \"House rules\"
  limit        fall-flat 1:60
",
    mended: Some(
        "\
standard \"House rules\"
  limit        fall-flat 1:60
",
    ),
    check: Check::Reading,
};
