//! Fitting the items of a phrase to a form of the vocabulary.

use super::clock::{clock, is_in_days};
use super::expression::{Cursor, Trouble};
use super::misread;
use super::parts::names_in;
use super::source::{Source, meant, region_meant};
use super::spoken_names::name_in_words;
use super::value::{Filled, Value, unescaped};
use crate::findings::{Finding, Fix, Place, Severity};
use crate::syntax::{Item, ItemKind};
use crate::units::find_unit;
use crate::vocabulary::{DIRECTIONS, Part, ValueKind, renamed};

/// How far a phrase fits a form.
pub(crate) struct Fit {
    /// The slots that were filled.
    pub filled: Filled,
    /// The first item that is left over.
    pub next: usize,
    /// What was found on the way.
    pub findings: Vec<Finding>,
}

/// Where and why a phrase does not fit.
pub(crate) struct Miss {
    /// The item at which it does not.
    pub at: usize,
    /// What was wanted there.
    pub wanted: Wanted,
    /// The slots that were filled before.
    pub filled: Filled,
}

/// What was wanted where something else stands.
#[derive(Clone)]
pub(crate) enum Wanted {
    /// A word of the form.
    Word(&'static str),
    /// One of a few words.
    OneOf(Vec<&'static str>),
    /// A value.
    Value(ValueKind),
    /// Nothing more can be said: a finding tells already.
    Told,
    /// A finding that says it better.
    Finding(Box<Finding>),
}

/// Fits all parts in turn from the item at `next`.
pub(crate) fn fit(
    source: &Source<'_>,
    items: &[Item],
    parts: &[Part],
    next: usize,
) -> Result<Fit, Miss> {
    let mut fitting = Fitting { source, items };
    let mut so_far = Fit {
        filled: Filled::default(),
        next,
        findings: Vec::new(),
    };
    match fitting.sequence(parts, &[], &mut so_far) {
        Ok(()) => {
            // It is kept as long as its section stands.
            so_far.filled.0.shrink_to_fit();
            Ok(so_far)
        }
        Err(miss) => Err(Miss {
            filled: so_far.filled,
            ..miss
        }),
    }
}

/// A phrase that is fitted to a form.
pub(super) struct Fitting<'s, 'a> {
    pub source: &'s Source<'a>,
    pub items: &'a [Item],
}

impl<'a> Fitting<'_, 'a> {
    fn sequence(&mut self, parts: &[Part], after: &[Part], fit: &mut Fit) -> Result<(), Miss> {
        for (index, part) in parts.iter().enumerate() {
            let rest = parts.get(index + 1..).unwrap_or_default();
            let following = if rest.is_empty() { after } else { rest };
            self.part(part, following, fit)?;
        }
        Ok(())
    }

    fn part(&mut self, part: &Part, following: &[Part], fit: &mut Fit) -> Result<(), Miss> {
        match part {
            Part::Word(word) => match self.items.get(fit.next) {
                Some(item) if self.source.is_word(item, word) => {
                    fit.next += 1;
                    Ok(())
                }
                _ => self.miss(fit.next, Wanted::Word(word)),
            },
            Part::Equals => match self.items.get(fit.next).map(|item| &item.kind) {
                Some(ItemKind::Equals) => {
                    fit.next += 1;
                    Ok(())
                }
                _ => self.miss(fit.next, Wanted::Word("=")),
            },
            Part::Choice { name, words } => self.choice(name, words, fit),
            Part::Slot { name, kind } => {
                let joins = following.first().is_some_and(begins_with_by);
                if !joins && *kind == ValueKind::Length && self.size(name, fit) {
                    return Ok(());
                }
                self.slot(name, *kind, stop_at(following).flatten(), fit)
            }
            Part::Optional(inner) => {
                if self.may_start(inner, fit.next) {
                    self.sequence(inner, following, fit)?;
                }
                Ok(())
            }
            Part::Repeated(inner) => {
                while self.may_start(inner, fit.next) {
                    let before = fit.next;
                    self.sequence(inner, inner, fit)?;
                    if fit.next == before {
                        break;
                    }
                }
                Ok(())
            }
            Part::Either(choices) => self.either(choices, following, fit),
        }
    }

    /// The first choice that fits; if none does, the miss that got furthest.
    fn either(
        &mut self,
        choices: &[Vec<Part>],
        following: &[Part],
        fit: &mut Fit,
    ) -> Result<(), Miss> {
        let mut furthest: Option<Miss> = None;
        for choice in choices {
            let mut attempt = Fit {
                filled: fit.filled.clone(),
                next: fit.next,
                findings: fit.findings.clone(),
            };
            match self.sequence(choice, following, &mut attempt) {
                Ok(()) => {
                    *fit = attempt;
                    return Ok(());
                }
                Err(miss) => {
                    if furthest.as_ref().is_none_or(|best| miss.at > best.at) {
                        furthest = Some(miss);
                    }
                }
            }
        }
        match furthest {
            Some(miss) => Err(miss),
            None => Ok(()),
        }
    }

    /// Whether an optional sequence is begun at an item: its first word
    /// stands there, or it starts with a value and something is left.
    fn may_start(&self, parts: &[Part], next: usize) -> bool {
        let Some(item) = self.items.get(next) else {
            return false;
        };
        match parts.first() {
            Some(Part::Word(word)) => self.source.is_word(item, word),
            Some(Part::Choice { words, .. }) => {
                words.iter().any(|word| self.source.is_word(item, word))
            }
            Some(Part::Slot {
                kind: ValueKind::Point,
                ..
            }) => matches!(item.kind, ItemKind::Group { .. }),
            // A row of a limit. In a standard no let could be its value.
            Some(Part::Slot {
                kind: ValueKind::Word,
                ..
            }) => matches!(item.kind, ItemKind::Word),
            Some(Part::Slot { .. }) => true,
            Some(Part::Either(choices)) => {
                choices.iter().any(|choice| self.may_start(choice, next))
            }
            _ => false,
        }
    }

    fn choice(
        &mut self,
        name: &'static str,
        words: &[&'static str],
        fit: &mut Fit,
    ) -> Result<(), Miss> {
        let found = self.items.get(fit.next).and_then(|item| {
            words
                .iter()
                .find(|word| self.source.is_word(item, word))
                .map(|word| (*word, item))
        });
        match found {
            Some((word, item)) => {
                let place = self.source.place(item.span);
                fit.filled.0.push((name, Value::Choice(word), place));
                fit.next += 1;
                Ok(())
            }
            None if name == "REGION"
                && let Some((region, taken)) = region_meant(self.source, self.items, fit.next) =>
            {
                let place = self.place(fit.next, fit.next + taken);
                let stands = place.span.relative_to(self.source.start);
                let stands = stands.slice(self.source.text);
                fit.findings.push(meant(stands, region, place));
                fit.filled.0.push((name, Value::Choice(region), place));
                fit.next += taken;
                Ok(())
            }
            None => self.renamed(name, words, fit),
        }
    }

    /// A word of an earlier version: it is read, with a notice.
    fn renamed(
        &mut self,
        name: &'static str,
        words: &[&'static str],
        fit: &mut Fit,
    ) -> Result<(), Miss> {
        let now = self.items.get(fit.next).and_then(|item| {
            let now = renamed(self.source.word(item)?)?;
            words.contains(&now).then_some((now, item))
        });
        let Some((word, item)) = now else {
            return self.miss(fit.next, Wanted::OneOf(words.to_vec()));
        };
        let place = self.source.place(item.span);
        let message = format!("`{}` is called `{word}` now", self.source.slice(item.span));
        fit.findings.push(
            Finding::new("word-unknown", place, message)
                .severity(Severity::Advisory)
                .fix(Fix::safe(format!("Write `{word}`"), place, word)),
        );
        fit.filled.0.push((name, Value::Choice(word), place));
        fit.next += 1;
        Ok(())
    }

    fn slot(
        &mut self,
        name: &'static str,
        kind: ValueKind,
        stop: Option<&'static str>,
        fit: &mut Fit,
    ) -> Result<(), Miss> {
        self.article(kind, fit);
        let start = fit.next;
        if self.items.get(start).is_none() {
            return self.miss(start, Wanted::Value(kind));
        }
        if kind.is_quantity() && self.is_number(start) && self.is_broken(start + 1) {
            return self.miss(start, Wanted::Told);
        }
        if let Some((taken, finding)) = misread::value(self.source, self.items, start, kind) {
            let place = self.place(start, start + taken);
            let unread = self.items.get(start..start + taken).unwrap_or_default();
            let value = match kind {
                ValueKind::Parts => Value::UnreadParts(names_in(self.source, unread)),
                _ => Value::Unreadable,
            };
            fit.next = start + taken;
            fit.findings.push(finding);
            fit.filled.0.push((name, value, place));
            return Ok(());
        }
        let (value, next) = self.value(kind, stop, start)?;
        fit.filled.0.push((name, value, self.place(start, next)));
        fit.next = next;
        Ok(())
    }

    /// Passes over `the` before the name of something that is there.
    fn article(&mut self, kind: ValueKind, fit: &mut Fit) {
        let (Some(item), Some(next)) = (self.items.get(fit.next), self.items.get(fit.next + 1))
        else {
            return;
        };
        let is_name = matches!(next.kind, ItemKind::Word | ItemKind::Reference { .. });
        if !kind.is_name() || !is_name || !self.source.is_word(item, "the") {
            return;
        }
        let place = self.source.place(item.span);
        let whole = place.to(self.source.place(next.span).start());
        let finding = Finding::new("word-stray", place, "a name stands without `the`");
        let finding = finding.severity(Severity::Warning);
        fit.findings
            .push(finding.fix(Fix::safe("Take out `the`", whole, "")));
        fit.next += 1;
    }

    /// Takes in a size, `600x600`, where one length belongs; whether there is
    /// one.
    fn size(&self, name: &'static str, fit: &mut Fit) -> bool {
        let start = fit.next;
        let is_by = |item: &Item| self.source.is_word(item, "by");
        let is_size = self.is_number(start)
            && self.items.get(start + 1).is_some_and(is_by)
            && self.is_number(start + 2);
        if is_size {
            let place = self.place(start, start + 3);
            let message = "this is a size, and one length belongs here: a size is stated as `unit` of the material, or as `units` where it is laid";
            fit.next = start + 3;
            fit.findings
                .push(Finding::new("word-stray", place, message));
            fit.filled.0.push((name, Value::Unreadable, place));
        }
        is_size
    }

    fn is_number(&self, at: usize) -> bool {
        let item = self.items.get(at);
        item.is_some_and(|item| matches!(item.kind, ItemKind::Number { .. }))
    }

    /// Whether a value goes on at an item with something of which a finding
    /// tells already: `24' -6"`, `24' 6 "`.
    fn is_broken(&self, next: usize) -> bool {
        let described = |at: usize| {
            self.items.get(at).is_some_and(|item| {
                matches!(item.kind, ItemKind::Stray | ItemKind::Text { .. })
                    && self.source.has_fault(item.span)
            })
        };
        described(next) || self.is_number(next) && described(next + 1)
    }

    fn value(
        &mut self,
        kind: ValueKind,
        stop: Option<&'static str>,
        start: usize,
    ) -> Result<(Value, usize), Miss> {
        let Some(item) = self.items.get(start) else {
            return self.miss(start, Wanted::Value(kind));
        };
        let rest = self.items.get(start..).unwrap_or_default();
        match kind {
            ValueKind::Material | ValueKind::Substance
                if let Some((name, taken)) = name_in_words(self.source, rest) =>
            {
                Ok((Value::Name(name), start + taken))
            }
            ValueKind::Text => match item.kind {
                ItemKind::Text { inner } => {
                    Ok((Value::Text(unescaped(self.source.slice(inner))), start + 1))
                }
                _ => self.miss(start, Wanted::Value(kind)),
            },
            ValueKind::Date => match item.kind {
                ItemKind::Date => {
                    let written = self.source.slice(item.span).to_owned();
                    Ok((Value::Date(written), start + 1))
                }
                _ => self.miss(start, Wanted::Value(kind)),
            },
            ValueKind::Clock => match clock(self.source, item) {
                Some(minutes) => Ok((Value::Clock(minutes), start + 1)),
                None => self.miss(start, Wanted::Value(kind)),
            },
            ValueKind::Days | ValueKind::DaysFor if !is_in_days(self.source, item) => {
                self.miss(start, Wanted::Value(kind))
            }
            ValueKind::Point => self.point(item, start),
            ValueKind::Parts => self.parts(start),
            ValueKind::Unit => self.unit(start),
            ValueKind::Direction => self.direction(start),
            ValueKind::Heading => self
                .direction(start)
                .or_else(|miss| self.edge(start).map_err(|_| miss)),
            ValueKind::Place => match item.kind {
                ItemKind::Group { .. } => self.point(item, start),
                _ => self.edge(start),
            },
            ValueKind::Edge | ValueKind::SurfaceEdge => self.edge(start),
            ValueKind::Name
            | ValueKind::Word
            | ValueKind::Shape
            | ValueKind::Surface
            | ValueKind::Build
            | ValueKind::Drain
            | ValueKind::Built
            | ValueKind::Material
            | ValueKind::Substance
            | ValueKind::MaterialKind
            | ValueKind::Rule => match item.kind {
                ItemKind::Word => Ok((Value::Name(self.source.name(item.span)), start + 1)),
                _ => self.miss(start, Wanted::Value(kind)),
            },
            _ => self.quantity(kind, stop, start),
        }
    }

    fn quantity(
        &mut self,
        kind: ValueKind,
        stop: Option<&'static str>,
        start: usize,
    ) -> Result<(Value, usize), Miss> {
        let mut cursor = Cursor {
            source: *self.source,
            items: self.items,
            next: start,
            stop,
            seconds: kind == ValueKind::Infiltration,
        };
        match cursor.expression() {
            // What stands here is no more than the first part of a value.
            Ok(_) if self.is_broken(cursor.next) => self.miss(cursor.next, Wanted::Told),
            Ok(expression) => Ok((Value::Quantity(expression), cursor.next)),
            Err(trouble) => {
                let wanted = self.wanted(trouble, kind);
                self.miss(cursor.next.max(start), wanted)
            }
        }
    }

    pub(super) fn wanted(&self, trouble: Trouble, kind: ValueKind) -> Wanted {
        match trouble {
            Trouble::Missing => Wanted::Value(kind),
            Trouble::Told => Wanted::Told,
            Trouble::Number(place, why) => Wanted::Finding(Box::new(Finding::new(
                "number-unclear",
                place,
                format!("this number cannot be used: {why}"),
            ))),
            Trouble::CallParted(place, written) => Wanted::Finding(Box::new(
                Finding::new(
                    "word-stray",
                    place,
                    format!("write a function and its parenthesis with no space: `{written}`"),
                )
                .fix(Fix::safe(format!("Write `{written}`"), place, written)),
            )),
            Trouble::Unexpected(place) => Wanted::Finding(Box::new(Finding::new(
                "word-stray",
                place,
                format!("this does not belong in {}", kind.noun()),
            ))),
        }
    }

    fn point(&mut self, item: &'a Item, start: usize) -> Result<(Value, usize), Miss> {
        let ItemKind::Group { phrases } = &item.kind else {
            return self.miss(start, Wanted::Value(ValueKind::Point));
        };
        let [east, north] = &**phrases else {
            let commas = misread::commas_in_point(self.source, item, phrases)
                .or_else(|| misread::mark_in_point(self.source, item));
            let wanted = commas.map_or(Wanted::Value(ValueKind::Point), |finding| {
                Wanted::Finding(Box::new(finding))
            });
            return self.miss(start, wanted);
        };
        let cursor = Cursor {
            source: *self.source,
            items: self.items,
            next: start,
            stop: None,
            seconds: false,
        };
        match (cursor.inside(east), cursor.inside(north)) {
            (Ok(east), Ok(north)) => Ok((Value::Point(Box::new((east, north))), start + 1)),
            (Err(trouble), _) | (_, Err(trouble)) => {
                let wanted = self.wanted(trouble, ValueKind::Point);
                self.miss(start, wanted)
            }
        }
    }

    /// A compass word, or `bearing` and an angle.
    fn direction(&mut self, start: usize) -> Result<(Value, usize), Miss> {
        let wanted = Wanted::Value(ValueKind::Direction);
        let Some(word) = self
            .items
            .get(start)
            .and_then(|item| self.source.word(item))
        else {
            return self.miss(start, wanted);
        };
        if let Some((_, degrees)) = DIRECTIONS
            .iter()
            .find(|(direction, _)| direction.eq_ignore_ascii_case(word))
        {
            return Ok((Value::Compass(*degrees), start + 1));
        }
        if word.eq_ignore_ascii_case("bearing") {
            return match self.quantity(ValueKind::Angle, None, start + 1)? {
                (Value::Quantity(angle), next) => Ok((Value::Bearing(angle), next)),
                _ => self.miss(start + 1, Wanted::Value(ValueKind::Angle)),
            };
        }
        self.miss(start, wanted)
    }

    /// `wall`, `bay.north`, or `edge wall` where a compass word is meant as
    /// an edge's name.
    fn edge(&mut self, start: usize) -> Result<(Value, usize), Miss> {
        let mut at = start;
        if let (Some(item), Some(next)) = (self.items.get(start), self.items.get(start + 1)) {
            let named = matches!(next.kind, ItemKind::Word | ItemKind::Reference { .. })
                && !self.source.is_word(next, "and")
                && !self.source.is_word(next, "except");
            if self.source.is_word(item, "edge") && named {
                at += 1;
            }
        }
        match self.items.get(at).map(|item| (&item.kind, item.span)) {
            Some((ItemKind::Word, span)) => {
                let name = self.source.name(span);
                Ok((Value::Edge { owner: None, name }, at + 1))
            }
            Some((ItemKind::Reference { owner, edge }, _)) => Ok((
                Value::Edge {
                    owner: Some(self.source.name(*owner)),
                    name: self.source.name(*edge),
                },
                at + 1,
            )),
            _ => self.miss(at, Wanted::Value(ValueKind::Edge)),
        }
    }

    /// A unit of measure, which may be two words: `sq ft`; or `each`.
    fn unit(&mut self, start: usize) -> Result<(Value, usize), Miss> {
        for length in [2, 1] {
            let Some(items) = self.items.get(start..start + length) else {
                continue;
            };
            let span = self.source.place_of(items).span;
            let written = span.relative_to(self.source.start).slice(self.source.text);
            if let Some(unit) = find_unit(written) {
                return Ok((Value::Unit(unit), start + length));
            }
        }
        match self.items.get(start) {
            Some(item) if self.source.is_word(item, "each") => {
                Ok((Value::Name("each".to_owned()), start + 1))
            }
            _ => self.miss(start, Wanted::Value(ValueKind::Unit)),
        }
    }

    fn place(&self, from: usize, to: usize) -> Place {
        self.source
            .place_of(self.items.get(from..to).unwrap_or_default())
    }

    pub(super) fn miss<T>(&self, at: usize, wanted: Wanted) -> Result<T, Miss> {
        let reported = self.items.get(at).is_some_and(|item| {
            matches!(item.kind, ItemKind::Stray) && self.source.has_fault(item.span)
        });
        Err(Miss {
            at,
            wanted: if reported { Wanted::Told } else { wanted },
            filled: Filled::default(),
        })
    }
}

/// The first of the words that may stand first in a sequence at which an
/// expression before it ends although it could go on; `Some(None)` if a part
/// must stand there before any such word can.
fn stop_at(parts: &[Part]) -> Option<Option<&'static str>> {
    let of = |word: &'static str| matches!(word, "per" | "over").then_some(word);
    parts.iter().find_map(|part| match part {
        Part::Word(word) => Some(of(word)),
        Part::Optional(inner) | Part::Repeated(inner) => stop_at(inner).flatten().map(Some),
        Part::Either(choices) => Some(choices.iter().find_map(|choice| stop_at(choice).flatten())),
        _ => Some(None),
    })
}

/// Whether a part is, or may begin with, the word that joins two lengths.
fn begins_with_by(part: &Part) -> bool {
    match part {
        Part::Word(word) => *word == "by",
        Part::Optional(inner) => inner.first().is_some_and(begins_with_by),
        _ => false,
    }
}
