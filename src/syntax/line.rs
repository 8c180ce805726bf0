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
        if text.len() > LONGEST_LINE {
            return unread(text, FaultKind::TooLong, words(text));
        }
        if let Some(at) = logical.too_deep {
            return unread(text, FaultKind::TooDeep, Span::from(at..at + 1));
        }
        let indented = indent(text);
        let rest = text.get(indented.len()..).unwrap_or_default();
        match rest.chars().next() {
            None | Some('\n' | '\r') => bare(text, LineKind::Blank),
            Some('#') => comment(text),
            _ if width(indented) == 0 => with_word(text, LineKind::Heading),
            _ => with_word(text, LineKind::Entry),
        }
    }
}

/// A comment on a line of its own.
fn comment(text: &str) -> Line {
    let content = PhysicalLine::first_of(text).content;
    let comments = [Span::from(indent(text).len()..content.len())].into();
    Line {
        comments,
        ..bare(text, LineKind::Comment)
    }
}

/// A line that starts with a word, or should.
fn with_word(text: &str, kind: LineKind) -> Line {
    let Some((word, rest)) = opening(text) else {
        return without_word(text);
    };
    let mut reader = Reader::new(text);
    let (phrases, commas) = reader.phrases(rest, word.end);
    let Reader {
        comments,
        mut faults,
        ..
    } = reader;
    faults.sort_by_key(|fault| fault.span.start);
    Line {
        word,
        phrases: phrases.into(),
        commas: commas.into(),
        comments: comments.into(),
        faults: faults.into(),
        ..bare(text, kind)
    }
}

/// A line's first word and what the grammar finds after it.
fn opening(text: &str) -> Option<(Span, Pairs<'_, Rule>)> {
    let line = LineParser::parse(Rule::line, text).ok()?.next()?;
    let mut inner = line.into_inner();
    let key = inner.find(|pair| pair.as_rule() == Rule::key)?;
    Some((span_of(&key), inner))
}

/// A line that does not start with a word: nothing but its comments is read.
fn without_word(text: &str) -> Line {
    let found = LineParser::parse(Rule::unread, text)
        .into_iter()
        .flat_map(Pairs::flatten);
    let comments = found.filter(|pair| pair.as_rule() == Rule::comment);
    let comments = comments.map(|pair| span_of(&pair)).collect();
    Line {
        comments,
        ..unread(text, FaultKind::Unread, words(text))
    }
}

/// A line with nothing in it but its indent.
fn bare(text: &str, kind: LineKind) -> Line {
    let indent = Span::from(0..indent(text).len());
    Line {
        kind,
        length: Span::from(0..text.len()).end,
        indent,
        word: Span::at(indent.end),
        phrases: Box::default(),
        commas: Box::default(),
        comments: Box::default(),
        faults: Box::default(),
    }
}

/// A line that says only why it cannot be read.
pub(super) fn unread(text: &str, kind: FaultKind, span: Span) -> Line {
    let faults = [Fault { span, kind }].into();
    Line {
        faults,
        ..bare(text, LineKind::Unread)
    }
}

/// From a line's first word to its first line end.
fn words(text: &str) -> Span {
    let content = PhysicalLine::first_of(text).content;
    Span::from(indent(text).len()..content.trim_end_matches(is_blank).len())
}

/// Where something that the grammar found stands in its line.
pub(super) fn span_of(pair: &Pair<'_, Rule>) -> Span {
    let found = pair.as_span();
    Span::from(found.start()..found.end())
}
