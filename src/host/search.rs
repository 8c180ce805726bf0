//! Looking for specs in a folder: the editor and the command line find the
//! same ones.

use std::path::{Path, PathBuf};

use ignore::WalkBuilder;

use super::in_words;

/// The ending of a spec's name.
const ENDING: &str = "patio";

/// What a look at one entry of a folder came to.
#[derive(Debug, PartialEq, Eq)]
pub enum Looked {
    /// It is a spec.
    Spec(PathBuf),
    /// It is something else.
    Other,
    /// It could not be looked at, and why in words.
    Failed(String),
}

/// Looks at everything in a folder and below that no ignore file leaves out.
pub fn specs_below(folder: &Path) -> impl Iterator<Item = Looked> {
    // An ignore file is heard whether or not the folder is a repository.
    let entries = WalkBuilder::new(folder).require_git(false).build();
    entries.map(|entry| match entry {
        Ok(entry) => {
            let is_file = entry.file_type().is_some_and(|kind| !kind.is_dir());
            match is_file && is_spec(entry.path()) {
                true => Looked::Spec(entry.into_path()),
                false => Looked::Other,
            }
        }
        Err(error) => Looked::Failed(error.io_error().map_or_else(|| error.to_string(), in_words)),
    })
}

/// Whether a path has the name of a spec.
pub fn is_spec(path: &Path) -> bool {
    path.extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case(ENDING))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    #[test]
    fn specs_are_found_but_for_those_left_out() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        fs::create_dir_all(at("jobs/old")).unwrap();
        for name in ["a.patio", "jobs/B.PATIO", "jobs/old/c.patio", "notes.txt"] {
            fs::write(at(name), "").unwrap();
        }
        fs::write(at(".ignore"), "old\n").unwrap();
        let specs = specs_below(folder.path()).filter_map(|looked| match looked {
            Looked::Spec(path) => Some(path),
            _ => None,
        });
        let mut specs: Vec<PathBuf> = specs.collect();
        specs.sort();
        assert_eq!(specs, [at("a.patio"), at("jobs/B.PATIO")]);
        let missing: Vec<Looked> = specs_below(&at("no-such")).collect();
        assert_eq!(
            missing,
            [Looked::Failed("there is no such file".to_owned())]
        );
    }
}
