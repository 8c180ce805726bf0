//! The findings of a file in their order.

use std::sync::Arc;

use super::Finding;

/// The findings of one part of a file, in order.
pub type Part = Arc<[Arc<Finding>]>;

/// The findings of a file in their order, part by part. A copy costs nothing,
/// and a part can be changed by itself.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FindingList {
    parts: Arc<Vec<Part>>,
    count: usize,
}

impl FindingList {
    /// The findings of the parts of a file.
    pub fn of(parts: Vec<Part>) -> FindingList {
        FindingList {
            count: parts.iter().map(|part| part.len()).sum(),
            parts: Arc::new(parts),
        }
    }

    /// Puts other findings in the place of those of a part; nothing if there
    /// is no such part.
    pub fn put(&mut self, index: usize, part: Part) {
        if let Some(place) = Arc::make_mut(&mut self.parts).get_mut(index) {
            self.count = self.count - place.len() + part.len();
            *place = part;
        }
    }

    /// The findings in order.
    pub fn iter(&self) -> impl Iterator<Item = &Arc<Finding>> {
        self.parts.iter().flat_map(|part| part.iter())
    }

    /// The finding that stands at a place in the order, counted from 0.
    pub fn get(&self, index: usize) -> Option<&Arc<Finding>> {
        self.iter().nth(index)
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.count
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.count == 0
    }
}

impl FromIterator<Arc<Finding>> for FindingList {
    fn from_iter<I: IntoIterator<Item = Arc<Finding>>>(findings: I) -> FindingList {
        FindingList::of(vec![findings.into_iter().collect()])
    }
}

#[cfg(test)]
mod tests {
    use super::super::{FileId, Place, SectionRef};
    use super::*;
    use crate::syntax::SectionId;
    use crate::text::Span;

    fn part(messages: &[&str]) -> Part {
        let section = SectionRef {
            file: FileId(0),
            section: SectionId(0),
        };
        let place = Place {
            section,
            span: Span::at(0),
        };
        let findings = messages.iter();
        let findings = findings.map(|said| Arc::new(Finding::new("lip", place, *said)));
        findings.collect()
    }

    #[test]
    fn a_part_is_changed_by_itself() {
        let mut list = FindingList::of(vec![part(&["a"]), part(&[]), part(&["b", "c"])]);
        let before = list.clone();
        list.put(1, part(&["x", "y"]));
        list.put(2, part(&["c"]));
        list.put(3, part(&["z"]));
        let said = |list: &FindingList| -> String {
            let messages = list.iter().map(|finding| &*finding.message);
            messages.collect()
        };
        assert_eq!((said(&list).as_str(), list.len()), ("axyc", 4));
        assert_eq!((said(&before).as_str(), before.len()), ("abc", 3));
        assert_eq!(list.get(3).map(|own| &*own.message), Some("c"));
        assert!(list.get(4).is_none());
    }
}
