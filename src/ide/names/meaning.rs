//! What a name stands for.

use crate::vocabulary::NameSpace;

/// What a name stands for: two that stand for the same are one name.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(crate) enum Meaning {
    /// Something that a section defines, or the catalogue.
    Named(NameSpace, String),
    /// An edge: of the shape that names it, and its name.
    Edge(String, String),
}
