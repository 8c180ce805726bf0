//! `--timings`: the time that rules and steps take.

use std::collections::BTreeMap;
use std::sync::Mutex;
use std::time::{Duration, Instant};

use crate::report::Timing;

/// What every rule and step has taken so far, on all threads together.
#[derive(Debug, Default)]
pub(crate) struct Clocks(Mutex<BTreeMap<&'static str, (Duration, usize)>>);

impl Clocks {
    /// Does a piece of work and adds the time it takes to its name.
    pub(crate) fn time(&self, name: &'static str, work: &mut dyn FnMut()) {
        let start = Instant::now();
        work();
        let taken = start.elapsed();
        // A thread that panicked leaves the sums as they were.
        let mut sums = self.0.lock().unwrap_or_else(|held| held.into_inner());
        let (time, runs) = sums.entry(name).or_default();
        *time += taken;
        *runs += 1;
    }

    /// What they have come to.
    pub(crate) fn timings(&self) -> Vec<Timing> {
        let sums = self.0.lock().unwrap_or_else(|held| held.into_inner());
        let timings = sums.iter().map(|(name, (time, runs))| Timing {
            name,
            time: *time,
            runs: *runs,
        });
        timings.collect()
    }
}
