//! The foot of the sheet: what is marked, what is not known and why, what to
//! be careful of, and what the check found.

use super::sheet::Sheet;
use crate::report::row::spot;
use crate::report::trade::UNKNOWN;
use crate::report::words::wrapped;
use crate::report::{Summary, cautions, unknown};

/// The foot of the sheet.
pub(super) fn text(sheet: &Sheet<'_>) -> String {
    let parts = [
        changed(sheet),
        not_known(sheet),
        careful(sheet),
        found(sheet),
    ];
    let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join("\n")
}

/// A heading and a list under it; empty if the list is.
fn list(
    sheet: &Sheet<'_>,
    heading: &str,
    mark: &str,
    items: impl IntoIterator<Item = String>,
) -> String {
    let lines = items
        .into_iter()
        .map(|item| wrapped(&item, &format!("  {mark} "), sheet.layout.width) + "\n");
    let lines: String = lines.collect();
    match lines.is_empty() {
        true => lines,
        false => format!("{heading}\n{lines}"),
    }
}

fn changed(sheet: &Sheet<'_>) -> String {
    let materials = sheet.analysis.job.materials.values();
    let changed = materials.filter(|material| material.changes_catalogue);
    let lines = changed.map(|material| {
        let at = material
            .place
            .and_then(|place| spot(sheet.analysis, place, sheet.folder));
        match at {
            Some(at) if at.file == 0 => format!("{}, from line {}", material.name, at.start.0),
            Some(at) => format!("{}, from {} line {}", material.name, at.path, at.start.0),
            None => material.name.clone(),
        }
    });
    list(sheet, "CHANGED FROM WHAT IS BUILT IN", "*", lines)
}

fn not_known(sheet: &Sheet<'_>) -> String {
    list(sheet, "NOT KNOWN", UNKNOWN, unknown(sheet.analysis))
}

fn careful(sheet: &Sheet<'_>) -> String {
    list(sheet, "TAKE CARE", "!", cautions(sheet.analysis))
}

/// How many faults the check found, so that nobody orders from a spec that
/// does not stand.
fn found(sheet: &Sheet<'_>) -> String {
    match Summary::standing(sheet.analysis).kinds() {
        kinds if kinds.is_empty() => String::new(),
        kinds => {
            let words = format!("Before ordering, see what the check of this spec finds: {kinds}.");
            wrapped(&words, "", sheet.layout.width) + "\n"
        }
    }
}
