//! Reading one logical line.

use pest::Parser;
use pest::iterators::{Pair, Pairs};

use super::blank::{indent, is_blank};
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
            None => from_grammar(text).ok_or_else(|| Fault {
                span: words(text),
                kind: FaultKind::Unread,
            }),
        };
        read.unwrap_or_else(|fault| unread(text, fault))
    }
}

/// What the grammar makes of a line.
fn from_grammar(text: &str) -> Option<Line> {
    let line = LineParser::parse(Rule::line, text)
        .ok()?
        .next()?
        .into_inner()
        .next()?;
    let kind = match line.as_rule() {
        Rule::heading => LineKind::Heading,
        Rule::entry => LineKind::Entry,
        Rule::remark => LineKind::Comment,
        Rule::empty => LineKind::Blank,
        _ => LineKind::Unread,
    };
    let mut read = bare(text, kind);
    let mut reader = Reader::new(text);
    let inner = line.into_inner();
    if kind == LineKind::Unread {
        read.faults.push(Fault {
            span: words(text),
            kind: FaultKind::Unread,
        });
        reader.comments_of(inner);
    } else {
        let (word, rest) = opening(inner);
        read.word = word.unwrap_or(Span {
            start: read.indent.end,
            end: read.indent.end,
        });
        (read.phrases, read.commas) = reader.phrases(rest, read.word.end);
        read.faults = reader.faults;
        read.faults.sort_by_key(|fault| fault.span.start);
    }
    read.comments = reader.comments;
    Some(read)
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
