//! When each material is first wanted on site: as the work begins that takes
//! it.

use std::collections::BTreeMap;

use super::{Minutes, ScheduleFigures, WorkOn};
use crate::model::{DrainBody, Job, Substance};
use crate::vocabulary::{Role, Task};

/// When each material is first wanted, by its name; those of a mix as the mix
/// is. A material of which one use has no day is left out: that use may come
/// first.
pub fn wanted(job: &Job, schedule: &ScheduleFigures) -> BTreeMap<String, Minutes> {
    let mut found: BTreeMap<String, Option<Minutes>> = BTreeMap::new();
    for (of, on, task) in uses(job) {
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
    }
    let known = found.into_iter();
    known
        .filter_map(|(name, start)| Some((name, start?)))
        .collect()
}

/// What each part of a job is of, with the work that takes it.
fn uses(job: &Job) -> Vec<(&Substance, WorkOn, Task)> {
    let mut uses = Vec::new();
    for (index, surface) in job.surfaces.iter().enumerate() {
        let on = WorkOn::Surface(index);
        let layers = surface.build.iter().flat_map(|build| &build.value.layers);
        for layer in layers.filter(|layer| layer.existing.is_none()) {
            uses.push((&layer.of.value, on, of_layer(layer.role.value)));
        }
        let filling = surface.joint.as_ref().and_then(|own| own.filling.as_ref());
        uses.extend(filling.map(|of| (&of.value, on, Task::Jointing)));
        for border in &surface.borders {
            uses.push((&border.material.value, on, Task::Laying));
        }
        for edging in &surface.edgings {
            uses.push((&edging.material.value, on, Task::Edging));
            let footing = edging.footing.as_ref();
            uses.extend(footing.map(|own| (&own.of.value, on, Task::Edging)));
        }
    }
    for (index, drain) in job.drains.iter().enumerate() {
        if drain.existing.is_some() {
            continue;
        }
        let body = drain.body.as_ref().map(|body| &body.value);
        let own = match body {
            Some(DrainBody::Channel { of, .. }) => Some(of),
            Some(DrainBody::Gully { of, .. }) => of.as_ref(),
            Some(body) => body.pipe().map(|pipe| &pipe.of),
            None => None,
        };
        let bedding = drain.bedded.as_ref().map(|own| &own.of);
        let filling = drain.filled.as_ref().map(|own| &own.of);
        let all = [own, bedding, filling, drain.wrapped.as_ref()];
        let on = WorkOn::Drain(index);
        let all = all.into_iter().flatten();
        uses.extend(all.map(|of| (&of.value, on, Task::Draining)));
    }
    for (index, steps) in job.steps.iter().enumerate() {
        let on = WorkOn::Steps(index);
        uses.extend(steps.made_of().map(|(role, of)| match role {
            Role::Base => (of, on, Task::Compacting),
            Role::Slab => (of, on, Task::Pouring),
            _ => (of, on, Task::Building),
        }));
    }
    uses
}

const fn of_layer(role: Role) -> Task {
    match role {
        Role::Base | Role::Subbase => Task::Compacting,
        Role::Slab => Task::Pouring,
        role if role.is_sheet() => Task::Lining,
        _ => Task::Laying,
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
