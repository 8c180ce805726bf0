//! What each word of a spec is, for colouring.

use rustc_hash::FxHashMap;

use super::cursor::kind_in_force;
use super::names;
use crate::analysis::Analysis;
use crate::materials::Kind;
use crate::model::kind_after;
use crate::rules;
use crate::syntax::{Item, ItemKind, LineKind, Phrase, Placed, PlacedLine};
use crate::text::Span;
use crate::vocabulary::{Clause, DIRECTIONS, Form, NameSpace, Part, section};

/// What a stretch of text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TokenKind {
    /// The word of a section.
    Keyword,
    /// A key.
    Property,
    /// A small word of a value or clause.
    Modifier,
    /// A shape, surface, build, mix or material.
    Type,
    /// A let or an edge.
    Variable,
    /// A function.
    Function,
    /// One of a few words: a choice, a direction, a rule.
    EnumMember,
    /// A number with its unit, or a date.
    Number,
    /// Text in quotes.
    String,
    /// A comment.
    Comment,
    /// A mark of arithmetic.
    Operator,
}

impl TokenKind {
    /// Every kind, in the order of the legend.
    pub const ALL: [TokenKind; 11] = [
        TokenKind::Keyword,
        TokenKind::Property,
        TokenKind::Modifier,
        TokenKind::Type,
        TokenKind::Variable,
        TokenKind::Function,
        TokenKind::EnumMember,
        TokenKind::Number,
        TokenKind::String,
        TokenKind::Comment,
        TokenKind::Operator,
    ];
}

/// A coloured stretch of one line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Token {
    /// Where, in bytes of the checked file.
    pub span: Span,
    /// What it is.
    pub kind: TokenKind,
    /// Whether a name is given here.
    pub is_definition: bool,
}

/// What stands in a stretch of the checked file, in order and apart.
pub fn tokens(analysis: &Analysis, wanted: Span) -> Vec<Token> {
    let Some(file) = analysis.files.first() else {
        return Vec::new();
    };
    let tree = &file.tree;
    let mut painter = Painter {
        names: names_by_place(analysis, wanted),
        tokens: Vec::new(),
    };
    let ends_before = |placed: &Placed| placed.span().end < wanted.start;
    let first = tree.sections.partition_point(ends_before);
    let before = first.checked_sub(1);
    let mut in_force = before.and_then(|before| kind_in_force(tree, before));
    let sections = tree.sections.iter().skip(first);
    for placed in sections.take_while(|placed| placed.start <= wanted.end) {
        in_force = kind_after(tree.section_text(placed), placed, in_force);
        if !placed.span().overlaps(wanted) {
            continue;
        }
        for line in tree.lines_of(placed) {
            let heading = (line.line.kind == LineKind::Heading)
                .then(|| section(line.word()))
                .flatten();
            let key = in_force.and_then(|kind| kind.key(line.word()));
            match (heading, key) {
                (Some(kind), _) => {
                    painter.line(&line, TokenKind::Keyword, kind.heading, kind.clauses);
                }
                (None, Some(key)) => {
                    painter.line(&line, TokenKind::Property, key.value, key.clauses);
                }
                (None, None) => painter.comments(&line),
            }
        }
    }
    let mut tokens = painter.tokens;
    tokens.sort_by_key(|token| token.span.start);
    let mut apart: Vec<Token> = Vec::with_capacity(tokens.len());
    for token in tokens {
        let end = apart.last().map_or(0, |last| last.span.end);
        if token.span.start >= end && token.span.overlaps(wanted) {
            apart.extend(in_lines(token, &tree.text));
        }
    }
    apart
}

/// A token without the line ends that it goes over.
fn in_lines(token: Token, text: &str) -> impl Iterator<Item = Token> {
    let mut start = token.span.start;
    let pieces = token.span.slice(text).split(['\n', '\r']);
    pieces.filter_map(move |piece| {
        let span = Span::new(start, start + piece.len() as u32);
        start = span.end + 1;
        (!piece.trim().is_empty()).then_some(Token { span, ..token })
    })
}

type Names = FxHashMap<u32, (TokenKind, bool)>;

fn names_by_place(analysis: &Analysis, wanted: Span) -> Names {
    let names = names::within(analysis, wanted).into_iter();
    names
        .map(|name| {
            let kind = match names::space(&name) {
                None | Some(NameSpace::Lets) => TokenKind::Variable,
                Some(_) => TokenKind::Type,
            };
            let is_definition = name.role == names::Role::Definition;
            (name.span.start, (kind, is_definition))
        })
        .collect()
}

struct Painter {
    names: Names,
    tokens: Vec<Token>,
}

impl Painter {
    fn add(&mut self, span: Span, kind: TokenKind) {
        self.tokens.push(Token {
            span,
            kind,
            is_definition: false,
        });
    }

    fn comments(&mut self, line: &PlacedLine<'_>) {
        for comment in &line.line.comments {
            self.add(line.in_file(*comment), TokenKind::Comment);
        }
    }

    fn line(
        &mut self,
        line: &PlacedLine<'_>,
        word: TokenKind,
        value: &'static str,
        clauses: &'static [Clause],
    ) {
        self.add(line.in_file(line.line.word), word);
        let mut words = Vec::new();
        words_of(&Form::of(value).parts, &mut words);
        for clause in clauses {
            words_of(&clause.parsed().parts, &mut words);
        }
        self.phrases(line, &line.line.phrases, &words);
        self.comments(line);
    }

    /// The reader of lines bounds how deep parentheses nest.
    fn phrases(&mut self, line: &PlacedLine<'_>, phrases: &[Phrase], words: &[(&str, TokenKind)]) {
        for item in phrases.iter().flat_map(|phrase| &phrase.items) {
            self.item(line, item, words);
        }
    }

    fn item(&mut self, line: &PlacedLine<'_>, item: &Item, words: &[(&str, TokenKind)]) {
        let span = line.in_file(item.span);
        match &item.kind {
            ItemKind::Word => self.word(span, line.text_of(item.span), words),
            ItemKind::Reference { owner, edge } => {
                self.add(line.in_file(*owner), TokenKind::Type);
                self.add(line.in_file(*edge), TokenKind::Variable);
            }
            ItemKind::Text { .. } => self.add(span, TokenKind::String),
            ItemKind::Date
            | ItemKind::Ratio { .. }
            | ItemKind::TightParts
            | ItemKind::Number { .. }
            | ItemKind::Per { .. } => self.add(span, TokenKind::Number),
            ItemKind::Group { phrases } => self.phrases(line, phrases, words),
            ItemKind::Call { name, phrases } => {
                self.add(line.in_file(*name), TokenKind::Function);
                self.phrases(line, phrases, words);
            }
            ItemKind::Operator(_)
            | ItemKind::Negative
            | ItemKind::By
            | ItemKind::Colon
            | ItemKind::Equals => self.add(span, TokenKind::Operator),
            ItemKind::Stray => {}
        }
    }

    fn word(&mut self, span: Span, word: &str, words: &[(&str, TokenKind)]) {
        if let Some((kind, is_definition)) = self.names.get(&span.start) {
            self.tokens.push(Token {
                span,
                kind: *kind,
                is_definition: *is_definition,
            });
            return;
        }
        let of_form = words.iter().find(|(own, _)| own.eq_ignore_ascii_case(word));
        let lower = word.to_ascii_lowercase();
        let is_known = DIRECTIONS.iter().any(|(own, _)| *own == lower)
            || rules::find(word).is_some()
            || Kind::from_word(word).is_some();
        match of_form {
            Some((_, kind)) => self.add(span, *kind),
            None if is_known => self.add(span, TokenKind::EnumMember),
            None if matches!(lower.as_str(), "bearing" | "edge") => {
                self.add(span, TokenKind::Modifier);
            }
            None => {}
        }
    }
}

/// The words of a form. The table nests no deeper than it is written.
fn words_of(parts: &[Part], words: &mut Vec<(&'static str, TokenKind)>) {
    for part in parts {
        match part {
            Part::Word(word) => words.push((word, TokenKind::Modifier)),
            Part::Choice { words: own, .. } => {
                words.extend(own.iter().map(|word| (*word, TokenKind::EnumMember)));
            }
            Part::Optional(inner) | Part::Repeated(inner) => words_of(inner, words),
            Part::Either(choices) => choices.iter().for_each(|inner| words_of(inner, words)),
            Part::Slot { .. } | Part::Equals => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{COURT, analysed};

    #[test]
    fn every_word_has_its_kind() {
        let text = format!("{COURT}accept fall-flat 1:75, because \"it is # covered\" # why\n");
        let found = tokens(&analysed(&text), Span::from(0..text.len()));
        let kinds = |word: &str| -> Vec<TokenKind> {
            let own = found.iter().filter(|token| token.span.slice(&text) == word);
            let mut kinds: Vec<TokenKind> = own.map(|token| token.kind).collect();
            kinds.dedup();
            kinds
        };
        for (word, kind) in [
            ("surface", TokenKind::Keyword),
            ("fall", TokenKind::Property),
            ("away", TokenKind::Modifier),
            ("lifts", TokenKind::Modifier),
            ("quay", TokenKind::Variable),
            ("gap", TokenKind::Variable),
            ("court", TokenKind::Type),
            ("sharp-sand", TokenKind::Type),
            ("dry", TokenKind::EnumMember),
            ("fall-flat", TokenKind::EnumMember),
            ("1:50", TokenKind::Number),
            ("100 mm", TokenKind::Number),
            ("*", TokenKind::Operator),
            ("\"it is # covered\"", TokenKind::String),
            ("# why", TokenKind::Comment),
            ("# Rolled twice.", TokenKind::Comment),
        ] {
            assert_eq!(kinds(word), [kind], "{word}");
        }
        let given = found.iter().filter(|token| token.is_definition);
        assert_eq!(given.count(), 7);
    }

    #[test]
    fn tokens_are_in_order_apart_and_in_one_line() {
        let odd = "shape a\n  east 24'\r\n   6\", named,\n    wall\nlet x = \"a\n(\n  what # is\n";
        for text in [COURT, odd, &COURT.replace('\n', "\r\n")] {
            let analysis = analysed(text);
            let all = tokens(&analysis, Span::from(0..text.len()));
            for pair in all.windows(2) {
                assert!(pair[0].span.end <= pair[1].span.start, "{pair:?}");
            }
            assert!(
                all.iter()
                    .all(|token| !token.span.slice(text).contains(['\n', '\r']))
            );
            let half = Span::new(0, text.len() as u32 / 2);
            let part = tokens(&analysis, half);
            assert!(all.starts_with(&part), "{part:?}");
        }
    }
}
