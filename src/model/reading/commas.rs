//! Commas that are missing or do not belong: before a value, before a clause,
//! between the members of a list.

use super::super::catalogue;
use super::entry::{Reader, is_filler, names_substance, turns};
use super::fit::fit;
use super::number::single;
use super::source::meant;
use super::spoken_names::built_in;
use super::value::{Entry, Value};
use crate::findings::{Finding, Fix, Place, Severity};
use crate::syntax::{Item, ItemKind, Operator};
use crate::text::Span;
use crate::vocabulary::{Form, Part, ValueKind, entry};

/// So many missing commas of a line are told of, one inside the other.
const MOST_MISSING: usize = 20;

impl Reader<'_, '_> {
    /// `soil, clay`: a value that stands after a comma; the comma is all that
    /// it costs.
    pub(crate) fn value_after_comma(&mut self, form: &Form, entry: &mut Entry) -> bool {
        let line = self.source.line;
        let (Some(comma), Some(phrase)) = (line.commas.first(), line.phrases.get(1)) else {
            return false;
        };
        let Ok(mut fitted) = fit(self.source, &phrase.items, &form.parts, 0) else {
            return false;
        };
        if form.parts.is_empty() || phrase.items.is_empty() {
            return false;
        }
        let place = self.source.place(*comma);
        let message = format!(
            "`{}` and its value need no comma between them",
            self.row.word
        );
        let finding = Finding::new("comma-stray", place, message)
            .severity(Severity::Warning)
            .fix(Fix::safe("Take the comma out", place, ""));
        self.findings.push(finding.clone());
        self.findings.append(&mut fitted.findings);
        self.reported.push((0, finding));
        entry.filled = fitted.filled;
        self.leftovers(&phrase.items, fitted.next, entry);
        true
    }

    /// `item "skip", $60`: a value that a comma parts, of an entry that takes
    /// no clauses.
    pub(crate) fn value_parted_by_comma(
        &mut self,
        form: &Form,
        items: &[Item],
        entry: &mut Entry,
    ) -> bool {
        let line = self.source.line;
        let (Some(comma), [_, next]) = (line.commas.first(), &*line.phrases) else {
            return false;
        };
        if !self.row.clauses.is_empty() && !matches!(form.parts.as_slice(), [.., Part::Optional(_)])
        {
            return false;
        }
        let ends_early = fit(self.source, items, &form.parts, 0);
        let joined: Vec<Item> = items.iter().chain(&*next.items).cloned().collect();
        let (Err(miss), Ok(mut fitted)) = (ends_early, fit(self.source, &joined, &form.parts, 0))
        else {
            return false;
        };
        if miss.at < items.len() || fitted.next < joined.len() {
            return false;
        }
        let place = self.source.place(*comma);
        let message = format!("the value of `{}` has no comma in it", self.row.word);
        let finding = Finding::new("comma-stray", place, message)
            .severity(Severity::Warning)
            .fix(Fix::safe("Take the comma out", place, ""));
        self.findings.push(finding.clone());
        self.findings.append(&mut fitted.findings);
        self.reported.push((0, finding));
        entry.filled = fitted.filled;
        true
    }

    /// What a phrase holds beyond its form: a clause whose comma is missing,
    /// or stray words.
    pub(crate) fn leftovers(&mut self, items: &[Item], next: usize, entry: &mut Entry) {
        let Some(left) = items.get(next..).filter(|left| !left.is_empty()) else {
            return;
        };
        let Some(first) = left.first() else { return };
        let place = self.source.place(first.span);
        if self.source.has_fault(first.span) {
            return;
        }
        if self.mark_after_value(left, entry)
            || self.two_classes(left)
            || self.rest_as_said(items, next, entry)
        {
            return;
        }
        let shown = self.source.slice(first.span);
        let starts_clause = self.row.clauses.iter().any(|clause| {
            clause
                .word()
                .is_some_and(|word| self.source.is_word(first, word))
        });
        // `50 mm wastage 10 %`: so does another word for one, behind a figure.
        let follows_figure = next
            .checked_sub(1)
            .and_then(|before| items.get(before))
            .is_some_and(|before| matches!(before.kind, ItemKind::Number { .. }));
        let starts_clause =
            starts_clause || follows_figure && left.len() > 1 && self.means_a_clause(first);
        let before = self.with_blank_before(place);
        let gap = Place {
            span: Span::new(before.span.start, place.span.start),
            ..place
        };
        let tab = Span::new(
            before.span.start.saturating_sub(self.source.start),
            first.span.start,
        )
        .slice(self.source.text)
        .contains('\t');
        // A value that a clause without a word takes: `paving slate 30 mm`.
        let takes_first = |parts: &[Part]| match first.kind {
            ItemKind::Number { .. } => true,
            _ => matches!(parts.first(), Some(Part::Choice { .. })),
        };
        let mut unkeyed = self.row.clauses.iter().map(|clause| &clause.parsed().parts);
        let is_clause_value =
            unkeyed.any(|parts| takes_first(parts) && fit(self.source, left, parts, 0).is_ok());
        if !starts_clause && !is_clause_value && self.name_in_two(items, next, entry) {
            return;
        }
        if starts_clause
            || is_clause_value
            || (tab
                && self
                    .row
                    .clauses
                    .iter()
                    .any(|clause| clause.word().is_none()))
        {
            self.commas_missing += 1;
            if self.commas_missing > MOST_MISSING {
                let message =
                    format!("`{shown}` and what follows it are skipped: part them by commas");
                self.findings
                    .push(Finding::new("word-stray", place, message));
                entry.complete = false;
                return;
            }
            let message = if tab {
                format!("a tab before `{shown}` where a comma belongs")
            } else {
                format!("a comma is missing before `{shown}`")
            };
            self.findings.push(
                Finding::new("comma-stray", place, message)
                    .severity(Severity::Warning)
                    .fix(Fix::safe("Put the comma in", gap, ", ")),
            );
            self.clause(left, entry);
            return;
        }
        if self.and_before_a_clause(left, place, entry) {
            return;
        }
        let meant_by = self.row.other_word(&shown.to_lowercase());
        if let Some(own) = meant_by.filter(|own| self.row.says(own)) {
            self.findings.push(meant(shown, own, place));
            entry.complete = false;
            return;
        }
        if self.said_of_a_sale(items, next, entry) || self.place_in_words(items, entry) {
            return;
        }
        if let Some(finding) = self
            .way_by_to(items, next)
            .or_else(|| self.way_without_its_word(first, gap))
        {
            self.findings.push(finding);
            return;
        }
        if self.one_more_line(left, place) || self.clause_without_its_word(left, place) {
            return;
        }
        let is_for_each = |item: &Item| {
            matches!(
                item.kind,
                ItemKind::Per { .. } | ItemKind::Operator(Operator::Per)
            )
        };
        let has_rate = items.iter().take(next).any(is_for_each);
        if self.row.is_price() && first.kind == ItemKind::Word && !has_rate {
            let is_small = ["a", "an", "the", "for", "every"].contains(&shown)
                || shown == "each" && left.len() > 1;
            if let Some(finding) = self.rate_in_words(left, gap) {
                entry.complete = false;
                self.findings.push(finding);
                return;
            }
            let (message, gone, written) = if let Some(period) = period_of(shown) {
                (
                    format!("`{period}` belongs here and not `{shown}`"),
                    place,
                    period,
                )
            } else if is_small {
                let message = format!("`per` belongs here and not `{shown}`");
                (message, place, "per")
            } else {
                let message = format!("`per` is missing before `{shown}`");
                (message, place.start(), "per ")
            };
            entry.complete = false;
            self.findings.push(
                Finding::new("word-stray", place, message)
                    .severity(Severity::Error)
                    .fix(Fix::judged(
                        format!("Write `{}`", written.trim()),
                        gone,
                        written,
                    )),
            );
            return;
        }
        if let Some(near) = self.choice_near(first) {
            let message = format!("`{shown}` is not known here; did you mean `{near}`?");
            let finding = Finding::new("word-unknown", place, message);
            entry.complete = false;
            self.findings
                .push(finding.fix(Fix::judged(format!("Write `{near}`"), place, near)));
            return;
        }
        let word = self.source.slice(self.source.line.word);
        let form = Form::of(self.row.value);
        let written = match self.row.example() {
            Some(example) => format!("write it as in `{example}`"),
            None if form.parts.is_empty() => format!("`{}` stands alone", self.row.word),
            None => format!("write `{}`", form.shown_after(self.row.word)),
        };
        let message = format!(
            "`{shown}` has no meaning after `{}`: {written}",
            word.to_ascii_lowercase()
        );
        let finding = Finding::new("word-stray", place, message).severity(Severity::Error);
        let named = self.name_with_blank(items, next, entry);
        let finding = match named {
            // What a heading names is new; what an entry names may not be there.
            Some((name, whole)) if self.row.key.is_none() => {
                // Who wrote it so uses it so.
                for (_, value, place) in &mut entry.filled.0 {
                    if matches!(value, Value::Name(_)) {
                        (*value, *place) = (Value::Name(name.clone()), whole);
                    }
                }
                finding.fix(Fix::judged(format!("Write `{name}`"), whole, name))
            }
            Some((name, whole)) if let Some(known) = built_in(&name) => {
                self.unread(whole, entry);
                let stands = whole.span.relative_to(self.source.start);
                meant(stands.slice(self.source.text), known, whole)
            }
            Some((name, whole)) if self.may_be_of_a_name(&name, shown) => {
                self.unread(whole, entry);
                let message = format!("a name is one word: is `{name}` meant?");
                Finding::new("word-stray", whole, message)
                    .severity(Severity::Error)
                    .fix(Fix::judged(format!("Write `{name}`"), whole, name))
                    .fix(Fix::judged(format!("Take out `{shown}`"), before, ""))
            }
            Some((name, _)) => finding.help(format!(
                "If it is part of the name, join them with a hyphen: `{name}`."
            )),
            None => match self.edge_with_blank(items, next, entry) {
                Some(edge) => edge.fix(Fix::judged(format!("Take out `{shown}`"), before, "")),
                None => finding,
            },
        };
        // A word behind a bare number may be its unit, but for a number of
        // what the entry counts: `crew 2 people`.
        let follows = next.checked_sub(1).and_then(|before| items.get(before));
        let is_bare = |item| single(self.source, item).is_some_and(|(_, unit)| unit.is_none());
        // `concrete slabs` without the one word is another material.
        let is_after_name = follows.is_some_and(|item| item.kind == ItemKind::Word);
        let is_of_number = !first.spaced_before
            && follows.is_some_and(|item| matches!(item.kind, ItemKind::Number { .. }));
        let is_spare = self.row.key.is_some()
            && !(is_of_number || turns(shown))
            && left.len() == 1
            && first.kind == ItemKind::Word
            && (is_counted(form) || !follows.is_some_and(is_bare))
            && !(names_substance(&Form::of(self.row.value).parts)
                && is_after_name
                && !is_filler(shown));
        let is_spare = is_spare && finding.fixes.is_empty();
        self.findings.push(if is_spare {
            finding.fix(Fix::judged(format!("Take out `{shown}`"), before, ""))
        } else {
            finding
        });
    }

    /// `$65/day and $180/week`: a word before a clause where a comma belongs.
    fn and_before_a_clause(&mut self, left: &[Item], place: Place, entry: &mut Entry) -> bool {
        let Some((and, rest)) = left.split_first() else {
            return false;
        };
        let fits = |parts: &[Part]| {
            let fitted = fit(self.source, rest, parts, 0);
            fitted.is_ok_and(|fit| fit.next == rest.len())
        };
        let mut clauses = self.row.clauses.iter();
        let is_clause = clauses.any(|clause| fits(&clause.parsed().parts));
        let shown = self.source.slice(and.span);
        let joins = ["and", "for"].contains(&shown);
        if !joins || rest.is_empty() || !is_clause {
            return false;
        }
        let before = self.with_blank_before(place);
        let message = format!("a comma belongs here and not `{shown}`");
        let finding = Finding::new("comma-stray", place, message);
        let finding = finding.severity(Severity::Warning);
        self.findings
            .push(finding.fix(Fix::safe("Write a comma", before, ",")));
        self.clause(rest, entry);
        true
    }

    /// `off 2027-05-03 and 2027-05-05`: a second value of an entry that may
    /// stand on many lines.
    fn one_more_line(&mut self, left: &[Item], place: Place) -> bool {
        let Some((and, rest)) = left.split_first() else {
            return false;
        };
        let is_joined = self.source.is_word(and, "and");
        let between = self.with_blank_before(place);
        let first = rest.first().map(|item| self.source.place(item.span));
        let Some(first) = first.filter(|_| is_joined) else {
            return false;
        };
        let between = Place {
            span: Span::new(between.span.start, first.span.start),
            ..place
        };
        let Some(finding) = self.value_on_its_own_line(rest, between) else {
            return false;
        };
        self.findings.push(finding);
        true
    }

    /// What is said of a further value of an entry that may stand on many
    /// lines, where what stands between the two is left out.
    pub(crate) fn value_on_its_own_line(&self, items: &[Item], between: Place) -> Option<Finding> {
        let key = self.row.key.filter(|key| key.repeats)?;
        // A name may be a clause that is misspelt, and `1.800,00` one figure.
        let first = items.first()?;
        let is_bare = single(self.source, first).is_some_and(|(_, unit)| unit.is_none());
        if first.kind == ItemKind::Word || is_bare {
            return None;
        }
        let fitted = fit(self.source, items, &key.parsed().parts, 0).ok()?;
        if fitted.next < items.len() {
            return None;
        }
        let place = self.source.place_of(items);
        let message = format!("`{}` takes one value a line: begin another", key.word);
        let finding = Finding::new("word-stray", place, message);
        Some(finding.fix(Fix::judged(
            "Write it on a line of its own",
            between,
            format!("\n  {}", entry(key.word, "")),
        )))
    }

    /// `quote $9,800 "the yard"`, `laid herringbone 45°`: a text, a date, an
    /// angle or a share of which only one clause takes any, without that
    /// clause's word.
    fn clause_without_its_word(&mut self, left: &[Item], place: Place) -> bool {
        let before = self.with_blank_before(place);
        let gap = Place {
            span: Span::new(before.span.start, place.span.start),
            ..place
        };
        if let Some(angle) = self.bare_angle(left, gap) {
            self.findings.push(angle);
            return true;
        }
        let Some((word, finding)) = self.word_of_a_clause(left, place) else {
            return false;
        };
        let title = format!("Write `{word}` before it");
        let text = format!(", {word} ");
        self.findings
            .push(finding.fix(Fix::judged(title, gap, text)));
        true
    }

    /// `laid herringbone 45`: a number alone where a clause takes an angle and
    /// none a plain number.
    fn bare_angle(&self, left: &[Item], gap: Place) -> Option<Finding> {
        let [number] = left else { return None };
        let (_, None) = single(self.source, number)? else {
            return None;
        };
        let takes_angle = |clause: &&crate::vocabulary::Clause| {
            let slot = clause.parsed().parts.get(1);
            let kind = ValueKind::Angle;
            matches!(slot, Some(Part::Slot { kind: own, .. }) if *own == kind)
        };
        let word = self.row.clauses.iter().find(takes_angle)?.word()?;
        let place = self.source.place(number.span);
        let shown = self.source.slice(number.span);
        let message = format!("is `{shown}` an angle? It is written `{word} {shown}°`");
        let finding = Finding::new("word-stray", place, message);
        let title = format!("Write `{word} {shown}°`");
        let written = format!(", {word} {shown}°");
        Some(finding.fix(Fix::judged(title, gap.to(place), written)))
    }

    /// The word of the only clause that a text, a date, an angle or a share
    /// fits, and the finding that it is missing.
    pub(crate) fn word_of_a_clause(
        &self,
        items: &[Item],
        place: Place,
    ) -> Option<(&'static str, Finding)> {
        let first = items.first()?;
        // A number is told by its unit, where one kind alone has that.
        let kind = match &first.kind {
            ItemKind::Text { .. } | ItemKind::Date => None,
            _ => match single(self.source, first)?.1? {
                "%" => Some(ValueKind::Share),
                "°" => Some(ValueKind::Angle),
                _ => return None,
            },
        };
        let is_of_kind = |part: &Part| match (kind, part) {
            (Some(wanted), Part::Slot { kind, .. }) => *kind == wanted,
            (wanted, _) => wanted.is_none(),
        };
        let fits = |parts: &[Part]| {
            let fitted = fit(self.source, items, parts, 0);
            parts.first().is_some_and(is_of_kind) && fitted.is_ok_and(|fit| fit.next == items.len())
        };
        let mut fitting = self.row.clauses.iter().filter_map(|clause| {
            let (_, value) = clause.parsed().parts.split_first()?;
            clause.word().filter(|_| fits(value))
        });
        let (Some(word), None) = (fitting.next(), fitting.next()) else {
            return None;
        };
        let shown = self.source.slice(first.span);
        let message = format!("`{word}` is missing before `{shown}`");
        Some((word, Finding::new("word-stray", place, message)))
    }

    /// The name that a stray word makes with the name before it.
    fn name_with_blank(
        &self,
        items: &[Item],
        next: usize,
        entry: &Entry,
    ) -> Option<(String, Place)> {
        let (first, second) = (items.get(next.checked_sub(1)?)?, items.get(next)?);
        if items.len() > next + 1 {
            return None;
        }
        let place = self.source.place(first.span);
        let is_name = |(_, value, at): &(_, Value, Place)| {
            matches!(value, Value::Name(_)) && at.span == place.span
        };
        let clauses = entry.clauses.iter().map(|clause| &clause.filled);
        let mut filled = clauses.chain([&entry.filled]);
        if !filled.any(|filled| filled.0.iter().any(is_name)) {
            return None;
        }
        let name = format!("{}-{}", self.source.word(first)?, self.source.word(second)?);
        Some((name, place.to(self.source.place(second.span))))
    }

    /// `bed sharp sand`: a name of the catalogue whose words stand apart;
    /// whether it was that. It is one mistake, and nothing is taken for its
    /// first word alone.
    fn name_in_two(&mut self, items: &[Item], next: usize, entry: &mut Entry) -> bool {
        let (Some(before), Some(left)) = (next.checked_sub(1), items.get(next..)) else {
            return false;
        };
        let Some(first) = items.get(before).filter(|item| item.kind == ItemKind::Word) else {
            return false;
        };
        let place = self.source.place(first.span);
        let words = left
            .iter()
            .take_while(|item| item.kind == ItemKind::Word)
            .map(|item| item.span);
        let mut name = self.source.slice(first.span).to_ascii_lowercase();
        let mut found = None;
        for span in words {
            name.push('-');
            name.push_str(&self.source.slice(span).to_ascii_lowercase());
            if catalogue::built_in(&name).is_some() {
                found = Some((name.clone(), place.to(self.source.place(span))));
            }
        }
        let clauses = entry.clauses.iter_mut().map(|clause| &mut clause.filled);
        let slot = clauses
            .chain([&mut entry.filled])
            .flat_map(|filled| &mut filled.0)
            .find(|(_, value, at)| matches!(value, Value::Name(_)) && at.span == place.span);
        let (Some((name, whole)), Some((_, value, _))) = (found, slot) else {
            return false;
        };
        *value = Value::Unreadable;
        entry.complete = false;
        let message = format!("a name has hyphens, not spaces: `{name}`");
        self.findings.push(
            Finding::new("word-stray", whole, message)
                .severity(Severity::Error)
                .fix(Fix::judged(format!("Write `{name}`"), whole, name)),
        );
        true
    }

    /// `meets wall, garden`, `parts 4 sand, 1 cement`: a further member of the
    /// value's list, after a comma.
    pub(crate) fn member(&self, items: &[Item]) -> Option<Finding> {
        let parts = &Form::of(self.row.value).parts;
        let last = match parts.last()? {
            Part::Optional(inner) => inner.last()?,
            last => last,
        };
        let (joiner, member) = match last {
            Part::Repeated(inner) => match inner.split_first()? {
                (Part::Word("and"), member) => ("and", member),
                _ => return None,
            },
            Part::Slot {
                kind: ValueKind::Parts,
                ..
            } => (":", parts.as_slice()),
            _ => return None,
        };
        let fitted = fit(self.source, items, member, 0).ok()?;
        if fitted.next < items.len() {
            return None;
        }
        let place = self.source.place_of(items);
        let comma = (self.source.line.commas.iter().rev())
            .find(|comma| comma.end + self.source.start <= place.span.start)?;
        let comma = self.source.place(*comma);
        let gap = Place {
            span: Span::new(comma.span.start, place.span.start),
            ..comma
        };
        let message = format!(
            "the members of a list after `{}` are joined by `{joiner}`",
            self.row.word
        );
        Some(Finding::new("comma-stray", comma, message).fix(Fix::judged(
            format!("Write `{joiner}`"),
            gap,
            format!(" {joiner} "),
        )))
    }
}

/// Whether all that a form takes is a whole number.
fn is_counted(form: &Form) -> bool {
    matches!(
        form.parts.as_slice(),
        [Part::Slot {
            kind: ValueKind::Count,
            ..
        }]
    )
}

/// What a price for each of something is for, said in one word: `daily`.
fn period_of(word: &str) -> Option<&'static str> {
    match word.to_lowercase().as_str() {
        "daily" => Some("per day"),
        "weekly" => Some("per week"),
        "hourly" => Some("per h"),
        _ => None,
    }
}
