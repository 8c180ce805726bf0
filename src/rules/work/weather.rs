//! What the rules on weather share: the temperature of the air, and the work
//! that it matters to.

use crate::findings::Finding;
use crate::model::{Stated, Surface};
use crate::quantities::is_loose;
use crate::rules::{Context, Found, Rule};
use crate::units::Quantity;
use crate::vocabulary::{Role, Task};

/// The temperature that the work states.
pub(crate) fn air(context: &Context<'_>) -> Option<Stated<Quantity>> {
    context.job.work.as_ref()?.temperature.clone()
}

/// Whether a job is built with mortar or concrete that is new.
pub(crate) fn sets(context: &Context<'_>) -> bool {
    let is_set = |surface: &Surface| {
        let layers = surface.build.iter().flat_map(|build| &build.value.layers);
        let mut new = layers.filter(|layer| layer.existing.is_none());
        let in_mortar = new.any(|layer| match layer.role.value {
            Role::Slab | Role::Bond | Role::Slurry => true,
            Role::Bed => !is_loose(&layer.of.value),
            _ => false,
        });
        let filling = surface
            .joint
            .iter()
            .find_map(|joint| joint.filling.as_ref());
        in_mortar || filling.is_some_and(|filling| !is_loose(&filling.value))
    };
    context.job.surfaces.iter().any(|surface| is_set(surface))
}

/// Whether the schedule has work of these kinds.
pub(crate) fn has_work(context: &Context<'_>, kinds: &[Task]) -> bool {
    let schedule = context.figures.schedule.as_ref();
    let mut tasks = schedule.iter().flat_map(|schedule| &schedule.tasks);
    tasks.any(|task| task.task.is_some_and(|task| kinds.contains(&task)))
}

/// Tells of air that is past a rule's limit.
pub(crate) fn tell(
    rule: &'static Rule,
    says: impl FnOnce(&str, &str) -> String,
    context: &Context<'_>,
    found: &mut Found,
) {
    let Some((air, limit)) = air(context).zip(context.limit(rule, "plain")) else {
        return;
    };
    if limit.allows(&air.value) {
        return;
    }
    let shown = context.show(&air.value);
    let finding: Finding = rule.finding(air.place, says(&shown, &limit.shown(context.system())));
    found.add(
        finding
            .found(shown, Some(air.value))
            .against(&limit, context),
    );
}
