//! `output-odd`: a rate that nobody keeps up, or that is a slip.

use crate::findings::Severity;
use crate::model::TaskRate;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::{Sharing, Task};

const fn row(
    row: &'static str,
    of: &'static str,
    bound: Bound,
    written: &'static [&'static str],
) -> Limit {
    Limit {
        row,
        of,
        bound,
        general: Value {
            written,
            source: Source::COMMON_PRACTICE,
        },
        regions: &[],
    }
}

/// A rate that nobody keeps up, or that is a slip.
pub(crate) static OUTPUT_ODD: Rule = Rule {
    name: "output-odd",
    family: Family::Work,
    severity: Severity::Advisory,
    looks_at: "The rates that are stated, for each who works, beside what is usual by hand; not of digging where a machine is hired for it.",
    reason: "A rate in another unit, or one of the whole crew, throws the schedule out by as much.",
    remedy: "See whether it is by hour or by day, by each or together, and in which unit; accept it if it is right.",
    limits: &[
        row(
            "digging-fast",
            "digging by hand",
            Bound::Most,
            &["1.2 m3/h", "1.6 cu yd/h"],
        ),
        row(
            "digging-slow",
            "digging by hand",
            Bound::Least,
            &["0.1 m3/h", "0.13 cu yd/h"],
        ),
        row(
            "compacting-fast",
            "base spread and compacted",
            Bound::Most,
            &["4 t/h", "4.4 ton/h"],
        ),
        row(
            "compacting-slow",
            "base spread and compacted",
            Bound::Least,
            &["0.3 t/h", "0.33 ton/h"],
        ),
        row(
            "laying-fast",
            "paving laid by hand",
            Bound::Most,
            &["7 m2/h", "75 sq ft/h"],
        ),
        row(
            "laying-slow",
            "paving laid by hand",
            Bound::Least,
            &["0.2 m2/h", "2.2 sq ft/h"],
        ),
        row(
            "jointing-fast",
            "joints filled by hand",
            Bound::Most,
            &["60 m2/h", "650 sq ft/h"],
        ),
        row(
            "jointing-slow",
            "joints filled by hand",
            Bound::Least,
            &["1 m2/h", "11 sq ft/h"],
        ),
    ],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "work
  rate         laying «40 m2 per h»
",
    keeps: "work
  rate         laying 2 m2 per h
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for rate in context.job.work.iter().flat_map(|work| &work.rates) {
        // What a machine does is not measured by what hands do.
        let mut hired = context.job.hires.iter().flat_map(|hire| &hire.tasks);
        if rate.task == Task::Digging && hired.any(|task| task.value == Task::Digging) {
            continue;
        }
        let rows = match (rate.task, rate.measures) {
            (Task::Digging, Dimension::VOLUME) => ["digging-fast", "digging-slow"],
            (Task::Compacting, Dimension::MASS) => ["compacting-fast", "compacting-slow"],
            (Task::Laying, Dimension::AREA) => ["laying-fast", "laying-slow"],
            (Task::Jointing, Dimension::AREA) => ["jointing-fast", "jointing-slow"],
            _ => continue,
        };
        for row in rows {
            odd(context, rate, row, found);
        }
    }
}

fn odd(context: &Context<'_>, rate: &TaskRate, row: &str, found: &mut Found) {
    let each = match rate.sharing {
        Sharing::Each => rate.done,
        Sharing::Together => rate.done / f64::from(rate.hands.value),
    };
    let limit = context.limit(&OUTPUT_ODD, row);
    let Some(limit) = limit.filter(|limit| !limit.allows_si(each)) else {
        return;
    };
    let measures = Dimension {
        time: -1,
        ..rate.measures
    };
    let own = Quantity::near(each, measures);
    let shown = limit.beside_si(each, context.system());
    let (most, how) = match limit.bound {
        Bound::Most => ("most", "fast"),
        Bound::Least => ("least", "slow"),
    };
    let message = format!(
        "{shown} each is {how} for {}; {} is about the {most}. Is it right?",
        rate.task.word(),
        limit.shown(context.system())
    );
    found.add(
        OUTPUT_ODD
            .finding(rate.place, message)
            .found(shown, own)
            .against(&limit, context),
    );
}
