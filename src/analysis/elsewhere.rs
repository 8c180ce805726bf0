//! What reaches beyond the file that is checked: errors of the files that it
//! uses, and fixes that would change them.

use std::sync::Arc;

use super::{Analysis, path};
use crate::findings::{FileId, Finding, Fix, Severity};
use crate::model::FileInput;
use crate::rules;
use crate::text::{Shown, clean};

/// Files with errors of their own, told at the `use` of the spec that leads to
/// each: what could not be read there is missing here.
pub(crate) fn faulty_files(inputs: &[FileInput], found: &[Finding]) -> Vec<Finding> {
    let is_error = |own: &&Finding| rules::severity_of(own) == Some(Severity::Error);
    let mut errors = vec![0_usize; inputs.len()];
    let elsewhere = found
        .iter()
        .filter(|own| own.place.section.file != FileId(0));
    for finding in elsewhere.filter(is_error) {
        let file = usize::from(finding.place.section.file.0);
        if let Some(count) = errors.get_mut(file) {
            *count += 1;
        }
    }
    let told = inputs.iter().zip(errors).filter_map(|(input, count)| {
        let place = input.asked_at?;
        let name = clean(path::name(&input.path), Shown::Line);
        let errors = match count {
            1 => "an error".to_owned(),
            _ => format!("{count} errors"),
        };
        let message = format!(
            "{name} has {errors}: what rests on that is wrong or missing here. Mend it there first"
        );
        (count > 0).then(|| Finding::new("use-missing", place, message))
    });
    told.collect()
}

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
