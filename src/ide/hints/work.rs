//! When the work is done that a line causes.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::quantities::{FigureRef, shown_hours};

/// At each line that causes work the days on which it is done, at the
/// heading of the work its hours and its end.
pub(crate) fn add(hints: &mut Collecting<'_>) {
    let (job, figures) = (&hints.analysis.job, &hints.analysis.figures);
    let (Some(schedule), Some(work)) = (figures.schedule.as_deref(), job.work.as_deref()) else {
        return;
    };
    for (place, times) in schedule.by_place() {
        let first = schedule.tasks.iter().position(|task| task.place == place);
        let (Some(first), true) = (first, place != work.place) else {
            continue;
        };
        let of = HintOf::Figure(FigureRef::Task(first));
        hints.add(HintKind::Days, of, place, || {
            let (start, end) = times?;
            Some(schedule.days_from_to(start, end))
        });
    }
    let of = HintOf::Figure(FigureRef::Hours);
    hints.add(HintKind::Days, of, work.place, || {
        let (hours, end) = schedule.hours.zip(schedule.end_min)?;
        Some(format!(
            "{} · done {}",
            shown_hours(hours),
            schedule.moment(end)
        ))
    });
}
