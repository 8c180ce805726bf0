//! Files in memory, as an analysis asks for them.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, Files};
use drylay::text::Text;

/// The day on which every test checks.
pub const TODAY: &str = "2027-01-12";

/// Files by their absolute paths.
#[derive(Clone, Default)]
pub struct Folder(pub BTreeMap<String, Text>);

impl Folder {
    /// A folder with these files, each a path and its text.
    pub fn with<'a>(files: impl IntoIterator<Item = (&'a str, &'a str)>) -> Folder {
        let entry = |(path, text): (&str, &str)| (path.to_owned(), Text::from(text));
        Folder(files.into_iter().map(entry).collect())
    }

    /// Every spec of this repository, under `/specs`.
    pub fn of_specs() -> Folder {
        let mut folder = Folder::default();
        folder.add(&repository().join("specs"), "/specs");
        assert!(folder.0.len() >= 10, "the specs are not where they were");
        folder
    }

    /// Every spec below a folder of this repository, under another path.
    pub fn of(below: &str, path: &str) -> Folder {
        let mut folder = Folder::default();
        folder.add(&repository().join(below), path);
        assert!(!folder.0.is_empty(), "no spec is below {below}");
        folder
    }

    fn add(&mut self, disk: &Path, path: &str) {
        for entry in std::fs::read_dir(disk).expect("the folder can be read") {
            let entry = entry.expect("the folder can be read").path();
            let name = entry.file_name().unwrap_or_default().to_string_lossy();
            let below = format!("{path}/{name}");
            if entry.is_dir() {
                self.add(&entry, &below);
            } else if name.ends_with(".patio") {
                let text = std::fs::read_to_string(&entry).expect("the spec can be read");
                self.0.insert(below, Text::from(text));
            }
        }
    }

    /// The paths of all files, in order.
    pub fn paths(&self) -> Vec<String> {
        self.0.keys().cloned().collect()
    }

    /// The text of a file.
    pub fn text(&self, path: &str) -> Text {
        self.0
            .get(path)
            .unwrap_or_else(|| panic!("there is no {path}"))
            .clone()
    }

    /// What is known of one of its files.
    pub fn analysis(&self, path: &str) -> Arc<Analysis> {
        Analyser::new().analyse(path, self.text(path), self, TODAY)
    }
}

impl Files for Folder {
    fn read(&self, path: &str) -> Result<Text, String> {
        let text = self.0.get(path).cloned();
        text.ok_or_else(|| "there is no such file".to_owned())
    }

    fn exists(&self, path: &str) -> bool {
        let below = format!("{path}/");
        self.0.contains_key(path) || self.0.keys().any(|other| other.starts_with(&below))
    }

    fn list(&self, folder: &str) -> Arc<[String]> {
        let inside = |path: &String| {
            let rest = path.strip_prefix(folder)?.strip_prefix('/')?;
            rest.split('/').next().map(str::to_owned)
        };
        let mut names: Vec<String> = self.0.keys().filter_map(inside).collect();
        names.dedup();
        names.into()
    }
}

/// Where this repository lies.
pub fn repository() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}
