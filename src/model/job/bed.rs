//! What borders stand on that have a build of their own.

use super::{Border, Surface};
use crate::geometry::{NO_TAG, Outline, difference_pieces};

/// So far off, in metres, an edge still lies along another.
const ALONG: f64 = 1e-6;

impl Surface {
    /// Whether it is the strip of a border on a build of its own, and no
    /// surface that the text states.
    pub const fn is_border(&self) -> bool {
        self.border_of.is_some()
    }

    /// Whether water goes down through it, and not over it.
    pub fn is_permeable(&self) -> bool {
        let build = self.build.as_ref();
        build.is_some_and(|build| build.value.permeable.is_some())
    }

    /// The strips of its borders that stand on builds of their own, each by the
    /// border's place among them.
    pub fn strips(&self) -> impl Iterator<Item = (usize, &Outline)> {
        let borders = self.borders.iter().enumerate();
        borders.flat_map(|(index, border)| {
            let strips = border.strips.iter().flatten();
            strips.map(move |strip| (index, strip))
        })
    }

    /// The area of those strips, in square metres.
    pub fn strips_m2(&self) -> f64 {
        self.strips().map(|(_, strip)| strip.area()).sum()
    }

    /// What its own build lies under: its outlines less those strips, no edge
    /// along which is one of its own. `None` if that cannot be made out.
    pub fn beds(&self) -> Option<Vec<Outline>> {
        let is_unknown = |border: &Border| border.on.is_some() && border.strips.is_none();
        if self.borders.iter().any(is_unknown) {
            return None;
        }
        if self.strips().next().is_none() {
            return Some(self.outlines().cloned().collect());
        }
        let beds = self.outlines().map(|outline| {
            let mut beds = vec![outline.clone()];
            for (_, strip) in self.strips().filter(|(_, strip)| are_near(outline, strip)) {
                let left = beds.iter().map(|bed| difference_pieces(bed, strip).ok());
                beds = left.collect::<Option<Vec<_>>>()?.concat();
            }
            let beds = beds.iter().map(|bed| tagged_as(bed, outline));
            Some(beds.collect::<Vec<_>>())
        });
        Some(beds.collect::<Option<Vec<_>>>()?.concat())
    }
}

/// Whether the upright rectangles around two outlines meet.
fn are_near(one: &Outline, other: &Outline) -> bool {
    let ((low, high), (other_low, other_high)) = (one.bounding_box(), other.bounding_box());
    low.x <= other_high.x && other_low.x <= high.x && low.y <= other_high.y && other_low.y <= high.y
}

/// A part of an outline with the tags of the edges that it has of it, and none
/// on others.
pub(crate) fn tagged_as(part: &Outline, whole: &Outline) -> Outline {
    part.retagged(|edge| {
        let middle = edge.midpoint();
        let mut edges = whole.edges();
        let own = edges.find(|own| own.tag == edge.tag && own.distance_to(middle) <= ALONG);
        own.map_or(NO_TAG, |own| own.tag)
    })
}
