//! Paths as they are shown: as seen from a folder, parted by `/`.

use std::borrow::Cow;

use crate::text::{Shown, clean};

/// An absolute path as seen from an absolute folder, both parted by `/`:
/// `jobs/court.patio`, `../house/standard.patio`. A path on another drive
/// stays as it is. What a line cannot show of it, a line end above all, is
/// shown by a mark.
pub fn shown_path(path: &str, folder: &str) -> String {
    let seen = seen_from(path, folder);
    match clean(&seen, Shown::Line) {
        Cow::Borrowed(_) => seen,
        Cow::Owned(clean) => clean,
    }
}

fn seen_from(path: &str, folder: &str) -> String {
    // Most lie below the folder.
    let below = path.strip_prefix(folder).filter(|_| !folder.is_empty());
    if let Some(below) = below.and_then(|below| below.strip_prefix('/'))
        && !below.contains("//")
    {
        return below.to_owned();
    }
    fn parts(path: &str) -> Vec<&str> {
        path.split('/').filter(|part| !part.is_empty()).collect()
    }
    let (of_path, of_folder) = (parts(path), parts(folder));
    let drive = |parts: &[&str]| parts.first().is_some_and(|part| part.ends_with(':'));
    let is_elsewhere = of_path.first() != of_folder.first();
    if is_elsewhere && (drive(&of_path) || drive(&of_folder)) {
        return path.to_owned();
    }
    let same = of_path
        .iter()
        .zip(&of_folder)
        .take_while(|(a, b)| a == b)
        .count();
    let up = of_folder.iter().skip(same).map(|_| "..");
    let down = of_path.iter().skip(same).copied();
    up.chain(down).collect::<Vec<_>>().join("/")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_seen_from_the_folder() {
        for (path, folder, shown) in [
            ("/a/b/c.patio", "/a/b", "c.patio"),
            ("/a/b/c.patio", "/a", "b/c.patio"),
            ("/a/b/c.patio", "/", "a/b/c.patio"),
            ("/a/c.patio", "/a/b/d", "../../c.patio"),
            ("/ab/c.patio", "/a", "../ab/c.patio"),
            ("C:/a/c.patio", "C:/a", "c.patio"),
            ("D:/a/c.patio", "C:/a", "D:/a/c.patio"),
            ("/a/c.patio", "C:/a", "/a/c.patio"),
            ("C:/c.patio", "C:/a", "../c.patio"),
            ("/a/b//c.patio", "/a", "b/c.patio"),
            ("/a/b", "/a/b", ""),
            ("/a/b\n::error::c", "/a", "b\u{fffd}::error::c"),
        ] {
            assert_eq!(shown_path(path, folder), shown, "{path} from {folder}");
        }
    }
}
