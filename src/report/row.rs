//! Findings as rows: plain data, every place as a path, a line and a column.

use rayon::prelude::*;

use super::fingerprint::{Fingerprints, Mark};
use super::sections::Sections;
use super::shown_path;
use crate::analysis::Analysis;
use crate::findings::{Finding, Fix, Place, Severity};
use crate::rules::{Bound, bound_missed};
use crate::text::{Encoding, Span};

/// As many findings are made into rows by one thread alone.
const FEW: usize = 256;

/// A finding with every place as a path, a line and a column.
#[derive(Debug, Clone)]
pub struct Row {
    /// The rule's name.
    pub rule: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// What is wrong and what to do.
    pub message: String,
    /// Where.
    pub at: Spot,
    /// The section it stands in: `surface forecourt`.
    pub section: String,
    /// The figure found, in the job's units.
    pub found: Option<String>,
    /// The same in SI.
    pub figure: Option<f64>,
    /// Whether the limit that it missed is a least or a most.
    pub bound: Option<Bound>,
    /// The limit that it missed, in the job's units.
    pub limit: Option<String>,
    /// What the limit is for and where: `concrete pavers, in the UK`.
    pub limit_of: Option<String>,
    /// The source of the limit.
    pub source: Option<String>,
    /// The line of a standard that set it.
    pub limit_line: Option<Spot>,
    /// What to do, where the message does not say.
    pub help: Option<String>,
    /// What it clashes with: where, and what stands there.
    pub related: Vec<(Spot, String)>,
    /// Knows the finding again when lines above it change.
    pub fingerprint: String,
    /// Ways to put it right.
    pub fixes: Vec<Mending>,
    /// The acceptance that took it.
    pub accepted: Option<Accepted>,
}

/// A stretch of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spot {
    /// The file, by its place among the files of the analysis.
    pub file: usize,
    /// Its path as shown.
    pub path: String,
    /// Line and column where it starts, from 1, columns in characters.
    pub start: (u32, u32),
    /// Line and column where it ends, just past its last character.
    pub end: (u32, u32),
    /// The same in bytes.
    pub bytes: Span,
}

/// A way to put a finding right.
#[derive(Debug, Clone)]
pub struct Mending {
    /// What it does, as an order.
    pub title: String,
    /// Whether it may be applied unseen.
    pub is_safe: bool,
    /// What is replaced, and by what.
    pub changes: Vec<(Spot, String)>,
}

/// The acceptance that took a finding.
#[derive(Debug, Clone)]
pub struct Accepted {
    /// Why.
    pub reason: String,
    /// By whom.
    pub by: Option<String>,
    /// The last day it holds.
    pub until: Option<String>,
    /// The `accept` entry.
    pub at: Spot,
}

impl Row {
    /// Where it is, and what it clashes with.
    pub fn spots(&self) -> impl Iterator<Item = &Spot> {
        std::iter::once(&self.at).chain(self.related.iter().map(|(at, _)| at))
    }
}

/// A place as a stretch of a file; `None` if it is gone.
pub fn spot(analysis: &Analysis, place: Place, folder: &str) -> Option<Spot> {
    let (index, bytes) = analysis.span(place)?;
    let file = analysis.files.get(index)?;
    let text = &file.tree.text;
    let at = |offset| {
        let position = file.lines.position(text, offset, Encoding::Utf32);
        (
            position.line.saturating_add(1),
            position.column.saturating_add(1),
        )
    };
    Some(Spot {
        file: index,
        path: shown_path(&file.path, folder),
        start: at(bytes.start),
        end: at(bytes.end),
        bytes,
    })
}

/// The findings of a file as rows, paths as seen from a folder.
pub(super) fn rows(analysis: &Analysis, folder: &str) -> Vec<Row> {
    of(analysis, folder, |finding| !finding.is_caution())
}

/// The cautions of a file as rows.
pub(super) fn cautions(analysis: &Analysis, folder: &str) -> Vec<Row> {
    of(analysis, folder, Finding::is_caution)
}

fn of(analysis: &Analysis, folder: &str, which: impl Fn(&Finding) -> bool) -> Vec<Row> {
    let sections = Sections::of(analysis);
    let findings = analysis.findings.iter();
    let findings: Vec<_> = findings.filter(|finding| which(finding)).collect();
    let findings = findings.into_par_iter().with_min_len(FEW);
    let marked = findings.filter_map(|finding| {
        let at = spot(analysis, finding.place, folder)?;
        let section = sections.name_at(at.bytes.start);
        let mark = Mark::of(&[finding.rule, &section, sections.entry_at(at.bytes.start)]);
        Some((mark, row(analysis, folder, finding, at, section)))
    });
    let marked: Vec<(Mark, Row)> = marked.collect();
    // Which of several is the second is told in their order.
    let mut fingerprints = Fingerprints::default();
    let rows = marked.into_iter().map(|(mark, row)| Row {
        fingerprint: fingerprints.next(mark),
        ..row
    });
    rows.collect()
}

/// A finding's row, its fingerprint left out.
fn row(analysis: &Analysis, folder: &str, finding: &Finding, at: Spot, section: String) -> Row {
    let spot = |place: Place| spot(analysis, place, folder);
    let limit_from = finding.limit_from.as_ref();
    let related = finding.related.iter();
    let accepted = finding.accepted.as_ref();
    Row {
        rule: finding.rule,
        severity: finding.severity.unwrap_or(Severity::Error),
        message: finding.message.clone(),
        at,
        section,
        found: finding.found.clone(),
        figure: finding.figure.map(|figure| figure.si()),
        bound: finding.figure.and_then(|_| bound_missed(finding)),
        limit: finding.limit.clone(),
        limit_of: limit_from.map(|from| from.what.clone()),
        source: limit_from
            .map(|from| from.source.clone())
            .filter(|source| !source.is_empty()),
        limit_line: limit_from.and_then(|from| from.line).and_then(spot),
        help: finding.help.clone(),
        related: related
            .filter_map(|related| Some((spot(related.place)?, related.message.clone())))
            .collect(),
        fingerprint: String::new(),
        fixes: finding
            .fixes
            .iter()
            .filter_map(|fix| mending(fix, &spot))
            .collect(),
        accepted: accepted.and_then(|accepted| {
            Some(Accepted {
                reason: accepted.reason.clone(),
                by: accepted.by.clone(),
                until: accepted.until.clone(),
                at: spot(accepted.place)?,
            })
        }),
    }
}

/// A fix whose places are all still there.
fn mending(fix: &Fix, spot: &dyn Fn(Place) -> Option<Spot>) -> Option<Mending> {
    let changes = fix.changes.iter();
    let changes: Option<Vec<_>> = changes
        .map(|change| Some((spot(change.place)?, change.text.clone())))
        .collect();
    Some(Mending {
        title: fix.title.clone(),
        is_safe: fix.safe,
        changes: changes?,
    })
}
