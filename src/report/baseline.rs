//! A baseline: findings that were there on a day, so that only new ones are
//! told afterwards.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::{Review, shown_path};

/// The findings that are known, by file: their fingerprints.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Baseline {
    version: u32,
    files: BTreeMap<String, BTreeSet<String>>,
}

impl Baseline {
    /// All findings of a review that no acceptance took. Paths are kept as
    /// seen from the folder in which the baseline will lie.
    pub fn of(review: &Review, folder: &str) -> Baseline {
        let mut files: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        for (file, row) in review.standing() {
            let path = shown_path(&file.full_path, folder);
            files
                .entry(path)
                .or_default()
                .insert(row.fingerprint.clone());
        }
        Baseline { version: 1, files }
    }

    /// Reads a baseline that was written here; `None` if the text is none.
    pub fn read(text: &str) -> Option<Baseline> {
        let baseline: Baseline = serde_json::from_str(text).ok()?;
        (baseline.version == 1).then_some(baseline)
    }

    /// The baseline as a text that is read again.
    pub fn text(&self) -> String {
        // Strings under keys that are strings always serialise.
        serde_json::to_string_pretty(self).unwrap_or_default() + "\n"
    }

    /// Takes the findings that are known out of a review, and counts them
    /// there. `folder` is where the baseline lies.
    pub fn take_from(&self, review: &mut Review, folder: &str) {
        for file in &mut review.files {
            let Some(known) = self.files.get(&shown_path(&file.full_path, folder)) else {
                continue;
            };
            let before = file.rows.len();
            file.rows
                .retain(|row| row.accepted.is_some() || !known.contains(&row.fingerprint));
            review.known += before - file.rows.len();
        }
    }
}

impl Baseline {
    /// Takes out what is known and no longer found: it has been put right or
    /// accepted. Gives the fingerprints of those findings, by path. A file
    /// that was not checked keeps what is known of it, unless it is gone.
    pub fn prune(
        &mut self,
        review: &Review,
        folder: &str,
        is_gone: impl Fn(&str) -> bool,
    ) -> BTreeMap<String, Vec<String>> {
        let of = |file: &super::Reviewed| {
            // A baseline of an earlier version knows cautions too.
            let rows = file.standing().chain(&file.cautions);
            let marks = rows.map(|row| row.fingerprint.clone());
            let path = shown_path(&file.full_path, folder);
            (path, marks.collect::<BTreeSet<String>>())
        };
        let found: BTreeMap<String, BTreeSet<String>> = review.files.iter().map(of).collect();
        let mut put_right = BTreeMap::new();
        for (path, known) in &mut self.files {
            let stands = |mark: &String| match found.get(path) {
                Some(found) => found.contains(mark),
                None => !is_gone(path),
            };
            let (stands, gone): (BTreeSet<String>, BTreeSet<String>) =
                std::mem::take(known).into_iter().partition(stands);
            *known = stands;
            if !gone.is_empty() {
                put_right.insert(path.clone(), gone.into_iter().collect());
            }
        }
        self.files.retain(|_, known| !known.is_empty());
        put_right
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_baseline_is_read_as_one() {
        let empty = Baseline::of(&Review::default(), "/");
        assert_eq!(Baseline::read(&empty.text()), Some(empty));
        for text in ["", "{}", "[]", "{\"version\": 2, \"files\": {}}"] {
            assert_eq!(Baseline::read(text), None, "{text}");
        }
    }
}
