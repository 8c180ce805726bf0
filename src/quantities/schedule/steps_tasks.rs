//! The tasks of a flight of steps: its dig, its base lift by lift, its core,
//! and the building of treads and risers.

use super::super::steps::StepsFigures;
use super::rates::{self, UsualRate};
use super::tasks::{Amounts, Chain, MOST_LIFTS, Planned, Plans, Usual, digging_rate};
use super::work_on::WorkOn;
use crate::materials::Kind;
use crate::model::{Steps, Substance};
use crate::quantities::StepsPart;
use crate::vocabulary::Task;

/// Plans the tasks of the flights.
pub(crate) fn plan(plans: &mut Plans<'_>) {
    let job = plans.job;
    let steps = job.steps.iter().zip(plans.figures.steps.iter());
    for (index, (steps, figures)) in steps.enumerate() {
        one(plans, index, steps, figures);
    }
}

fn one(plans: &mut Plans<'_>, index: usize, steps: &Steps, figures: &StepsFigures) {
    let begins = plans.all.len();
    let mut chain = Chain::of(
        &mut plans.all,
        &plans.located,
        WorkOn::Steps(index),
        &steps.name.value,
    );
    if let Some(base) = &figures.base {
        dig(&mut chain, steps, figures, digging_rate(plans.job));
        lifts(&mut chain, steps, base);
    }
    if let (Some(core), Some(part)) = (&steps.core, &figures.core) {
        self::core(&mut chain, &core.of.value, figures, part);
    }
    let stands = chain.all.len();
    building(&mut chain, steps, figures);
    let ends = plans.all.len();
    for (surface, _) in &figures.stands_on {
        let marks = plans.marks(*surface);
        if ends > begins {
            plans.lets_follow(marks.dug, Some(begins));
        }
        // What is paved beside a core does not load it: its curing is no matter.
        let last = (begins..stands).rev();
        let mut worked = last.filter(|index| {
            let task = plans.all.get(*index).and_then(Planned::task);
            task != Some(Task::Curing)
        });
        let last = worked.next();
        plans.lets_follow(last, marks.paved);
    }
}

fn dig(
    chain: &mut Chain<'_>,
    steps: &Steps,
    figures: &StepsFigures,
    usual: Option<&'static UsualRate>,
) {
    let dig = figures.dig.as_ref();
    let of = |volume_m3| Amounts {
        volume_m3,
        area_m2: dig.map(|dig| dig.area_m2),
        ..Amounts::default()
    };
    let (bank, loose) = (dig.map(|dig| dig.bank_m3), dig.and_then(|dig| dig.loose_m3));
    let place = steps.place;
    if bank.is_none_or(|bank| bank > 0.0) {
        chain.add("", Task::Digging, place, of(bank), usual);
        chain.add("", Task::Carting, place, of(loose), Some(&rates::CARTING));
    }
    if let Some(fill) = dig.map(|dig| dig.fill_m3).filter(|fill| *fill > 0.0) {
        let usual = Some(&rates::BACKFILLING);
        chain.add("", Task::Backfilling, place, of(Some(fill)), usual);
    }
}

fn lifts(chain: &mut Chain<'_>, steps: &Steps, part: &StepsPart) {
    let lifts = steps
        .base
        .as_ref()
        .and_then(|base| base.layer.lifts.as_ref());
    let lifts = lifts.map_or(1.0, |lifts| lifts.value.si());
    chain.lifts(
        "base",
        lifts.clamp(1.0, MOST_LIFTS) as u32,
        part.place,
        of_part(part),
    );
}

/// A core of concrete is formed, poured and cured; one of loose stone is
/// compacted; one of blocks or stone is built with the steps.
fn core(chain: &mut Chain<'_>, of: &Substance, figures: &StepsFigures, part: &StepsPart) {
    let (place, flight) = (part.place, figures.flight.as_ref());
    if is_concrete(of) {
        // A board before each riser, and one down each side.
        let forms =
            flight.map(|flight| f64::from(flight.risers) * flight.width_m + 2.0 * flight.run_m);
        let forms = Amounts::of_length(forms);
        chain.add("", Task::Forming, place, forms, Some(&rates::FORMING));
        let poured = Amounts {
            area_m2: flight.map(|flight| flight.plan_m2),
            ..of_part(part)
        };
        let usual = match of.kind() {
            Some(Kind::Concrete) => &rates::POURING,
            _ => &rates::POURING_MIXED,
        };
        chain.add("", Task::Pouring, place, poured, Some(usual));
        chain.add("", Task::Curing, place, Amounts::default(), None);
    } else if of.kind().is_some_and(Kind::is_aggregate) {
        let usual = Some(&rates::COMPACTING);
        chain.add(", core", Task::Compacting, place, of_part(part), usual);
    }
}

/// Whether a core is poured.
pub(crate) fn is_concrete(of: &Substance) -> bool {
    of.mix().is_some() || of.kind().is_some_and(Kind::is_concrete)
}

/// The treads laid, the risers faced, and what of the core is built with them.
fn building(chain: &mut Chain<'_>, steps: &Steps, figures: &StepsFigures) {
    let mut usual: Vec<Usual> = Vec::new();
    if let (Some(tread), Some(part)) = (&steps.tread, &figures.treads) {
        let kind = tread.of.value.kind();
        let is_small = kind.is_some_and(|kind| kind.is_paver() || kind == Kind::Sett);
        let rate = match is_small {
            true => &rates::IN_MORTAR,
            false => &rates::FLAGS_IN_MORTAR,
        };
        usual.push((rate, of_part(part)));
    }
    if let Some(part) = &figures.facing {
        usual.push((&rates::FACING, of_part(part)));
    }
    let core = steps.core.as_ref().map(|core| &core.of.value);
    let is_built =
        core.is_some_and(|of| !is_concrete(of) && !of.kind().is_some_and(Kind::is_aggregate));
    if let Some(part) = figures.core.as_ref().filter(|_| is_built) {
        usual.push((&rates::RUBBLE, of_part(part)));
    }
    if usual.is_empty() {
        return;
    }
    let flight = figures.flight.as_ref();
    let amounts = Amounts {
        length_m: flight.map(|flight| f64::from(flight.risers) * flight.width_m),
        area_m2: figures.treads.as_ref().and_then(|part| part.area_m2),
        ..Amounts::default()
    };
    chain.add_usual("", Task::Building, steps.place, amounts, usual);
}

fn of_part(part: &StepsPart) -> Amounts {
    Amounts {
        area_m2: part.area_m2,
        volume_m3: part.volume_m3,
        mass_kg: part.mass_kg,
        ..Amounts::default()
    }
}
