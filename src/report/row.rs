//! Findings as rows: plain data, every place as a path, a line and a column.

use std::ops::Deref;
use std::sync::Arc;

use rayon::prelude::*;

use super::fingerprint::{Fingerprint, Fingerprints, Mark};
use super::sections::Sections;
use super::shown_path;
use crate::analysis::Analysis;
use crate::findings::{Acceptance, Finding, Fix, Place, Said, Severity};
use crate::rules::{Bound, bound_missed};
use crate::text::{Encoding, Span};

/// As many findings are made into rows by one thread alone.
const FEW: usize = 256;

/// A finding with every place as a path, a line and a column. What it says is
/// read of the finding itself, which it shares with whoever found it.
#[derive(Debug, Clone)]
pub struct Row {
    /// The finding.
    finding: Arc<Finding>,
    /// How much it matters.
    pub severity: Severity,
    /// Where.
    pub at: Spot,
    /// The section it stands in: `surface forecourt`.
    pub section: Arc<str>,
    /// The line of a standard that set the limit which it missed.
    pub limit_line: Option<Box<Spot>>,
    /// What it clashes with: where, and what stands there.
    pub related: Box<[(Spot, Arc<str>)]>,
    /// Knows the finding again when lines above it change.
    pub fingerprint: Fingerprint,
    /// Ways to put it right.
    pub fixes: Box<[Mending]>,
    /// The acceptance that took it.
    pub accepted: Option<Box<Accepted>>,
    /// The figure, as shown, with which a baseline knows it; of one that is
    /// worse now.
    pub was: Option<Box<str>>,
}

/// A stretch of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spot {
    /// The file, by its place among the files of the analysis.
    pub file: usize,
    /// Its path as shown.
    pub path: Arc<str>,
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
    pub title: Arc<str>,
    /// Whether it may be applied unseen.
    pub is_safe: bool,
    /// What is replaced, and by what.
    pub changes: Box<[(Spot, Arc<str>)]>,
}

/// The acceptance that took a finding.
#[derive(Debug, Clone)]
pub struct Accepted {
    taken: Arc<Acceptance>,
    /// The `accept` entry.
    pub at: Spot,
}

impl Deref for Row {
    type Target = Said;

    fn deref(&self) -> &Said {
        &self.finding
    }
}

impl Deref for Accepted {
    type Target = Acceptance;

    fn deref(&self) -> &Acceptance {
        &self.taken
    }
}

impl Row {
    /// Where it is, and what it clashes with.
    pub fn spots(&self) -> impl Iterator<Item = &Spot> {
        std::iter::once(&self.at).chain(self.related.iter().map(|(at, _)| at))
    }

    /// Whether the limit that it missed is a least or a most.
    pub fn bound(&self) -> Option<Bound> {
        let figure = self.measured().figure;
        figure.and_then(|_| bound_missed(&self.finding))
    }

    /// What the limit is for and where: `concrete pavers, in the UK`.
    pub fn limit_of(&self) -> Option<&str> {
        let from = self.measured().limit_from.as_ref();
        from.map(|from| from.what.as_str())
    }

    /// The source of the limit.
    pub fn source(&self) -> Option<&str> {
        let from = self.measured().limit_from.as_ref();
        let source = from.map(|from| from.source.as_str());
        source.filter(|source| !source.is_empty())
    }
}

/// A place as a stretch of a file; `None` if it is gone.
pub fn spot(analysis: &Analysis, place: Place, folder: &str) -> Option<Spot> {
    Spots::of(analysis, folder).at(place)
}

/// Makes places stretches of files, the path of each file written once.
struct Spots<'a> {
    analysis: &'a Analysis,
    paths: Vec<Arc<str>>,
}

impl Spots<'_> {
    fn of<'a>(analysis: &'a Analysis, folder: &str) -> Spots<'a> {
        let files = analysis.files.iter();
        let paths = files.map(|file| shown_path(&file.path, folder).into());
        Spots {
            analysis,
            paths: paths.collect(),
        }
    }

    fn at(&self, place: Place) -> Option<Spot> {
        let (index, bytes) = self.analysis.span(place)?;
        let file = self.analysis.files.get(index)?;
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
            path: Arc::clone(self.paths.get(index)?),
            start: at(bytes.start),
            end: at(bytes.end),
            bytes,
        })
    }
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
    let findings = analysis.findings.iter();
    let findings: Vec<_> = findings.filter(|finding| which(finding)).collect();
    if findings.is_empty() {
        return Vec::new();
    }
    let (spots, sections) = (Spots::of(analysis, folder), Sections::of(analysis));
    let findings = findings.into_par_iter().with_min_len(FEW);
    let marked = findings.map(|finding| {
        let at = spots.at(finding.place)?;
        let section = sections.name_at(at.bytes.start);
        let mark = Mark::of(&[finding.rule, &section, sections.entry_at(at.bytes.start)]);
        Some(row(&spots, finding, at, section, mark))
    });
    let marked: Vec<Option<Row>> = marked.collect();
    let mut rows: Vec<Row> = marked.into_iter().flatten().collect();
    // Which of several is the second is told in their order.
    let mut fingerprints = Fingerprints::default();
    for row in &mut rows {
        row.fingerprint = fingerprints.next(row.fingerprint);
    }
    rows
}

/// A finding's row, its fingerprint that of the first of its mark.
fn row(spots: &Spots<'_>, finding: &Arc<Finding>, at: Spot, section: Arc<str>, mark: Mark) -> Row {
    let spot = |place: Place| spots.at(place);
    let related = finding.related.iter();
    let limit_from = finding.measured().limit_from.as_ref();
    Row {
        finding: Arc::clone(finding),
        severity: finding.severity.unwrap_or(Severity::Error),
        at,
        section,
        limit_line: limit_from
            .and_then(|from| from.line)
            .and_then(spot)
            .map(Box::new),
        related: related
            .filter_map(|related| Some((spot(related.place)?, related.message.clone())))
            .collect(),
        fingerprint: Fingerprint::first(mark),
        fixes: finding
            .fixes
            .iter()
            .filter_map(|fix| mending(fix, &spot))
            .collect(),
        accepted: finding.accepted.as_ref().and_then(|accepted| {
            Some(Box::new(Accepted {
                taken: Arc::clone(accepted),
                at: spot(accepted.place)?,
            }))
        }),
        was: None,
    }
}

/// A fix whose places are all still there.
fn mending(fix: &Fix, spot: &dyn Fn(Place) -> Option<Spot>) -> Option<Mending> {
    let changes = fix.changes.iter();
    let changes = changes.map(|change| Some((spot(change.place)?, change.text.clone())));
    Some(Mending {
        title: fix.title.clone(),
        is_safe: fix.safe,
        changes: changes.collect::<Option<_>>()?,
    })
}
