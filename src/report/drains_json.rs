//! The drains of a take-off as JSON.

use serde::Serialize;

use crate::model::{Drain, DrainKind, Job};
use crate::quantities::{DrainDig, DrainFigures, Figures, StuffFigures};

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
}

/// What is dug for a drain.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct DrainDug {
    width_m: Option<f64>,
    deepest_m: f64,
    /// As it lies in the ground.
    bank_m3: f64,
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
    let lines: Vec<DrainLine<'a>> = both.map(|(own, figures)| line(own, figures)).collect();
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
    }
}

fn dig(dig: &DrainDig) -> DrainDug {
    DrainDug {
        width_m: dig.width_m,
        deepest_m: dig.deepest_m,
        bank_m3: dig.bank_m3,
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
