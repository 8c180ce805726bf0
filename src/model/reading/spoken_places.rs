//! Places and ways as people say them: `to storm drain`, `fall 1:200 east`.

use super::clause::unreadable;
use super::entry::Reader;
use super::value::{Entry, Value};
use crate::findings::{Finding, Fix, Place};
use crate::syntax::{Item, ItemKind};
use crate::vocabulary::{Clause, DIRECTIONS, Form};

impl Reader<'_, '_> {
    /// `to storm drain`: a place in words, of which the first was taken for a
    /// drain's name; whether it was that. What it means is told where names are
    /// looked up.
    pub(super) fn place_in_words(&mut self, items: &[Item], entry: &mut Entry) -> bool {
        let form = Form::of(self.row.value).shown();
        let drain = entry.filled.0.iter_mut().find(|(name, value, _)| {
            *name == "DRAIN" && matches!(value, Value::Name(_)) && form.contains("WHERE")
        });
        let Some((_, value, from)) = drain else {
            return false;
        };
        let last = items.last().map(|last| self.source.place(last.span));
        let whole = from.to(last.unwrap_or(*from));
        let words = items
            .iter()
            .filter(|item| self.source.place(item.span).span.start >= from.span.start);
        if !words.clone().all(|item| item.kind == ItemKind::Word) {
            return false;
        }
        let written = whole.span.relative_to(self.source.start);
        *value = Value::Name(written.slice(self.source.text).to_owned());
        *from = whole;
        true
    }

    /// `along all`, `along both sides`: edges in words that name none; whether
    /// it was that.
    pub(super) fn edges_in_words(&mut self, items: &[Item], entry: &mut Entry) -> bool {
        const ALL: &[&str] = &["all", "both", "every", "each", "any", "around", "round"];
        let Some((along, rest)) = items.split_first() else {
            return false;
        };
        if !self.source.is_word(along, "along") {
            return false;
        }
        let ends = |item: &Item| self.source.is_word(item, "except");
        let end = rest.iter().position(ends).unwrap_or(rest.len());
        let words = rest.get(..end).unwrap_or_default();
        let first = words.first().and_then(|first| self.source.word(first));
        let is_all = first.is_some_and(|first| ALL.contains(&first.to_lowercase().as_str()));
        let takes_free = |clause: &&Clause| {
            let form = clause.parsed().shown();
            form.starts_with("along") && form.contains("free")
        };
        let mut clauses = self.row.clauses.iter();
        let Some(row) = clauses.find(takes_free).filter(|_| is_all) else {
            return false;
        };
        let place = self.source.place_of(words);
        let message = format!(
            "`{}` names no edge: name them, or write `free` for all that meet nothing",
            self.source.text_of(words)
        );
        let finding = Finding::new("word-stray", place, message);
        entry
            .clauses
            .push(unreadable(row, self.source.place_of(items)));
        self.findings
            .push(finding.fix(Fix::judged("Write `free`", place, "free")));
        true
    }

    /// `fall 1:200 east`: a way without its `toward`.
    pub(super) fn way_without_its_word(&self, first: &Item, gap: Place) -> Option<Finding> {
        let way = self.source.word(first)?;
        let mut ways = DIRECTIONS.iter();
        let is_way = ways.any(|(word, _)| word.eq_ignore_ascii_case(way));
        if !is_way || !Form::of(self.row.value).shown().contains("[toward ") {
            return None;
        }
        let place = self.source.place(first.span);
        let message = format!("`toward` is missing before `{way}`");
        let finding = Finding::new("word-stray", place, message);
        let title = format!("Write `toward {way}`");
        Some(finding.fix(Fix::judged(title, gap, " toward ")))
    }
}
