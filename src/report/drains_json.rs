//! The drains of a take-off as JSON.

use serde::Serialize;

use crate::model::{Drain, DrainKind, Job};
use crate::quantities::{
    ComesFrom, DrainDig, DrainFigures, DrainWater, Figures, Inflow, Soaking, StuffFigures,
};

/// A drain.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct DrainLine<'a> {
    name: &'a str,
    /// `channel`, `gully`, `pipe`, `trench` or `soakaway`.
    kind: Option<&'static str>,
    /// Whether it is there already; then nothing of it is dug or ordered.
    existing: bool,
    /// Where it leads: a drain, or what takes the water.
    to: Option<&'a str>,
    /// Whether that is a drain of this spec.
    to_drain: bool,
    length_m: Option<f64>,
    /// In whole lengths.
    bought_m: Option<f64>,
    /// A ratio: 0.0125 is 1:80.
    fall: Option<f64>,
    /// The invert at its head.
    head_m: Option<f64>,
    /// The invert at its outlet.
    outlet_m: Option<f64>,
    /// Of ground or paving, where it is least.
    cover_m: Option<f64>,
    dig: Option<DrainDug>,
    bedding: Option<Stuff<'a>>,
    fill: Option<Stuff<'a>>,
    fabric_m2: Option<f64>,
    /// The share of the fill that water takes.
    voids: Option<f64>,
    /// What a soakaway or a trench holds.
    storage_m3: Option<f64>,
    /// Running full.
    carries_m3_per_s: Option<f64>,
    manning_n: Option<f64>,
    /// What comes to it; null where no storm is stated.
    water: Option<Comes<'a>>,
}

/// What comes to a drain.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Comes<'a> {
    /// Whether the spec says what it takes, in place of what was found.
    stated: bool,
    inflows: Vec<InflowLine<'a>>,
    area_m2: Option<f64>,
    weighted_m2: Option<f64>,
    /// In the fiercest storm that is stated.
    flow_m3_per_s: Option<f64>,
    /// Null of what is no soakaway.
    soakaway: Option<SoakingLine>,
}

/// Water that comes to a drain from one thing.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct InflowLine<'a> {
    /// `surface`, `led` by its name, `whole` or `named` as stated, or `drain`.
    from: &'static str,
    name: Option<&'a str>,
    /// The edge of the surface, if it comes over one.
    edge: Option<String>,
    area_m2: Option<f64>,
    weighted_m2: Option<f64>,
}

/// What a soakaway has to hold, and how long that takes to leave.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct SoakingLine {
    /// Null where it is not known.
    need_m3: Option<f64>,
    /// The least of it where a longer storm may need more.
    need_at_least_m3: Option<f64>,
    /// Of the storm that needs most.
    storm_depth_m: Option<f64>,
    storm_s: Option<f64>,
    /// The share that has to leave in the times that follow.
    emptied: f64,
    need_empties_s: Option<f64>,
    built_empties_s: Option<f64>,
}

/// What is dug for a drain.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct DrainDug {
    width_m: Option<f64>,
    deepest_m: f64,
    /// As it lies in the ground.
    bank_m3: f64,
    /// What of it is filled in again, as it lay.
    filled_in_m3: f64,
    /// As carted away.
    loose_m3: Option<f64>,
}

/// What is bought by volume.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Stuff<'a> {
    material: &'a str,
    volume_m3: Option<f64>,
    mass_kg: Option<f64>,
    loose_volume_m3: Option<f64>,
}

/// The drains in order; nothing if the job has none.
pub(super) fn drains<'a>(job: &'a Job, figures: &'a Figures) -> Option<Vec<DrainLine<'a>>> {
    let both = job.drains.iter().zip(figures.drains.iter());
    let water = figures.water.as_ref();
    let lines: Vec<DrainLine<'a>> = both
        .enumerate()
        .map(|(index, (own, drain))| {
            let comes = water.and_then(|water| water.drains.get(index));
            DrainLine {
                water: comes.map(|water| comes_to(job, water)),
                ..line(own, drain)
            }
        })
        .collect();
    (!lines.is_empty()).then_some(lines)
}

fn line<'a>(own: &'a Drain, figures: &'a DrainFigures) -> DrainLine<'a> {
    let to = own.to.as_ref().map(|to| &to.value);
    DrainLine {
        name: &figures.name,
        kind: figures.kind.map(DrainKind::word),
        existing: figures.is_existing,
        to: to.map(|to| to.shown()),
        to_drain: to.is_some_and(|to| to.drain().is_some()),
        length_m: figures.length_m,
        bought_m: figures.bought_m,
        fall: figures.fall,
        head_m: figures.head_m,
        outlet_m: figures.outlet_m,
        cover_m: figures.cover_m(),
        dig: figures.dig.as_ref().map(dig),
        bedding: figures.bedding.as_ref().map(stuff),
        fill: figures.fill.as_ref().map(stuff),
        fabric_m2: figures.fabric_m2,
        voids: figures.voids.map(|voids| voids.value),
        storage_m3: figures.storage_m3,
        carries_m3_per_s: figures.carries_m3s,
        manning_n: figures.roughness.map(|n| n.value),
        water: None,
    }
}

fn comes_to<'a>(job: &'a Job, water: &'a DrainWater) -> Comes<'a> {
    Comes {
        stated: water.is_stated,
        inflows: water.inflows.iter().map(|own| inflow(job, own)).collect(),
        area_m2: water.all.area_m2,
        weighted_m2: water.all.weighted_m2,
        flow_m3_per_s: water.flow,
        soakaway: water.soaking.as_ref().map(|own| soaking(job, own)),
    }
}

fn inflow<'a>(job: &'a Job, own: &'a Inflow) -> InflowLine<'a> {
    let surface = |index: usize| job.surfaces.get(index);
    let named = |index: usize| surface(index).map(|own| own.name.value.as_str());
    let (from, name, edge) = match &own.from {
        ComesFrom::Surface(index, edge) => {
            let edge = surface(*index).zip(*edge);
            let edge = edge.map(|(own, edge)| own.edge_name(edge));
            ("surface", named(*index), edge)
        }
        ComesFrom::Led(index) => ("led", named(*index), None),
        ComesFrom::Whole(index) => ("whole", named(*index), None),
        ComesFrom::Drain(index) => {
            let drain = job.drains.get(*index);
            ("drain", drain.map(|own| own.name.value.as_str()), None)
        }
        ComesFrom::Named(name) => ("named", Some(name.as_str()), None),
    };
    InflowLine {
        from,
        name,
        edge,
        area_m2: own.amount.area_m2,
        weighted_m2: own.amount.weighted_m2,
    }
}

fn soaking(job: &Job, own: &Soaking) -> SoakingLine {
    let storm = own.storm.and_then(|index| job.site.storms.get(index));
    SoakingLine {
        need_m3: own.need_m3,
        need_at_least_m3: own.at_least_m3,
        storm_depth_m: storm.and_then(|storm| storm.depth_m()),
        storm_s: storm.and_then(|storm| storm.duration_s()),
        emptied: if own.is_whole { 1.0 } else { 0.5 },
        need_empties_s: own.empties_need_s,
        built_empties_s: own.empties_built_s,
    }
}

fn dig(dig: &DrainDig) -> DrainDug {
    DrainDug {
        width_m: dig.width_m,
        deepest_m: dig.deepest_m,
        bank_m3: dig.bank_m3,
        filled_in_m3: dig.filled_in_m3,
        loose_m3: dig.loose_m3,
    }
}

fn stuff(stuff: &StuffFigures) -> Stuff<'_> {
    Stuff {
        material: &stuff.material,
        volume_m3: stuff.volume_m3,
        mass_kg: stuff.mass_kg,
        loose_volume_m3: stuff.loose_volume_m3,
    }
}
