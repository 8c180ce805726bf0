//! The root of a practice's specs, the same in the editor and on the command
//! line.

use super::Files;
use super::path;

/// The file name of a practice's standard.
pub(crate) const STANDARD: &str = "standard.patio";

/// The root that a spec lies in: the outermost folder above it that holds a
/// `standard.patio`, not past a `.git`; else the spec's own folder.
pub fn root_of(spec: &str, files: &dyn Files) -> String {
    let own = path::folder(spec);
    standards_above(spec, files)
        .last()
        .map_or(own, |standard| path::folder(standard))
        .to_owned()
}

/// The standards in the folders above a file, the nearest first, not past a
/// `.git`.
pub(crate) fn standards_above(file: &str, files: &dyn Files) -> Vec<String> {
    let mut places = standard_places(file, files);
    places.retain(|standard| files.exists(standard));
    places
}

/// Where a standard for a file may stand, whether there is one or not: in the
/// folders above it, the nearest first, not past a `.git`.
pub(crate) fn standard_places(file: &str, files: &dyn Files) -> Vec<String> {
    let mut places = Vec::new();
    let mut folder = path::folder(file);
    loop {
        places.push(format!("{folder}/{STANDARD}"));
        if folder.is_empty() || files.exists(&format!("{folder}/.git")) {
            return places;
        }
        folder = path::folder(folder);
    }
}
