//! What the rules on weather share: the temperature of the air, and the work
//! that it matters to.

use std::sync::Arc;

use crate::findings::Finding;
use crate::materials::Kind;
use crate::model::{Stated, Substance, Surface};
use crate::quantities::is_loose;
use crate::rules::{Context, Found, Rule};
use crate::units::Quantity;
use crate::vocabulary::{Role, Task};

/// The temperature that the work states.
pub(crate) fn air(context: &Context<'_>) -> Option<Stated<Quantity>> {
    context.job.work.as_ref()?.temperature.clone()
}

/// The mortar and concrete that a job is built with anew.
pub(crate) fn setting<'a>(context: &Context<'a>) -> impl Iterator<Item = &'a Substance> {
    let of = |surface: &'a Surface| {
        let layers = surface.build.iter().flat_map(|build| &build.value.layers);
        let new = layers.filter(|layer| layer.existing.is_none());
        let layers = new.filter_map(|layer| match layer.role.value {
            Role::Slab | Role::Bond | Role::Slurry => Some(&layer.of.value),
            Role::Bed => Some(&layer.of.value).filter(|of| !is_loose(of)),
            _ => None,
        });
        let joint = surface.joint.iter();
        let filling = joint.filter_map(|joint| Some(&joint.filling.as_ref()?.value));
        layers.chain(filling.filter(|of| !is_loose(of)))
    };
    let surfaces = context.job.surfaces.iter().map(Arc::as_ref);
    surfaces.flat_map(of)
}

/// Whether a job is built with mortar or concrete that is new.
pub(crate) fn sets(context: &Context<'_>) -> bool {
    setting(context).next().is_some()
}

/// What a job is built with that sets, in words.
pub(crate) fn what_sets(context: &Context<'_>) -> &'static str {
    let is_concrete = |of: &Substance| match of {
        Substance::Mix(mix) => mix.is_concrete(),
        _ => of.kind().is_some_and(Kind::is_concrete),
    };
    match setting(context).all(is_concrete) {
        true => "concrete",
        false => "mortar",
    }
}

/// Whether the schedule has work of these kinds.
pub(crate) fn has_work(context: &Context<'_>, kinds: &[Task]) -> bool {
    let schedule = context.figures.schedule.as_ref();
    let mut tasks = schedule.iter().flat_map(|schedule| &schedule.tasks);
    tasks.any(|task| task.task.is_some_and(|task| kinds.contains(&task)))
}

/// Tells of air that is past a rule's limit.
pub(crate) fn tell(
    (rule, row): (&'static Rule, &str),
    says: impl FnOnce(&str, &str) -> String,
    context: &Context<'_>,
    found: &mut Found,
) {
    let Some((air, limit)) = air(context).zip(context.limit(rule, row)) else {
        return;
    };
    if limit.allows(&air.value) {
        return;
    }
    let shown = limit.beside(&air.value, context.system());
    let finding: Finding = rule.finding(air.place, says(&shown, &limit.shown(context.system())));
    found.add(
        finding
            .found(shown, Some(air.value))
            .against(&limit, context),
    );
}
