//! Paths as they are shown: as seen from a folder, parted by `/`.

/// An absolute path as seen from an absolute folder, both parted by `/`:
/// `jobs/court.patio`, `../house/standard.patio`. A path on another drive
/// stays as it is.
pub fn shown_path(path: &str, folder: &str) -> String {
    let parts = |text| -> Vec<String> {
        let parts = str::split(text, '/').filter(|part| !part.is_empty());
        parts.map(str::to_owned).collect()
    };
    let (of_path, of_folder) = (parts(path), parts(folder));
    let drive = |parts: &[String]| parts.first().filter(|part| part.ends_with(':')).cloned();
    if drive(&of_path) != drive(&of_folder) {
        return path.to_owned();
    }
    let same = of_path
        .iter()
        .zip(&of_folder)
        .take_while(|(a, b)| a == b)
        .count();
    let up = of_folder.iter().skip(same).map(|_| "..".to_owned());
    let down = of_path.iter().skip(same).cloned();
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
        ] {
            assert_eq!(shown_path(path, folder), shown, "{path} from {folder}");
        }
    }
}
