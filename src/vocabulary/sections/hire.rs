//! The `hire` section: a machine or a tool that is hired for the job.

use super::{SectionKind, clause, once, usual};

pub(crate) static HIRE: SectionKind = SectionKind {
    word: "hire",
    heading: "NAME:name",
    clauses: &[],
    defines: None,
    keys: &[
        once(
            "for",
            "TASK:task { and TASK:task }",
            "The work that it is hired for.",
            "for compacting",
        ),
        once(
            "kept",
            "TIME:stay",
            "How long it is kept, in calendar days, each day begun a whole one.",
            "kept 3 days, from 2027-05-07",
        ).usual(&[usual::between("TIME", 3600.0, 400.0 * 86400.0)])
        .repeats()
        .clauses(&[clause(
            "from DATE:date",
            "The first day; only with it can a price for a weekend count.",
        )]),
        once(
            "price",
            "PRICE:price [ per PERIOD:word ]",
            "What it costs for a day, a week or a weekend, or for several days as in $100/(3 days); the cheapest mix is taken.",
            "price $65/day, $180/week, $95/weekend",
        ).usual(&[usual::price("PRICE")])
        .required()
        .clauses(&[clause(
            "PRICE:price [ per PERIOD:word ]",
            "The price for another period, as in $260/(14 days).",
        )
        .repeats()]),
        once(
            "delivery",
            "PRICE:price",
            "What it costs to bring it and to fetch it back, each time.",
            "delivery $40",
        ).usual(&[usual::price("PRICE")]),
        once(
            "minimum",
            "LEAST:stay",
            "The least that is paid for each time it is brought.",
            "minimum 2 days",
        ).usual(&[usual::between("LEAST", 3600.0, 100.0 * 86400.0)]),
        once(
            "note",
            "NOTE:text",
            "A note about it.",
            "note \"needs a trailer\"",
        )
        .repeats(),
        super::ACCEPT_ENTRY,
    ],
    help: "A machine or a tool that is hired, and what that costs.",
    example: "hire plate-compactor\n  for          compacting\n  kept         3 days\n  price        $65/day, $180/week\n",
};
