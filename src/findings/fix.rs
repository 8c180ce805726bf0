//! Edits that put a finding right.

use std::sync::Arc;

use super::Place;

/// A way to put a finding right: all its changes together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fix {
    /// What it does, as an order: `Raise the base to 6 in`.
    pub title: Arc<str>,
    /// Whether it may be applied without being looked at.
    pub safe: bool,
    /// The changes, none overlapping another.
    pub changes: Vec<Change>,
}

/// One replaced stretch of text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// What is replaced; an empty place inserts.
    pub place: Place,
    /// What takes its place.
    pub text: Arc<str>,
}

impl Fix {
    /// A fix that replaces one place and may be applied unseen.
    pub fn safe(title: impl Into<Arc<str>>, place: Place, text: impl Into<Arc<str>>) -> Fix {
        Fix {
            title: title.into(),
            safe: true,
            changes: vec![Change {
                place,
                text: text.into(),
            }],
        }
    }

    /// A fix that replaces one place and wants to be looked at first.
    pub fn judged(title: impl Into<Arc<str>>, place: Place, text: impl Into<Arc<str>>) -> Fix {
        Fix {
            safe: false,
            ..Fix::safe(title, place, text)
        }
    }
}
