//! One line, laid out.

use super::columns::{BEFORE_COMMENT, INDENT, VALUE};
use super::columns::{is_blank, last_line, lines, pad_to, push_line, width};
use super::token::Tokens;
use crate::syntax::{ItemKind, LineKind, PlacedLine};
use crate::text::Span;
use crate::vocabulary::{Clause, SectionKind, section};

/// The line laid out, or as it is where it is better left alone. `kind` is
/// the kind of section that it stands in, if that is known.
pub(super) fn laid(line: &PlacedLine<'_>, kind: Option<&'static SectionKind>) -> String {
    match line.line.kind {
        LineKind::Blank => {
            let mut text = String::new();
            let content = line.text.trim_end_matches(['\n', '\r']);
            push_line(&mut text, "", line.text.get(content.len()..).unwrap_or(""));
            text
        }
        LineKind::Comment => comment(line),
        LineKind::Unread => written(line).to_owned(),
        LineKind::Heading => heading(line).unwrap_or_else(|| written(line).to_owned()),
        LineKind::Entry => entry(line, kind).unwrap_or_else(|| indented(line)),
    }
}

/// A line as it is, but for the byte-order mark at the file's start, which is
/// kept apart.
pub(super) fn written<'t>(line: &PlacedLine<'t>) -> &'t str {
    let marked = line.text.strip_prefix('\u{FEFF}');
    marked.filter(|_| line.start == 0).unwrap_or(line.text)
}

fn comment(line: &PlacedLine<'_>) -> String {
    let indent = line.text_of(line.line.indent);
    let mut text = String::new();
    if width(indent) > 0 {
        text.push_str(INDENT);
    }
    let words = line.text.get(indent.len()..).unwrap_or_default();
    for (content, end) in lines(words) {
        push_line(&mut text, content, end);
    }
    text
}

/// An entry that is left as it is, but for its indent. One that goes on is
/// left whole: how deep its lines are indented holds them together.
fn indented(line: &PlacedLine<'_>) -> String {
    let rest = line
        .text
        .get(line.line.indent.end as usize..)
        .unwrap_or_default();
    let content = rest.trim_end_matches(['\n', '\r']);
    if content.contains(['\n', '\r']) {
        written(line).to_owned()
    } else {
        format!("{INDENT}{rest}")
    }
}

fn heading(line: &PlacedLine<'_>) -> Option<String> {
    let kind = section(line.word())?;
    let row = kind.word.to_owned();
    Laying::of(line, row, 0)?.finish(line, kind.clauses)
}

fn entry(line: &PlacedLine<'_>, kind: Option<&'static SectionKind>) -> Option<String> {
    let key = kind.and_then(|kind| kind.key(line.word()));
    let word = key.map_or(line.word(), |key| key.word);
    let row = format!("{INDENT}{word}");
    let clauses = key.map_or(&[][..], |key| key.clauses);
    Laying::of(line, row, VALUE)?.finish(line, clauses)
}

/// A line while it is laid out.
struct Laying<'t> {
    /// The line as it was written.
    text: &'t str,
    /// The rows that are done.
    done: String,
    /// The row that is being written.
    row: String,
    /// The column at which the value starts.
    column: usize,
}

impl<'t> Laying<'t> {
    /// Begins a line with its first word; nothing if a fault, a bullet or a
    /// mark after the key says that more than its layout is amiss.
    fn of(line: &PlacedLine<'t>, row: String, column: usize) -> Option<Self> {
        let before = Span::new(line.line.indent.end, line.line.word.start);
        let first = line.line.phrases.first();
        let opens_oddly = first.is_some_and(|phrase| match phrase.items.first() {
            Some(item) => matches!(item.kind, ItemKind::Colon | ItemKind::Equals),
            None => true,
        });
        if !before.is_empty() || !line.line.faults.is_empty() || opens_oddly {
            return None;
        }
        Some(Self {
            text: line.text,
            done: String::new(),
            row,
            column,
        })
    }

    fn finish(mut self, line: &PlacedLine<'_>, clauses: &[Clause]) -> Option<String> {
        let mut tokens = Tokens {
            text: self.text,
            list: Vec::new(),
        };
        tokens.phrases(&line.line.phrases, &line.line.commas, clauses)?;
        let mut end = line.line.word.end;
        for (index, token) in tokens.list.iter().enumerate() {
            let gap = Span::new(end, token.span.start);
            if gap.slice(self.text).contains(['\n', '\r']) {
                self.break_at(gap);
            } else if index == 0 {
                let column = self.column;
                pad_to(&mut self.row, column, 1);
            } else if token.apart {
                self.row.push(' ');
            }
            self.row.push_str(&token.text);
            end = token.span.end;
        }
        let tail = Span::new(end, line.line.length);
        for (index, (content, end)) in lines(tail.slice(self.text)).into_iter().enumerate() {
            self.end_row(content, end, (index == 0).then_some(tail.start));
        }
        Some(self.done)
    }

    /// Goes on in the next row where the text did, with the comments and
    /// blank lines between.
    fn break_at(&mut self, gap: Span) {
        let mut rest = lines(gap.slice(self.text));
        rest.pop();
        for (index, (content, end)) in rest.into_iter().enumerate() {
            self.end_row(content, end, (index == 0).then_some(gap.start));
        }
        pad_to(&mut self.row, VALUE, 0);
    }

    /// Ends the row with what is left of its line: nothing but blanks, or a
    /// comment. One beside words stays in its column if there is room; `at`
    /// is where the rest started.
    fn end_row(&mut self, rest: &str, end: &str, at: Option<u32>) {
        let comment = rest.trim_start_matches(is_blank);
        if !comment.is_empty() {
            match at {
                Some(at) => {
                    let blanks = rest.len() - comment.len();
                    let before = Span::new(0, at).slice(self.text);
                    let lead = rest.get(..blanks).unwrap_or_default();
                    let column = width(&format!("{}{lead}", last_line(before)));
                    pad_to(&mut self.row, column, BEFORE_COMMENT);
                }
                None => pad_to(&mut self.row, VALUE, 0),
            }
            self.row.push_str(comment);
        }
        push_line(&mut self.done, &self.row, end);
        self.row.clear();
    }
}
