//! A text that many may hold.

use std::fmt;
use std::ops::Deref;
use std::sync::Arc;

/// A text that many may hold; a copy costs nothing, and neither does making
/// one of a string.
#[derive(Clone, Default, PartialEq, Eq)]
pub struct Text(Arc<String>);

impl Deref for Text {
    type Target = str;

    fn deref(&self) -> &str {
        &self.0
    }
}

impl From<String> for Text {
    fn from(text: String) -> Text {
        Text(Arc::new(text))
    }
}

impl From<&str> for Text {
    fn from(text: &str) -> Text {
        Text::from(text.to_owned())
    }
}

impl fmt::Debug for Text {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&**self, out)
    }
}
