//! `slab-young`: a slab that is built on before it has its strength.

use super::documents::{SLAB_BEFORE_TILE, UFGS_CURING};
use crate::findings::Severity;
use crate::model::{Built, Pause, StatedWait};
use crate::quantities::{is_bedded_on_core, is_bonded_to_slab};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::units::{Dimension, Quantity};
use crate::vocabulary::{Role, Task};

/// A slab that is built on before it has its strength.
pub(crate) static SLAB_YOUNG: Rule = Rule {
    name: "slab-young",
    family: Family::Work,
    severity: Severity::Warning,
    looks_at: "The wait that is stated after a pour, by whether paving is bonded to the slab.",
    reason: "A young slab is still shrinking: what is bonded to it shears off, and what is set down on it breaks its edges.",
    remedy: "Wait longer, or separate paving and slab with a membrane that lets them move.",
    limits: &[
        Limit {
            row: "bonded",
            of: "a slab before paving is bonded to it",
            bound: Bound::Least,
            general: Value {
                written: &["28 days"],
                source: SLAB_BEFORE_TILE,
            },
            regions: &[],
        },
        Limit {
            row: "plain",
            of: "a slab before anything goes on it",
            bound: Bound::Least,
            general: Value {
                written: &["7 days"],
                source: UFGS_CURING,
            },
            regions: &[],
        },
    ],
    sources: &[SLAB_BEFORE_TILE, UFGS_CURING],
    breaks: "surface court
  build        mortar-set

work
  crew         4
  «wait         7 days from pouring to laying»
",
    keeps: "surface court
  build        mortar-set

work
  crew         4
  wait         28 days from pouring to laying
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(work) = &context.job.work else {
        return;
    };
    let after_pour = |wait: &&StatedWait| wait.from == Task::Pouring;
    for wait in work.waits.iter().filter(after_pour) {
        let is_named = |built: Built| wait.of.as_ref().is_none_or(|of| *of == built);
        let surfaces = context.job.surfaces.iter().filter(|own| {
            let layers = own.build.iter().flat_map(|build| &build.value.layers);
            let mut new = layers.filter(|layer| layer.existing.is_none());
            is_named(Built::Surface(own.name.value.clone()))
                && new.any(|layer| layer.role.value == Role::Slab)
        });
        let steps = context
            .job
            .steps
            .iter()
            .filter(|own| own.core.is_some() && is_named(Built::Steps(own.name.value.clone())));
        let steps = steps.map(|own| is_bedded_on_core(own));
        let mut bonded = surfaces.map(|own| is_bonded_to_slab(own)).chain(steps);
        let Some(is_bonded) = bonded.next().map(|first| first || bonded.any(|own| own)) else {
            continue;
        };
        young(context, wait, is_bonded, found);
    }
}

fn young(context: &Context<'_>, wait: &StatedWait, is_bonded: bool, found: &mut Found) {
    let row = if is_bonded { "bonded" } else { "plain" };
    let stated = match wait.pause {
        Pause::Seconds(seconds) => seconds,
        Pause::Overnight => 0.0,
    };
    let limit = context.limit(&SLAB_YOUNG, row);
    let Some(limit) = limit.filter(|limit| !limit.allows_si(stated)) else {
        return;
    };
    let shown = match wait.pause {
        Pause::Overnight => "overnight".to_owned(),
        Pause::Seconds(seconds) => limit.beside_si(seconds, context.system()),
    };
    let then = match is_bonded {
        true => "paving is bonded to the slab",
        false => "anything goes on the slab",
    };
    let message = format!(
        "{shown} after the pour is too soon; {} is the least before {then}. Wait longer",
        limit.shown(context.system())
    );
    found.add(
        SLAB_YOUNG
            .finding(wait.place, message)
            .found(shown, Quantity::near(stated, Dimension::TIME))
            .against(&limit, context),
    );
}
