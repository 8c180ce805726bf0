//! A baseline: findings that were there on a day, so that only new ones are
//! told afterwards, and those that have got worse.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::{Review, Reviewed, Row, path_from};
use crate::rules::Bound;
use crate::units::{Number, Quantity, System, show};

/// The version of the program that writes a baseline.
const PROGRAM: &str = env!("CARGO_PKG_VERSION");

/// Figures that differ by less are the same.
const SAME_FIGURE: f64 = 1e-6;

/// The findings that are known, by file: their fingerprints, each with its
/// figure.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Baseline {
    version: u32,
    /// The program that wrote it; none where an early one did, which did not
    /// say.
    program: Option<String>,
    files: BTreeMap<String, Known>,
}

/// What is known of a file.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
struct Known {
    /// Tells whether the spec and all that it reads are as they were.
    state: Option<String>,
    /// The fingerprints, each with the figure found in SI, if it has one.
    findings: BTreeMap<String, Option<f64>>,
}

impl Baseline {
    /// All findings of a review that no acceptance took. Paths are kept as
    /// seen from the folder in which the baseline will lie.
    pub fn of(review: &Review, folder: &str) -> Baseline {
        let known = |file: &Reviewed| {
            let rows = file.standing();
            let known = Known {
                state: file.state.clone(),
                findings: rows
                    .map(|row| (row.fingerprint.to_string(), si(row).map(rounded)))
                    .collect(),
            };
            (path_from(&file.full_path, folder), known)
        };
        Baseline {
            version: 2,
            program: Some(PROGRAM.to_owned()),
            files: review.files.iter().map(known).collect(),
        }
    }

    /// Reads a baseline that was written here, by any version of the program;
    /// `None` if the text is none.
    pub fn read(text: &str) -> Option<Baseline> {
        let written: Value = serde_json::from_str(text).ok()?;
        match written.get("version").and_then(Value::as_u64)? {
            1 => {
                let files = written.get("files").cloned()?;
                let files: BTreeMap<String, BTreeSet<String>> =
                    serde_json::from_value(files).ok()?;
                let known = |marks: BTreeSet<String>| Known {
                    state: None,
                    findings: marks.into_iter().map(|mark| (mark, None)).collect(),
                };
                Some(Baseline {
                    version: 2,
                    program: None,
                    files: files
                        .into_iter()
                        .map(|(path, marks)| (path, known(marks)))
                        .collect(),
                })
            }
            2 => serde_json::from_value(written).ok(),
            _ => None,
        }
    }

    /// The baseline as a text that is read again.
    pub fn text(&self) -> String {
        // Strings and numbers under keys that are strings always serialise.
        serde_json::to_string_pretty(self).unwrap_or_default() + "\n"
    }

    /// Takes the findings that are known, and no worse than they were, out of
    /// a review, and counts them there. `folder` is where the baseline lies.
    pub fn take_from(&self, review: &mut Review, folder: &str) {
        for file in &mut review.files {
            let Some(known) = self.files.get(&path_from(&file.full_path, folder)) else {
                continue;
            };
            let before = file.rows.len();
            file.rows.retain_mut(|row| {
                row.was = known.worse_than(row).and_then(|was| shown(row, was));
                row.accepted.is_some() || !known.holds(row)
            });
            review.known += before - file.rows.len();
        }
    }

    /// Has a spec that was renamed keep what is known of it: of those that are
    /// gone the one most of whose findings are found in it.
    pub fn follow(&mut self, review: &Review, folder: &str, is_gone: impl Fn(&str) -> bool) {
        for file in &review.files {
            let path = path_from(&file.full_path, folder);
            if self.files.contains_key(&path) {
                continue;
            }
            let rows = file.standing().chain(&file.cautions);
            let marks: BTreeSet<String> = rows.map(|row| row.fingerprint.to_string()).collect();
            let same = |known: &Known| {
                let found = known.findings.keys();
                found.filter(|mark| marks.contains(mark.as_str())).count()
            };
            let others = self.files.iter();
            let before = others
                .filter(|(_, known)| {
                    let is_unchanged = known.state.is_some() && known.state == file.state;
                    let kept = same(known);
                    is_unchanged || (kept > 0 && 2 * kept >= known.findings.len())
                })
                .filter(|(path, _)| is_gone(path))
                .max_by_key(|(_, known)| same(known))
                .map(|(path, _)| path.clone());
            if let Some(known) = before.and_then(|before| self.files.remove(&before)) {
                self.files.insert(path, known);
            }
        }
    }

    /// How many findings of a review are new with this version of the program,
    /// and the version that wrote the baseline: what is not known in specs
    /// that are as they were. Nothing if this version wrote it.
    pub fn new_with_version(&self, review: &Review, folder: &str) -> Option<(usize, &str)> {
        let program = self.program.as_deref().unwrap_or("an earlier version");
        if program == PROGRAM {
            return None;
        }
        let as_it_was = |file: &&Reviewed| {
            let known = self.files.get(&path_from(&file.full_path, folder));
            known.is_some_and(|known| known.state.is_none() || known.state == file.state)
        };
        let unchanged = review.files.iter().filter(as_it_was);
        let new = unchanged.map(|file| file.standing().count()).sum();
        (new > 0).then_some((new, program))
    }

    /// Takes out what is known and no longer found: it has been put right or
    /// accepted. Gives the fingerprints of those findings, by path. A file
    /// that was not checked keeps what is known of it, unless it is gone.
    pub fn prune(
        &mut self,
        review: &Review,
        folder: &str,
        is_gone: impl Fn(&str) -> bool,
    ) -> BTreeMap<String, Vec<String>> {
        let of = |file: &Reviewed| {
            // A baseline of an earlier version knows cautions too.
            let rows = file.standing().chain(&file.cautions);
            let marks = rows.map(|row| row.fingerprint.to_string());
            let path = path_from(&file.full_path, folder);
            (path, marks.collect::<BTreeSet<String>>())
        };
        let found: BTreeMap<String, BTreeSet<String>> = review.files.iter().map(of).collect();
        let mut put_right = BTreeMap::new();
        for (path, known) in &mut self.files {
            let stands = |mark: &String| match found.get(path) {
                Some(found) => found.contains(mark),
                None => !is_gone(path),
            };
            let all = std::mem::take(&mut known.findings);
            let (stands, gone): (BTreeMap<_, _>, BTreeMap<_, _>) =
                all.into_iter().partition(|(mark, _)| stands(mark));
            known.findings = stands;
            if !gone.is_empty() {
                put_right.insert(path.clone(), gone.into_keys().collect());
            }
        }
        self.files
            .retain(|path, known| !known.findings.is_empty() || !is_gone(path));
        put_right
    }
}

/// The figure that was found, in SI.
fn si(row: &Row) -> Option<f64> {
    row.measured().figure.map(|figure| figure.si())
}

/// A figure in SI as the finding of a row shows its own.
fn shown(row: &Row, si: f64) -> Option<Box<str>> {
    let own = row.measured();
    let figure = own.figure?;
    let number = Number::near(si)?;
    let before = Quantity { number, ..figure };
    let is_own = |system: &System| {
        let shown = show::quantity(&figure, *system);
        own.found.as_ref() == Some(&shown)
    };
    let systems = [System::Metric, System::Imperial];
    let system = systems.into_iter().find(is_own).unwrap_or(System::Metric);
    Some(show::quantity(&before, system).into())
}

impl Known {
    /// Whether a finding is known and no worse than it was.
    fn holds(&self, row: &Row) -> bool {
        let known = self.findings.contains_key(&row.fingerprint.to_string());
        known && self.worse_than(row).is_none()
    }

    /// The figure in SI with which a finding is known that is worse now.
    fn worse_than(&self, row: &Row) -> Option<f64> {
        let before = (*self.findings.get(&row.fingerprint.to_string())?)?;
        let now = si(row)?;
        let worse = match row.bound() {
            Some(Bound::Least) => before - now,
            Some(Bound::Most) => now - before,
            None => 0.0,
        };
        let is_worse = worse > SAME_FIGURE * before.abs().max(SAME_FIGURE);
        is_worse.then_some(before)
    }
}

/// As it is kept: nine places are more than any figure is good for.
fn rounded(figure: f64) -> f64 {
    (figure * 1e9).round() / 1e9
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_baseline_is_read_as_one() {
        let empty = Baseline::of(&Review::default(), "/");
        assert_eq!(Baseline::read(&empty.text()), Some(empty));
        for text in ["", "{}", "[]", "{\"version\": 3, \"files\": {}}"] {
            assert_eq!(Baseline::read(text), None, "{text}");
        }
    }

    #[test]
    fn a_baseline_of_the_first_version_is_read() {
        let first = "{\"version\": 1, \"files\": {\"a.patio\": [\"0123\", \"0123-2\"]}}";
        let baseline = Baseline::read(first).expect("a baseline");
        let known = baseline.files.get("a.patio").expect("the file");
        assert_eq!(known.findings.len(), 2);
        assert!(known.findings.values().all(Option::is_none));
        assert_eq!(Baseline::read(&baseline.text()), Some(baseline));
    }
}
