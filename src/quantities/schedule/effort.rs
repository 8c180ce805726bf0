//! How many hours a task takes, and how long that is with the hands at it.

use std::ops::{Div, Mul};

use super::super::measures::{Count, Measure, Measured};
use super::super::trace::Trace;
use super::calendar::{Calendar, Minutes};
use super::network::Span;
use super::rates::LOCATING_H;
use super::tasks::{Amounts, Planned, Source, Usual};
use super::waits;
use super::work_on::WorkOn;
use crate::findings::Place;
use crate::model::{Job, Length, Origin, Pause, TaskRate, Work};
use crate::sources;
use crate::units::unit::{
    CUBIC_METRE, CUBIC_YARD, FOOT, METRE, SQUARE_FOOT, SQUARE_METRE, TON, TONNE,
};
use crate::units::{Dimension, System, show};
use crate::vocabulary::{Sharing, Task};

/// Hours, of one person or by the clock.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub(crate) struct Hours(pub f64);

impl Measure for Hours {
    fn shown(self, _: System) -> String {
        shown_hours(self.0)
    }
}

/// Hours as they are shown: `6.3 h`.
pub fn shown_hours(hours: f64) -> String {
    format!("{} h", show::number((hours * 10.0).round() / 10.0))
}

impl std::iter::Sum for Hours {
    fn sum<I: Iterator<Item = Hours>>(hours: I) -> Hours {
        Hours(hours.fold(0.0, |sum, own| sum + own.0))
    }
}

impl Mul<Count> for Hours {
    type Output = Hours;

    fn mul(self, other: Count) -> Hours {
        Hours(self.0 * other.0)
    }
}

impl Div<Count> for Hours {
    type Output = Hours;

    fn div(self, other: Count) -> Hours {
        Hours(self.0 / other.0)
    }
}

/// Hours for so much of a dimension, in base units.
#[derive(Debug, Clone, Copy, PartialEq)]
struct HoursPer(f64, Dimension);

impl Measure for HoursPer {
    fn shown(self, system: System) -> String {
        shown_pace(self.0, self.1, system)
    }
}

/// Hours for so much of a dimension as they are shown: `0.11 h per m`.
pub(crate) fn shown_pace(hours: f64, of: Dimension, system: System) -> String {
    let is_imperial = system == System::Imperial;
    if of == Dimension::NONE {
        return format!("{} h each", show::number((hours * 1e3).round() / 1e3));
    }
    let unit = match (of, is_imperial) {
        (Dimension::AREA, true) => &SQUARE_FOOT,
        (Dimension::AREA, false) => &SQUARE_METRE,
        (Dimension::VOLUME, true) => &CUBIC_YARD,
        (Dimension::VOLUME, false) => &CUBIC_METRE,
        (Dimension::MASS, true) => &TON,
        (Dimension::MASS, false) => &TONNE,
        (_, true) => &FOOT,
        (_, false) => &METRE,
    };
    let hours = hours * unit.size().to_f64();
    let symbol = match unit.symbol {
        "m2" => "m²",
        "m3" => "m³",
        symbol => symbol,
    };
    format!(
        "{} h per {symbol}",
        show::number((hours * 1e3).round() / 1e3)
    )
}

impl Mul<HoursPer> for Measured {
    type Output = Hours;

    fn mul(self, pace: HoursPer) -> Hours {
        Hours(self.value * pace.0)
    }
}

/// What a task takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Effort {
    /// Hours of all who do it together.
    pub hours: f64,
    /// How many do it.
    pub hands: u32,
    /// How long that is.
    pub span: Span,
}

/// Why it is not known what a task takes.
pub(crate) type Unknown = &'static str;

const NO_AMOUNT: Unknown = "how much there is to do is not known";

static LOCATING: sources::Source = sources::Source::COMMON_PRACTICE;

/// What a task takes, by its rate: as stated, else as usual.
pub(crate) fn effort(
    (job, work): (&Job, &Work),
    calendar: &Calendar,
    planned: &Planned,
    trace: &Trace,
) -> Result<Effort, Unknown> {
    match planned.source {
        Source::Other(index) => {
            let other = work.tasks.get(index).ok_or(NO_AMOUNT)?;
            let length = other.length.ok_or("how long it takes is not stated")?;
            let minutes = match length {
                Length::Seconds(seconds) => whole_minutes(seconds / 3_600.0),
                Length::Days(days) => whole_minutes(days * calendar.day_length() as f64 / 60.0),
            };
            let length = trace.stated("by the clock", Hours(minutes as f64 / 60.0), other.place);
            let hands = trace.stated("hands", Count(f64::from(other.hands)), other.place);
            let hours = trace.gives("hours", length * hands);
            Ok(Effort {
                hours: hours.value.0,
                hands: other.hands,
                span: Span::Parted(minutes),
            })
        }
        Source::Built(Task::Curing) => {
            let on = planned.of.ok_or(NO_AMOUNT)?;
            let hours = match stated_curing(job, work, on) {
                Some((hours, place)) => {
                    let wait = trace.stated("wait", Hours(hours), place);
                    Some(trace.gives("curing", wait).value.0)
                }
                None => waits::curing_of(job, on)
                    .ok_or(NO_AMOUNT)?
                    .hours_at(air_k(work), trace),
            };
            let hours = hours.ok_or("concrete does not set in frost")?;
            Ok(Effort {
                hours: 0.0,
                hands: 0,
                span: Span::ByTheClock(quarters(hours)),
            })
        }
        Source::Built(Task::Locating) => {
            let origin = Origin::Default {
                what: "time to locate services",
                source: &LOCATING,
            };
            let hours = trace.input("hours", Hours(LOCATING_H), Some(origin));
            let hours = trace.gives("hours", hours);
            Ok(Effort {
                hours: hours.value.0,
                hands: 1,
                span: Span::Parted(whole_minutes(LOCATING_H)),
            })
        }
        Source::Built(task) => {
            let most = planned
                .usual
                .iter()
                .map(|(usual, _)| usual.most_hands)
                .min();
            let (hours, hands) = match (planned.rate(job, work), most) {
                (Some(rate), _) => (by_rate(rate, &planned.amounts, trace)?, rate.hands.value),
                (None, Some(most)) => {
                    let hands = crew(work).min(most).max(1);
                    (by_usual(&planned.usual, trace)?, hands)
                }
                (None, None) => return Err("no rate is stated, and none is usual"),
            };
            let hours = trace.term("hours", Hours(hours));
            let count = trace.term("hands", Count(f64::from(hands)));
            let length = trace.gives("by the clock", hours / count);
            let minutes = quarters(length.value.0);
            let span = match task {
                Task::Pouring => Span::Whole(minutes),
                _ => Span::Parted(minutes),
            };
            Ok(Effort {
                hours: hours.value.0,
                hands,
                span,
            })
        }
    }
}

/// The longest wait that is stated after a pour, in hours: that is how long
/// the slab or core cures.
pub(crate) fn stated_curing(job: &Job, work: &Work, on: WorkOn) -> Option<(f64, Place)> {
    let is_own = |named| on.is(job, named);
    let after = work
        .waits
        .iter()
        .filter(|wait| wait.from == Task::Pouring && wait.of.as_ref().is_none_or(is_own));
    let stated = after.map(|wait| match wait.pause {
        Pause::Overnight => (0.0, wait.place),
        Pause::Seconds(seconds) => (seconds / 3_600.0, wait.place),
    });
    stated.max_by(|one, other| one.0.total_cmp(&other.0))
}

/// How many work on the job: one where it is not stated.
pub(crate) fn crew(work: &Work) -> u32 {
    work.crew.as_ref().map_or(1, |crew| crew.value)
}

/// The temperature of the air in kelvin: as stated, else 20 °C.
pub fn air_k(work: &Work) -> f64 {
    let stated = work.temperature.as_ref();
    stated.map_or(waits::USUAL_K, |air| air.value.si())
}

/// Hours in whole minutes, each begun a whole one; what is past all reason
/// lies beyond the horizon of every calendar.
fn whole_minutes(hours: f64) -> Minutes {
    // What is a hair over a minute is that minute.
    (hours * 60.0 - 1e-6).ceil().clamp(0.0, 1e8) as Minutes
}

/// Hours in whole quarters of an hour, each begun a whole one, as work is
/// planned.
pub(super) fn quarters(hours: f64) -> Minutes {
    let minutes = whole_minutes(hours);
    (minutes + 14) / 15 * 15
}

/// The hours of all together by a stated rate.
fn by_rate(rate: &TaskRate, amounts: &Amounts, trace: &Trace) -> Result<f64, Unknown> {
    let amount = amounts.of(rate.measures).ok_or(NO_AMOUNT)?;
    let amount = trace.term(
        "amount",
        Measured {
            value: amount,
            dimension: rate.measures,
        },
    );
    let hours = HoursPer(1.0 / (rate.done * 3_600.0), rate.measures);
    let hands = Count(f64::from(rate.hands.value));
    let hours = match rate.sharing {
        Sharing::Each => {
            let pace = trace.stated("time of each", hours, rate.place);
            amount * pace
        }
        Sharing::Together => {
            let pace = trace.stated("time of all together", hours, rate.place);
            let hands = trace.stated("hands", hands, rate.hands.place);
            amount * pace * hands
        }
    };
    Ok(trace.gives("hours", hours).value.0)
}

/// The hours of all together as they usually go, part by part; what there is
/// nothing of takes no time.
fn by_usual(usual: &[Usual], trace: &Trace) -> Result<f64, Unknown> {
    let mut parts = Vec::new();
    let is_alone = usual.len() == 1;
    for (usual, amounts) in usual {
        for pace in usual.paces {
            let amount = amounts.of(pace.measures).ok_or(NO_AMOUNT)?;
            let part = match pace.part {
                "" if !is_alone => usual.of,
                part => part,
            };
            let called = |what: &str| match part {
                "" => what.to_owned(),
                part => format!("{what} for {part}"),
            };
            let amount = trace.term(
                called("amount"),
                Measured {
                    value: amount,
                    dimension: pace.measures,
                },
            );
            let origin = Origin::Default {
                what: usual.of,
                source: &pace.source,
            };
            let own = HoursPer(pace.hours, pace.measures);
            let own = trace.input(called("time"), own, Some(origin));
            parts.push(trace.gives(called("hours"), amount * own).value);
        }
    }
    let one = "the hours of the one part";
    Ok(trace.sum("hours", one, parts.into_iter()).value.0)
}
