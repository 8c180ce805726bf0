//! What comes to each drain: over the edges that it lies along, down the
//! surfaces that it stands in, along gutters, from other drains; or what the
//! spec says that it takes.

use std::sync::Arc;

use super::{Amount, End, Fate, SurfaceWater, Way, weighted};
use crate::geometry::Tag;
use crate::model::{
    Drain, DrainKind, DrainLine, Fiercest, Job, Origin, Sourced, Surface, Taken, Takes,
};
use crate::quantities::drains::{Soaking, soaking};
use crate::quantities::measures::{Area, Flow, Rate, Share};
use crate::quantities::trace::Trace;
use crate::sources::Source;

static NEW_YORK_ROOF: Source = Source::read(
    "New York City Plumbing Code 1114.3.1 (Local Law 77 of 2023)",
    "roof and concrete 0.95",
);

/// What comes to a drain.
#[derive(Debug, Clone, PartialEq)]
pub struct DrainWater {
    /// From where, and how much from each.
    pub inflows: Vec<Inflow>,
    /// Whether the spec states it, in place of what was found.
    pub is_stated: bool,
    /// All of it.
    pub all: Amount,
    /// The flow of it in the fiercest rain, in m³/s.
    pub flow: Option<f64>,
    /// What a soakaway has to hold of it.
    pub soaking: Option<Soaking>,
}

/// Water that comes to a drain from one thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Inflow {
    /// From what.
    pub from: ComesFrom,
    /// How much.
    pub amount: Amount,
}

/// From what water comes to a drain.
#[derive(Debug, Clone, PartialEq)]
pub enum ComesFrom {
    /// Down a surface, by its index, and over an edge of its shape if there is
    /// one.
    Surface(usize, Option<Tag>),
    /// Off the edges of a surface, by its index, that says it leads there.
    Led(usize),
    /// From another drain, by its index.
    Drain(usize),
    /// Off a surface that the spec says it takes, by its index.
    Whole(usize),
    /// Off what the spec names in quotes.
    Named(String),
}

/// What comes to every drain, in the order of [`Job::drains`].
pub(super) fn drained(
    job: &Job,
    surfaces: &[SurfaceWater],
    rate: Option<&Fiercest>,
) -> Vec<DrainWater> {
    let mut all: Vec<DrainWater> = job
        .drains
        .iter()
        .enumerate()
        .map(|(index, drain)| match drain.takes.is_empty() {
            true => found(job, surfaces, index),
            false => stated(job, drain, &Trace::silent()),
        })
        .collect();
    chain(job, &mut all);
    for (own, drain) in all.iter_mut().zip(job.drains.iter()) {
        own.flow = rate.and_then(|rate| flow(own, rate, &Trace::silent()));
        own.soaking = soaking(job, drain, own.all.weighted_m2, &Trace::silent());
    }
    all
}

/// The flow of all that comes to a drain in the fiercest rain, in m³/s: the
/// rational method.
fn flow(own: &DrainWater, rate: &Fiercest, trace: &Trace) -> Option<f64> {
    let weighted = own.all.weighted_m2?;
    let inflows = own.inflows.iter();
    let parts: Option<Vec<Area>> = inflows
        .map(|inflow| inflow.amount.weighted_m2.map(Area))
        .collect();
    let weighted = match parts {
        Some(parts) if parts.len() > 1 => {
            let one = "what comes from each, weighted by runoff";
            trace.sum("all that comes, weighted", one, parts.into_iter())
        }
        _ => trace.term("all that comes, weighted", Area(weighted)),
    };
    let rate = trace.stated("rain", Rate(rate.rate), rate.place);
    let Flow(flow) = trace
        .gives("flow in the fiercest rain", weighted * rate)
        .value;
    Some(flow)
}

/// How what comes to a drain came about.
pub(in crate::quantities) fn traced(job: &Job, drain: &Drain, own: &DrainWater, trace: &Trace) {
    if own.is_stated {
        stated(job, drain, trace);
    } else {
        for inflow in &own.inflows {
            let from = inflow.from.described(job);
            if let Some(area) = inflow.amount.area_m2 {
                trace.found(format!("area, {from}"), Area(area), "what drains to it");
            }
            if let Some(weighted) = inflow.amount.weighted_m2 {
                let how = "each area times the share of the rain that runs off it";
                trace.found(format!("weighted, {from}"), Area(weighted), how);
            }
        }
    }
    if let Some(rate) = job.site.fiercest() {
        flow(own, &rate, trace);
    }
    soaking(job, drain, own.all.weighted_m2, trace);
}

/// What the falls bring to a drain, and what surfaces lead to it by its name.
fn found(job: &Job, surfaces: &[SurfaceWater], drain: usize) -> DrainWater {
    let mut inflows: Vec<Inflow> = Vec::new();
    for (index, water) in surfaces.iter().enumerate() {
        // The water of a border is its surface's.
        let own = job.surfaces.get(index).filter(|own| !own.is_border());
        let Some(own) = own else {
            continue;
        };
        let is_led = job.drain_of(own) == Some(drain);
        let Some(ways) = &water.ways else {
            if is_led {
                add(
                    &mut inflows,
                    ComesFrom::Led(index),
                    onto(job, surfaces, index),
                );
            } else if own.covered.is_none() && touches(job, drain, own) {
                add(
                    &mut inflows,
                    ComesFrom::Surface(index, None),
                    Amount::UNKNOWN,
                );
            }
            continue;
        };
        for way in ways.iter().filter(|way| way.taker() == Some(drain)) {
            add(&mut inflows, ComesFrom::Surface(index, way.edge), way.all);
        }
        if is_led && comes_unseen(job, drain, own) && share_led(job, surfaces, index, drain) <= 0.0
        {
            let off = surfaces.iter().enumerate();
            let off = off.flat_map(|(other, water)| {
                let ways = water.ways.iter().flatten();
                ways.filter(move |way| way.is_off(other, index))
            });
            let off: Amount = off.map(|way| way.all).sum();
            add(&mut inflows, ComesFrom::Led(index), off);
        }
    }
    DrainWater {
        all: inflows.iter().map(|inflow| inflow.amount).sum(),
        inflows,
        is_stated: false,
        flow: None,
        soaking: None,
    }
}

/// What the spec says that a drain takes.
fn stated(job: &Job, drain: &Drain, trace: &Trace) -> DrainWater {
    let mut inflows = Vec::new();
    for takes in &drain.takes {
        for taken in &takes.what {
            match taken {
                Taken::Surface(name) => {
                    let mut all = job.surfaces.iter();
                    let Some(own) = all.find(|own| own.name.value == name.value) else {
                        continue;
                    };
                    let part = part_of(job, &name.value, trace);
                    let amount = Amount {
                        area_m2: own.area_m2().map(|area| area * part),
                        weighted_m2: weighted(own, trace).map(|weighted| weighted * part),
                    };
                    add(&mut inflows, ComesFrom::Whole(own.index), amount);
                }
                Taken::Other(name, area) => {
                    let own = format!("area of {}", name.value);
                    let own = trace.stated(own, Area(area.value.si()), area.place);
                    let share = runoff_of_named(takes);
                    let share = trace.sourced(format!("runoff of {}", name.value), &share, Share);
                    let weighted = format!("{}, weighted", name.value);
                    let amount = Amount {
                        area_m2: Some(area.value.si()),
                        weighted_m2: Some(trace.gives(weighted, own * share).value.0),
                    };
                    add(&mut inflows, ComesFrom::Named(name.value.clone()), amount);
                }
            }
        }
    }
    let all = match drain.is_unread {
        true => Amount::UNKNOWN,
        false => inflows.iter().map(|inflow| inflow.amount).sum(),
    };
    DrainWater {
        inflows,
        is_stated: true,
        all,
        flow: None,
        soaking: None,
    }
}

/// The part that a drain takes of a surface: of one that several are said to
/// take each takes as much.
fn part_of(job: &Job, surface: &str, trace: &Trace) -> f64 {
    let takes = |drain: &&Arc<Drain>| {
        let mut what = drain.takes.iter().flat_map(|takes| &takes.what);
        what.any(|own| matches!(own, Taken::Surface(name) if name.value == surface))
    };
    let drains = job.drains.iter().filter(takes).count();
    if drains < 2 {
        return 1.0;
    }
    let part = 1.0 / drains as f64;
    let how = format!("{surface} is said of {drains} drains, and each takes as much");
    trace.found("part of it", Share(part), how);
    part
}

/// The share of the rain that runs off what a `takes` entry names in quotes:
/// as it says, else what is usual for a roof.
fn runoff_of_named(takes: &Takes) -> Sourced<f64> {
    match &takes.runoff {
        Some(stated) => Sourced {
            value: stated.value.si(),
            origin: Origin::Line(stated.place),
        },
        None => Sourced {
            value: 0.95,
            origin: Origin::Default {
                what: "share of the rain that runs off a roof",
                source: &NEW_YORK_ROOF,
            },
        },
    }
}

fn add(inflows: &mut Vec<Inflow>, from: ComesFrom, amount: Amount) {
    if amount == Amount::NONE {
        return;
    }
    match inflows.iter_mut().find(|known| known.from == from) {
        Some(known) => known.amount = known.amount + amount,
        None => inflows.push(Inflow { from, amount }),
    }
}

/// Hands on what comes to each drain to those that it leads to. What goes
/// round in a circle, and what comes out of one, is not known.
fn chain(job: &Job, all: &mut [DrainWater]) {
    let mut is_known = vec![false; all.len()];
    for own in job.drains.downstream() {
        if let Some(known) = is_known.get_mut(own) {
            *known = true;
        }
        let Some(amount) = all.get(own).map(|own| own.all) else {
            continue;
        };
        let taker = job.drains.next(own).and_then(|next| all.get_mut(next));
        if let Some(taker) = taker.filter(|taker| !taker.is_stated) {
            taker.all = taker.all + amount;
            add(&mut taker.inflows, ComesFrom::Drain(own), amount);
        }
    }
    let circular = all.iter_mut().zip(is_known).filter(|(_, known)| !known);
    for (own, _) in circular.filter(|(own, _)| !own.is_stated) {
        own.all = Amount::UNKNOWN;
    }
    // In the order of the spec, whichever became known first.
    for own in all {
        own.inflows.sort_by_key(|inflow| match inflow.from {
            ComesFrom::Drain(drain) => drain + 1,
            _ => 0,
        });
    }
}

/// So many times is water handed on from a surface to the next at most.
const MOST_HANDED_ON: usize = 4096;

/// The share of the water of a surface, by its index, that gets to a drain, or
/// to one that leads on to it, over other surfaces too. What is not known
/// counts as if it did.
pub fn share_led(job: &Job, surfaces: &[SurfaceWater], surface: usize, drain: usize) -> f64 {
    let mut led = 0.0;
    let mut next = vec![(surface, 1.0)];
    for _ in 0..MOST_HANDED_ON {
        let Some((own, share)) = next.pop() else {
            break;
        };
        let ways = surfaces.get(own).and_then(|water| water.ways.as_ref());
        for way in ways.into_iter().flatten() {
            let part = share * way.share;
            let leads = |taker| job.drains.lead_on(taker, drain);
            if way.taker().is_some_and(leads) || way.end == Some(End::Unknown) {
                led += part;
                continue;
            }
            let onto = match (way.fate, way.end) {
                (Fate::Onto(other) | Fate::Unknown(other), _) => Some(other),
                (_, Some(End::Off { surface, .. } | End::Stands { surface, .. })) => Some(surface),
                _ => None,
            };
            // What comes back to where it was goes round without end.
            let onto = onto.filter(|other| *other != own && *other != surface);
            next.extend(onto.filter(|_| part > 1e-6).map(|other| (other, part)));
        }
    }
    led
}

/// Whether water of a surface may reach the drain that the spec names for it in a
/// way that its falls do not show: through pipes that no spec states, or down
/// through permeable paving.
fn comes_unseen(job: &Job, drain: usize, own: &Surface) -> bool {
    let has_mouth = job.drains.get(drain).is_some_and(|drain| drain.has_mouth());
    !has_mouth || own.is_permeable()
}

/// Whether a drain lies along an edge of a surface or stands in it.
fn touches(job: &Job, drain: usize, own: &Surface) -> bool {
    let Some(drain) = job.drains.get(drain) else {
        return false;
    };
    match drain.line.as_ref().map(|line| &line.value) {
        Some(DrainLine::Along { surface, .. }) => {
            let takes = drain.kind() != Some(DrainKind::Pipe);
            takes && *surface == own.name.value
        }
        Some(DrainLine::At(at)) => drain.kind() == Some(DrainKind::Gully) && own.contains(*at),
        _ => false,
    }
}

/// All of the water of a surface of which no fall says where it runs, and
/// what runs onto it.
pub(super) fn onto(job: &Job, surfaces: &[SurfaceWater], index: usize) -> Amount {
    let own = job.surfaces.get(index);
    let area = own.and_then(|own| own.area_m2());
    let weighted = surfaces.get(index).and_then(|water| water.weighted_m2);
    let whole = Amount {
        area_m2: area,
        weighted_m2: weighted,
    };
    let others = surfaces
        .iter()
        .flat_map(|water| water.ways.iter().flatten());
    let comes = others.filter_map(|way| match way.fate {
        Fate::Onto(other) if other == index => Some(way.all),
        Fate::Unknown(other) if other == index => Some(Amount::UNKNOWN),
        _ => None,
    });
    whole + comes.sum()
}

impl Way {
    /// The drain that takes the water in the end, by its index.
    pub fn taker(&self) -> Option<usize> {
        match (self.fate, self.end) {
            (Fate::Drained(taker), _) | (_, Some(End::Drained(taker))) => taker,
            _ => None,
        }
    }

    /// Whether water on a way out of a surface leaves another, or the same,
    /// over an edge with nothing beyond.
    fn is_off(&self, own: usize, other: usize) -> bool {
        match (self.fate, self.end) {
            (Fate::Off, _) => own == other,
            (_, Some(End::Off { surface, .. })) => surface == other,
            _ => false,
        }
    }
}
