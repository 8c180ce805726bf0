//! Where the checking of each open document stands.

use std::sync::Arc;

use super::numbered::Numbered;
use super::tokens::Coloured;
use crate::analysis::{Analyser, Analysis, File};
use crate::format;
use crate::ide;
use crate::text::Text;
use crate::units::System;

/// How many results in a row may be dropped for a newer edit before one is
/// sent all the same: an analysis that is slower than the typing must still
/// show something.
const MOST_DROPPED: u8 = 4;

/// Why a document is to be analysed again, the most urgent last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(crate) enum Due {
    /// It is not.
    #[default]
    No,
    /// A file that it reads has changed.
    Outside,
    /// Its own text has.
    Edited,
}

/// How far one document is checked.
#[derive(Default)]
pub(crate) struct Check {
    /// Whether it is to be analysed again.
    pub due: Due,
    /// Its last analysis.
    pub analysis: Option<Arc<Analysis>>,
    /// Whether that is still to be sent.
    unsent: bool,
    /// Results in a row that were dropped for a newer edit.
    dropped: u8,
    /// Its findings as they were last asked for.
    pub asked: Numbered,
    /// What is kept between analyses.
    pub analyser: Option<Analyser>,
    /// What was found when it was last laid out.
    pub layout: format::Memory,
    /// Its colours as they were last sent.
    pub coloured: Coloured,
    /// Its last analysis in other units, if it was looked at so.
    shown: Option<(System, Arc<Analysis>)>,
}

/// An analyser that applies one standard wherever a spec lies, if one is
/// named.
pub(crate) fn analyser(standard: Option<String>) -> Analyser {
    standard.map_or_else(Analyser::new, Analyser::with_standard)
}

/// The analyser that looked at a spec last, for another beside it, which uses
/// the same libraries: it keeps them read.
#[derive(Default)]
pub(crate) struct Analysers {
    last: Option<(Option<String>, Analyser)>,
}

impl Analysers {
    /// The one that applies this standard; a new one if the last applied
    /// another.
    pub(crate) fn under(&mut self, standard: Option<String>) -> &mut Analyser {
        let last = self.last.take().filter(|(own, _)| *own == standard);
        let fresh = || (standard.clone(), analyser(standard));
        &mut self.last.insert(last.unwrap_or_else(fresh)).1
    }
}

impl Check {
    /// The document is to be analysed again; a result that waits is dropped.
    pub(crate) fn make_due(&mut self, why: Due) {
        self.due = self.due.max(why);
        if std::mem::take(&mut self.unsent) {
            self.dropped = self.dropped.saturating_add(1);
        }
    }

    /// Whether the last analysis read or looked for a path.
    pub(crate) fn has_read(&self, path: &str) -> bool {
        let analysis = self.analysis.as_ref();
        analysis.is_some_and(|own| own.reads.iter().any(|read| read == path))
    }

    /// Takes the analyser out for an analysis of the text as it is now. Until
    /// [`Check::finish`] brings it back, the document counts as analysed with
    /// nothing found: an analysis that panics is not begun again and again.
    ///
    /// `standard` applies wherever the document lies, if one is named.
    pub(crate) fn begin(&mut self, standard: Option<String>) -> Analyser {
        self.due = Due::No;
        self.analysis = None;
        self.shown = None;
        self.unsent = true;
        self.analyser.take().unwrap_or_else(|| analyser(standard))
    }

    /// The document's text, read as it is now; `standard` as for
    /// [`Check::begin`]. The analysis that may be due begins with what was read.
    pub(crate) fn read(&mut self, path: &str, text: Text, standard: Option<String>) -> File {
        let own = self.analysis.as_ref().filter(|_| self.due == Due::No);
        match own.and_then(|analysis| analysis.files.first()) {
            Some(file) => file.clone(),
            None => {
                let own = self.analyser.get_or_insert_with(|| analyser(standard));
                own.read_text(path, text)
            }
        }
    }

    /// Puts the analyser back with what it found.
    pub(crate) fn finish(&mut self, analyser: Analyser, analysis: Arc<Analysis>) {
        self.analyser = Some(analyser);
        self.analysis = Some(analysis);
    }

    /// The last analysis with its figures in these units.
    pub(crate) fn in_units(&mut self, system: System) -> Option<Arc<Analysis>> {
        let own = self.analysis.as_ref()?;
        let shown = match self.shown.take() {
            Some((units, shown)) if units == system => shown,
            _ => ide::in_units(own, system).map_or_else(|| Arc::clone(own), Arc::new),
        };
        self.shown = Some((system, Arc::clone(&shown)));
        Some(shown)
    }

    /// Whether the result is to be sent before anything else is looked at.
    pub(crate) fn is_overdue(&self) -> bool {
        self.unsent && self.dropped >= MOST_DROPPED
    }

    /// Whether the result is of the text as it is now and not sent yet.
    pub(crate) fn is_ready(&self) -> bool {
        self.unsent && self.due == Due::No
    }

    /// The result is sent.
    pub(crate) fn sent(&mut self) {
        self.unsent = false;
        self.dropped = 0;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_result_is_dropped_for_a_newer_edit_but_not_for_ever() {
        let mut check = Check::default();
        for _ in 0..MOST_DROPPED {
            check.make_due(Due::Edited);
            assert!(!check.is_ready());
            check.begin(None);
            assert!(check.is_ready() && !check.is_overdue());
        }
        check.make_due(Due::Edited);
        check.begin(None);
        assert!(check.is_overdue());
        check.sent();
        assert!(!check.is_overdue() && !check.is_ready());
    }

    #[test]
    fn an_edit_is_more_urgent_than_a_change_outside() {
        let mut check = Check::default();
        check.make_due(Due::Edited);
        check.make_due(Due::Outside);
        assert_eq!(check.due, Due::Edited);
    }
}
