//! Which settings hold where: those of the whole session, and others for the
//! folders of the workspace for which the client tells others.

use indexmap::IndexMap;
use serde_json::Value;

use super::values::Settings;
use crate::server::workspace::Roots;

/// What the client has told, and the settings that come of it.
#[derive(Debug, Clone, Default)]
pub(crate) struct Scopes {
    /// As the session began: what holds where nothing else was told.
    begun: Value,
    /// Told for everything.
    reported: Value,
    /// Told for a folder, by its path.
    told_of: IndexMap<String, Value>,
    whole: Settings,
    folders: IndexMap<String, Settings>,
}

impl Scopes {
    /// What is told as the session begins. Gives what is wrong with it, in
    /// words; so do the others.
    pub(crate) fn begin(&mut self, options: Value) -> Vec<String> {
        self.begun = options;
        let (whole, wrong) = Settings::read(&[&self.begun]);
        self.whole = whole;
        wrong
    }

    /// What is told for everything, and for each folder.
    pub(crate) fn set_each(
        &mut self,
        reported: Value,
        folders: Vec<(String, Value)>,
    ) -> Vec<String> {
        self.told_of = folders.into_iter().collect();
        self.set(reported)
    }

    /// What is told later, for everything.
    pub(crate) fn set(&mut self, reported: Value) -> Vec<String> {
        self.reported = reported;
        let (whole, mut all_wrong) = Settings::read(&[&self.reported, &self.begun]);
        self.whole = whole;
        self.folders.clear();
        for (folder, reported) in &self.told_of {
            let (settings, wrong) = Settings::read(&[reported, &self.reported, &self.begun]);
            self.folders.insert(folder.clone(), settings);
            let news = wrong.into_iter().filter(|one| !all_wrong.contains(one));
            all_wrong.extend(news.collect::<Vec<_>>());
        }
        all_wrong
    }

    /// Those that hold for a spec, by the folder of the workspace that it lies
    /// in.
    pub(crate) fn of(&self, spec: &str, roots: &Roots) -> &Settings {
        let folder = roots.of(spec).and_then(|root| self.folders.get(root));
        folder.unwrap_or(&self.whole)
    }

    /// The standard that the user names for a spec. A relative path is seen
    /// from the folder that it is set for, or the first of the workspace.
    pub(crate) fn standard(&self, spec: &str, roots: &Roots) -> Option<String> {
        let named = self.of(spec, roots).standard.as_deref()?;
        let is_whole = self.whole.standard.as_deref() == Some(named);
        let folder = roots.of(spec).filter(|_| !is_whole);
        match folder {
            Some(folder) => Roots::new([folder.to_owned()]).resolve(named),
            None => roots.resolve(named),
        }
    }

    /// The folders of the workspace whose specs are checked, open or not.
    pub(crate) fn checked(&self, roots: &Roots) -> Vec<String> {
        let is_checked = |root: &&String| {
            let own = self.folders.get(*root).unwrap_or(&self.whole);
            own.workspace
        };
        roots.all().iter().filter(is_checked).cloned().collect()
    }

    /// Whether the same holds everywhere.
    pub(crate) fn holds_as(&self, other: &Scopes) -> bool {
        self.whole == other.whole && self.folders == other.folders
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::System;
    use serde_json::json;

    #[test]
    fn a_folder_has_its_own_where_they_are_told() {
        let roots = Roots::new(["/jobs/a", "/jobs/b", "/jobs/a/deep"].map(str::to_owned));
        let mut scopes = Scopes::default();
        scopes.begin(json!({"units": "imperial"}));
        let folders = [
            (
                "/jobs/a",
                json!({"units": "metric", "standard": "own.patio"}),
            ),
            ("/jobs/b", json!({"findings": {"workspace": false}})),
        ];
        let folders = folders.map(|(folder, value)| (folder.to_owned(), value));
        let wrong = scopes.set_each(json!({"standard": "house.patio"}), folders.to_vec());
        assert_eq!(wrong, [] as [String; 0]);
        let (imperial, metric) = (Some(System::Imperial), Some(System::Metric));
        for (spec, units, standard) in [
            ("/jobs/a/x.patio", metric, "/jobs/a/own.patio"),
            ("/jobs/b/x.patio", imperial, "/jobs/a/house.patio"),
            ("/jobs/a/deep/x.patio", imperial, "/jobs/a/house.patio"),
            ("/elsewhere/x.patio", imperial, "/jobs/a/house.patio"),
            ("untitled:one", imperial, "/jobs/a/house.patio"),
        ] {
            assert_eq!(scopes.of(spec, &roots).units, units, "{spec}");
            let found = scopes.standard(spec, &roots);
            assert_eq!(found.as_deref(), Some(standard), "{spec}");
        }
        assert_eq!(scopes.checked(&roots), ["/jobs/a", "/jobs/a/deep"]);
    }

    #[test]
    fn one_mistake_is_told_once_however_many_folders_have_it() {
        let mut scopes = Scopes::default();
        let wrong = json!({"unit": "metric"});
        let folders = ["/a", "/b"].map(|folder| (folder.to_owned(), wrong.clone()));
        assert_eq!(scopes.set_each(wrong.clone(), folders.to_vec()).len(), 1);
        assert_eq!(scopes.set_each(json!(null), folders.to_vec()).len(), 1);
        assert_eq!(scopes.set_each(json!(null), Vec::new()).len(), 0);
    }
}
