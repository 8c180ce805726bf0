//! The `budget` section: what the job costs beside what it is built of.

use super::{SectionKind, clause, once, usual};

pub(crate) static BUDGET: SectionKind = SectionKind {
    word: "budget",
    heading: "",
    clauses: &[],
    defines: None,
    keys: &[
        once(
            "labour",
            "RATE:price",
            "What an hour of work costs; left out, the labour is your own and costs nothing.",
            "labour $38/h",
        ).usual(&[usual::between("RATE", 1.0 / 3600.0, 500.0 / 3600.0), usual::between("HOURS", 900.0, 36e6)])
        .clauses(&[clause(
            "HOURS:time",
            "How many hours are worked, all hands together.",
        )]),
        once(
            "disposal",
            "PRICE:price [ per load of LOAD:volume ]",
            "What it costs to get rid of the loose spoil: by volume, or for each load begun.",
            "disposal $28/cu yd",
        ).twin("disposal $34/m3").usual(&[usual::price("PRICE"), usual::between("LOAD", 0.05, 40.0)]),
        once(
            "item",
            "WHAT:text PRICE:price",
            "Something else that is paid for.",
            "item \"skip permit\" $60",
        ).usual(&[usual::price("PRICE")])
        .repeats(),
        once(
            "tax",
            "SHARE:share [ on BASE:taxed { and BASE:taxed } ]",
            "A tax and what it is on; a delivery is taxed with what is delivered, and a tax on everything comes last.",
            "tax 7.5 % on materials and hire",
        ).usual(&[usual::between("SHARE", 0.001, 0.5)])
        .repeats(),
        once(
            "contingency",
            "SHARE:share",
            "What is set aside for what nobody foresees, on the cost with its tax.",
            "contingency 10 %",
        ).usual(&[usual::between("SHARE", 0.001, 0.6)]),
        once(
            "margin",
            "SHARE:share",
            "What the price leaves over the cost, as a share of the price.",
            "margin 18 %",
        ).usual(&[usual::between("SHARE", 0.001, 0.9)]),
        once(
            "markup",
            "SHARE:share",
            "What is added to the cost, as a share of the cost; in place of a margin.",
            "markup 20 %",
        ).usual(&[usual::between("SHARE", 0.001, 3.0)]),
        once(
            "quote",
            "PRICE:price",
            "What somebody asks for the whole job, as it would be paid.",
            "quote $9,800, by \"the contractor\"",
        ).usual(&[usual::price("PRICE")])
        .repeats()
        .clauses(&[clause("by WHO:text", "Who asks it.")]),
        once(
            "note",
            "NOTE:text",
            "A note about the money.",
            "note \"prices of March\"",
        )
        .repeats(),
        super::ACCEPT_ENTRY,
    ],
    help: "The money: labour, disposal, tax, contingency and margin, and a quote to compare with.",
    example: "budget\n  disposal     £34/m3\n  tax          20 % on everything\n  contingency  10 %\n",
};
