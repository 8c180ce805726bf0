//! When each material is first wanted on site: as the work begins that takes
//! it.

use std::collections::BTreeMap;

use super::{Minutes, ScheduleFigures, WorkOn};
use crate::model::{Job, Substance, UsedAs};
use crate::vocabulary::{Role, Task};

/// When each material is first wanted, by its name; those of a mix as the mix
/// is. A material of which one use has no day is left out: that use may come
/// first.
pub fn wanted(job: &Job, schedule: &ScheduleFigures) -> BTreeMap<String, Minutes> {
    let mut found: BTreeMap<String, Option<Minutes>> = BTreeMap::new();
    each_use(job, |of, on, task| {
        let tasks = schedule.tasks.iter();
        let own = tasks.filter(|own| own.of == Some(on) && own.task == Some(task));
        // Work that the schedule does not tell of has no day.
        let starts: Option<Vec<Minutes>> =
            own.map(|own| own.slot.map(|slot| slot.start_min)).collect();
        let start = starts.and_then(|starts| starts.into_iter().min());
        for name in names(of) {
            let known = found.entry(name).or_insert(start);
            *known = known.zip(start).map(|(one, other)| one.min(other));
        }
    });
    let known = found.into_iter();
    known
        .filter_map(|(name, start)| Some((name, start?)))
        .collect()
}

/// Looks at what each part of a job is of, with the work that takes it.
fn each_use<'a>(job: &'a Job, mut look: impl FnMut(&'a Substance, WorkOn, Task)) {
    for (index, surface) in job.surfaces.iter().enumerate() {
        let on = WorkOn::Surface(index);
        surface.each_use(&mut |own| look(&own.of.value, on, of_surface(own.used)));
    }
    for (index, drain) in job.drains.iter().enumerate() {
        if drain.existing.is_none() {
            let on = WorkOn::Drain(index);
            drain.each_use(&mut |own| look(&own.of.value, on, Task::Draining));
        }
    }
    for (index, steps) in job.steps.iter().enumerate() {
        let on = WorkOn::Steps(index);
        steps.each_use(&mut |own| look(&own.of.value, on, of_steps(own.used)));
    }
}

const fn of_surface(used: UsedAs) -> Task {
    match used {
        UsedAs::Layer(Role::Base | Role::Subbase) => Task::Compacting,
        UsedAs::Layer(Role::Slab) => Task::Pouring,
        UsedAs::Layer(role) if role.is_sheet() => Task::Lining,
        UsedAs::Joint => Task::Jointing,
        UsedAs::Edging | UsedAs::Footing => Task::Edging,
        _ => Task::Laying,
    }
}

const fn of_steps(used: UsedAs) -> Task {
    match used {
        UsedAs::Layer(Role::Base) => Task::Compacting,
        UsedAs::Core => Task::Pouring,
        _ => Task::Building,
    }
}

/// The materials of which something is, those of a mix one by one.
fn names(of: &Substance) -> Vec<String> {
    match of {
        Substance::Material(material) => vec![material.name.clone()],
        Substance::Mix(mix) => {
            let parts = mix.parts.iter();
            let known = parts.filter_map(|part| part.material.as_ref());
            known.map(|material| material.name.clone()).collect()
        }
        Substance::Unknown(_) => Vec::new(),
    }
}
