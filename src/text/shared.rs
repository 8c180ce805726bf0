//! A text that many may hold.

use std::fmt;
use std::ops::Deref;
use std::sync::{Arc, Weak};

use super::Common;

/// How many bytes more than the text before it a text has room for.
const SPARE: usize = 64;

/// A text that many may hold; a copy costs nothing, and neither does making
/// one of a string.
#[derive(Clone, Default)]
pub struct Text {
    string: Arc<String>,
    /// The text that it was made from, and what the two have in common.
    origin: Option<(Weak<String>, Common)>,
}

impl Text {
    /// The text that another has become by an edit, which left so much of it
    /// and put `between` the two ends; nothing if nobody holds that any more.
    pub fn made_from<'a>(
        before: &Origin,
        common: Common,
        between: impl IntoIterator<Item = &'a str>,
    ) -> Option<Text> {
        let old = before.0.upgrade()?;
        let tail = old.len().checked_sub(common.end)?;
        let (start, end) = (old.get(..common.start)?, old.get(tail..)?);
        // An edit rarely makes a text much longer.
        let mut string = String::with_capacity(old.len() + SPARE);
        string.push_str(start);
        string.extend(between);
        string.push_str(end);
        Some(Text {
            string: Arc::new(string),
            origin: Some((before.0.clone(), common)),
        })
    }

    /// What may be named later as the text that another was made from.
    pub fn origin(&self) -> Origin {
        Origin(Arc::downgrade(&self.string))
    }

    /// What a later text has in common with this one; known without a look at
    /// them if it was made from this one.
    pub fn common_with(&self, later: &Text) -> Common {
        match &later.origin {
            Some((origin, common)) if origin.as_ptr() == Arc::as_ptr(&self.string) => *common,
            _ => Common::of(self, later),
        }
    }
}

/// Names a text without holding it.
#[derive(Debug, Clone)]
pub struct Origin(Weak<String>);

impl Deref for Text {
    type Target = str;

    fn deref(&self) -> &str {
        &self.string
    }
}

impl PartialEq for Text {
    fn eq(&self, other: &Text) -> bool {
        Arc::ptr_eq(&self.string, &other.string) || **self == **other
    }
}

impl Eq for Text {}

impl From<String> for Text {
    fn from(text: String) -> Text {
        Text {
            string: Arc::new(text),
            origin: None,
        }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_in_common_is_known_of_the_text_that_it_was_made_from_alone() {
        let before = Text::from("a 5 b");
        let said = Common { start: 2, end: 1 };
        let made = |origin: &Origin, between| Text::made_from(origin, said, [between]);
        let after = made(&before.origin(), "55 ").unwrap();
        assert_eq!(&*after, "a 55 b");
        assert_eq!(before.common_with(&after), said);
        let same = Text::from("a 5 b");
        assert_eq!(before, same);
        assert_eq!(same.common_with(&after), Common { start: 3, end: 2 });
        let origin = before.origin();
        drop(before);
        assert!(made(&origin, "55 ").is_none());
    }
}
