//! Files and folders.

use crate::text::Text;
use std::fs;
use std::io::{self, Read};
use std::path::Path;

/// The largest file that is read: no spec comes near it.
const LARGEST: u64 = 64 * 1024 * 1024;

/// The text of a file; or, in words, why there is none.
pub fn text_at(path: &Path) -> Result<Text, String> {
    let told = |error: io::Error| in_words(&error);
    let mut file = fs::File::open(path).map_err(told)?;
    let about = file.metadata().map_err(told)?;
    if about.is_dir() {
        return Err("it is a folder".to_owned());
    }
    if about.len() > LARGEST {
        return Err(format!("it is larger than {} MB", LARGEST / 1024 / 1024));
    }
    // One byte more than there are, so that the end is seen at once.
    let mut bytes = Vec::with_capacity(usize::try_from(about.len()).unwrap_or_default() + 1);
    file.read_to_end(&mut bytes).map_err(told)?;
    text_of(bytes)
}

/// Bytes as text; or, in words, why they are none.
pub fn text_of(bytes: Vec<u8>) -> Result<Text, String> {
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
pub fn names_in(folder: &str) -> Vec<String> {
    let folder = if folder.is_empty() { "/" } else { folder };
    let mut names: Vec<String> = fs::read_dir(folder)
        .into_iter()
        .flatten()
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .collect();
    names.sort_unstable();
    names
}

/// What went wrong with a file, in words.
pub fn in_words(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file".to_owned(),
        io::ErrorKind::PermissionDenied => "it may not be opened".to_owned(),
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
        for (bytes, told) in [
            (&b"job"[..], Ok("job")),
            (b"a\nb\xff", Err("it is not UTF-8 text: see line 2")),
            (b"\xff\xfej\0", Err("it is UTF-16 text: save it as UTF-8")),
        ] {
            let read = text_of(bytes.to_vec());
            assert_eq!(read.as_deref().map_err(String::as_str), told);
        }
    }
}
