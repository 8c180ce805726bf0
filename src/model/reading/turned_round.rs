//! A value and its word the wrong way round, a word that is another's, or one
//! too many: `circle 5 m diameter`, `fall 1:60 to south`, `F2/S2`.

use super::clause::unreadable;
use super::entry::{Reader, is_filler};
use super::fit::fit;
use super::spelled_units::spelled;
use super::suggest::slip_of;
use super::value::{Entry, Value};
use crate::findings::{Finding, Fix, Place, Severity};
use crate::materials;
use crate::syntax::{Item, ItemKind, Operator};
use crate::vocabulary::{Clause as ClauseRow, Form, Part};

impl Reader<'_, '_> {
    /// `circle 5 m diameter`, `circle 5 m`: a value behind which its word
    /// stands, or which may go with several.
    pub(super) fn word_behind_value(&self, items: &[Item], at: usize) -> Option<Finding> {
        let number = items.get(at)?;
        if !matches!(number.kind, ItemKind::Number { .. }) {
            return None;
        }
        let words = self.words_before_values()?;
        let shown = self.source.slice(number.span);
        let place = self.source.place(number.span);
        let Some(behind) = items.get(at + 1).and_then(|next| self.source.word(next)) else {
            let message = format!("`{}` is missing before `{shown}`", words.join("` or `"));
            let finding = Finding::new("word-stray", place, message);
            return Some(words.into_iter().fold(finding, |finding, word| {
                finding.fix(Fix::judged(
                    format!("Write `{word}` before it"),
                    place.start(),
                    format!("{word} "),
                ))
            }));
        };
        let lower = behind.to_lowercase();
        let own = words.into_iter().find(|word| *word == lower);
        let own = own.or_else(|| self.row.other_word(&lower))?;
        let whole = self.source.place_of(items.get(at..at + 2)?);
        let text = format!("{own} {shown}");
        let message = format!("`{own}` comes before its value: `{text}`");
        let finding = Finding::new("word-stray", whole, message);
        Some(finding.fix(Fix::judged(format!("Write `{text}`"), whole, text)))
    }

    /// `order path after court`: what is built later stands first.
    pub(super) fn order_turned(&self, items: &[Item]) -> Option<Finding> {
        let [later, after, first] = items else {
            return None;
        };
        if self.row.word != "order" || !self.source.is_word(after, "after") {
            return None;
        }
        let [later, first] = [later, first].map(|item| self.source.slice(item.span));
        let text = format!("{first} then {later}");
        let place = self.source.place_of(items);
        let message = format!("what is built first stands first: `{text}`");
        let finding = Finding::new("word-stray", place, message);
        Some(finding.fix(Fix::judged(format!("Write `{text}`"), place, text)))
    }

    /// `expansive clay`, `stiff clay`: what a clause of one word says, before
    /// the value; the clause, and the text from that word on with it behind.
    pub(super) fn clause_before_value(
        &self,
        items: &[Item],
        stray: usize,
    ) -> Option<(&'static str, Place, String)> {
        let word = self.source.word(items.get(stray)?)?.to_lowercase();
        let rest = items.get(stray + 1..).filter(|rest| !rest.is_empty())?;
        let other = self.row.other_word(&word);
        let is_it = |clause: &&ClauseRow| {
            let own = clause.word().filter(|_| clause.parsed().parts.len() == 1);
            own.is_some_and(|own| own == word || other == Some(own))
        };
        let own = self.row.clauses.iter().find(is_it)?.word()?;
        let whole = self.source.place_of(items.get(stray..)?);
        Some((own, whole, format!("{}, {own}", self.source.text_of(rest))))
    }

    /// `600 mm * 450 mm`: two sides of a size that are multiplied.
    pub(super) fn star_for_by(&self, items: &[Item], wanted: &str) -> Option<Finding> {
        let is_star = |item: &&Item| matches!(item.kind, ItemKind::Operator(Operator::Multiply));
        let star = items.iter().find(is_star).filter(|_| wanted == "by")?;
        let place = self.source.place(star.span);
        let message = "the sides of a size are joined by `by`";
        let finding = Finding::new("word-stray", place, message);
        Some(finding.fix(Fix::judged("Write `by`", place, "by")))
    }

    /// `$165 a cubic yard`: what a price is for, with its unit in words.
    pub(super) fn rate_in_words(&self, left: &[Item], gap: Place) -> Option<Finding> {
        let (small, unit) = left.split_first()?;
        let is_small = ["a", "an", "the", "for", "every", "each"];
        let is_small = is_small.contains(&self.source.slice(small.span));
        let (taken, sign) = spelled(self.source, unit).filter(|_| is_small)?;
        // A yard is cubic to some and square to others.
        if taken < unit.len() || sign == "yd" {
            return None;
        }
        let place = self.source.place_of(left);
        let message = format!("what a price is for is written `/{sign}`");
        let finding = Finding::new("word-stray", place, message);
        let title = format!("Write `/{sign}`");
        Some(finding.fix(Fix::judged(title, gap.to(place), format!("/{sign}"))))
    }

    /// `4 pieces` for `in 4 pieces`, `to base` for `down to base`: a clause whose
    /// first word is missing; whether it was that.
    pub(super) fn begun_in_the_midst(&mut self, items: &[Item], entry: &mut Entry) -> bool {
        let Some(first) = items.first() else {
            return false;
        };
        let text = self.source.text_of(items);
        let clauses = self.row.clauses.iter();
        let fits_whole = |clause: &ClauseRow| {
            let parts = &clause.parsed().parts;
            fit(self.source, items, parts, 0).is_ok_and(|fit| fit.next == items.len())
        };
        // The clause that its word names is tried first: it most often fits.
        let is_named = |clause: &&ClauseRow| {
            let mut word = clause.word().into_iter();
            word.any(|word| self.source.is_word(first, word))
        };
        let others = clauses.clone().filter(|clause| !is_named(clause));
        if clauses
            .clone()
            .filter(is_named)
            .chain(others)
            .any(fits_whole)
        {
            return false;
        }
        let mut fitting = clauses.filter_map(|clause| {
            let word = clause.word()?;
            let (_, rest) = clause.parsed().parts.split_first()?;
            // Without a word behind its value any figure would do.
            let has_word = matches!(rest.last(), Some(Part::Word(_)));
            let is_rest = fit(self.source, items, rest, 0).is_ok_and(|fit| fit.next == items.len());
            let is_begun = self.source.is_word(first, word);
            (has_word && is_rest && !is_begun).then_some((clause, word))
        });
        let (Some((clause, word)), None) = (fitting.next(), fitting.next()) else {
            return false;
        };
        let place = self.source.place_of(items);
        let message = format!("`{word}` is missing before `{text}`");
        let finding = Finding::new("word-stray", place, message);
        let title = format!("Write `{word}` before it");
        let fix = Fix::judged(title, place.start(), format!("{word} "));
        entry.clauses.push(unreadable(clause, place));
        self.findings.push(finding.fix(fix));
        true
    }

    /// The words of which the value begins with one, each before a figure.
    fn words_before_values(&self) -> Option<Vec<&'static str>> {
        let [Part::Either(choices)] = Form::of(self.row.value).parts.as_slice() else {
            return None;
        };
        let words = choices.iter().map(|choice| match choice.as_slice() {
            [Part::Word(word), Part::Slot { kind, .. }] if kind.is_quantity() => Some(*word),
            _ => None,
        });
        words.collect()
    }

    /// `fall 1:60 to south`: a way by `to`, where that leads to a drain.
    pub(super) fn way_by_to(&self, items: &[Item], at: usize) -> Option<Finding> {
        let to = items.get(at)?;
        let next = items
            .get(at + 1)
            .filter(|next| next.kind == ItemKind::Word)?;
        let spoken = ["to", "towards", "into", "facing"];
        let is_to = spoken.iter().any(|word| self.source.is_word(to, word));
        if !is_to || !self.row.says("toward HEADING") {
            return None;
        }
        let place = self.source.place(to.span);
        let (shown, way) = (self.source.slice(to.span), self.source.slice(next.span));
        let message = format!("`toward` belongs here and not `{shown}`: `toward {way}`");
        let finding = Finding::new("word-stray", place, message);
        Some(finding.fix(Fix::judged("Write `toward`", place, "toward")))
    }

    /// `durability F2/S2`: a class with another behind a slash, of which one is
    /// stated.
    pub(super) fn two_classes(&mut self, left: &[Item]) -> bool {
        let [slash, other] = left else { return false };
        let is_slash = matches!(slash.kind, ItemKind::Operator(Operator::Divide));
        let form = Form::of(self.row.value);
        let is_class = matches!(form.parts.as_slice(), [Part::Choice { .. }]);
        if !is_slash || slash.spaced_before || other.kind != ItemKind::Word || !is_class {
            return false;
        }
        let whole = self.source.place(slash.span.join(other.span));
        let shown = self.source.text_of(left);
        let message = format!(
            "`{}` takes one word: take out `{shown}`, which no rule looks at",
            self.row.word
        );
        let finding = Finding::new("word-stray", whole, message);
        self.findings
            .push(finding.fix(Fix::judged(format!("Take out `{shown}`"), whole, "")));
        true
    }

    /// Whether a word behind a name may be a part of it: no word that can be
    /// left out of any value is, nor one behind a material of the catalogue.
    pub(super) fn may_be_of_a_name(&self, name: &str, word: &str) -> bool {
        let first = name.strip_suffix(word).unwrap_or(name);
        let first = first.trim_end_matches('-');
        let is_word = word.chars().all(|c| c.is_alphanumeric() || c == '-');
        is_word && !is_filler(word) && materials::find(first).is_none()
    }

    /// Takes back the name that was read where a place begins.
    pub(super) fn unread(&self, whole: Place, entry: &mut Entry) {
        let clauses = entry.clauses.iter_mut().map(|clause| &mut clause.filled);
        for filled in clauses.chain([&mut entry.filled]) {
            for (_, value, place) in &mut filled.0 {
                if place.span.start == whole.span.start {
                    *value = Value::Unreadable;
                }
            }
        }
        entry.complete = false;
    }

    /// `meets bay north`: the edge of a shape with a blank for its point.
    pub(super) fn edge_with_blank(
        &self,
        items: &[Item],
        next: usize,
        entry: &mut Entry,
    ) -> Option<Finding> {
        let (owner, edge) = (items.get(next.checked_sub(1)?)?, items.get(next)?);
        if items.len() > next + 1 {
            return None;
        }
        let (owner_name, edge_name) = (self.source.word(owner)?, self.source.word(edge)?);
        let at = self.source.place(owner.span);
        let is_edge = |(_, value, place): &(_, Value, Place)| {
            matches!(value, Value::Edge { owner: None, .. }) && place.span == at.span
        };
        let clauses = entry.clauses.iter().map(|clause| &clause.filled);
        let mut slots = clauses.chain([&entry.filled]).flat_map(|filled| &filled.0);
        let has_edge = slots.any(is_edge);
        drop(slots);
        if !has_edge {
            return None;
        }
        let whole = at.to(self.source.place(edge.span));
        self.unread(whole, entry);
        let written = format!("{owner_name}.{edge_name}");
        let message = format!("an edge is one word: is `{written}` meant?");
        let finding = Finding::new("word-stray", whole, message).severity(Severity::Error);
        Some(finding.fix(Fix::judged(format!("Write `{written}`"), whole, written)))
    }

    /// `100 mm compact`: the word of a choice behind a figure that another is
    /// nearly.
    pub(super) fn choice_near(&self, item: &Item) -> Option<&'static str> {
        let word = self.source.word(item)?.to_lowercase();
        let clauses = self.row.clauses.iter().map(|clause| clause.parsed());
        let forms = clauses.chain([Form::of(self.row.value)]);
        let mut words = Vec::new();
        forms.for_each(|form| add_choices(&form.parts, &mut words));
        slip_of(&word, words)
    }
}

/// The words of the choices in some parts, which nest no deeper than the table
/// is written.
fn add_choices(parts: &[Part], found: &mut Vec<&'static str>) {
    for part in parts {
        match part {
            Part::Choice { words, .. } => found.extend(words),
            Part::Optional(inner) | Part::Repeated(inner) => add_choices(inner, found),
            Part::Either(choices) => choices.iter().for_each(|inner| add_choices(inner, found)),
            Part::Word(_) | Part::Equals | Part::Slot { .. } => {}
        }
    }
}
