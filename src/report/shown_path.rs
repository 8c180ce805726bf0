//! Paths as they are shown: as seen from a folder, parted by `/`.

use std::borrow::Cow;

use crate::text::{Shown, clean};

/// An absolute path as seen from an absolute folder, both parted by `/`:
/// `jobs/court.patio`, `../house/standard.patio`. A path that has no folder in
/// common with it stays whole, `/tmp/court.patio`. What a line cannot show of
/// it, a line end above all, is shown by a mark.
pub fn shown_path(path: &str, folder: &str) -> String {
    let first = |path: &str| {
        let mut parts = path.split('/').filter(|part| !part.is_empty());
        parts.next().map(str::to_owned)
    };
    let is_apart = first(folder).is_some_and(|own| first(path).is_some_and(|other| own != other));
    match is_apart {
        true => shown(path.to_owned()),
        false => path_from(path, folder),
    }
}

/// The same, but always as a line of a spec leads there: up through as many
/// folders as it takes, and whole on another drive only.
pub fn path_from(path: &str, folder: &str) -> String {
    shown(seen_from(path, folder))
}

fn shown(path: String) -> String {
    match clean(&path, Shown::Line) {
        Cow::Borrowed(_) => path,
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
    fn a_line_of_a_spec_leads_there_from_anywhere() {
        for (path, folder, from) in [
            ("/tmp/c.patio", "/a/b", "../../tmp/c.patio"),
            ("/a/c.patio", "/a/b", "../c.patio"),
            ("D:/a/c.patio", "C:/a", "D:/a/c.patio"),
        ] {
            assert_eq!(path_from(path, folder), from);
        }
    }

    #[test]
    fn paths_are_seen_from_the_folder() {
        for (path, folder, shown) in [
            ("/a/b/c.patio", "/a/b", "c.patio"),
            ("/a/b/c.patio", "/a", "b/c.patio"),
            ("/a/b/c.patio", "/", "a/b/c.patio"),
            ("/a/c.patio", "/a/b/d", "../../c.patio"),
            ("/ab/c.patio", "/a", "/ab/c.patio"),
            ("/tmp/c.patio", "/a/b/d", "/tmp/c.patio"),
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
