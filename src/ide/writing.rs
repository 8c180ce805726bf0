//! What is being written at a place, read from what stands before it alone,
//! so that a line that is broken further on is no hindrance.

use super::cursor::Cursor;
use crate::analysis::Analysis;
use crate::findings::{FileId, SectionRef};
use crate::syntax::{Item, ItemKind, Line, LineKind, Tree};
use crate::text::{Lines, Span, Text};
use crate::vocabulary::{Clause, Key, SectionKind, section};

/// How many lines an entry may go on over and still be followed back.
const MOST_LINES: u32 = 64;

/// What is being written.
pub(crate) struct Writing {
    /// The word that is begun, to its end where the place is inside it; in
    /// bytes of the file.
    pub span: Span,
    /// The section that the place is in.
    pub section: Option<SectionRef>,
    /// Its kind, if that is known.
    pub kind: Option<&'static SectionKind>,
    /// Where in it the place is.
    pub part: Part,
}

/// Which part of a line is being written.
pub(crate) enum Part {
    /// The first word of a line at the margin.
    Margin,
    /// The first word of an indented line.
    Key,
    /// What follows the first word.
    Rest(Box<Rest>),
}

/// The line from its first word to the word that is begun.
pub(crate) struct Rest {
    /// What the table says of the line.
    pub row: Row,
    /// The line as far as it is written, the begun word left out.
    pub text: String,
    /// How many commas stand before the place.
    pub phrase: usize,
    /// What stands in the phrase before the begun word.
    pub items: Vec<Item>,
    /// The phrases before, each by its first word.
    pub before: Vec<String>,
    /// The parenthesis that the place is in: the function called, or an empty
    /// name for a group or point.
    pub inside: Option<String>,
    /// Whether the place is in text, or at the end of a number.
    pub is_closed: bool,
}

/// What the table says of an entry or a heading.
#[derive(Clone, Copy)]
pub(crate) struct Row {
    /// The kind of section that it stands in, or heads.
    pub kind: &'static SectionKind,
    /// The key; `None` for a heading.
    pub key: Option<&'static Key>,
}

impl Row {
    /// The word that starts the line.
    pub(crate) fn word(self) -> &'static str {
        self.key.map_or(self.kind.word, |key| key.word)
    }

    /// The form of the value.
    pub(crate) fn value(self) -> &'static str {
        self.key.map_or(self.kind.heading, |key| key.value)
    }

    /// The clauses.
    pub(crate) fn clauses(self) -> &'static [Clause] {
        self.key.map_or(self.kind.clauses, |key| key.clauses)
    }
}

/// What is being written at a byte of the checked file; nothing in a comment.
pub(crate) fn writing(analysis: &Analysis, offset: u32) -> Option<Writing> {
    let file = analysis.files.first()?;
    let text: &str = &file.tree.text;
    let number = file.lines.line_of(offset);
    let line = file.lines.line_span(number);
    let offset = offset.clamp(line.start, line.end);
    let head = Span::new(line.start, offset).slice(text);
    let offset = line.start + head.len() as u32;
    if scan(head).state == State::Comment {
        return None;
    }
    let in_text = scan(head).state == State::Text;
    let (begun, after_number) = if in_text { (0, false) } else { begun(head) };
    let start = offset - begun as u32;
    let end = if begun == 0 {
        offset
    } else {
        let after = Span::new(offset, line.end).slice(text);
        offset + word_length(after) as u32
    };
    let (top, before) = entry_before(text, &file.lines, number, start);
    let cursor = Cursor::at(file, FileId(0), top);
    let kind = cursor.as_ref().and_then(|cursor| cursor.kind);
    let written = Writing {
        span: Span::new(start, end),
        section: cursor.as_ref().map(|cursor| cursor.section),
        kind,
        part: Part::Margin,
    };
    if before.is_empty() {
        return (!in_text).then_some(written);
    }
    if before.trim().is_empty() {
        let part = Part::Key;
        return (!in_text).then_some(Writing { part, ..written });
    }
    let rest = rest(kind, before, in_text || after_number)?;
    Some(Writing {
        part: Part::Rest(Box::new(rest)),
        ..written
    })
}

/// What stands after the first word of a line, if the table knows that word.
fn rest(kind: Option<&'static SectionKind>, text: String, is_closed: bool) -> Option<Rest> {
    let tree = Tree::parse(Text::from(text.as_str()));
    let read = tree.lines().find(|line| !line.word().is_empty())?;
    let line: &Line = read.line;
    let word = read.word();
    let heading = (line.kind == LineKind::Heading)
        .then(|| section(word))
        .flatten();
    let row = match heading {
        Some(kind) => Row { kind, key: None },
        None => Row {
            kind: kind?,
            key: Some(kind?.key(word)?),
        },
    };
    let last_comma = line.commas.last().map_or(line.word.end, |comma| comma.end);
    let all = line.phrases.iter().flat_map(|phrase| &phrase.items);
    let items = all
        .filter(|item| item.span.start >= last_comma)
        .cloned()
        .collect();
    let before = line.phrases.iter();
    let before = before
        .filter_map(|phrase| phrase.items.first())
        .filter(|item| item.span.start < last_comma)
        .map(|item| read.text_of(item.span).to_ascii_lowercase())
        .collect();
    Some(Rest {
        row,
        phrase: line.commas.len(),
        items,
        before,
        inside: scan(&text).open.pop(),
        text: read.text.to_owned(),
        is_closed,
    })
}

/// An entry from its first line to a place, its lines joined and without
/// comments, and where it starts.
fn entry_before(text: &str, lines: &Lines, number: u32, start: u32) -> (u32, String) {
    let own = lines.line_span(number).start;
    let mut written = Span::new(own, start).slice(text).to_owned();
    let mut joined = (own, written.clone());
    let indent = indent_of(lines.line_span(number).slice(text));
    for back in 1..MOST_LINES {
        let Some(number) = number.checked_sub(back) else {
            break;
        };
        let span = lines.line_span(number);
        let line = uncommented(span.slice(text));
        let goes_on = line.trim_end().ends_with(',') || !scan(line).open.is_empty();
        if !goes_on {
            break;
        }
        written = format!("{} {}", line.trim_end(), written.trim_start());
        if indent > indent_of(line) {
            joined = (span.start, written.clone());
        }
    }
    joined
}

fn indent_of(line: &str) -> usize {
    line.len() - line.trim_start_matches([' ', '\t']).len()
}

/// How long the begun word at the end of a line is, and whether the place is
/// at the end of a number instead.
fn begun(head: &str) -> (usize, bool) {
    let start = head
        .char_indices()
        .rev()
        .take_while(|(_, character)| is_of_word(*character))
        .last()
        .map_or(head.len(), |(index, _)| index);
    let token = head.get(start..).unwrap_or_default();
    let word = token.trim_start_matches(|character: char| !character.is_alphabetic());
    let after_number = word.is_empty() && token.ends_with(|last: char| last.is_numeric());
    (word.len(), after_number)
}

fn is_of_word(character: char) -> bool {
    character.is_alphanumeric() || matches!(character, '-' | '_' | '.')
}

fn word_length(text: &str) -> usize {
    text.find(|character| !is_of_word(character) || character == '.')
        .unwrap_or(text.len())
}

/// Where the end of a stretch of text is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    Plain,
    Text,
    Comment,
}

/// What a look along a stretch of text found.
struct Scan {
    state: State,
    /// Where its comment starts.
    comment: Option<usize>,
    /// The parentheses left open, each by the function called.
    open: Vec<String>,
}

fn scan(text: &str) -> Scan {
    let mut scan = Scan {
        state: State::Plain,
        comment: None,
        open: Vec::new(),
    };
    let mut last = ' ';
    for (index, character) in text.char_indices() {
        match (scan.state, character) {
            (State::Text, '"') if last != '\\' => scan.state = State::Plain,
            (State::Text, _) => {}
            (_, '#') => {
                scan.state = State::Comment;
                scan.comment = Some(index);
                return scan;
            }
            (_, '"' | '“') if !last.is_numeric() => scan.state = State::Text,
            (_, '(') => {
                let before = text.get(..index).unwrap_or_default();
                let (length, _) = begun(before);
                let name = before.len() - length;
                let name = before.get(name..).unwrap_or_default();
                scan.open.push(name.to_ascii_lowercase());
            }
            (_, ')') => drop(scan.open.pop()),
            _ => {}
        }
        last = if last == '\\' && character == '\\' {
            ' '
        } else {
            character
        };
    }
    scan
}

fn uncommented(line: &str) -> &str {
    let end = scan(line).comment.unwrap_or(line.len());
    line.get(..end).unwrap_or(line)
}

/// Whether an item is a word of a form, read in any case.
pub(crate) fn is_word(text: &str, item: &Item, word: &str) -> bool {
    use crate::syntax::Operator;
    match item.kind {
        ItemKind::Word => item.span.slice(text).eq_ignore_ascii_case(word),
        ItemKind::Operator(Operator::Per) => word == "per",
        ItemKind::Operator(Operator::Over) => word == "over",
        ItemKind::By => word == "by",
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{analysed, marked};

    /// What is being written at the mark, in short.
    fn described(text: &str) -> String {
        let (text, at) = marked(text);
        let Some(written) = writing(&analysed(&text), at) else {
            return "nothing".to_owned();
        };
        let begun = written.span.slice(&text);
        match written.part {
            Part::Margin => format!("margin {begun}"),
            Part::Key => format!("key {begun}"),
            Part::Rest(rest) => format!(
                "{} {} {} {begun}{}",
                rest.row.word(),
                rest.phrase,
                rest.items.len(),
                rest.inside
                    .map_or(String::new(), |name| format!(" {name}(")),
            ),
        }
    }

    #[test]
    fn the_place_is_known_from_what_stands_before_it() {
        for (text, expected) in [
            ("sur¦", "margin sur"),
            ("shape a\n¦", "margin "),
            ("shape a\n  ¦", "key "),
            ("shape a\n  ea¦st 4 m", "key east"),
            ("shape a\n  east ¦", "east 0 0 "),
            ("shape a\n  east 24¦", "east 0 1 "),
            ("shape a\n  east 24 f¦", "east 0 1 f"),
            ("shape a\n  east 24f¦", "east 0 1 f"),
            ("shape a\n  east 4 m, na¦", "east 1 0 na"),
            ("shape a\n  east 4 m, ¦ ((, \"", "east 1 0 "),
            ("shape a\n  east 4 m, # x\n    na¦", "east 1 0 na"),
            ("shape a\n  east 4 m,\n  na¦", "key na"),
            ("let a = b¦", "let 0 2 b"),
            ("surface a\n  # al¦", "nothing"),
            ("what\n  east ¦", "nothing"),
        ] {
            assert_eq!(described(text), expected, "{text}");
        }
        assert!(described("shape a\n  east max(2 m, a¦").ends_with(" max("));
        assert!(described("shape a\n  start (4 m, ¦").ends_with(" ("));
    }
}
