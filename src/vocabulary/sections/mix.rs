//! `mix`: what is mixed by parts.

use super::{NameSpace, SectionKind, clause, once, usual};

pub(crate) static MIX: SectionKind = SectionKind {
    word: "mix",
    heading: "NAME:name",
    clauses: &[],
    defines: Some(NameSpace::Substances),
    keys: &[
        once(
            "for",
            "USE:mix-use { and USE:mix-use }",
            "What it is used for.",
            "for bed and joint",
        ),
        once(
            "parts",
            "PARTS:parts",
            "Its parts, each with its name.",
            "parts 1 portland-cement : 4 sharp-sand",
        )
        .required()
        .clauses(&[clause(
            "by MEASURE:measure",
            "How the parts are measured; by volume if left out.",
        )]),
        once(
            "by",
            "MEASURE:measure",
            "How the parts are measured; by volume if left out.",
            "by weight",
        ),
        once(
            "type",
            "TYPE:mortar-type",
            "The mortar type that it is meant to be.",
            "type S",
        ),
        once(
            "strength",
            "STRENGTH:strength",
            "The compressive strength that it is made to reach in 28 days.",
            "strength 3500 psi",
        )
        .twin("strength 25 MPa")
        .usual(&[usual::between("STRENGTH", 0.5e6, 150e6)]),
        once(
            "consistency",
            "CONSISTENCY:consistency",
            "How wet it is mixed; plastic if left out.",
            "consistency dry",
        ),
        once(
            "water",
            "RATIO:number",
            "Water to cement by mass, when it is known.",
            "water 0.5",
        )
        .usual(&[usual::between("RATIO", 0.05, 10.0)]),
        once(
            "voids",
            "SHARE:share",
            "The air left in it; by consistency if left out.",
            "voids 5 %",
        )
        .usual(&[usual::between("SHARE", 0.001, 0.5)]),
        once(
            "pot-life",
            "TIME:time",
            "How long it stays workable.",
            "pot-life 90 min",
        )
        .usual(&[usual::between("TIME", 60.0, 7.0 * 86400.0)]),
        once(
            "batch",
            "VOLUME:volume",
            "What is mixed at a time.",
            "batch 2 cu ft, laid in 90 min",
        )
        .twin("batch 60 L, laid in 90 min")
        .usual(&[
            usual::between("VOLUME", 1e-4, 12.0),
            usual::between("TIME", 60.0, 2.0 * 86400.0),
        ])
        .clauses(&[clause(
            "laid in TIME:time",
            "How long it takes to lay one batch.",
        )]),
        once(
            "waste",
            "SHARE:share",
            "What is mixed beyond what lies in place.",
            "waste 10 %",
        )
        .usual(&[usual::WASTE]),
        super::ACCEPT_ENTRY,
    ],
    help: "A mortar or concrete, mixed by parts.",
    example: "mix bed-mix\n  for          bed\n  parts        1 portland-cement : 4 sharp-sand\n  consistency  dry\n",
};
