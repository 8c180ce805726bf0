//! `drylay compare`: two states of specs beside each other.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;

use super::arguments::{CompareArguments, ComparisonFormat};
use super::disk::Disk;
use super::git::Revision;
use super::output::write_result;
use super::problem::Problem;
use super::search::Search;
use super::source::{Source, current_folder, path_of};
use super::status::{GOOD, Status};
use crate::analysis::{Analyser, Analysis, Files};
use crate::host::today;
use crate::report::{
    Comparison, State, comparison_json, comparison_markdown, comparison_text, shown_path,
};

/// Compares specs and writes what changes.
pub fn compare(arguments: &CompareArguments) -> Result<Status, Problem> {
    let folder = current_folder()?;
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
    let text = match arguments.format {
        ComparisonFormat::Text => comparison_text(&comparisons),
        ComparisonFormat::Markdown => comparison_markdown(&comparisons),
        ComparisonFormat::Json => comparison_json(&comparisons),
    };
    write_result(&text, arguments.output.output.as_deref())?;
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
    let compared = paths.iter().map(|path| {
        let was = then.read(path);
        let old = was.map(|text| Analyser::new().analyse(path, text, &then, &today()));
        let new = match (&old, Disk.exists(path)) {
            // One that is gone is compared too.
            (Some(_), false) => None,
            _ => Some(on_disk(path, folder)?),
        };
        Ok(of(old.as_ref(), &at, new.as_ref(), folder))
    });
    compared.collect()
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
    Comparison::of(&old, &new, folder)
}
