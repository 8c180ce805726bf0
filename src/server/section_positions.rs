//! Where the sections of a document stand, and which an edit has moved.

use std::sync::Arc;

use super::snapshot::Snapshot;
use crate::syntax::{Placed, Section, SectionId};

/// Where more have moved than this, all count as moved.
const MANY: usize = 64;

/// The sections of a document as they stood when they were last looked at.
#[derive(Debug, Default)]
pub(crate) struct SectionPositions {
    stands: Vec<Stand>,
    /// How many lines the document had.
    lines: u32,
}

/// A section: which, its first line, and what it says.
#[derive(Debug)]
struct Stand {
    id: SectionId,
    line: u32,
    section: Arc<Section>,
}

/// The sections that say something else now, or stand on another line.
pub(crate) enum Moved {
    /// These alone.
    Some(Sections),
    /// There are others than before, or very many have moved.
    All,
}

/// A few sections.
#[derive(Debug, Default)]
pub(crate) struct Sections {
    ids: Vec<SectionId>,
    /// A bit for each, which several may share: two that have none in common
    /// have no section in common.
    bits: u64,
}

impl SectionPositions {
    /// The sections that have moved since this was last asked.
    pub(crate) fn moved(&mut self, snapshot: &Snapshot) -> Moved {
        let Some(file) = snapshot.analysis.files.first() else {
            self.stands.clear();
            return Moved::All;
        };
        let now = file.tree.sections.as_slice();
        let lines = std::mem::replace(&mut self.lines, file.lines.count());
        let same_ids = self.stands.len() == now.len()
            && self
                .stands
                .iter()
                .zip(now)
                .all(|(stand, placed)| stand.id == placed.id);
        if !same_ids {
            let stands = now.iter().map(|placed| Stand {
                id: placed.id,
                line: file.lines.line_of(placed.start),
                section: Arc::clone(&placed.section),
            });
            self.stands = stands.collect();
            return Moved::All;
        }
        let says_other =
            |(stand, placed): &(&Stand, &Placed)| !Arc::ptr_eq(&stand.section, &placed.section);
        let both = self.stands.iter().zip(now);
        let changed = both.filter(says_other).map(|(stand, _)| stand.id);
        let mut moved = Sections::default();
        changed.take(MANY + 1).for_each(|id| moved.add(id));
        // One section that has as many lines as before moves no other.
        let is_alone = moved.ids.len() < 2 && lines == self.lines;
        for (stand, placed) in self.stands.iter_mut().zip(now) {
            // A section begins where a line does.
            let is_there = || is_alone || file.lines.line_span(stand.line).start == placed.start;
            if Arc::ptr_eq(&stand.section, &placed.section) && is_there() {
                continue;
            }
            if moved.ids.len() <= MANY {
                moved.add(stand.id);
            }
            stand.line = file.lines.line_of(placed.start);
            stand.section = Arc::clone(&placed.section);
        }
        match moved.ids.len() > MANY {
            true => Moved::All,
            false => Moved::Some(moved),
        }
    }
}

impl Moved {
    /// Whether one of some sections is among them.
    pub(crate) fn touches(&self, sections: &Sections) -> bool {
        match self {
            Moved::All => true,
            Moved::Some(moved) => {
                moved.bits & sections.bits != 0
                    && sections.ids.iter().any(|id| moved.ids.contains(id))
            }
        }
    }
}

impl Sections {
    /// One more of them.
    pub(crate) fn add(&mut self, id: SectionId) {
        if !self.ids.contains(&id) {
            self.ids.push(id);
            self.bits |= 1 << (id.0 % u64::BITS);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{Analyser, NoFiles};
    use crate::text::Encoding;

    #[test]
    fn what_an_edit_moves_is_told_once() {
        let mut analyser = Analyser::new();
        let mut section_positions = SectionPositions::default();
        let mut moved = |text: &str| {
            let analysis = analyser.analyse("/a.patio", text.into(), &NoFiles, "2027-01-12");
            let encoding = Encoding::Utf16;
            match section_positions.moved(&Snapshot { analysis, encoding }) {
                Moved::All => None,
                Moved::Some(moved) => Some(moved.ids.iter().map(|id| id.0).collect::<Vec<_>>()),
            }
        };
        let first = "job \"A\"\n\nlet one = 1 m\n\nlet two = 2 m\n";
        for (text, expected) in [
            (first, None),
            (first, Some(vec![])),
            (
                "job \"A\"\n\nlet one = 11 m\n\nlet two = 2 m\n",
                Some(vec![1]),
            ),
            (
                "job \"A\"\n\nlet one = 1 m\n\nlet two = 2 m\n",
                Some(vec![1]),
            ),
            (
                "job \"A\"\n\n\nlet one = 1 m\n\nlet two = 2 m\n",
                Some(vec![0, 1, 2]),
            ),
            ("job \"A\"\n\n\nlet one = 1 m\n", None),
        ] {
            assert_eq!(moved(text), expected, "{text:?}");
        }
    }

    #[test]
    fn sections_that_share_a_bit_are_told_apart() {
        let of = |ids: &[u32]| {
            let mut sections = Sections::default();
            ids.iter().for_each(|id| sections.add(SectionId(*id)));
            sections
        };
        let moved = Moved::Some(of(&[3, 70]));
        for (ids, expected) in [
            (&[][..], false),
            (&[67], false),
            (&[1, 70], true),
            (&[6], false),
        ] {
            assert_eq!(moved.touches(&of(ids)), expected, "{ids:?}");
        }
    }
}
