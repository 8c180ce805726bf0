//! Fixes that change another file than the one that is checked.

use std::sync::Arc;

use super::{Analysis, path};
use crate::findings::{Finding, Fix};
use crate::text::{Shown, clean};

/// Has every fix of a finding that changes another file say which; it reaches
/// whatever else uses that file, so it is never made unseen.
pub(crate) fn name_other_files(analysis: &Analysis, finding: &mut Arc<Finding>) {
    let is_elsewhere = |fix: &Fix| other_file(analysis, fix).is_some();
    if !finding.fixes.iter().any(is_elsewhere) {
        return;
    }
    for fix in &mut Arc::make_mut(finding).fixes {
        if let Some(name) = other_file(analysis, fix) {
            fix.safe = false;
            let name = clean(name, Shown::Line);
            fix.title = format!("{} in {name}", fix.title).into();
        }
    }
}

/// The name of another file that a fix changes.
fn other_file<'a>(analysis: &'a Analysis, fix: &Fix) -> Option<&'a str> {
    let mut files = fix.changes.iter().map(|change| change.place.section.file.0);
    let other = files.find(|file| *file != 0)?;
    let file = analysis.files.get(other as usize)?;
    Some(path::name(&file.path))
}
