//! What the rules on weather share: the temperature of the air, and the work
//! that it matters to.

use crate::findings::Finding;
use crate::materials::Kind;
use crate::model::{Stated, Substance, Used, UsedAs};
use crate::quantities::is_loose;
use crate::rules::construction::is_mortar;
use crate::rules::{Context, Found, Rule};
use crate::units::Quantity;
use crate::vocabulary::{Role, Task};

/// The temperature that the work states.
pub(crate) fn air(context: &Context<'_>) -> Option<Stated<Quantity>> {
    context.job.work.as_ref()?.temperature.clone()
}

/// The mortar and concrete that a job is built with anew: of its surfaces,
/// their edgings, its steps and its drains.
pub(crate) fn setting<'a>(context: &Context<'a>) -> Vec<&'a Substance> {
    let mut all = Vec::new();
    let mut look = |used: Used<'a>| {
        let of = &used.of.value;
        let sets = match used.used {
            UsedAs::Layer(Role::Slab | Role::Bond | Role::Slurry) => true,
            UsedAs::Layer(Role::Bed) | UsedAs::Joint => !is_loose(of),
            UsedAs::Footing | UsedAs::Core | UsedAs::Bedding => is_mortar(of),
            _ => false,
        };
        if sets {
            all.push(of);
        }
    };
    for surface in context.job.surfaces.iter() {
        surface.each_use(&mut look);
    }
    for steps in context.job.steps.iter() {
        steps.each_use(&mut look);
    }
    let drains = context.job.drains.iter();
    for drain in drains.filter(|drain| drain.existing.is_none()) {
        drain.each_use(&mut look);
    }
    all
}

/// Whether a job is built with mortar or concrete that is new.
pub(crate) fn sets(context: &Context<'_>) -> bool {
    !setting(context).is_empty()
}

/// What a job is built with that sets, in words.
pub(crate) fn what_sets(context: &Context<'_>) -> &'static str {
    let is_concrete = |of: &Substance| match of {
        Substance::Mix(mix) => mix.is_concrete(),
        _ => of.kind().is_some_and(Kind::is_concrete),
    };
    match setting(context).into_iter().all(is_concrete) {
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
