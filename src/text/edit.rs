//! A change of a text.

use super::Span;

/// Text put in place of a span; into an empty span it is an insertion, and
/// empty text is a deletion.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Edit {
    /// What goes.
    pub span: Span,
    /// What comes in its place.
    pub text: String,
}

impl Edit {
    /// Puts `text` in place of `span`.
    pub fn new(span: Span, text: impl Into<String>) -> Self {
        Self {
            span,
            text: text.into(),
        }
    }
}

/// The text after all of `edits`, whose spans are those of the text before.
///
/// Nothing if the edits are not in order, overlap, reach past the end, or
/// begin or end inside a character. Insertions at one place keep their order.
pub fn apply(text: &str, edits: &[Edit]) -> Option<String> {
    let mut result = String::with_capacity(text.len());
    let mut done = 0;
    for edit in edits {
        let (start, end) = (edit.span.start as usize, edit.span.end as usize);
        text.get(start..end)?;
        result.push_str(text.get(done..start)?);
        result.push_str(&edit.text);
        done = end;
    }
    result.push_str(text.get(done..)?);
    Some(result)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn edited(text: &str, edits: &[(u32, u32, &str)]) -> Option<String> {
        let edits: Vec<_> = edits
            .iter()
            .map(|&(start, end, text)| Edit {
                span: Span { start, end },
                text: text.into(),
            })
            .collect();
        apply(text, &edits)
    }

    #[test]
    fn sound_edits_are_made() {
        for (text, edits, result) in [
            ("abc", &[][..], "abc"),
            ("abc", &[(1, 2, "xy")], "axyc"),
            ("abc", &[(0, 0, "<"), (3, 3, ">")], "<abc>"),
            ("abc", &[(1, 1, "1"), (1, 1, "2"), (1, 2, "")], "a12c"),
            ("½ in", &[(0, 2, "1/2")], "1/2 in"),
        ] {
            assert_eq!(edited(text, edits).as_deref(), Some(result));
        }
    }

    #[test]
    fn unsound_edits_are_refused() {
        for (text, edits) in [
            ("abc", &[(1, 2, ""), (0, 1, "")][..]),
            ("abc", &[(0, 2, ""), (1, 3, "")]),
            ("abc", &[(2, 4, "")]),
            ("abc", &[(2, 1, "")]),
            ("½", &[(1, 2, "")]),
            ("½", &[(0, 1, "")]),
        ] {
            assert_eq!(edited(text, edits), None, "{text} {edits:?}");
        }
    }
}
