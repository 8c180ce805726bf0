//! The head of the sheet: which job it is.

use super::sheet::{Sheet, labelled};
use crate::report::shown_path;
use crate::units::System;

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
            text += &labelled(label, &stated.value);
        }
    }
    text += &labelled(
        "taken off from",
        &shown_path(&sheet.analysis.path, sheet.folder),
    );
    let region = heading.region().word();
    let region = match heading.region {
        Some(_) => region.to_owned(),
        None => format!("{region}, as none is stated"),
    };
    text += &labelled("limits of region", &region);
    text += &labelled(
        "measured in",
        match sheet.system {
            System::Imperial => "feet and inches to 1/16\", US tons of 2,000 lb",
            System::Metric => "metres and millimetres, tonnes of 1,000 kg",
        },
    );
    for note in &heading.notes {
        text += &labelled("note", &note.value);
    }
    text
}
