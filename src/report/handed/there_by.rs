//! The days on which what is ordered is first wanted on site.

use std::collections::BTreeMap;

use super::plain;
use crate::analysis::Analysis;
use crate::quantities::{DAY_MINUTES, wanted};
use crate::report::trade::UNKNOWN;

/// Them: of each material the day as it is written. None are known without a
/// schedule.
pub(crate) struct Days(BTreeMap<String, String>);

impl Days {
    /// Those of a job.
    pub(crate) fn of(analysis: &Analysis) -> Days {
        let Some(schedule) = analysis.figures.schedule.as_deref() else {
            return Days(BTreeMap::new());
        };
        let wanted = wanted(&analysis.job, schedule).into_iter();
        let named = wanted.map(|(name, moment)| {
            let day = schedule.day_name(moment.div_euclid(DAY_MINUTES));
            (name, day)
        });
        Days(named.collect())
    }

    /// Whether any is known.
    pub(crate) fn is_known(&self) -> bool {
        !self.0.is_empty()
    }

    /// What a list says of a material; nothing where it has no such column.
    pub(crate) fn cell(&self, material: &str) -> Option<String> {
        let unknown = || format!("{UNKNOWN} no day known");
        let day = self.0.get(material).cloned();
        self.is_known().then(|| day.unwrap_or_else(unknown))
    }

    /// What of the orders is to be there by a day.
    pub(crate) fn on(&self, analysis: &Analysis, day: &str) -> Vec<String> {
        let orders = analysis.figures.orders.iter();
        let own = orders.filter(|order| self.0.get(&order.material).is_some_and(|own| own == day));
        let system = analysis.job.heading.system();
        own.map(|order| plain(&order.name(system))).collect()
    }
}
