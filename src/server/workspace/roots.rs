//! The folders of the workspace.

use std::path::Path;

use indexmap::IndexSet;

use crate::analysis::{Files, folder, standard_places};

/// The folders of the workspace, as absolute paths, in the client's order.
#[derive(Debug, Clone, Default)]
pub(crate) struct Roots(Vec<String>);

impl Roots {
    /// These folders.
    pub(crate) fn new(folders: impl IntoIterator<Item = String>) -> Roots {
        let mut roots = Roots::default();
        roots.change(folders, &[]);
        roots
    }

    /// Folders come and go.
    pub(crate) fn change(&mut self, come: impl IntoIterator<Item = String>, gone: &[String]) {
        let plain = |path: &str| path.trim_end_matches('/').to_owned();
        self.0
            .retain(|own| !gone.iter().any(|gone| plain(gone) == *own));
        for folder in come {
            let folder = plain(&folder);
            if !self.0.contains(&folder) {
                self.0.push(folder);
            }
        }
    }

    /// All of them.
    pub(crate) fn all(&self) -> &[String] {
        &self.0
    }

    /// A path as seen from the first of them; an absolute one stays.
    pub(crate) fn resolve(&self, path: &str) -> Option<String> {
        let root = self.0.first().map_or("", String::as_str);
        let full = Path::new(root).join(path);
        full.to_str().map(str::to_owned)
    }

    /// The folders above them in which a standard for them may stand, those
    /// that are in one of them left out.
    pub(crate) fn above(&self, files: &dyn Files) -> Vec<String> {
        let roots = self.0.iter();
        let places = roots.flat_map(|root| standard_places(&format!("{root}/standard"), files));
        let folders = places.map(|place| folder(&place).to_owned());
        let is_outside = |folder: &String| !self.0.contains(folder) && self.of(folder).is_none();
        let above: IndexSet<String> = folders.filter(is_outside).collect();
        above.into_iter().collect()
    }

    /// The one that a path lies in, the nearest if one lies in another.
    pub(crate) fn of(&self, path: &str) -> Option<&str> {
        let is_above = |root: &&String| {
            let rest = path.strip_prefix(root.as_str());
            rest.is_some_and(|rest| rest.starts_with('/'))
        };
        let above = self.0.iter().filter(is_above);
        above.max_by_key(|root| root.len()).map(String::as_str)
    }

    /// The folder from which the paths in documents on a spec are shown: the
    /// root that it lies in, else its own folder.
    pub(crate) fn shown_from<'a>(&'a self, spec: &'a str) -> &'a str {
        self.of(spec).unwrap_or(folder(spec))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::NoFiles;
    use crate::host::RememberedDisk;

    #[test]
    fn standards_may_stand_above_as_far_as_the_repository() {
        let folder = tempfile::tempdir().unwrap();
        let top = folder.path().join("practice");
        std::fs::create_dir_all(top.join("jobs/one/deep")).unwrap();
        std::fs::create_dir_all(top.join(".git")).unwrap();
        let at = |name: &str| top.join(name).to_str().unwrap().to_owned();
        let roots = Roots::new([at("jobs/one"), at("jobs/one/deep"), at("jobs/two")]);
        assert_eq!(
            roots.above(&RememberedDisk::default()),
            [at("jobs"), top.to_str().unwrap().to_owned()]
        );
        assert_eq!(
            Roots::new([top.to_str().unwrap().to_owned()]).above(&RememberedDisk::default()),
            [] as [&str; 0]
        );
        assert_eq!(Roots::new(["/a".to_owned()]).above(&NoFiles), [""]);
    }

    #[test]
    fn a_path_lies_in_the_nearest_root_above_it() {
        let mut roots = Roots::new(["/a", "/a/b/", "/a"].map(str::to_owned));
        assert_eq!(roots.all(), ["/a", "/a/b"]);
        for (path, root) in [
            ("/a/c.patio", Some("/a")),
            ("/a/b/c.patio", Some("/a/b")),
            ("/ab/c.patio", None),
            ("untitled:one", None),
        ] {
            assert_eq!(roots.of(path), root, "{path}");
        }
        assert_eq!(roots.shown_from("/z/y/c.patio"), "/z/y");
        assert_eq!(roots.resolve("x.patio").as_deref(), Some("/a/x.patio"));
        roots.change(["/z".to_owned()], &["/a/".to_owned()]);
        assert_eq!(roots.all(), ["/a/b", "/z"]);
        assert_eq!(roots.shown_from("/z/y/c.patio"), "/z");
    }
}
