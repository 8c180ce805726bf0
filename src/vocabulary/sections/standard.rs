//! `accept` and `standard`: findings that a designer accepts, and a practice's
//! own limits.

use super::{Clause, SectionKind, clause, once, usual};

/// What is accepted: a rule, perhaps as far as a figure.
pub(crate) const ACCEPTED: &str = "RULE:rule [ FIGURE:quantity ]";

/// Why, by whom and until when.
pub(crate) const ACCEPT_CLAUSES: &[Clause] = &[
    clause("because REASON:text", "Why it is accepted."),
    clause("by NAME:text", "Who accepts it."),
    clause("until DATE:date", "The last day it holds."),
];

const BECAUSE: Clause = clause("because REASON:text", "Why.");

pub(crate) static ACCEPT: SectionKind = SectionKind {
    word: "accept",
    heading: ACCEPTED,
    clauses: ACCEPT_CLAUSES,
    defines: None,
    keys: &[],
    help: "Accepts a finding anywhere in this file. A reason is required.",
    example: "accept weeps-missing, because \"the bed drains to the channel\"",
};

pub(crate) static STANDARD: SectionKind = SectionKind {
    word: "standard",
    heading: "TITLE:text",
    clauses: &[],
    defines: None,
    keys: &[
        once(
            "like",
            "PATH:text",
            "Starts from another standard.",
            "like \"../standard.patio\"",
        )
        .repeats(),
        once(
            "limit",
            "RULE:rule [ ROW:word ] VALUE:quantity",
            "Sets a limit of a rule; without a row, the plain one, and a least for every row that allows less.",
            "limit fall-flat 2 %",
        ).usual(&[usual::open("VALUE", "the rule whose limit it is says what it may be")])
        .repeats()
        .clauses(&[clause("region REGION:region", "Only in this region.")]),
        once(
            "raise",
            "RULE:rule to SEVERITY:severity",
            "Makes a rule matter more.",
            "raise fabric-missing to warning",
        )
        .repeats(),
        once(
            "ease",
            "RULE:rule to SEVERITY:severity",
            "Makes a rule matter less, with a reason.",
            "ease waste-odd to advisory, because \"we measure on site\"",
        )
        .repeats()
        .clauses(&[BECAUSE]),
        once(
            "off",
            "RULE:rule",
            "Switches a rule off, with a reason.",
            "off care-services, because \"our site form covers it\"",
        )
        .repeats()
        .clauses(&[BECAUSE]),
        once(
            "firm",
            "RULE:rule",
            "A rule that may not be accepted, eased or switched off further in.",
            "firm level-high",
        )
        .repeats(),
        once(
            "note",
            "NOTE:text",
            "A note about the standard.",
            "note \"reviewed each winter\"",
        )
        .repeats(),
    ],
    help: "A practice's own limits, for every spec in its folder and below.",
    example: "standard \"House rules\"\n  limit        fall-flat 2 %\n",
};
