//! The take-off as a workbook: orders, quantities, mixes, steps, drains, what
//! was measured, schedule and cost, sums as formulas, so that a price changed
//! in it changes the total.

mod as_built;
mod cost;
mod drains;
mod mixes;
mod orders;
mod quantities;
mod schedule;
mod steps;
mod table;

use rust_xlsxwriter::{DocProperties, ExcelDateTime, Workbook, XlsxError};

use super::shown_path;
use crate::analysis::Analysis;
use crate::text::{Shown, clean};
use table::Book;

/// The take-off of a job as a workbook of today's common form; paths as seen
/// from a folder, `today` as `2027-01-12`. `None` where it has more rows or
/// longer texts than a workbook holds.
pub fn takeoff_xlsx(analysis: &Analysis, folder: &str, today: &str) -> Option<Vec<u8>> {
    written(analysis, folder, today).ok()
}

fn written(analysis: &Analysis, folder: &str, today: &str) -> Result<Vec<u8>, XlsxError> {
    let mut workbook = Workbook::new();
    let heading = &analysis.job.heading;
    let title = heading.title.as_ref().map(|title| text(&title.value));
    let title = title.unwrap_or_else(|| "Untitled job".to_owned());
    let mut about = vec![format!(
        "Taken off from {} on {today}",
        text(&shown_path(&analysis.path, folder))
    )];
    for (label, stated) in [("reference", &heading.reference), ("date", &heading.date)] {
        about.extend(
            stated
                .as_ref()
                .map(|stated| format!("{label} {}", text(&stated.value))),
        );
    }
    let properties = DocProperties::new().set_title(&title).set_author("drylay");
    // Without a day the crate would ask the machine's clock.
    let made =
        ExcelDateTime::parse_from_str(today).or_else(|_| ExcelDateTime::from_timestamp(0))?;
    let properties = properties.set_creation_datetime(&made);
    workbook.set_properties(&properties);
    let mut book = Book {
        workbook,
        title,
        about: about.join(" · "),
        system: heading.system(),
        currency: heading.currency(),
        errors: super::Summary::standing(analysis).errors,
    };
    orders::add(&mut book, analysis)?;
    quantities::add(&mut book, analysis)?;
    mixes::add(&mut book, analysis)?;
    steps::add(&mut book, analysis)?;
    drains::add(&mut book, analysis)?;
    as_built::add(&mut book, analysis)?;
    schedule::add(&mut book, analysis)?;
    cost::add(&mut book, analysis)?;
    book.workbook.save_to_buffer()
}

/// Text that somebody wrote, without what would move or hide it.
fn text(text: &str) -> String {
    clean(text, Shown::Line).into_owned()
}
