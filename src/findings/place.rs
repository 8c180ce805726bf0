//! Places that stay true while the text around them moves.

use crate::syntax::SectionId;
use crate::text::Span;

/// One of the files that an analysis reads; 0 is the file that was asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct FileId(pub u16);

/// A section of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SectionRef {
    /// The file.
    pub file: FileId,
    /// The section in it.
    pub section: SectionId,
}

/// A stretch of text, counted from the start of its section, so that it stays
/// true while the sections above it change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// The section that it stands in.
    pub section: SectionRef,
    /// Bytes from the start of that section.
    pub span: Span,
}

impl Place {
    /// The same place, from its own start to the end of `other` where both
    /// stand in one section; otherwise this place unchanged.
    pub fn to(self, other: Place) -> Place {
        if self.section == other.section {
            Place {
                section: self.section,
                span: self.span.join(other.span),
            }
        } else {
            self
        }
    }

    /// The empty place where this one starts.
    pub fn start(self) -> Place {
        Place {
            section: self.section,
            span: Span::new(self.span.start, self.span.start),
        }
    }

    /// The empty place where this one ends.
    pub fn end(self) -> Place {
        Place {
            section: self.section,
            span: Span::new(self.span.end, self.span.end),
        }
    }
}
