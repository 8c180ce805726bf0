//! The clauses of an entry.

use super::entry::Reader;
use super::fit::fit;
use super::misread;
use super::parts::names_in;
use super::repeats;
use super::source::meant;
use super::suggest::{as_many_as_are_read, nearest, slip_of};
use super::value::{Clause, Entry, Filled, Value};
use super::weekdays::weekdays;
use crate::findings::{Finding, Fix, Place};
use crate::syntax::{Item, ItemKind, Operator};
use crate::text::Span;
use crate::vocabulary::{Clause as ClauseRow, Form, Part, SECTIONS, ValueKind};

impl Reader<'_, '_> {
    /// A phrase that qualifies the value.
    pub(crate) fn clause(&mut self, items: &[Item], entry: &mut Entry) {
        let Some(first) = items.first() else { return };
        if self.repeated_otherwise(items, entry)
            || self.number_before_word(items, entry)
            || self.begun_in_the_midst(items, entry)
            || self.edges_in_words(items, entry)
        {
            return;
        }
        let keyed: Vec<&'static ClauseRow> = self
            .row
            .clauses
            .iter()
            .filter(|clause| {
                clause
                    .word()
                    .is_some_and(|word| self.source.is_word(first, word))
            })
            .collect();
        let candidates = if keyed.is_empty() {
            let unkeyed: Vec<&'static ClauseRow> = self
                .row
                .clauses
                .iter()
                .filter(|clause| clause.word().is_none())
                .collect();
            // A name before a number is no value: `delivery $40`.
            let fits = |clause: &ClauseRow| {
                let fitted = fit(self.source, items, &clause.parsed().parts, 0);
                fitted.is_ok_and(|fit| {
                    let next = items.get(fit.next).map(|next| &next.kind);
                    !matches!(next, Some(ItemKind::Number { .. }))
                })
            };
            // `over strip` is no value either.
            let is_over = matches!(
                first.kind,
                ItemKind::Operator(Operator::Over | Operator::Per)
            );
            let is_none_of_them = (self.source.word(first).is_some() || is_over)
                && !unkeyed.iter().any(|clause| fits(clause));
            if unkeyed.is_empty() || is_none_of_them || self.is_mistyped_clause(first) {
                self.unknown_clause(items, entry);
                return;
            }
            unkeyed
        } else {
            keyed
        };
        let Some(row) = self.best_of(&candidates, items) else {
            return;
        };
        if self.is_value_twice(row, items, entry) {
            return;
        }
        let place = self.source.place_of(items);
        let mut said = entry.clauses.iter();
        let said = said.find(|clause| clause.form == row.form && !row.repeats);
        if let Some(first) = said {
            let what = match row.word() {
                Some(word) => format!("`{word}`"),
                None => "this value".to_owned(),
            };
            self.findings.push(
                Finding::new(
                    "entry-twice",
                    place,
                    format!("{what} is given twice in this entry; the first counts"),
                )
                .related(first.place, "first given here"),
            );
            return;
        }
        if let Some(clause) = self.task_without_quotes(row, items) {
            entry.clauses.push(clause);
            return;
        }
        let (filled, next) = match self.fitted(&row.parsed().parts, items) {
            Ok(fit) => (fit.filled, fit.next),
            Err(_) => {
                entry.clauses.push(unreadable(row, place));
                return;
            }
        };
        entry.clauses.push(Clause {
            form: row.form,
            word: row.word(),
            filled,
            place,
        });
        self.leftovers(items, next, entry);
    }

    /// `task "clear the site", 1 day, first`, `paving slate, 22 mm, 600 x 600`:
    /// what stands after a value without a word and would be another such: a
    /// word, which is none, a size, or the same said in other units. Whether it
    /// was that.
    fn is_value_twice(&mut self, row: &ClauseRow, items: &[Item], entry: &mut Entry) -> bool {
        let is_value = |form: &Form| {
            let first = form.parts.first();
            matches!(first, Some(Part::Slot { kind, .. }) if kind.is_quantity())
        };
        let is_alone = |form: &Form| is_value(form) && form.parts.len() == 1;
        let mut before = entry.clauses.iter().filter(|clause| clause.word.is_none());
        let own = row.parsed();
        let is_like = |clause: &&Clause| {
            let said = Form::of(clause.form);
            clause.form == row.form || is_alone(said) && is_alone(own)
        };
        let Some(said) = before
            .find(is_like)
            .filter(|_| !row.repeats && is_value(own))
        else {
            return false;
        };
        let is_word = items
            .first()
            .is_some_and(|first| first.kind == ItemKind::Word);
        let size = match fit(self.source, items, &own.parts, 0) {
            Ok(fit) if !fit.findings.is_empty() => Some(fit.findings),
            _ => None,
        };
        match size {
            _ if is_word => self.unknown_clause(items, entry),
            Some(mut findings) => self.findings.append(&mut findings),
            None if said.form == row.form => return false,
            None => {
                let place = self.source.place_of(items);
                let message = format!("`{}` takes one of the two values", self.row.word);
                let finding = Finding::new("entry-twice", place, message);
                self.findings
                    .push(finding.related(said.place, "first given here"));
            }
        }
        true
    }

    /// `8 no.`, `at 700 mm centres`: how often a shape comes again, said
    /// otherwise than the language says it.
    fn repeated_otherwise(&mut self, items: &[Item], entry: &mut Entry) -> bool {
        let misread = repeats::misread(self.source, self.row.clauses, items);
        let Some((row, finding)) = misread else {
            return false;
        };
        entry.clauses.push(unreadable(row, finding.place));
        self.findings.push(finding);
        true
    }

    /// The first clause that some items fit; if none does, the first of those
    /// that they fit furthest.
    fn best_of(
        &self,
        candidates: &[&'static ClauseRow],
        items: &[Item],
    ) -> Option<&'static ClauseRow> {
        if let [only] = candidates {
            return Some(only);
        }
        let fits = |clause: &ClauseRow| fit(self.source, items, &clause.parsed().parts, 0);
        let mut rows = candidates.iter().copied();
        rows.find(|clause| fits(clause).is_ok()).or_else(|| {
            candidates
                .iter()
                .rev()
                .copied()
                .max_by_key(|clause| match fits(clause) {
                    Ok(fit) => fit.next,
                    Err(miss) => miss.at,
                })
        })
    }

    /// `centre 10', -11'`: the point of a clause without its parenthesis.
    pub(crate) fn point_in_clause(&mut self, phrase: usize, entry: &mut Entry) -> bool {
        let Some(finding) = misread::bare_point(self.source, phrase, 1) else {
            return false;
        };
        let line = self.source.line;
        let first = line.phrases.get(phrase).and_then(|own| own.items.first());
        let takes_point = |clause: &&ClauseRow| {
            let is_point = |part: &Part| {
                matches!(
                    part,
                    Part::Slot {
                        kind: ValueKind::Point,
                        ..
                    }
                )
            };
            let starts = |word| first.is_some_and(|first| self.source.is_word(first, word));
            clause.word().is_some_and(starts) && clause.parsed().parts.last().is_some_and(is_point)
        };
        let Some(row) = self.row.clauses.iter().find(takes_point) else {
            return false;
        };
        let place = finding.place;
        entry.clauses.push(unreadable(row, place));
        self.findings.push(finding.clone());
        self.reported.push((phrase, finding));
        true
    }

    /// Whether a word is nearly a clause's word, or another of the trade for
    /// it, and so no value.
    fn is_mistyped_clause(&self, item: &Item) -> bool {
        self.source.word(item).is_some_and(|word| {
            let clauses = self.row.clauses.iter().filter_map(ClauseRow::word);
            let own = self.row.other_word(&word.to_lowercase());
            own.is_some() || nearest(word, clauses).is_some()
        })
    }

    /// Whether a word is nearly a clause's word, or another of the trade for a
    /// clause's.
    pub(super) fn means_a_clause(&self, item: &Item) -> bool {
        self.source.word(item).is_some_and(|word| {
            let mut clauses = self.row.clauses.iter().filter_map(ClauseRow::word);
            let other = self.row.other_word(&word.to_lowercase());
            nearest(word, clauses.clone()).is_some() || clauses.any(|own| Some(own) == other)
        })
    }

    /// `2 lifts`: a clause whose number stands before its word.
    fn number_before_word(&mut self, items: &[Item], entry: &mut Entry) -> bool {
        let [number, word] = items else { return false };
        if !matches!(number.kind, ItemKind::Number { .. }) {
            return false;
        }
        // `150 mm compacted` is a value and a word that takes none.
        let other = self.source.word(word);
        let other = other.and_then(|word| self.row.other_word(&word.to_lowercase()));
        let has_word = |clause: &&ClauseRow| {
            let takes_value = matches!(clause.parsed().parts.get(1), Some(Part::Slot { .. }));
            let own = clause.word().filter(|_| takes_value);
            own.is_some_and(|own| self.source.is_word(word, own) || other == Some(own))
        };
        let Some(row) = self.row.clauses.iter().find(has_word) else {
            return false;
        };
        let own = row.word().unwrap_or_default();
        let text = format!("{own} {}", self.source.slice(number.span));
        let place = self.source.place_of(items);
        let message = format!("the word comes first: `{text}`");
        let finding = Finding::new("word-stray", place, message);
        let fix = Fix::judged(format!("Write `{text}`"), place, text);
        self.findings.push(finding.fix(fix));
        entry.clauses.push(unreadable(row, place));
        true
    }

    /// `along north, east`: edges that are joined by a comma.
    fn one_more_edge(&mut self, items: &[Item], entry: &mut Entry) -> bool {
        let ([edge], Some(before)) = (items, entry.clauses.last_mut()) else {
            return false;
        };
        let takes_more = before.form.contains("and EDGE:edge");
        let is_edge = matches!(edge.kind, ItemKind::Word | ItemKind::Reference { .. });
        if !takes_more || !is_edge {
            return false;
        }
        let place = self.source.place(edge.span);
        let between = Place {
            span: Span::new(before.place.span.end, place.span.start),
            ..place
        };
        let message = "edges are joined by `and`, and not by a comma";
        let fix = Fix::judged("Write `and` for the comma", between, " and ");
        self.findings
            .push(Finding::new("word-stray", place, message).fix(fix));
        // Some of the edges are not all.
        before.filled = Filled(vec![("", Value::Unreadable, before.place)], None);
        true
    }

    /// `price $65/day, delivery $40`: an entry of its own that stands as a
    /// clause.
    fn entry_in_a_line(&self, items: &[Item]) -> Option<Finding> {
        let first = items.first()?;
        let own = self.row.key?;
        let kind = SECTIONS
            .iter()
            .find(|kind| kind.keys.iter().any(|key| std::ptr::eq(key, own)))?;
        let key = kind.key(self.source.word(first)?)?;
        let fitted = fit(self.source, items.get(1..)?, &key.parsed().parts, 0).ok()?;
        if fitted.next + 1 < items.len() {
            return None;
        }
        let place = self.source.place(first.span);
        let between = self.comma_before(place)?;
        let message = format!("`{}` stands on a line of its own", key.word);
        let finding = Finding::new("entry-misplaced", place, message);
        Some(finding.fix(Fix::judged("Begin a line with it", between, "\n  ")))
    }

    /// From the comma before a place to that place.
    pub(super) fn comma_before(&self, place: Place) -> Option<Place> {
        let start = place.span.start;
        let commas = self.source.line.commas.iter();
        let commas = commas.map(|comma| self.source.place(*comma).span);
        let comma = commas.rev().find(|comma| comma.end <= start)?;
        let span = Span::new(comma.start, start);
        Some(Place { span, ..place })
    }

    fn unknown_clause(&mut self, items: &[Item], entry: &mut Entry) {
        let Some(first) = items.first() else { return };
        if self.source.has_fault(first.span) {
            return;
        }
        let place = self.source.place(first.span);
        if self.one_more_edge(items, entry) {
            return;
        }
        if let Some(finding) = self.member(items) {
            // Some of its parts tell nothing of a mix but what goes into it.
            for (_, value, _) in &mut entry.filled.0 {
                let mut names = match value {
                    Value::Parts(named) => {
                        let named = named.iter();
                        named.map(|part| (part.name.clone(), part.place)).collect()
                    }
                    Value::UnreadParts(names) => std::mem::take(names),
                    _ => continue,
                };
                names.extend(names_in(self.source, items));
                *value = Value::UnreadParts(names);
            }
            self.findings.push(finding);
            return;
        }
        let shown = self.source.slice(first.span);
        let words = self.row.clauses.iter().filter_map(ClauseRow::word);
        if let Some((word, finding)) = self.word_of_a_clause(items, place) {
            let fix = Fix::judged(
                format!("Write `{word}` before it"),
                place.start(),
                format!("{word} "),
            );
            self.findings.push(finding.fix(fix));
            return;
        }
        if let Some(finding) = self
            .comma_before(place)
            .and_then(|between| self.value_on_its_own_line(items, between))
        {
            self.findings.push(finding);
            return;
        }
        if let Some(finding) = weekdays(self.source, self.row.word, items) {
            self.findings.push(finding);
            return;
        }
        // What its clause says is there, though it could not be read.
        let unread = |word: &str| {
            let mut clauses = self.row.clauses.iter();
            let row = clauses.find(|clause| clause.word() == Some(word))?;
            Some(unreadable(row, self.source.place_of(items)))
        };
        let second = items.get(1).and_then(|second| self.source.word(second));
        let both = second.map(|second| format!("{shown}-{second}").to_lowercase());
        let in_two = both.and_then(|both| self.row.other_word(&both));
        let in_one = || self.row.other_word(&shown.to_lowercase());
        if let Some(own) = in_two.or_else(in_one) {
            let spoken = items.get(..=usize::from(in_two.is_some()));
            let spoken = spoken.unwrap_or_default();
            entry.clauses.extend(unread(own));
            let place = self.source.place_of(spoken);
            self.findings
                .push(meant(self.source.text_of(spoken), own, place));
            return;
        }
        if let Some(word) = nearest(shown, words.clone()) {
            entry.clauses.extend(unread(word));
        }
        if let Some(finding) = self.entry_in_a_line(items) {
            self.findings.push(finding);
            return;
        }
        let finding = match slip_of(&shown.to_lowercase(), words) {
            Some(word) => Finding::new(
                "word-unknown",
                place,
                format!(
                    "`{shown}` is not a clause of `{}`; did you mean `{word}`?",
                    self.row.word
                ),
            )
            .fix(Fix::judged(format!("Write `{word}`"), place, word)),
            None if self.row.clauses.is_empty() => Finding::new(
                "word-stray",
                self.source.place_of(items),
                format!("`{}` takes one value and no clauses", self.row.word),
            ),
            None => {
                let takes: Vec<String> = self
                    .row
                    .clauses
                    .iter()
                    .map(|clause| format!("`{}`", clause.parsed().shown()))
                    .collect();
                let finding = Finding::new(
                    "word-unknown",
                    place,
                    format!("`{shown}` is not a clause of `{}`", self.row.word),
                );
                // The sides of a rectangle have their names.
                match (self.row.word, shown.to_lowercase().as_str()) {
                    ("rectangle", "named") => finding.help(
                        "Its sides are north, east, south and west. One gets another name in a line of its own, as in `edge house from (0, 0) to (6 m, 0)`.",
                    ),
                    _ => finding.help(format!(
                        "It takes {}.",
                        as_many_as_are_read(takes.iter().map(String::as_str))
                    )),
                }
            }
        };
        self.findings.push(finding);
    }
}

/// A clause of which a finding tells that it cannot be read.
pub(super) fn unreadable(row: &ClauseRow, place: Place) -> Clause {
    Clause {
        form: row.form,
        word: row.word(),
        filled: Filled(vec![("", Value::Unreadable, place)], None),
        place,
    }
}
