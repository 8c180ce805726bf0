//! A section kind, its keys and their clauses: one row of the table each.

use std::sync::LazyLock;

use super::{Bounds, Form, NameSpace, Usual, ValueKind, reads_as};

/// A kind of section, such as `surface`.
#[derive(Debug)]
pub struct SectionKind {
    /// The word at column 0.
    pub word: &'static str,
    /// What follows it in its heading, as a form.
    pub heading: &'static str,
    /// The clauses that may follow in the heading.
    pub clauses: &'static [Clause],
    /// Where the name that it defines lives, if it defines one.
    pub defines: Option<NameSpace>,
    /// The keys of its entries, in the order in which they are usually
    /// written.
    pub keys: &'static [Key],
    /// One sentence of help.
    pub help: &'static str,
    /// A short sound section.
    pub example: &'static str,
}

/// A key of an entry, such as `fall`.
#[derive(Debug, PartialEq)]
pub struct Key {
    /// The word that starts the entry.
    pub word: &'static str,
    /// Whether it may stand on several lines.
    pub repeats: bool,
    /// Whether the section means nothing without it.
    pub required: bool,
    /// The value: its first phrase, as a form.
    pub value: &'static str,
    /// Keys of the section beside which it has no meaning: what they say goes
    /// without it.
    pub apart: &'static [&'static str],
    /// The clauses that may follow the value.
    pub clauses: &'static [Clause],
    /// How large the figures of its value and of its clauses are in anything
    /// that is built.
    pub usual: &'static [Usual],
    /// One sentence of help.
    pub help: &'static str,
    /// An entry as it is written.
    pub example: &'static str,
    /// The same in the units of the other system, where it has any.
    pub twin: Option<&'static str>,
}

/// A phrase after the value that qualifies it, such as `lifts 2`.
#[derive(Debug, PartialEq)]
pub struct Clause {
    /// The clause as a form. One that starts with a word is known by it;
    /// one that starts with a value is known by its place.
    pub form: &'static str,
    /// One sentence of help.
    pub help: &'static str,
    /// Whether it may follow several times.
    pub repeats: bool,
    /// Words of which the line has to have one, as its key or in its value, for
    /// the clause to have a meaning; empty if it always has.
    pub beside: &'static [&'static str],
    /// Words of the value with which it has none.
    pub apart: &'static [&'static str],
}

/// What people call a thing whose section is called otherwise, with its
/// article.
const NOUNS: &[(&str, &str, &str)] = &[
    ("steps", "a", "flight of steps"),
    ("work", "the", "`work`"),
    ("setting-out", "the", "setting out"),
    ("measured", "a", "`measured` section"),
    ("accept", "an", "`accept`"),
];

impl SectionKind {
    /// What people call a thing of this kind: `surface`, `flight of steps`.
    pub fn noun(&self) -> &'static str {
        let own = NOUNS.iter().find(|(word, ..)| *word == self.word);
        own.map_or(self.word, |(_, _, noun)| noun)
    }

    /// The same with its article: `a surface`, `the setting out`.
    pub fn thing(&self) -> String {
        let own = NOUNS.iter().find(|(word, ..)| *word == self.word);
        let article = own.map_or("a", |(_, article, _)| article);
        format!("{article} {}", self.noun())
    }

    /// The key with this word, read in any case and in either spelling.
    pub fn key(&self, word: &str) -> Option<&'static Key> {
        let keys: &'static [Key] = self.keys;
        let same = keys.iter().find(|key| key.word.eq_ignore_ascii_case(word));
        same.or_else(|| keys.iter().find(|key| reads_as(word, key.word)))
    }
}

impl Clause {
    /// The word that the clause starts with; `None` if it starts with a
    /// value.
    pub fn word(&self) -> Option<&'static str> {
        let first = self.form.split(' ').next()?;
        first
            .bytes()
            .all(|byte| byte.is_ascii_lowercase() || byte == b'-')
            .then_some(first)
    }

    /// The clause's form, parsed.
    pub fn parsed(&self) -> &'static Form {
        Form::of(self.form)
    }
}

impl Key {
    /// Between which bounds the figures in a slot of the value or of a clause
    /// usually lie; `None` if the slot takes none.
    pub fn bounds(&self, slot: &str) -> Option<Bounds> {
        let usual = self.usual.iter().find(|usual| usual.slot == slot)?;
        Some(usual.bounds)
    }

    /// The slots of the value and of the clauses, each with what it takes.
    pub fn slots(&self) -> impl Iterator<Item = (&'static str, ValueKind)> {
        let clauses = self.clauses.iter().map(Clause::parsed);
        let forms = std::iter::once(self.parsed()).chain(clauses);
        forms.flat_map(Form::slots)
    }

    /// The value's form, parsed.
    pub fn parsed(&self) -> &'static Form {
        Form::of(self.value)
    }
}

/// Every form of the table once, parsed at first use.
pub(super) static FORMS: LazyLock<rustc_hash::FxHashMap<&'static str, Form>> =
    LazyLock::new(|| {
        let mut forms = rustc_hash::FxHashMap::default();
        let mut add = |text: &'static str| {
            forms.entry(text).or_insert_with(|| Form::parse(text));
        };
        for section in super::SECTIONS {
            add(section.heading);
            section.clauses.iter().for_each(|clause| add(clause.form));
            for key in section.keys {
                add(key.value);
                key.clauses.iter().for_each(|clause| add(clause.form));
            }
        }
        forms
    });
