//! Writing a file whole or not at all, as what it was.

use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use tempfile::{Builder, NamedTempFile};

/// Writes a text to a file. One that is there keeps its mode, its owner and
/// its links, and is not written if that is not allowed; a pipe or a device is
/// written as it is.
///
/// A temporary file beside the one that is meant takes the text, and then its
/// name, so that nobody ever sees half a file. Where the name alone would not
/// do, as when the file has another one too, the text is written in place.
pub fn write_whole(path: &Path, text: &[u8]) -> io::Result<()> {
    // A link stays one: what it points at is written.
    let file = &target(path)?;
    let about = match fs::metadata(file) {
        Ok(about) => about,
        Err(error) if error.kind() == ErrorKind::NotFound => return create(file, text),
        Err(error) => return Err(error),
    };
    // By the rights of its folder alone it could be replaced all the same.
    if about.is_file() && about.permissions().readonly() {
        return Err(io::Error::other("it is read-only"));
    }
    let own = OpenOptions::new().write(true).open(file)?;
    if !about.is_file() {
        return in_place(own, text, false);
    }
    match replacement(file, text, &about) {
        Some(whole) => named(whole, file),
        None => in_place(own, text, true),
    }
}

/// Whether two paths lead to one file.
pub fn is_same_file(one: &Path, other: &Path) -> bool {
    match (fs::metadata(one), fs::metadata(other)) {
        (Ok(a), Ok(b)) => {
            is_same(&a, &b) || fs::canonicalize(one).ok() == fs::canonicalize(other).ok()
        }
        _ => false,
    }
}

#[cfg(unix)]
fn is_same(one: &Metadata, other: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    (one.dev(), one.ino()) == (other.dev(), other.ino())
}

#[cfg(not(unix))]
fn is_same(_: &Metadata, _: &Metadata) -> bool {
    false
}

/// What is written in the end, links followed.
fn target(path: &Path) -> io::Result<PathBuf> {
    match fs::canonicalize(path) {
        Ok(target) => Ok(target),
        Err(error) if fs::symlink_metadata(path).is_ok() => {
            let why = format!("it is a link that leads nowhere: {error}");
            Err(io::Error::other(why))
        }
        Err(_) => Ok(path.to_owned()),
    }
}

fn create(file: &Path, text: &[u8]) -> io::Result<()> {
    let mut whole = beside(file, NEW)?;
    whole.write_all(text)?;
    whole.as_file().sync_all()?;
    named(whole, file)
}

/// A temporary file with the text that may take the place of a file, all that
/// it is kept; nothing if there can be none.
fn replacement(file: &Path, text: &[u8], about: &Metadata) -> Option<NamedTempFile> {
    if has_other_names(about) {
        return None;
    }
    let mut whole = beside(file, PRIVATE).ok()?;
    keep_owner(&whole, about).ok()?;
    whole.write_all(text).ok()?;
    // The mode last: a change of owner may take some of it away.
    whole.as_file().set_permissions(about.permissions()).ok()?;
    whole.as_file().sync_all().ok()?;
    Some(whole)
}

/// Gives a whole file its name, for good.
fn named(whole: NamedTempFile, file: &Path) -> io::Result<()> {
    whole.persist(file).map_err(|failed| failed.error)?;
    // Some systems cannot wait for a folder; the file itself is written.
    if let Ok(folder) = File::open(folder_of(file)) {
        let _ = folder.sync_all();
    }
    Ok(())
}

fn in_place(mut file: File, text: &[u8], is_regular: bool) -> io::Result<()> {
    file.write_all(text)?;
    if !is_regular {
        return file.flush();
    }
    file.set_len(text.len() as u64)?;
    file.sync_all()
}

fn folder_of(file: &Path) -> &Path {
    let folder = file.parent();
    let folder = folder.filter(|folder| !folder.as_os_str().is_empty());
    folder.unwrap_or(Path::new("."))
}

/// What a new file may be, less what the user's mask takes away.
const NEW: u32 = 0o666;

/// What nobody else may read while it takes another's place.
const PRIVATE: u32 = 0o600;

/// A new file beside another, gone again unless it is given a name.
fn beside(file: &Path, mode: u32) -> io::Result<NamedTempFile> {
    let mut builder = Builder::new();
    builder.prefix(".drylay-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(fs::Permissions::from_mode(mode));
    }
    #[cfg(not(unix))]
    let _ = mode;
    builder.tempfile_in(folder_of(file))
}

#[cfg(unix)]
fn has_other_names(about: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    about.nlink() > 1
}

#[cfg(not(unix))]
fn has_other_names(_: &Metadata) -> bool {
    false
}

#[cfg(unix)]
fn keep_owner(whole: &NamedTempFile, about: &Metadata) -> io::Result<()> {
    use std::os::unix::fs::{MetadataExt, fchown};
    let own = whole.as_file().metadata()?;
    match (own.uid(), own.gid()) == (about.uid(), about.gid()) {
        true => Ok(()),
        false => fchown(whole.as_file(), Some(about.uid()), Some(about.gid())),
    }
}

#[cfg(not(unix))]
fn keep_owner(_: &NamedTempFile, _: &Metadata) -> io::Result<()> {
    Ok(())
}

#[cfg(unix)]
#[cfg(test)]
mod tests {
    use super::*;
    use std::os::unix::fs::{MetadataExt, PermissionsExt, symlink};

    /// A folder with `a`, of this mode, in it.
    fn folder(mode: u32) -> (tempfile::TempDir, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("a");
        fs::write(&file, "a longer text").unwrap();
        fs::set_permissions(&file, fs::Permissions::from_mode(mode)).unwrap();
        (folder, file)
    }

    fn state(file: &Path) -> (String, u32) {
        let mode = fs::metadata(file).unwrap().permissions().mode();
        (fs::read_to_string(file).unwrap(), mode & 0o777)
    }

    #[test]
    fn a_file_keeps_its_mode() {
        for mode in [0o600, 0o640, 0o755] {
            let (_folder, file) = folder(mode);
            write_whole(&file, b"new").unwrap();
            assert_eq!(state(&file), ("new".to_owned(), mode));
        }
    }

    #[test]
    fn a_read_only_file_is_not_written() {
        let (_folder, file) = folder(0o444);
        let refused = write_whole(&file, b"new").unwrap_err();
        assert_eq!(refused.to_string(), "it is read-only");
        assert_eq!(state(&file).0, "a longer text");
    }

    #[test]
    fn links_of_both_kinds_stay() {
        let (folder, file) = folder(0o644);
        let (twin, link) = (folder.path().join("twin"), folder.path().join("link"));
        fs::hard_link(&file, &twin).unwrap();
        write_whole(&file, b"new").unwrap();
        assert_eq!(
            (state(&twin), state(&file)),
            (state(&file), ("new".to_owned(), 0o644))
        );
        assert!(is_same_file(&twin, &file));
        fs::remove_file(&twin).unwrap();
        symlink("a", &link).unwrap();
        write_whole(&link, b"newer").unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert!(is_same_file(&link, &file) && state(&file).0 == "newer");
        symlink("nowhere", &twin).unwrap();
        let refused = write_whole(&twin, b"new").unwrap_err().to_string();
        assert!(
            refused.starts_with("it is a link that leads nowhere"),
            "{refused}"
        );
    }

    #[test]
    fn a_file_of_another_owner_stays_theirs() {
        let (_folder, file) = folder(0o660);
        // Only root may give a file away.
        if std::os::unix::fs::chown(&file, Some(12345), Some(12345)).is_err() {
            return;
        }
        write_whole(&file, b"new").unwrap();
        let about = fs::metadata(&file).unwrap();
        assert_eq!((about.uid(), about.gid()), (12345, 12345));
        assert_eq!(state(&file), ("new".to_owned(), 0o660));
    }

    #[test]
    fn nobody_else_reads_what_takes_the_place_of_a_file() {
        let (_folder, file) = folder(0o644);
        let about = fs::metadata(&file).unwrap();
        let early = beside(&file, PRIVATE).unwrap();
        let mode = early.as_file().metadata().unwrap().permissions().mode();
        assert_eq!(mode & 0o077, 0);
        let whole = replacement(&file, b"new", &about).unwrap();
        let mode = whole.as_file().metadata().unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o644, "as readable as what it replaces");
    }
}
