//! The tasks of a drain: its trench or pit dug, what lies in it laid, and the
//! ground filled in over it again.

use std::sync::Arc;

use super::super::drains::{DrainFigures, lies_beside, lies_under};
use super::rates;
use super::tasks::{Amounts, Chain, Plans, Usual, digging_rate};
use super::waits::is_loose;
use super::work_on::WorkOn;
use crate::materials::Kind;
use crate::model::{Drain, DrainBody, DrainKind};
use crate::vocabulary::Task;

/// Plans the tasks of the drains that are not there already.
pub(crate) fn plan(plans: &mut Plans<'_>) {
    let job = plans.job;
    let drains = job.drains.iter().zip(plans.figures.drains.iter());
    let mut laid = vec![None; job.drains.len()];
    for (index, (drain, figures)) in drains.enumerate() {
        if let (None, Some(body), Some(place)) = (drain.existing, &drain.body, laid.get_mut(index))
        {
            *place = Some(one(plans, index, (drain, &body.value), figures));
        }
    }
    // A gully stands on the pipe that leads from it.
    let gully = |drain: &(usize, &Arc<Drain>)| drain.1.kind() == Some(DrainKind::Gully);
    for (index, _) in job.drains.iter().enumerate().filter(gully) {
        let of = |index: usize| laid.get(index).copied().flatten();
        plans.lets_follow(job.drains.next(index).and_then(of), of(index));
    }
}

/// Plans the tasks of one; gives the place of that by which it is laid.
fn one(
    plans: &mut Plans<'_>,
    index: usize,
    (drain, body): (&Drain, &DrainBody),
    figures: &DrainFigures,
) -> usize {
    let (job, on) = (plans.job, WorkOn::Drain(index));
    let under = lies_under(job, drain);
    let begins = plans.all.len();
    let mut chain = Chain::of(&mut plans.all, &plans.located, on, &drain.name.value);
    let place = drain.place;
    let filled_in = figures.dig.map(|dig| dig.filled_in_m3);
    if figures.is_dug() {
        let dig = figures.dig.as_ref();
        let bank = dig.map(|dig| dig.bank_m3);
        if bank.is_none_or(|bank| bank > 0.0) {
            let dug = Amounts {
                volume_m3: bank,
                area_m2: dig.and_then(|dig| Some(dig.width_m? * figures.length_m?)),
                ..Amounts::default()
            };
            chain.add("", Task::Digging, place, dug, digging_rate(job));
            let carted = Amounts::of_volume(dig.and_then(|dig| dig.loose_m3));
            chain.add("", Task::Carting, place, carted, Some(&rates::CARTING));
        }
    }
    let (amounts, usual) = laid(body, drain, figures);
    let laid = chain.add_usual("", Task::Draining, place, amounts, usual);
    let bedded = drain.bedded.as_ref().map(|bedded| &bedded.of.value);
    if bedded.is_some_and(|of| !is_loose(of)) {
        chain.sets();
    }
    if let Some(volume) = filled_in.filter(|volume| *volume > 0.0) {
        let filled = Amounts::of_volume(Some(volume));
        chain.add(
            "",
            Task::Backfilling,
            place,
            filled,
            Some(&rates::BACKFILLING),
        );
    }
    let last = plans.all.len().saturating_sub(1);
    let is_set_with_paving = matches!(drain.kind(), Some(DrainKind::Channel | DrainKind::Gully));
    for surface in under {
        let marks = plans.marks(surface);
        if begins != laid || !is_set_with_paving {
            plans.lets_follow(marks.dug, Some(begins));
        }
        match is_set_with_paving {
            true => {
                plans.lets_follow(marks.based, Some(laid));
                plans.lets_follow(Some(laid), marks.paved);
                plans.lets_follow(Some(laid), marks.laid);
            }
            false => plans.lets_follow(Some(last), marks.base.or(marks.paved)),
        }
    }
    // A dig beside an edge undermines what stands there: it is filled before
    // anything is compacted to it.
    for surface in lies_beside(job, drain) {
        let marks = plans.marks(surface);
        plans.lets_follow(marks.dug, Some(begins));
        plans.lets_follow(Some(last), marks.base.or(marks.paved));
    }
    laid
}

/// What is laid, and how that usually goes: the drain itself, what it is laid
/// in or filled with, and the fabric round it.
fn laid(body: &DrainBody, drain: &Drain, figures: &DrainFigures) -> (Amounts, Vec<Usual>) {
    let length = Amounts::of_length(figures.length_m);
    let one = Amounts {
        count: Some(1.0),
        ..Amounts::default()
    };
    let (amounts, itself) = match body {
        DrainBody::Channel { .. } => (length, Some((&rates::DRAINING, length))),
        DrainBody::Pipe(_) => (length, Some((&rates::PIPING, length))),
        DrainBody::Trench { pipe, .. } => {
            let pipe = pipe.as_ref().map(|_| (&rates::PIPING, length));
            (length, pipe)
        }
        DrainBody::Gully { .. } => (one, Some((&rates::GULLY, one))),
        DrainBody::Soakaway { .. } => (one, None),
    };
    let mut usual: Vec<Usual> = itself.into_iter().collect();
    // A channel's rate has its bed and haunch in it.
    let bedding = figures.bedding.as_ref();
    let bedding = bedding.filter(|_| !matches!(body, DrainBody::Channel { .. }));
    let of = drain.bedded.as_ref().map(|bedded| &bedded.of.value);
    let stuffs = [
        bedding.zip(of),
        figures
            .fill
            .as_ref()
            .zip(drain.filled.as_ref().map(|filled| &filled.of.value)),
    ];
    for (stuff, of) in stuffs.into_iter().flatten() {
        let rate = match of.kind() {
            _ if stuff.is_mix => &rates::CONCRETE_ROUND,
            Some(Kind::Crate) => &rates::CRATES,
            Some(kind) if kind.is_premix() || kind == Kind::Concrete => &rates::CONCRETE_ROUND,
            _ => &rates::STONE_IN_TRENCH,
        };
        usual.push((rate, Amounts::of_volume(stuff.volume_m3)));
    }
    if drain.wrapped.is_some() {
        let fabric = Amounts {
            area_m2: figures.fabric_m2,
            ..Amounts::default()
        };
        usual.push((&rates::LINING, fabric));
    }
    (amounts, usual)
}
