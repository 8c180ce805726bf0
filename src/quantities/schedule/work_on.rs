//! What work is done on: a surface, a drain or a flight of steps of the job.

use crate::model::{Built, Job};

/// What work is done on, by its index in the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum WorkOn {
    /// A surface.
    Surface(usize),
    /// A drain.
    Drain(usize),
    /// A flight of steps.
    Steps(usize),
}

impl WorkOn {
    /// Its name.
    pub fn name(self, job: &Job) -> Option<&str> {
        let name = match self {
            WorkOn::Surface(index) => &job.surfaces.get(index)?.name,
            WorkOn::Drain(index) => &job.drains.get(index)?.name,
            WorkOn::Steps(index) => &job.steps.get(index)?.name,
        };
        Some(&name.value)
    }

    /// Whether it is what the text names.
    pub fn is(self, job: &Job, named: &Built) -> bool {
        let is_its_kind = matches!(
            (self, named),
            (WorkOn::Surface(_), Built::Surface(_))
                | (WorkOn::Drain(_), Built::Drain(_))
                | (WorkOn::Steps(_), Built::Steps(_))
        );
        is_its_kind && self.name(job) == Some(named.name())
    }

    /// The surface, by its index, if it is one.
    pub fn surface(self) -> Option<usize> {
        match self {
            WorkOn::Surface(index) => Some(index),
            WorkOn::Drain(_) | WorkOn::Steps(_) => None,
        }
    }
}
