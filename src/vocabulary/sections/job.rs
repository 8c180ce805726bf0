//! `job`: what the spec is for, and how its figures are shown.

use super::{SectionKind, once};

pub(crate) static JOB: SectionKind = SectionKind {
    word: "job",
    heading: "TITLE:text",
    clauses: &[],
    defines: None,
    keys: &[
        once(
            "reference",
            "REFERENCE:text",
            "The practice's own reference for the job.",
            "reference \"TK-2\"",
        ),
        once(
            "units",
            "SYSTEM:system",
            "How figures are shown; lengths may be written in either system anywhere.",
            "units imperial",
        ),
        once(
            "region",
            "REGION:region",
            "Whose limits apply where bodies differ; general if it is left out.",
            "region us",
        ),
        once(
            "currency",
            "CODE:word",
            "The job's currency: USD, AUD, CAD, NZD, GBP or EUR; `$` is the job's dollar.",
            "currency USD",
        ),
        once(
            "date",
            "DATE:date",
            "The date of the spec.",
            "date 2027-04-12",
        ),
        once(
            "prepared-by",
            "NAME:text",
            "Who prepared it.",
            "prepared-by \"site office\"",
        ),
        once(
            "note",
            "NOTE:text",
            "A note that is printed with the sheets.",
            "note \"keep the side gate clear\"",
        )
        .repeats(),
        super::ACCEPT_ENTRY,
    ],
    help: "The job: its title, and how its figures are shown.",
    example: "job \"Court behind the reading room\"\n  units        metric\n  currency     GBP\n",
};
