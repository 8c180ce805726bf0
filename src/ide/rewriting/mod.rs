//! Changes that are no fix of a finding: accepting one, writing a value in
//! other units, giving it a name or taking that away, defining what is only
//! named, sorting layers, starting a lay-out where it cuts less, making all safe
//! fixes.

mod accept;
mod convert;
mod define;
mod extract;
mod fix_all;
mod inline;
mod sort;
mod start;

use super::ActionEdit;
use crate::analysis::Analysis;
use crate::text::Span;

pub use fix_all::all_fixes;

/// What sort of change it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RewritingKind {
    /// It settles a finding.
    Accept,
    /// It writes the same in another way.
    Rewrite,
    /// It gives a value a name.
    Extract,
    /// It takes a name away.
    Inline,
    /// It defines what is not defined.
    Define,
}

/// A change that is offered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rewriting {
    /// What it does, as an order.
    pub title: String,
    /// What sort of change it is.
    pub kind: RewritingKind,
    /// The finding that it settles, by its index in the analysis.
    pub finding: Option<usize>,
    /// Where to go on writing, in bytes of the file as changed.
    pub cursor: Option<u32>,
    /// Its changes to the checked file, in order and apart.
    pub edits: Vec<ActionEdit>,
}

/// The changes that are offered for a stretch of the checked file.
pub fn rewritings(analysis: &Analysis, wanted: Span) -> Vec<Rewriting> {
    let mut offered = accept::accepts(analysis, wanted);
    offered.extend(convert::converted(analysis, wanted));
    offered.extend(extract::extracted(analysis, wanted));
    offered.extend(inline::inlined(analysis, wanted));
    offered.extend(define::defined(analysis, wanted));
    offered.extend(sort::sorted(analysis, wanted));
    offered.extend(start::started(analysis, wanted));
    offered
}

fn edit(span: Span, text: impl Into<String>) -> ActionEdit {
    ActionEdit {
        file: 0,
        span,
        text: text.into(),
    }
}

/// The line end that the checked file uses.
fn line_end(text: &str) -> &'static str {
    match text.find('\n') {
        Some(at) if text.get(..at).is_some_and(|before| before.ends_with('\r')) => "\r\n",
        _ => "\n",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{analysed, marked};
    use crate::text::{Edit, apply};

    /// The text after the change whose title starts so, offered at the mark.
    pub(crate) fn rewritten(text: &str, title: &str) -> Option<String> {
        let (text, at) = marked(text);
        let offered = rewritings(&analysed(&text), Span::at(at));
        let found = offered
            .into_iter()
            .find(|one| one.title.starts_with(title))?;
        let edits: Vec<Edit> = found
            .edits
            .into_iter()
            .map(|edit| Edit::new(edit.span, edit.text))
            .collect();
        Some(apply(&text, &edits).expect("edits in order"))
    }

    #[test]
    fn the_line_end_is_the_file_s_own() {
        for (text, end) in [
            ("a\r\nb\n", "\r\n"),
            ("a\nb", "\n"),
            ("a", "\n"),
            ("\n", "\n"),
        ] {
            assert_eq!(line_end(text), end);
        }
    }
}
