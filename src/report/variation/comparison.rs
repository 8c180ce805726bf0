//! What changed from one state of a spec to another.

use super::causes::{World, find_causes};
use super::changed_lines::{ChangedLines, changed_lines};
use super::figure_changes::{FigureChange, figure_changes};
use super::finding_changes::{FindingChange, finding_changes};
use super::passages::{Passage, passages};
use crate::analysis::Analysis;
use crate::units::System;

/// One state of a spec.
#[derive(Debug, Clone)]
pub struct State<'a> {
    /// How it is called: `court.patio`, `court.patio at main`.
    pub name: String,
    /// What is known of it; `None` if it is not there.
    pub analysis: Option<&'a Analysis>,
}

impl<'a> State<'a> {
    fn passages(&self, folder: &str) -> Vec<Passage<'a>> {
        let passages = self.analysis.map(|analysis| passages(analysis, folder));
        passages.unwrap_or_default()
    }
}

/// What changed from one state of a spec to another.
#[derive(Debug)]
pub struct Comparison {
    /// How the older state is called; `None` if it is not there.
    pub old: Option<String>,
    /// How the newer state is called; `None` if it is not there.
    pub new: Option<String>,
    /// The lines that changed.
    pub(super) lines: Vec<ChangedLines>,
    /// The figures that changed.
    pub(super) figures: Vec<FigureChange>,
    /// The findings that changed.
    pub(super) findings: Vec<FindingChange>,
    /// How many figures are the same.
    pub(super) same: usize,
    /// In whose units figures are shown: those of the newer state.
    pub(super) system: System,
}

impl Comparison {
    /// What changed, in a world in which the newer state is looked at again;
    /// paths as seen from a folder.
    pub fn of(old: &State<'_>, new: &State<'_>, world: World<'_>, folder: &str) -> Comparison {
        let changes = changed_lines(&old.passages(folder), &new.passages(folder));
        let (lines, undos): (Vec<_>, Vec<_>) = changes.into_iter().unzip();
        let (mut figures, same) = figure_changes(old.analysis, new.analysis);
        let mut findings = finding_changes(old.analysis, new.analysis, folder);
        find_causes(
            new.analysis,
            &undos,
            world,
            folder,
            (&mut figures, &mut findings),
        );
        let system = new.analysis.or(old.analysis);
        let named = |state: &State<'_>| state.analysis.map(|_| state.name.clone());
        Comparison {
            old: named(old),
            new: named(new),
            findings,
            lines,
            figures,
            same,
            system: system.map_or(System::Metric, |own| own.job.heading.system()),
        }
    }

    /// Whether no figure and no finding changed.
    pub fn is_same(&self) -> bool {
        self.figures.is_empty() && self.findings.is_empty()
    }
}
