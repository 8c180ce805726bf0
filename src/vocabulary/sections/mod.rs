//! The table itself, one file for each group of section kinds.

mod budget;
mod build;
mod drain;
mod hire;
mod job;
mod material;
mod measured;
mod mix;
mod names;
mod setting_out;
mod shape;
mod site;
mod standard;
mod steps;
mod surface;
mod work;

use super::{Clause, Key, NameSpace, SectionKind, Usual, usual};

/// Every section kind, in the order in which a spec usually has them.
pub static SECTIONS: &[&SectionKind] = &[
    &job::JOB,
    &site::SITE,
    &names::USE,
    &names::LET,
    &shape::SHAPE,
    &surface::SURFACE,
    &steps::STEPS,
    &drain::DRAIN,
    &build::BUILD,
    &mix::MIX,
    &material::MATERIAL,
    &setting_out::SETTING_OUT,
    &measured::MEASURED,
    &work::WORK,
    &hire::HIRE,
    &budget::BUDGET,
    &standard::ACCEPT,
    &standard::STANDARD,
];

/// The section kind with this word, read in any case.
pub fn section(word: &str) -> Option<&'static SectionKind> {
    SECTIONS
        .iter()
        .copied()
        .find(|kind| kind.word.eq_ignore_ascii_case(word))
}

/// A key that may stand once.
const fn once(
    word: &'static str,
    value: &'static str,
    help: &'static str,
    example: &'static str,
) -> Key {
    Key {
        word,
        repeats: false,
        required: false,
        value,
        apart: &[],
        clauses: &[],
        usual: &[],
        help,
        example,
        twin: None,
    }
}

impl Key {
    const fn repeats(mut self) -> Key {
        self.repeats = true;
        self
    }

    const fn required(mut self) -> Key {
        self.required = true;
        self
    }

    const fn apart(mut self, keys: &'static [&'static str]) -> Key {
        self.apart = keys;
        self
    }

    const fn clauses(mut self, clauses: &'static [Clause]) -> Key {
        self.clauses = clauses;
        self
    }

    const fn twin(mut self, example: &'static str) -> Key {
        self.twin = Some(example);
        self
    }

    const fn usual(mut self, usual: &'static [Usual]) -> Key {
        self.usual = usual;
        self
    }
}

/// A clause and its help.
const fn clause(form: &'static str, help: &'static str) -> Clause {
    Clause {
        form,
        help,
        repeats: false,
        beside: &[],
        apart: &[],
    }
}

impl Clause {
    const fn beside(mut self, words: &'static [&'static str]) -> Clause {
        self.beside = words;
        self
    }

    const fn apart(mut self, words: &'static [&'static str]) -> Clause {
        self.apart = words;
        self
    }

    const fn repeats(mut self) -> Clause {
        self.repeats = true;
        self
    }
}

/// `accept`, which stands in every section whose figures a finding may come
/// from.
const ACCEPT_ENTRY: Key = once(
    "accept",
    standard::ACCEPTED,
    "Accepts a finding in this section. A reason is required.",
    "accept base-thin, because \"trial pit shows gravel at 10 in\", until 2027-03-01",
)
.repeats()
.clauses(standard::ACCEPT_CLAUSES)
.usual(&[usual::open(
    "FIGURE",
    "an acceptance goes as far as its rule's figures do",
)]);

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn words_are_plain_and_stand_once() {
        let mut seen = BTreeSet::new();
        for kind in SECTIONS {
            assert!(seen.insert(kind.word), "{} stands twice", kind.word);
            let mut keys = BTreeSet::new();
            for key in kind.keys {
                assert!(keys.insert(key.word), "{} {}", kind.word, key.word);
                assert!(
                    key.word
                        .bytes()
                        .all(|byte| byte.is_ascii_lowercase() || byte == b'-')
                );
            }
        }
    }

    #[test]
    fn help_is_one_sentence_and_examples_start_with_the_key() {
        for kind in SECTIONS {
            assert!(kind.help.ends_with('.'), "{}", kind.word);
            assert!(kind.example.starts_with(kind.word), "{}", kind.word);
            for key in kind.keys {
                assert!(key.help.ends_with('.'), "{} {}", kind.word, key.word);
                assert!(
                    key.example.starts_with(key.word),
                    "{} {}",
                    kind.word,
                    key.word
                );
                for clause in key.clauses {
                    assert!(clause.help.ends_with('.'), "{} {}", key.word, clause.form);
                }
            }
        }
    }
}
