//! The `work` section: who works when, how fast, and what waits for what.

use super::{SectionKind, clause, once, usual};

pub(crate) static WORK: SectionKind = SectionKind {
    word: "work",
    heading: "",
    clauses: &[],
    defines: None,
    keys: &[
        once(
            "start",
            "DATE:date",
            "The first day of work; left out, days are counted as day 1, 2, 3.",
            "start 2027-04-12",
        ),
        once(
            "crew",
            "HANDS:count",
            "How many people work on the job; one if it is left out.",
            "crew 3",
        ).usual(&[usual::between("HANDS", 1.0, 100.0)]),
        once(
            "day",
            "FROM:clock to UNTIL:clock",
            "The hours of a working day, and the days of the week.",
            "day 8:00 to 16:30, break 30 min, monday to friday",
        ).usual(&[usual::between("LENGTH", 60.0, 4.0 * 3600.0)])
        .clauses(&[
            clause("break LENGTH:time", "How long the break is, in the middle of the day."),
            clause(
                "FIRST:weekday ( to LAST:weekday | { and MORE:weekday } )",
                "The days of the week that are worked; Monday to Friday if left out.",
            ),
        ]),
        once(
            "off",
            "FIRST:date [ to LAST:date ]",
            "Days on which nobody works.",
            "off 2027-05-03 to 2027-05-07",
        )
        .repeats(),
        once(
            "temperature",
            "AIR:temperature",
            "The mean temperature of the air over the work, by which mortar and concrete set; 20 °C if left out.",
            "temperature 8 °C",
        ).twin("temperature 46 °F").usual(&[usual::between("AIR", 233.15, 323.15)]),
        once(
            "rate",
            "TASK:task [ of PART:built ] ( DAYS:days-for | RATE:quantity ) [ HOW:sharing ]",
            "How fast a kind of work is done, everywhere or on one surface, drain or flight of steps: by each of those who do it, or by all of them together; a day in it is a working day, of 8 h if `day` is left out.",
            "rate laying 12 sq ft per h each, crew 2",
        ).twin("rate laying 1.2 m2 per h each, crew 2").usual(&[usual::open("DAYS", "a rate may be of anything"), usual::open("RATE", "a rate may be of anything"), usual::between("HANDS", 1.0, 100.0)])
        .repeats()
        .clauses(&[clause(
            "crew HANDS:count",
            "How many do it; one if left out.",
        )]),
        once(
            "wait",
            "( overnight | TIME:time ) from FROM:task to TO:task [ of PART:built ]",
            "What must pass between two kinds of work on a surface, a drain or steps, by the clock, nights and weekends too.",
            "wait 24 h from laying to jointing",
        ).usual(&[usual::between("TIME", 60.0, 100.0 * 86400.0)])
        .repeats(),
        once(
            "task",
            "WHAT:text",
            "Other work that takes time, with its length by the clock and the hands that it keeps busy.",
            "task \"set the bench\", 4 h, after cleaning of court, crew 1",
        ).usual(&[usual::between("DAYS", 60.0, 400.0 * 86400.0), usual::between("LENGTH", 60.0, 400.0 * 86400.0), usual::between("HANDS", 1.0, 100.0)])
        .repeats()
        .clauses(&[
            clause("DAYS:days", "How many working days it takes."),
            clause("LENGTH:time", "How many hours it takes those who do it, by the clock."),
            clause(
                "after ( WHAT:text | TASK:task [ of PART:built ] )",
                "What must be done before it: another task, or a kind of work, on one surface, drain or flight of steps or on all.",
            )
            .repeats(),
            clause(
                "before ( WHAT:text | TASK:task [ of PART:built ] )",
                "What may begin only when it is done.",
            )
            .repeats(),
            clause("crew HANDS:count", "How many do it; one if left out."),
        ]),
        once(
            "order",
            "FIRST:built then NEXT:built { then NEXT:built }",
            "The order in which surfaces, drains and steps are built: one is laid and jointed before the next is begun.",
            "order court then path",
        )
        .repeats(),
        once(
            "rain-days",
            "DAYS:count",
            "Working days that are kept in hand for rain, after the last task.",
            "rain-days 2",
        ).usual(&[usual::between("DAYS", 1.0, 200.0)]),
        once(
            "note",
            "NOTE:text",
            "A note about the work.",
            "note \"no noise before nine\"",
        )
        .repeats(),
        super::ACCEPT_ENTRY,
    ],
    help: "The work: its days, its hands, its rates and waits; from it comes the schedule.",
    example: "work\n  start        2027-04-12\n  crew         2\n  day          8:00 to 16:30, break 30 min, monday to friday\n",
};
