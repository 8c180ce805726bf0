//! Files on the disk, as the analysis asks for them.

use std::fs;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;

use super::problem::in_words;
use crate::analysis::Files;

/// The largest file that is read: no spec comes near it.
const LARGEST: u64 = 64 * 1024 * 1024;

/// The files on the disk.
pub struct Disk;

impl Files for Disk {
    fn read(&self, path: &str) -> Option<Arc<str>> {
        text_at(Path::new(path)).ok()
    }

    fn exists(&self, path: &str) -> bool {
        Path::new(path).exists()
    }

    fn list(&self, folder: &str) -> Vec<String> {
        let folder = if folder.is_empty() { "/" } else { folder };
        let Ok(entries) = fs::read_dir(folder) else {
            return Vec::new();
        };
        let mut names: Vec<String> = entries
            .flatten()
            .filter_map(|entry| entry.file_name().into_string().ok())
            .collect();
        names.sort();
        names
    }
}

/// The text of a file; or, in words, why there is none.
pub fn text_at(path: &Path) -> Result<Arc<str>, String> {
    let told = |error: std::io::Error| in_words(&error);
    let about = fs::metadata(path).map_err(told)?;
    if about.is_dir() {
        return Err("it is a folder".to_owned());
    }
    if about.len() > LARGEST {
        return Err(format!("it is larger than {} MB", LARGEST / 1024 / 1024));
    }
    text_of(fs::read(path).map_err(told)?)
}

/// Bytes as text; or, in words, why they are none.
pub fn text_of(bytes: Vec<u8>) -> Result<Arc<str>, String> {
    let is_utf16 = bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]);
    match String::from_utf8(bytes) {
        Ok(text) => Ok(Arc::from(text)),
        Err(_) if is_utf16 => Err("it is UTF-16 text: save it as UTF-8".to_owned()),
        Err(error) => {
            let sound = error.utf8_error().valid_up_to();
            let before = error.as_bytes().get(..sound).unwrap_or_default();
            let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
            Err(format!("it is not UTF-8 text: see line {line}"))
        }
    }
}

/// A path as the analysis knows it: absolute, parted by `/`, without `.` and
/// `..`; `None` if it is not text.
pub fn absolute(path: &Path) -> Option<String> {
    let full = std::path::absolute(path).ok()?;
    let mut plain = PathBuf::new();
    for component in full.components() {
        match component {
            Component::ParentDir => {
                plain.pop();
            }
            Component::CurDir => {}
            other => plain.push(other),
        }
    }
    let text = plain.to_str()?;
    Some(if cfg!(windows) {
        text.replace('\\', "/")
    } else {
        text.to_owned()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bytes_that_are_no_text_are_told() {
        for (bytes, told) in [
            (&b"job"[..], Ok("job")),
            (b"a\nb\xff", Err("it is not UTF-8 text: see line 2")),
            (b"\xff\xfej\0", Err("it is UTF-16 text: save it as UTF-8")),
        ] {
            let read = text_of(bytes.to_vec());
            assert_eq!(read.as_deref().map_err(String::as_str), told);
        }
    }

    #[cfg(unix)]
    #[test]
    fn paths_are_made_plain() {
        for (path, plain) in [("/a/./b/../c", "/a/c"), ("/../a", "/a"), ("/a//b/", "/a/b")] {
            assert_eq!(absolute(Path::new(path)).as_deref(), Some(plain));
        }
    }
}
