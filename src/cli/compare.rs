//! `drylay compare`: two states of specs beside each other.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::sync::Arc;

use super::arguments::{CompareArguments, ComparisonFormat};
use super::git::Revision;
use super::output::{refuse_inputs, write_result};
use super::problem::Problem;
use super::search::Search;
use super::source::{Source, current_folder, path_of};
use super::status::{GOOD, Status};
use crate::analysis::{Analyser, Analysis, Files};
use crate::host::Disk;
use crate::host::today;
use crate::report::{
    Comparison, State, World, comparison_json, comparison_markdown, comparison_text, shown_path,
};
use crate::text::Text;

/// So many specs that came and that went are looked at as renamed.
const MOST_RENAMED: usize = 200;

/// Compares specs and writes what changes.
pub(crate) fn compare(arguments: &CompareArguments) -> Result<Status, Problem> {
    let folder = current_folder()?;
    let output = arguments.output.output.as_deref();
    let format = arguments
        .output
        .format(arguments.format, ComparisonFormat::Text)?;
    refuse_inputs(output, arguments.specs.iter().map(PathBuf::as_path))?;
    let comparisons = match (&arguments.git, arguments.specs.as_slice()) {
        (Some(revision), specs) => with_revision(revision, specs, &folder)?,
        (None, [old, new]) => {
            let (old, new) = (
                on_disk(&path_of(old)?, &folder)?,
                on_disk(&path_of(new)?, &folder)?,
            );
            vec![of(Some(&old), "", Some(&new), &folder)]
        }
        (None, _) => {
            return Err(Problem(
                "name two specs, the older one first, or one and --git REV".to_owned(),
            ));
        }
    };
    let text = match format {
        ComparisonFormat::Text => comparison_text(&comparisons),
        ComparisonFormat::Markdown => comparison_markdown(&comparisons),
        ComparisonFormat::Json => comparison_json(&comparisons),
    };
    write_result(&text, output)?;
    Ok(GOOD)
}

/// Specs as they lie on the disk beside what they were at a revision.
fn with_revision(
    revision: &str,
    specs: &[PathBuf],
    folder: &str,
) -> Result<Vec<Comparison>, Problem> {
    let then = Revision::of(revision, folder)?;
    let mut paths = BTreeSet::new();
    for spec in specs {
        let path = path_of(spec)?;
        let below = then.specs_below(&path);
        match spec.is_dir() || !below.is_empty() {
            true => {
                paths.extend(Search::of(std::slice::from_ref(spec), folder).specs);
                paths.extend(below);
            }
            false => {
                paths.insert(path);
            }
        }
    }
    let at = format!(" at {revision}");
    let (there, gone): (BTreeSet<String>, BTreeSet<String>) =
        paths.into_iter().partition(|path| Disk.exists(path));
    let renamed = renamed(&there, &then);
    let left = gone
        .iter()
        .filter(|path| !renamed.values().any(|old| old == *path));
    let paths: BTreeSet<&String> = there.iter().chain(left).collect();
    let compared = paths.into_iter().map(|path| {
        let before = renamed.get(path).unwrap_or(path);
        let was = match then.exists(before).then(|| then.read(before)).transpose() {
            Ok(was) => was,
            Err(why) => {
                let path = shown_path(before, folder) + &at;
                return Err(Problem::with_file(path, why));
            }
        };
        let old = was.map(|text| Analyser::new().analyse(before, text, &then, &today()));
        let new = match (&old, Disk.exists(path)) {
            // One that is gone is compared too.
            (Some(_), false) => None,
            _ => Some(on_disk(path, folder)?),
        };
        Ok(of(old.as_ref(), &at, new.as_ref(), folder))
    });
    compared.collect()
}

/// Specs that a revision has under another name, each with that: of those that
/// are gone since, the one with most lines in common, if that is at least half
/// of them.
fn renamed(there: &BTreeSet<String>, then: &Revision) -> BTreeMap<String, String> {
    let come: Vec<&String> = there.iter().filter(|path| !then.exists(path)).collect();
    if come.is_empty() {
        return BTreeMap::new();
    }
    let specs = then.specs_below(then.top());
    let gone = specs.into_iter().filter(|path| !Disk.exists(path));
    let mut gone: Vec<(String, Text)> = gone
        .take(MOST_RENAMED)
        .filter_map(|path| Some((then.read(&path).ok()?, path)))
        .map(|(text, path)| (path, text))
        .collect();
    let mut renamed = BTreeMap::new();
    for path in come.into_iter().take(MOST_RENAMED) {
        let Ok(text) = Disk.read(path) else {
            continue;
        };
        let lines: BTreeSet<&str> = text.lines().collect();
        let in_common = |(_, old): &(String, Text)| {
            let of_old: BTreeSet<&str> = old.lines().collect();
            let same = of_old.intersection(&lines).count();
            (2 * same >= of_old.len().max(lines.len())).then_some(same)
        };
        let nearest = gone
            .iter()
            .enumerate()
            .filter_map(|(index, old)| Some((in_common(old)?, index)))
            .max();
        if let Some((_, index)) = nearest {
            let (old, _) = gone.swap_remove(index);
            renamed.insert(path.clone(), old);
        }
    }
    renamed
}

fn on_disk(path: &str, folder: &str) -> Result<Arc<Analysis>, Problem> {
    let source = Source::at(path, folder);
    let source = source.map_err(|unread| Problem::with_file(unread.path, unread.why))?;
    Ok(Analyser::new().analyse(&source.path, source.text, &Disk, &today()))
}

/// The comparison of two states, the older one's name followed by when.
fn of(
    old: Option<&Arc<Analysis>>,
    when: &str,
    new: Option<&Arc<Analysis>>,
    folder: &str,
) -> Comparison {
    let state = |analysis: Option<&'_ Arc<Analysis>>, when: &str| {
        let path = analysis.map_or("", |analysis| &analysis.path);
        shown_path(path, folder) + when
    };
    let old = State {
        name: state(old, when),
        analysis: old.map(Arc::as_ref),
    };
    let new = State {
        name: state(new, ""),
        analysis: new.map(Arc::as_ref),
    };
    let world = World {
        files: &Disk,
        today: &today(),
    };
    Comparison::of(&old, &new, world, folder)
}
