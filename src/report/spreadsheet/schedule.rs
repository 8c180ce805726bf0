//! The sheet of the schedule: each task in the order in which they begin.

use rust_xlsxwriter::XlsxError;

use super::table::{Book, Cell, numbers, said, words};
use crate::analysis::Analysis;
use crate::report::trade::UNKNOWN;

/// Adds the sheet; none where the job says nothing of the work.
pub(crate) fn add(book: &mut Book, analysis: &Analysis) -> Result<(), XlsxError> {
    let Some(schedule) = analysis.figures.schedule.as_deref() else {
        return Ok(());
    };
    let columns = vec![
        words("Task", 32.0),
        numbers("Hands".to_owned(), 8.0, "#,##0"),
        numbers("Hours of all".to_owned(), 10.0, "#,##0.00"),
        words("From", 20.0),
        words("To", 20.0),
        numbers("May slip (h)".to_owned(), 10.0, "#,##0.00"),
        words("Not earlier, for", 44.0),
        words("Not known", 36.0),
    ];
    let mut table = book.table("Schedule", columns)?;
    let first = table.next();
    for index in schedule.in_time() {
        let Some(task) = schedule.tasks.get(index) else {
            continue;
        };
        let at = |moment: Option<i64>| {
            let shown = moment.map(|moment| schedule.moment(moment));
            said(&shown.unwrap_or_else(|| UNKNOWN.to_owned()))
        };
        let slot = task.slot.as_ref();
        table.row(vec![
            said(&task.name),
            Cell::Number(task.hands.map(f64::from)),
            Cell::Number(task.hours),
            at(slot.map(|slot| slot.start_min)),
            at(slot.map(|slot| slot.end_min)),
            Cell::Number(slot.map(|slot| slot.float_min as f64 / 60.0)),
            said(&schedule.why(index).unwrap_or_default()),
            said(task.unknown.as_deref().unwrap_or_default()),
        ])?;
    }
    let last = table.next().saturating_sub(1);
    if last >= first {
        let rows = last + 1 - first;
        let sum =
            format!("=IF(COUNT(C{first}:C{last})={rows},SUM(C{first}:C{last}),\"{UNKNOWN}\")");
        let total = Cell::Formula(sum, schedule.hours);
        table.total(vec![said("All of it"), Cell::Empty, total])?;
    }
    table.finish()
}
