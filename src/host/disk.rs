//! Files and folders.

use crate::text::Text;
use std::fs;
use std::io::{self, Read};
use std::path::Path;
use std::sync::Arc;

/// The largest file that is read: no spec comes near it.
const LARGEST: u64 = 64 * 1024 * 1024;

/// The text of a regular file; or, in words, why there is none. A pipe or a
/// device is not even opened: that alone may wait for ever.
pub fn text_at(path: &Path) -> Result<Text, String> {
    let described = |error: io::Error| in_words(&error);
    let length = regular(&fs::metadata(path).map_err(described)?)?;
    let mut file = fs::File::open(path).map_err(described)?;
    // Another may lie there by now.
    regular(&file.metadata().map_err(described)?)?;
    text_from(&mut file, length)
}

/// The text that a stream gives until it ends, about `length` bytes of it; or,
/// in words, why there is none. One that does not end is left.
pub fn text_from(stream: &mut dyn Read, length: u64) -> Result<Text, String> {
    // One byte more than there are, so that the end is seen at once.
    let room = usize::try_from(length.min(LARGEST)).unwrap_or_default() + 1;
    let mut bytes = Vec::with_capacity(room);
    let read = stream.take(LARGEST + 1).read_to_end(&mut bytes);
    let read = read.map_err(|error| in_words(&error))?;
    if read as u64 > LARGEST {
        return Err(too_large());
    }
    text_of(bytes)
}

/// How long a regular file is; or, in words, why it is not read.
pub(crate) fn regular(about: &fs::Metadata) -> Result<u64, String> {
    match about.len() {
        _ if about.is_dir() => Err("it is a folder".to_owned()),
        _ if !about.is_file() => {
            Err("it is a pipe or a device; `-` reads standard input".to_owned())
        }
        length if length > LARGEST => Err(too_large()),
        length => Ok(length),
    }
}

fn too_large() -> String {
    format!("it is larger than {} MB", LARGEST / 1024 / 1024)
}

/// Whether links lead from a path out of a folder that it lies in.
pub(crate) fn leads_out(path: &Path, folder: &Path) -> bool {
    match (fs::canonicalize(path), fs::canonicalize(folder)) {
        (Ok(path), Ok(folder)) => !path.starts_with(folder),
        // What is not there leads nowhere.
        _ => false,
    }
}

/// Bytes as text; or, in words, why they are none.
pub(crate) fn text_of(bytes: Vec<u8>) -> Result<Text, String> {
    let is_utf16 = bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]);
    match String::from_utf8(bytes) {
        Ok(text) => Ok(Text::from(text)),
        Err(_) if is_utf16 => Err("it is UTF-16 text: save it as UTF-8".to_owned()),
        Err(error) => {
            let sound = error.utf8_error().valid_up_to();
            let before = error.as_bytes().get(..sound).unwrap_or_default();
            let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
            Err(format!("it is not UTF-8 text: see line {line}"))
        }
    }
}

/// The names in a folder, sorted; none if it cannot be read.
pub(crate) fn names_in(folder: &str) -> Arc<[String]> {
    let folder = if folder.is_empty() { "/" } else { folder };
    let mut names: Vec<String> = fs::read_dir(folder)
        .into_iter()
        .flatten()
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .collect();
    names.sort_unstable();
    names.into()
}

/// What went wrong with a file, in words.
pub fn in_words(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file".to_owned(),
        io::ErrorKind::PermissionDenied => "it may not be opened".to_owned(),
        io::ErrorKind::ReadOnlyFilesystem => "its disk is read-only".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
        io::ErrorKind::StorageFull => "there is no room left for it".to_owned(),
        _ => error.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bytes_that_are_no_text_are_told() {
        for (bytes, reported) in [
            (&b"job"[..], Ok("job")),
            (b"a\nb\xff", Err("it is not UTF-8 text: see line 2")),
            (b"\xff\xfej\0", Err("it is UTF-16 text: save it as UTF-8")),
        ] {
            let read = text_of(bytes.to_vec());
            assert_eq!(read.as_deref().map_err(String::as_str), reported);
        }
    }

    #[test]
    fn a_stream_that_does_not_end_is_left() {
        assert_eq!(text_from(&mut &b"job"[..], 9).as_deref(), Ok("job"));
        let endless = text_from(&mut io::repeat(b'a'), 0);
        assert_eq!(endless, Err("it is larger than 64 MB".to_owned()));
    }

    #[cfg(unix)]
    #[test]
    fn what_is_no_file_is_not_read() {
        use std::os::unix::fs::symlink;
        use std::os::unix::net::UnixListener;
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        symlink("/dev/zero", at("zero")).unwrap();
        let _socket = UnixListener::bind(at("socket")).unwrap();
        let made = std::process::Command::new("mkfifo")
            .arg(at("pipe"))
            .status();
        assert!(made.unwrap().success());
        for name in ["zero", "socket", "pipe"] {
            let why = text_at(&at(name)).unwrap_err();
            assert!(why.starts_with("it is a pipe or a device"), "{name}: {why}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn links_may_stay_in_their_folder() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        fs::create_dir(at("in")).unwrap();
        fs::write(at("in/a"), "").unwrap();
        fs::write(at("out"), "").unwrap();
        for (link, target, out) in [
            ("b", "a", false),
            ("c", "../out", true),
            ("d", "none", false),
        ] {
            let link = at("in").join(link);
            std::os::unix::fs::symlink(target, &link).unwrap();
            assert_eq!(leads_out(&link, &at("in")), out, "{target}");
        }
    }
}
