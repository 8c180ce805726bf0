//! Places and ways as people say them: `to storm drain`, `fall 1:200 east`.

use super::entry::Reader;
use super::value::{Entry, Value};
use crate::findings::{Finding, Fix, Place};
use crate::syntax::{Item, ItemKind};
use crate::vocabulary::{DIRECTIONS, Form};

impl Reader<'_, '_> {
    /// `to storm drain`: a place in words, of which the first was taken for a
    /// drain's name; whether it was that.
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
        *value = Value::Unreadable;
        entry.complete = false;
        let written = whole.span.relative_to(self.source.start);
        let text = format!("\"{}\"", written.slice(self.source.text));
        let message = format!("a place that is no drain of this spec goes in quotes: `{text}`");
        let finding = Finding::new("word-stray", whole, message);
        self.findings
            .push(finding.fix(Fix::judged("Put it in quotes", whole, text)));
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
