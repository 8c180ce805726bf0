//! `output-odd`: a rate that nobody keeps up, or that is a slip.

use crate::findings::Severity;
use crate::model::{Built, TaskRate};
use crate::quantities::{DigFigures, LayerFigures, SurfaceFigures};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::{Role, Sharing, Task};

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
        let (rows, usual) = match rate.task {
            Task::Digging => (["digging-fast", "digging-slow"], Dimension::VOLUME),
            Task::Compacting => (["compacting-fast", "compacting-slow"], Dimension::MASS),
            Task::Laying => (["laying-fast", "laying-slow"], Dimension::AREA),
            Task::Jointing => (["jointing-fast", "jointing-slow"], Dimension::AREA),
            _ => continue,
        };
        let Some(times) = times(context, rate, usual) else {
            continue;
        };
        for row in rows {
            odd(context, rate, (row, times, usual), found);
        }
    }
}

/// How much of a job there is in the usual measure for each unit of that by
/// which a rate goes: of the dig or the base of all that it is for.
fn times(context: &Context<'_>, rate: &TaskRate, usual: Dimension) -> Option<f64> {
    if rate.measures == usual {
        return Some(1.0);
    }
    let is_meant = |own: &&std::sync::Arc<SurfaceFigures>| {
        let is_it = |of: &Built| *of == Built::Surface(own.name.clone());
        rate.of.as_ref().is_none_or(is_it)
    };
    let surfaces = context.figures.surfaces.iter().filter(is_meant);
    let amounts = surfaces.flat_map(|own| match rate.task {
        Task::Digging => own.dig.iter().map(of_dig).collect(),
        Task::Compacting => own.layers.iter().filter_map(of_base).collect(),
        _ => Vec::new(),
    });
    let sum =
        |(area, volume, mass): Amounts, own: Amounts| (area + own.0, volume + own.1, mass + own.2);
    let (area, volume, mass) = amounts.reduce(sum)?;
    let of = |dimension| match dimension {
        Dimension::AREA => area,
        Dimension::VOLUME => volume,
        Dimension::MASS => mass,
        _ => 0.0,
    };
    let (own, usual) = (of(rate.measures), of(usual));
    (own > 0.0 && usual > 0.0).then(|| usual / own)
}

/// Area, volume and mass of what is worked.
type Amounts = (f64, f64, f64);

const fn of_dig(dig: &DigFigures) -> Amounts {
    (dig.area_m2, dig.bank_m3, 0.0)
}

fn of_base(layer: &LayerFigures) -> Option<Amounts> {
    let is_base = matches!(layer.role, Role::Base | Role::Subbase) && !layer.is_existing;
    is_base.then_some((layer.area_m2?, layer.volume_m3?, layer.mass_kg?))
}

fn odd(
    context: &Context<'_>,
    rate: &TaskRate,
    (row, times, usual): (&str, f64, Dimension),
    found: &mut Found,
) {
    let done = rate.done * times;
    let each = match rate.sharing {
        Sharing::Each => done,
        Sharing::Together => done / f64::from(rate.hands.value),
    };
    let limit = context.limit(&OUTPUT_ODD, row);
    let Some(limit) = limit.filter(|limit| !limit.allows_si(each)) else {
        return;
    };
    let measures = Dimension { time: -1, ..usual };
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
