//! The words of one section, each with its kind.

use rustc_hash::FxHashMap;

use super::{Token, TokenKind};
use crate::ide::names;
use crate::materials::Kind;
use crate::rules;
use crate::syntax::{Item, ItemKind, LineKind, Phrase, Placed, PlacedLine, Tree};
use crate::text::Span;
use crate::vocabulary::{Clause, DIRECTIONS, Form, NameSpace, Part, SectionKind, section};

/// What stands in a section, in order and apart, in bytes from its start.
/// `in_force` is the kind that its entries belong to, `names` are those that
/// stand in it.
pub(super) fn painted(
    tree: &Tree,
    placed: &Placed,
    in_force: Option<&'static SectionKind>,
    names: Vec<names::Occurrence>,
) -> Vec<Token> {
    let mut painter = Painter {
        names: names_by_place(names),
        tokens: Vec::new(),
    };
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
    let mut tokens = painter.tokens;
    tokens.sort_by_key(|token| token.span.start);
    let mut apart: Vec<Token> = Vec::with_capacity(tokens.len());
    for token in tokens {
        let end = apart.last().map_or(0, |last| last.span.end);
        if token.span.start >= end {
            apart.extend(in_lines(token, &tree.text));
        }
    }
    for token in &mut apart {
        token.span = token.span.relative_to(placed.start);
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

fn names_by_place(names: Vec<names::Occurrence>) -> Names {
    let names = names.into_iter();
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
