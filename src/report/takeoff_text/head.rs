//! The head of the sheet: which job it is.

use super::sheet::Sheet;
use crate::report::shown_path;
use crate::text::{Shown, clean};
use crate::units::System;
use crate::vocabulary::Term;

/// The head: title, reference, date, and in what terms the sheet speaks.
pub(super) fn text(sheet: &Sheet<'_>) -> String {
    let heading = &sheet.analysis.job.heading;
    let title = heading
        .title
        .as_ref()
        .map_or("Untitled job", |title| &title.value);
    let mut text = format!("{title}\n\n");
    let stated = [
        ("reference", &heading.reference),
        ("date", &heading.date),
        ("prepared by", &heading.prepared_by),
    ];
    for (label, stated) in stated {
        if let Some(stated) = stated {
            text += &sheet.labelled(label, &stated.value);
        }
    }
    text += &sheet.labelled("taken off from", &from(sheet));
    let metric = format!(
        "{}, {}s of 1,000 kg",
        Term::Metres.word(heading.region()),
        Term::MetricTon.word(heading.region())
    );
    let region = heading.region().word();
    let region = match heading.region {
        Some(_) => region.to_owned(),
        None => format!("{region}, as none is stated"),
    };
    text += &sheet.labelled("limits of region", &region);
    text += &sheet.labelled(
        "measured in",
        match sheet.system {
            System::Imperial => "feet and inches to 1/16\", US tons of 2,000 lb",
            System::Metric => &metric,
        },
    );
    for note in &heading.notes {
        text += &sheet.labelled("note", &note.value);
    }
    text
}

/// The path of the spec: as seen from the folder, or whole where that would
/// lead up and down again.
fn from(sheet: &Sheet<'_>) -> String {
    let (path, folder) = (&sheet.analysis.path, sheet.folder);
    let seen = shown_path(path, folder);
    match seen.starts_with("../../") {
        true => clean(path, Shown::Line).into_owned(),
        false => seen,
    }
}
