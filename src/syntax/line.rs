//! Reading one logical line.

use pest::Parser;
use pest::iterators::{Pair, Pairs};

use super::blank::{indent, is_blank, width};
use super::grammar::{LineParser, Rule};
use super::logical_line::LogicalLine;
use super::phrases::Reader;
use super::physical_line::PhysicalLine;
use super::tree::{Fault, FaultKind, Line, LineKind};
use crate::text::Span;

/// How many bytes a logical line may take.
pub(super) const LONGEST_LINE: usize = 64 * 1024;

impl Line {
    /// Reads a logical line. One that cannot be read keeps its place in the
    /// text and says why.
    pub(super) fn read(logical: LogicalLine<'_>) -> Self {
        let text = logical.text;
        let refused = if text.len() > LONGEST_LINE {
            Some(Fault {
                span: words(text),
                kind: FaultKind::TooLong,
            })
        } else {
            logical.too_deep.map(|at| Fault {
                span: span(at..at + 1),
                kind: FaultKind::TooDeep,
            })
        };
        let read = match refused {
            Some(fault) => Err(fault),
            None => read(text).ok_or_else(|| Fault {
                span: words(text),
                kind: FaultKind::Unread,
            }),
        };
        read.unwrap_or_else(|fault| unread(text, fault))
    }
}

/// The line that a text is, as far as it can be read.
fn read(text: &str) -> Option<Line> {
    let indented = indent(text);
    let words = text.get(indented.len()..).unwrap_or_default();
    if words.is_empty() || words.starts_with(['\n', '\r']) {
        return Some(bare(text, LineKind::Blank));
    }
    if words.starts_with('#') {
        let end = PhysicalLine::first_of(text).content.len();
        let comments = vec![span(indented.len()..end)];
        return Some(Line {
            comments,
            ..bare(text, LineKind::Comment)
        });
    }
    let at_margin = width(indented) == 0;
    let kind = if at_margin {
        LineKind::Heading
    } else {
        LineKind::Entry
    };
    with_words(text, kind).or_else(|| without_word(text))
}

/// A line that starts with a word.
fn with_words(text: &str, kind: LineKind) -> Option<Line> {
    let line = LineParser::parse(Rule::line, text).ok()?.next()?;
    let (word, rest) = opening(line.into_inner());
    let word = word?;
    let mut reader = Reader::new(text);
    let (phrases, commas) = reader.phrases(rest, word.end);
    let Reader {
        comments,
        mut faults,
        ..
    } = reader;
    faults.sort_by_key(|fault| fault.span.start);
    Some(Line {
        word,
        phrases,
        commas,
        comments,
        faults,
        ..bare(text, kind)
    })
}

/// A line that does not start with a word: nothing but its comments is read.
fn without_word(text: &str) -> Option<Line> {
    let pairs = LineParser::parse(Rule::unread, text).ok()?.flatten();
    let comments = pairs.filter(|pair| pair.as_rule() == Rule::comment);
    let comments = comments.map(|pair| span_of(&pair)).collect();
    let fault = Fault {
        span: words(text),
        kind: FaultKind::Unread,
    };
    Some(Line {
        comments,
        ..unread(text, fault)
    })
}

/// Parts a line's first word from what follows it.
fn opening(mut inner: Pairs<'_, Rule>) -> (Option<Span>, Pairs<'_, Rule>) {
    let is_opening = |pair: &Pair<'_, Rule>| matches!(pair.as_rule(), Rule::bullet | Rule::key);
    let mut word = None;
    while let Some(pair) = inner.peek().filter(is_opening) {
        inner.next();
        if pair.as_rule() == Rule::key {
            word = Some(span_of(&pair));
        }
    }
    (word, inner)
}

/// A line with nothing in it but its indent.
fn bare(text: &str, kind: LineKind) -> Line {
    let indent = span(0..indent(text).len());
    Line {
        kind,
        length: span(0..text.len()).end,
        indent,
        word: Span {
            start: indent.end,
            end: indent.end,
        },
        phrases: Vec::new(),
        commas: Vec::new(),
        comments: Vec::new(),
        faults: Vec::new(),
    }
}

/// A line that says only why it cannot be read.
fn unread(text: &str, fault: Fault) -> Line {
    Line {
        faults: vec![fault],
        ..bare(text, LineKind::Unread)
    }
}

/// From a line's first word to its first line end.
fn words(text: &str) -> Span {
    span(
        indent(text).len()
            ..PhysicalLine::first_of(text)
                .content
                .trim_end_matches(is_blank)
                .len(),
    )
}

/// A stretch of a line, which is never too long for a span.
pub(super) fn span(range: std::ops::Range<usize>) -> Span {
    let offset = |bytes| u32::try_from(bytes).unwrap_or(u32::MAX);
    Span {
        start: offset(range.start),
        end: offset(range.end),
    }
}

/// Where something that the grammar found stands in its line.
pub(super) fn span_of(pair: &Pair<'_, Rule>) -> Span {
    let found = pair.as_span();
    span(found.start()..found.end())
}
