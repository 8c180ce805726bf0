//! The standards that apply to a spec: the nearest, those that it is like,
//! and the firm lines of every one further out.

use std::sync::Arc;

use rustc_hash::FxHashMap;

use super::Files;
use super::path;
use super::root::{root_of, standard_places, standards_above};
use super::sources::{Kept, Loaded};
use crate::findings::{FileId, Finding, Severity};
use crate::model::{FileKind, Standard, read_standard};
use crate::rules;
use crate::text::Text;

/// More standards than this do not start from one another.
const MOST_STANDARDS: usize = 50;

/// A standard that applies.
#[derive(Debug, Clone)]
pub(crate) struct Applied {
    /// What it says.
    pub standard: Arc<Standard>,
    /// Its text.
    pub loaded: Loaded,
    /// How many lines of it say nothing that holds: errors of its own.
    pub errors: usize,
}

/// A standard that lies above a spec, or that one of those starts from, and
/// cannot be read.
#[derive(Debug, Clone)]
pub(crate) struct Unread {
    /// Its path.
    pub path: String,
    /// Why, as a clause.
    pub why: String,
}

/// The standards that apply to a file, the nearest first, and those that would
/// but cannot be read. `first_id` is the
/// number of the first of them among the analysis' files; `reads` takes every
/// path that was looked for. `own` is what the file itself says if it is a
/// standard.
pub(crate) fn standards_for(
    spec: &str,
    own: Option<&Standard>,
    named: Option<&str>,
    files: &dyn Files,
    kept: &mut FxHashMap<String, Kept>,
    first_id: usize,
    reads: &mut Vec<String>,
) -> (Vec<Applied>, Vec<Unread>) {
    let above = match named {
        Some(named) => vec![named.to_owned()],
        None => {
            // One that is not there yet may come.
            reads.extend(standard_places(spec, files));
            standards_above(spec, files)
        }
    };
    let mut applied: Vec<Applied> = Vec::new();
    let mut unread: Vec<Unread> = Vec::new();
    // One that is named is meant wherever it leads.
    let mut read = |at: &str, id: usize, reads: &mut Vec<String>| {
        reads.push(at.to_owned());
        let text = match named == Some(at) {
            true => files.read(at),
            false => text(at, files),
        };
        let standard = text.and_then(|text| {
            let standard = standard(at, text, kept, id);
            // A file of the name that is none would hide those further out; what
            // is named by a line is told of there.
            match standard.loaded.input().kind {
                FileKind::Standard => Ok(standard),
                _ if !above.iter().any(|own| own == at) || named == Some(at) => Ok(standard),
                _ => Err("it has no `standard \"…\"` to begin with".to_owned()),
            }
        });
        match standard {
            Ok(standard) => Some(standard),
            Err(why) => {
                let is_told = unread.iter().any(|reported| reported.path == at);
                if !is_told && files.exists(at) {
                    let path = at.to_owned();
                    unread.push(Unread { path, why });
                }
                None
            }
        }
    };
    // A standard itself is held to those that it starts from.
    let mut under_way: Vec<String> = match own {
        Some(own) => liked(spec, own),
        // The nearest that can be read holds.
        None => above.iter().rev().cloned().collect(),
    };
    let mut is_nearest = own.is_none();
    while let Some(at) = under_way.pop() {
        let known = applied.iter().any(|standard| standard.loaded.path == at);
        if known || applied.len() >= MOST_STANDARDS || at == spec {
            continue;
        }
        if let Some(standard) = read(&at, first_id + applied.len(), reads) {
            if std::mem::take(&mut is_nearest) {
                under_way.clear();
            }
            under_way.extend(liked(&at, &standard.standard));
            applied.push(standard);
        }
    }
    // One further out that is not started from gives what it holds firm only.
    for outer in above.iter().filter(|outer| *outer != spec) {
        let known = applied
            .iter()
            .any(|standard| standard.loaded.path == *outer);
        if known || applied.len() >= MOST_STANDARDS {
            continue;
        }
        if let Some(mut standard) = read(outer, first_id + applied.len(), reads) {
            standard.standard = Arc::new(held_inward(&standard.standard));
            applied.push(standard);
        }
    }
    (applied, unread)
}

/// What a standard holds firm against those further in: the rules, and its own
/// limits and severities of them. What it eases is no part of that.
fn held_inward(standard: &Standard) -> Standard {
    let is_firm = |name: &str| standard.firm.iter().any(|firm| firm.value == name);
    let limits = standard.limits.iter();
    let severities = standard.severities.iter();
    Standard {
        title: standard.title.clone(),
        firm: standard.firm.clone(),
        limits: limits
            .filter(|set| is_firm(&set.rule.value))
            .cloned()
            .collect(),
        severities: severities
            .filter(|set| is_firm(&set.rule.value) && !set.eases)
            .cloned()
            .collect(),
        ..Standard::default()
    }
}

/// The standards that one at a path starts from, the first to be looked at
/// last.
fn liked(at: &str, standard: &Standard) -> Vec<String> {
    let extended = standard.like.iter().rev();
    extended
        .filter_map(|like| path::asked_for(at, &like.value))
        .collect()
}

/// What kind of file lies at a path, and what it says as a standard; or, as a
/// clause, why it cannot be read.
pub(crate) fn read_alone(at: &str, files: &dyn Files) -> Result<(FileKind, Standard), String> {
    let input = Kept::default().load(at, text(at, files)?, FileId(0));
    let input = input.input();
    Ok((input.kind, read_standard(&[input]).0))
}

/// The text of a standard, if no link leads out of the folder that holds the
/// specs it is for.
fn text(at: &str, files: &dyn Files) -> Result<Text, String> {
    match files.leads_out(at, &root_of(at, files)) {
        true => Err("it is a link that leads out of the folder that holds the specs".to_owned()),
        false => files.read(at),
    }
}

fn standard(at: &str, text: Text, kept: &mut FxHashMap<String, Kept>, id: usize) -> Applied {
    let file = FileId(u16::try_from(id).unwrap_or(u16::MAX));
    let loaded = kept.entry(at.to_owned()).or_default().load(at, text, file);
    let (standard, mut found) = read_standard(&[loaded.input()]);
    found.extend(rules::check_standard(&standard, []));
    let is_error = |own: &&Finding| rules::severity_of(own) == Some(Severity::Error);
    Applied {
        errors: found.iter().filter(is_error).count(),
        standard: Arc::new(standard),
        loaded,
    }
}
