//! Looking for specs in a folder: the editor and the command line find the
//! same ones.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use ignore::{DirEntry, WalkBuilder};

use super::disk::{leads_out, regular};
use super::in_words;

/// The ending of a spec's name.
const ENDING: &str = "patio";

/// The files of a folder that say what is left out in it.
const IGNORE_FILES: [&str; 3] = [".ignore", ".gitignore", ".git/info/exclude"];

/// What a look at one entry of a folder came to.
#[derive(Debug, PartialEq, Eq)]
pub enum Looked {
    /// It is a spec.
    Spec(PathBuf),
    /// It is something else.
    Other,
    /// It could not be looked at, and why in words: what it is, if it is not
    /// the folder itself.
    Failed(Option<PathBuf>, String),
}

/// A folder that was not entered by its ignore files, one of which is no
/// regular file, and why in words.
#[derive(Debug)]
struct Closed {
    folder: PathBuf,
    ignore_file: PathBuf,
    why: String,
}

/// Looks at everything in a folder and below that no ignore file leaves out.
/// What is called a spec and is no regular file, or a link that leads out of
/// the folder, is none. Where an ignore file cannot be read, that is told, and
/// what lies there is looked at without any.
pub fn specs_below(folder: &Path) -> impl Iterator<Item = Looked> {
    let unsound = closed_by_ignore_file(folder);
    let hears_ignore_files = unsound.is_none();
    let closed: Arc<Mutex<Vec<Closed>>> = Arc::default();
    let shut = Arc::clone(&closed);
    let mut walk = walk(folder, hears_ignore_files);
    walk.filter_entry(move |entry| !hears_ignore_files || may_be_entered(entry, &shut));
    let top = folder.to_owned();
    let looked = walk.build().map(move |entry| seen(entry, &top));
    // Which folders were left out is known at the end.
    let closed = std::iter::once_with(move || {
        let mut closed = closed.lock().unwrap_or_else(PoisonError::into_inner);
        std::mem::take(&mut *closed)
    });
    let top = folder.to_owned();
    let below = closed.flatten().flat_map(move |closed| {
        let entries = walk_all(&closed.folder, &top);
        std::iter::once(told(closed)).chain(entries)
    });
    unsound.into_iter().map(told).chain(looked).chain(below)
}

fn told(closed: Closed) -> Looked {
    Looked::Failed(Some(closed.ignore_file), closed.why)
}

/// What lies in a folder and below, with no ignore file heard.
fn walk_all(folder: &Path, top: &Path) -> Vec<Looked> {
    let entries = walk(folder, false).build();
    entries.map(|entry| seen(entry, top)).collect()
}

/// A walk of a folder. An ignore file is heard whether or not the folder is a
/// repository.
fn walk(folder: &Path, hears_ignore_files: bool) -> WalkBuilder {
    let mut walk = WalkBuilder::new(folder);
    walk.require_git(false)
        .ignore(hears_ignore_files)
        .git_ignore(hears_ignore_files)
        .git_exclude(hears_ignore_files)
        .parents(hears_ignore_files);
    walk
}

fn seen(entry: Result<DirEntry, ignore::Error>, top: &Path) -> Looked {
    match entry {
        Ok(entry) => looked_at(entry, top),
        Err(error) => {
            let why = error.io_error().map_or_else(|| error.to_string(), in_words);
            Looked::Failed(None, why)
        }
    }
}

fn looked_at(entry: DirEntry, folder: &Path) -> Looked {
    let path = entry.path();
    let is_folder = entry.file_type().is_some_and(|kind| kind.is_dir());
    if is_folder || !is_spec(path) {
        return Looked::Other;
    }
    if !entry.path_is_symlink() {
        let is_regular = entry.file_type().is_some_and(|kind| kind.is_file());
        return match is_regular {
            true => Looked::Spec(entry.into_path()),
            false => failed(&entry, fs::metadata(path)),
        };
    }
    match fs::metadata(path) {
        Ok(about) if about.is_dir() => Looked::Other,
        Ok(about) if about.is_file() && leads_out(path, folder) => {
            let why = "it is a link that leads out of the folder: name it to have it read";
            Looked::Failed(Some(entry.into_path()), why.to_owned())
        }
        Ok(about) if about.is_file() => Looked::Spec(entry.into_path()),
        other => failed(&entry, other),
    }
}

/// Why something that is called a spec is none.
fn failed(entry: &DirEntry, about: io::Result<fs::Metadata>) -> Looked {
    let why = match about {
        Ok(about) => regular(&about).err().unwrap_or_default(),
        Err(error) => in_words(&error),
    };
    Looked::Failed(Some(entry.path().to_owned()), why)
}

/// Whether a folder below the first may be searched by its ignore files: they
/// are read on entering it, whatever lies there under that name.
fn may_be_entered(entry: &DirEntry, closed: &Mutex<Vec<Closed>>) -> bool {
    if !entry.file_type().is_some_and(|kind| kind.is_dir()) {
        return true;
    }
    let unsound = unsound_in(entry.path());
    let is_sound = unsound.is_none();
    let mut closed = closed.lock().unwrap_or_else(PoisonError::into_inner);
    closed.extend(unsound);
    is_sound
}

/// An ignore file that bears on a folder and is no regular file, in it or
/// above it.
fn closed_by_ignore_file(folder: &Path) -> Option<Closed> {
    let full = std::path::absolute(folder).unwrap_or_else(|_| folder.to_owned());
    full.ancestors().find_map(unsound_in)
}

fn unsound_in(folder: &Path) -> Option<Closed> {
    IGNORE_FILES.iter().find_map(|name| {
        let ignore_file = folder.join(name);
        // Most are not there; a folder of that name is not read.
        let about = fs::metadata(&ignore_file).ok();
        let about = about.filter(|about| !about.is_dir())?;
        Some(Closed {
            why: regular(&about).err()?,
            folder: folder.to_owned(),
            ignore_file,
        })
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
        let why = "there is no such file".to_owned();
        assert_eq!(missing, [Looked::Failed(None, why)]);
    }

    #[cfg(unix)]
    #[test]
    fn only_files_of_the_folder_itself_are_found() {
        use std::os::unix::fs::symlink;
        let top = tempfile::tempdir().unwrap();
        let at = |name: &str| top.path().join(name);
        fs::create_dir_all(at("jobs/odd")).unwrap();
        for name in ["jobs/a.patio", "jobs/odd/b.patio", "c.patio"] {
            fs::write(at(name), "").unwrap();
        }
        symlink("a.patio", at("jobs/alias.patio")).unwrap();
        symlink("../c.patio", at("jobs/out.patio")).unwrap();
        symlink("/dev/zero", at("jobs/zero.patio")).unwrap();
        symlink("nowhere", at("jobs/lost.patio")).unwrap();
        symlink("/dev/zero", at("jobs/odd/.gitignore")).unwrap();
        let (mut specs, mut failed) = (Vec::new(), Vec::new());
        let name = |path: PathBuf| path.strip_prefix(at("jobs")).unwrap().display().to_string();
        for looked in specs_below(&at("jobs")) {
            match looked {
                Looked::Spec(path) => specs.push(name(path)),
                Looked::Failed(path, _) => failed.push(name(path.unwrap())),
                Looked::Other => {}
            }
        }
        specs.sort();
        failed.sort();
        assert_eq!(specs, ["a.patio", "alias.patio", "odd/b.patio"]);
        let odd = ["lost.patio", "odd/.gitignore", "out.patio", "zero.patio"];
        assert_eq!(failed, odd);
        // One above the folder is read as well: it is told, and all is found.
        symlink("/dev/zero", at(".ignore")).unwrap();
        let looked: Vec<Looked> = specs_below(&at("jobs")).collect();
        assert!(
            matches!(&*looked, [Looked::Failed(Some(path), _), ..] if *path == at(".ignore")),
            "{looked:?}"
        );
        let specs = looked.iter().filter(|one| matches!(one, Looked::Spec(_)));
        assert_eq!(specs.count(), 3);
    }
}
