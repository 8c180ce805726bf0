//! Findings of an open document, made ready to be sent, and kept from one
//! edit to the next: most of them are as they were, and where they were.

use std::sync::Arc;

use tower_lsp::lsp_types::{Diagnostic, DiagnosticSeverity, NumberOrString, Range};

use super::diagnostics::diagnostic;
use super::section_positions::{Moved, SectionPositions, Sections};
use super::session::Session;
use super::shown_findings::{ShownFindings, Weighed};
use super::snapshot::Snapshot;
use crate::findings::{FileId, Finding, Place};

/// More findings than this of one document no editor shows in a useful way.
const MOST: usize = 300;

/// A finding as it is sent.
#[derive(Debug)]
pub(crate) struct Ready {
    /// As it is written.
    pub json: Box<str>,
}

/// The findings of a document that were sent last, in order.
#[derive(Debug, Default)]
pub(crate) struct DiagnosticsCache {
    weighed: Weighed,
    stood: SectionPositions,
    ready: Vec<Kept>,
}

#[derive(Debug)]
struct Kept {
    finding: Arc<Finding>,
    /// The sections of the document that it points at.
    sections: Sections,
    /// What it points at in other files.
    elsewhere: Vec<(Place, Option<Range>)>,
    ready: Arc<Ready>,
}

impl DiagnosticsCache {
    /// The findings of a document that nobody has accepted, as they are sent.
    /// Of very many the gravest, and how many there are.
    pub(crate) fn of(&mut self, snapshot: &Snapshot, session: &Session) -> Vec<Arc<Ready>> {
        let least = session.settings_of(&snapshot.analysis.path).show;
        let ShownFindings { chosen, of } =
            self.weighed
                .shown_findings(&snapshot.analysis.findings, least, MOST);
        let moved = self.stood.moved(snapshot);
        let mut all = Vec::with_capacity(chosen.len() + 1);
        let mut kept = Vec::with_capacity(chosen.len());
        let mut old = Ahead::of(std::mem::take(&mut self.ready));
        for finding in chosen {
            let known = old
                .take(finding)
                .filter(|kept| kept.holds(&moved, snapshot));
            let Some(own) = known.or_else(|| Kept::of(finding, snapshot, session)) else {
                continue;
            };
            all.push(Arc::clone(&own.ready));
            kept.push(own);
        }
        self.ready = kept;
        if of > MOST {
            all.extend(Ready::of(too_many(of)));
        }
        all
    }
}

impl Kept {
    fn of(finding: &Arc<Finding>, snapshot: &Snapshot, session: &Session) -> Option<Kept> {
        let ready = diagnostic(finding, snapshot, session).and_then(Ready::of)?;
        let (mut sections, mut elsewhere) = (Sections::default(), Vec::new());
        for place in places(finding) {
            match place.section.file {
                FileId(0) => sections.add(place.section.section),
                _ => elsewhere.push((place, range(place, snapshot))),
            }
        }
        Some(Kept {
            finding: Arc::clone(finding),
            sections,
            elsewhere,
            ready,
        })
    }

    /// Whether all that it points at is where it was.
    fn holds(&self, moved: &Moved, snapshot: &Snapshot) -> bool {
        let lies = |(place, own): &(Place, Option<Range>)| range(*place, snapshot) == *own;
        !moved.touches(&self.sections) && self.elsewhere.iter().all(lies)
    }
}

/// Findings that were sent, to be taken again in their order.
struct Ahead {
    left: std::vec::IntoIter<Kept>,
}

impl Ahead {
    /// How far ahead one is looked for: further away than an edit puts it, it
    /// is made anew.
    const FARTHEST: usize = 32;

    fn of(kept: Vec<Kept>) -> Ahead {
        let left = kept.into_iter();
        Ahead { left }
    }

    /// One of them, if it is among the next; those before it are let go.
    fn take(&mut self, finding: &Arc<Finding>) -> Option<Kept> {
        let mut next = self.left.as_slice().iter().take(Self::FARTHEST);
        let at = next.position(|kept| Arc::ptr_eq(&kept.finding, finding))?;
        self.left.nth(at)
    }
}

impl Ready {
    /// A finding, and how it is written.
    pub(crate) fn of(diagnostic: Diagnostic) -> Option<Arc<Ready>> {
        let json = serde_json::to_string(&diagnostic).ok()?.into();
        Some(Arc::new(Ready { json }))
    }

    /// As a report on the whole workspace has it, which is asked for rarely.
    pub(crate) fn diagnostic(&self) -> Option<Diagnostic> {
        serde_json::from_str(&self.json).ok()
    }
}

/// Writes findings one after the other, for a JSON array.
pub(crate) fn write(findings: &[Arc<Ready>], to: &mut String) {
    to.reserve(findings.iter().map(|own| own.json.len() + 1).sum());
    for (index, own) in findings.iter().enumerate() {
        if index > 0 {
            to.push(',');
        }
        to.push_str(&own.json);
    }
}

/// Says at the top of a document that not all is shown.
fn too_many(count: usize) -> Diagnostic {
    Diagnostic {
        severity: Some(DiagnosticSeverity::INFORMATION),
        code: Some(NumberOrString::String("too-many".to_owned())),
        source: Some("drylay".to_owned()),
        message: format!(
            "{count} findings are more than an editor can show: these are the {MOST} shown_findings; \
             `drylay check` lists all of them"
        ),
        ..Diagnostic::default()
    }
}

/// All that a finding points at.
fn places(finding: &Finding) -> impl Iterator<Item = Place> {
    let related = finding.related.iter().map(|related| related.place);
    let changes = finding.fixes.iter().flat_map(|fix| &fix.changes);
    std::iter::once(finding.place)
        .chain(related)
        .chain(changes.map(|change| change.place))
}

fn range(place: Place, snapshot: &Snapshot) -> Option<Range> {
    let (file, span) = snapshot.analysis.span(place)?;
    Some(snapshot.file(file)?.1.range(span))
}
