//! Paths as text: absolute, parted by `/`, on every system.

/// The folder of a path; empty for one without a `/`.
pub(crate) fn folder(path: &str) -> &str {
    path.rsplit_once('/').map_or("", |(folder, _)| folder)
}

/// The last part of a path.
pub(crate) fn name(path: &str) -> &str {
    path.rsplit_once('/').map_or(path, |(_, name)| name)
}

/// A path with another name at its end.
pub(crate) fn beside(path: &str, name: &str) -> String {
    match path.rsplit_once('/') {
        Some((folder, _)) => format!("{folder}/{name}"),
        None => name.to_owned(),
    }
}

/// The file that a line of the one at a path asks for; `None` if it is not
/// relative, or climbs past the top.
pub(crate) fn asked_for(at: &str, relative: &str) -> Option<String> {
    match is_absolute(relative) || relative.contains('\\') {
        true => None,
        false => joined(folder(at), relative),
    }
}

/// A relative path seen from a folder, its `.` and `..` worked out; `None` if
/// it climbs past the top.
pub(crate) fn joined(folder: &str, relative: &str) -> Option<String> {
    let mut parts: Vec<&str> = folder.split('/').collect();
    for part in relative.split('/') {
        match part {
            "" | "." => {}
            ".." => {
                // The first part is empty, or a drive: the top itself.
                if parts.len() <= 1 {
                    return None;
                }
                parts.pop();
            }
            part => parts.push(part),
        }
    }
    Some(parts.join("/"))
}

/// Whether a path is absolute on any system.
pub(crate) fn is_absolute(path: &str) -> bool {
    path.starts_with(['/', '\\']) || path.as_bytes().get(1) == Some(&b':')
}

/// Whether a path lies in a folder or below it.
pub(crate) fn is_inside(path: &str, folder: &str) -> bool {
    path.strip_prefix(folder)
        .is_some_and(|rest| rest.starts_with('/'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn relative_paths_are_worked_out() {
        for (folder, relative, expected) in [
            ("/a/b", "c.patio", Some("/a/b/c.patio")),
            ("/a/b", "../c.patio", Some("/a/c.patio")),
            ("/a/b", "./d//e.patio", Some("/a/b/d/e.patio")),
            ("/a", "../../c.patio", None),
            ("C:/a", "../b.patio", Some("C:/b.patio")),
        ] {
            assert_eq!(joined(folder, relative).as_deref(), expected);
        }
    }

    #[test]
    fn a_path_lies_in_its_folder_only() {
        assert!(is_inside("/a/b/c.patio", "/a/b"));
        assert!(!is_inside("/a/bc.patio", "/a/b"));
        assert!(is_absolute("/a") && is_absolute("C:/a") && !is_absolute("a/b"));
    }
}
