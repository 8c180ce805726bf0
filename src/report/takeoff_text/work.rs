//! The hours of the work, and when it is done.

use super::sheet::Sheet;
use crate::quantities::{FigureRef, shown_hours};
use crate::report::trade::UNKNOWN;
use crate::report::words::counted;

/// The time that a job takes, if it says anything of its work.
pub(super) fn text(sheet: &Sheet<'_>) -> String {
    let Some(schedule) = sheet.analysis.figures.schedule.as_deref() else {
        return String::new();
    };
    let crew = counted(schedule.crew as usize, "person", "people");
    let hours = match schedule.hours {
        Some(hours) => format!("{} by a crew of {crew}", shown_hours(hours)),
        None => UNKNOWN.to_owned(),
    };
    let moment = |moment: Option<i64>| match moment {
        Some(moment) => schedule.moment(moment),
        None => UNKNOWN.to_owned(),
    };
    let mut text = "TIME\n".to_owned() + &sheet.labelled("hours worked", &hours);
    if let Some(first) = schedule.begins() {
        text += &sheet.labelled("work begins", &first.to_string());
    }
    text += &sheet.labelled("work is done", &moment(schedule.end_min));
    if schedule.end_with_rain_min.is_some() {
        text += &sheet.labelled("with days of rain", &moment(schedule.end_with_rain_min));
    }
    let tasks = (0..schedule.tasks.len()).map(FigureRef::Task);
    text + &sheet.workings(tasks.chain([FigureRef::Hours]))
}
