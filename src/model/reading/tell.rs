//! Telling why a value or a clause does not fit its form.

use super::entry::Reader;
use super::fit::{Miss, Wanted};
use super::literal::literal;
use super::misread;
use super::source::{apart, meant};
use super::suggest::slip_of;
use crate::findings::{Finding, Fix, Place, Severity};
use crate::syntax::{FaultKind, Item, ItemKind, Phrase};
use crate::text::Span;
use crate::vocabulary::{Clause as ClauseRow, Form, Part, ValueKind, is_reserved};

impl Reader<'_, '_> {
    /// Tells why a phrase does not fit.
    pub(crate) fn tell(&mut self, parts: &[Part], items: &[Item], miss: Miss) {
        let at = items.get(miss.at);
        let place = match at {
            Some(item) => self.source.place(item.span),
            None => self.source.place_of(items).end(),
        };
        let stands = at.map(|item| self.source.slice(item.span));
        let word = self.row.word;
        // What stands there has a fault, of which its own finding tells.
        let next = items.get(miss.at + 1);
        if next.is_some_and(|next| self.source.has_fault(next.span)) {
            return;
        }
        // Nor is a parenthesis that is never closed told of twice.
        let is_open = |item: &Item| {
            let mut faults = self.source.line.faults.iter();
            faults.any(|fault| fault.kind == FaultKind::GroupOpen && fault.span.overlaps(item.span))
        };
        if at.is_some_and(is_open) {
            return;
        }
        let is_text = matches!(miss.wanted, Wanted::Value(ValueKind::Text));
        let is_line_of_text = is_text && stands.is_some() && self.is_line_of_words();
        let finding = match miss.wanted {
            Wanted::Told => return,
            _ if let Some(finding) = self.line_as_said(items) => finding,
            Wanted::Finding(finding) => *finding,
            Wanted::Word(_) if let Some(finding) = self.order_turned(items) => finding,
            Wanted::Word(_) if let Some(finding) = self.value_comes_first(items) => finding,
            Wanted::Word(_) if let Some(finding) = self.other_word_before(items, miss.at) => {
                finding
            }
            Wanted::Word(_) if let Some(finding) = self.way_by_to(items, miss.at) => finding,
            Wanted::Word(_) if let Some(finding) = self.way_alone(items, miss.at) => finding,
            Wanted::Word(_) if let Some(finding) = self.word_behind_value(items, miss.at) => {
                finding
            }
            Wanted::Word(wanted) => match stands {
                Some(stands) if slip_of(&stands.to_lowercase(), [wanted]).is_some() => {
                    Finding::new(
                        "word-unknown",
                        place,
                        format!("`{stands}` has no meaning here; did you mean `{wanted}`?"),
                    )
                    .fix(Fix::judged(
                        format!("Write `{wanted}`"),
                        place,
                        wanted,
                    ))
                }
                Some(stands) if let Some(word) = self.row.other_word(stands) => {
                    meant(stands, word, place)
                }
                Some(stands) if self.row.says(&format!("{wanted} {stands}")) => Finding::new(
                    "word-stray",
                    place,
                    format!("`{wanted}` is missing before `{stands}`"),
                )
                .fix(Fix::judged(
                    format!("Write `{wanted} {stands}`"),
                    place.start(),
                    format!("{wanted} "),
                )),
                Some(stands) => self
                    .grown_together(items, miss.at, wanted)
                    .or_else(|| self.joined_by_another(parts, items, miss.at, wanted))
                    .unwrap_or_else(|| {
                        let message = format!("`{wanted}` belongs here and not `{stands}`");
                        Finding::new("word-stray", place, message)
                    }),
                None if let Some(finding) = self.star_for_by(items, wanted) => finding,
                None => self
                    .word_for_a_comma(parts, items, wanted)
                    .unwrap_or_else(|| {
                        Finding::new(
                            "entry-missing",
                            self.source.place_of(items),
                            format!("`{wanted}` and what follows it are missing after this"),
                        )
                        .fix(Fix::judged(
                            format!("Write `{wanted}` after it"),
                            place,
                            format!(" {wanted}"),
                        ))
                    }),
            },
            Wanted::OneOf(words)
                if let Some((word, whole)) = at.and_then(|first| {
                    let next = items.get(miss.at + 1);
                    self.source.in_two(first.span, next, words.iter().copied())
                }) =>
            {
                apart(word, whole)
            }
            Wanted::OneOf(_) if let Some(finding) = self.meant_in_two(items, miss.at) => finding,
            Wanted::OneOf(ref words)
                if let Some(finding) = self.near_in_two(items, miss.at, words) =>
            {
                finding
            }
            Wanted::OneOf(_)
                if let Some((stands, word)) = stands.and_then(|stands| {
                    Some((stands, self.row.other_word(&stands.to_lowercase())?))
                }) =>
            {
                meant(stands, word, place)
            }
            Wanted::OneOf(_) if stands.is_some_and(says_no) => Finding::new(
                "word-unknown",
                place,
                format!("where there is none, `{word}` is left out: take the line out"),
            ),
            Wanted::OneOf(words) => {
                let choices = words.join(", ");
                match stands {
                    Some(stands) => {
                        let lower = stands.to_lowercase();
                        let finding = Finding::new(
                            "word-unknown",
                            place,
                            match slip_of(&lower, words.iter().copied()) {
                                Some(near) => {
                                    format!("`{stands}` is not known here; did you mean `{near}`?")
                                }
                                None => format!("`{stands}` is not known here"),
                            },
                        )
                        .help(format!("It may be {choices}."));
                        match slip_of(&lower, words.iter().copied()) {
                            Some(near) => {
                                finding.fix(Fix::judged(format!("Write `{near}`"), place, near))
                            }
                            None => self.before_its_clause(finding, &lower, &words, place),
                        }
                    }
                    None => Finding::new(
                        "entry-missing",
                        self.source.place_of(items),
                        format!("one of {choices} is missing after this"),
                    ),
                }
            }
            Wanted::Value(ValueKind::Point)
                if let Some(finding) = misread::bare_point(self.source, 0, miss.at) =>
            {
                self.reported.push((0, finding.clone()));
                finding
            }
            // `after cutting of court`: a kind of work, or a task in quotes.
            Wanted::Value(ValueKind::Text)
                if let Some((stands, own)) = at
                    .zip(stands)
                    .filter(|_| parts.iter().any(is_either))
                    .and_then(|(item, stands)| {
                        let other = self.row.other_word(&stands.to_lowercase());
                        Some((stands, other.or_else(|| self.choice_near(item))?))
                    }) =>
            {
                meant(stands, own, place)
            }
            Wanted::Value(kind) => match stands {
                Some(stands) => {
                    let is_alone = !parts.iter().any(is_either);
                    self.wrong_value(items, miss.at, (stands, place), kind, is_alone)
                }
                None => Finding::new(
                    "entry-missing",
                    self.source.place_of(items),
                    format!("{} is missing after this", kind.noun()),
                ),
            },
        };
        let finding = match (&finding.help, self.written(items)) {
            (None, Some(written)) => finding.help(written),
            _ => finding,
        };
        if is_line_of_text {
            let phrases = 0..self.source.line.phrases.len();
            let told = phrases.map(|phrase| (phrase, finding.clone()));
            self.reported.extend(told);
        }
        self.findings.push(finding);
    }

    /// `Mrs Orrin, back garden`: whether words stand on both sides of a comma
    /// where no clause can follow.
    fn is_line_of_words(&self) -> bool {
        let phrases = &self.source.line.phrases;
        let mut items = phrases.iter().flat_map(|phrase| &phrase.items);
        let is_word = |item: &Item| matches!(item.kind, ItemKind::Word | ItemKind::Number { .. });
        self.row.clauses.is_empty()
            && phrases
                .iter()
                .filter(|phrase| !phrase.items.is_empty())
                .count()
                > 1
            && items.all(|item| is_word(item) && !is_money(item))
    }

    /// How the clause that a phrase begins is written, or else the entry.
    fn written(&self, items: &[Item]) -> Option<String> {
        let begins = |clause: &&ClauseRow| {
            let (word, first) = (clause.word(), items.first());
            let both = word.zip(first);
            both.is_some_and(|(word, first)| self.source.is_word(first, word))
        };
        if let Some(clause) = self.row.clauses.iter().find(begins) {
            return Some(format!("It is written `{}`.", clause.parsed().shown()));
        }
        let form = Form::of(self.row.value);
        let example = match self.row.example() {
            Some(example) => format!(", as in `{example}`"),
            None => String::new(),
        };
        let written = || {
            format!(
                "It is written `{}`{example}.",
                form.shown_after(self.row.word)
            )
        };
        (!form.parts.is_empty()).then(written)
    }

    /// `for seating`: a clause where one of a few words belongs, of which the
    /// first is what is meant where none is written.
    fn before_its_clause(
        &self,
        finding: Finding,
        stands: &str,
        words: &[&'static str],
        place: Place,
    ) -> Finding {
        if !self
            .row
            .clauses
            .iter()
            .any(|clause| clause.word() == Some(stands))
        {
            return finding;
        }
        let Some(usual) = words.first() else {
            return finding;
        };
        let both = format!("{usual}, {stands}");
        finding.fix(Fix::judged(format!("Write `{both}`"), place, both))
    }

    /// `stretcher bond`: two words that are written as another one here.
    fn meant_in_two(&self, items: &[Item], at: usize) -> Option<Finding> {
        let (first, second) = (items.get(at)?, items.get(at + 1)?);
        let spoken = [first, second].map(|item| self.source.slice(item.span));
        let own = self.row.other_word(&spoken.join("-").to_lowercase())?;
        let place = self.source.place(first.span.join(second.span));
        Some(meant(&spoken.join(" "), own, place))
    }

    /// `runing bond`: two words that are nearly one of those wanted.
    fn near_in_two(&self, items: &[Item], at: usize, words: &[&'static str]) -> Option<Finding> {
        let (first, second) = (items.get(at)?, items.get(at + 1)?);
        let spoken = [first, second].map(|item| self.source.slice(item.span));
        let near = slip_of(&spoken.join("-").to_lowercase(), words.iter().copied())?;
        let place = self.source.place(first.span.join(second.span));
        let message = format!(
            "`{}` is not known here; did you mean `{near}`?",
            spoken.join(" ")
        );
        let finding = Finding::new("word-unknown", place, message);
        Some(finding.fix(Fix::judged(format!("Write `{near}`"), place, near)))
    }

    /// `order court, path`, `from (3 m, 0), to (9 m, 0)`: a comma where a word
    /// joins two values, or before that word.
    fn word_for_a_comma(
        &mut self,
        parts: &[Part],
        items: &[Item],
        wanted: &str,
    ) -> Option<Finding> {
        if !["and", "then", "to"].contains(&wanted) {
            return None;
        }
        let line = self.source.line;
        let end = items.last()?.span.end;
        let own = |phrase: &Phrase| phrase.items.last().is_some_and(|last| last.span.end == end);
        let index = line.phrases.iter().position(own)?;
        let phrase = line.phrases.get(index + 1)?;
        let first = phrase.items.first()?;
        let next = self.source.place_of(&phrase.items);
        let between = self.comma_before(next)?;
        let stands_there = self.source.is_word(first, wanted);
        let (written, text) = match stands_there {
            true => ("Take the comma out".to_owned(), " ".to_owned()),
            false => (format!("Write `{wanted}`"), format!(" {wanted} ")),
        };
        let starts_clause =
            |word: &str| self.row.clauses.iter().any(|own| own.word() == Some(word));
        if !stands_there && self.source.word(first).is_some_and(starts_clause) {
            return None;
        }
        // Whatever else follows the comma is none of this value.
        let behind = next.span.relative_to(self.source.start);
        let both = format!("{text}{}", self.source.slice(behind));
        let end = self.source.place_of(items).end();
        if !self.reads_with(parts, items, end, &both) {
            return None;
        }
        let comma = Place {
            span: Span::new(between.span.start, between.span.start + 1),
            ..between
        };
        let message = match stands_there {
            true => format!("no comma belongs before `{wanted}` here"),
            false => format!("`{wanted}` belongs here and not a comma"),
        };
        let finding = Finding::new("comma-stray", comma, message).severity(Severity::Error);
        let finding = finding.fix(Fix::judged(written, between, text));
        self.reported.push((index, finding.clone()));
        Some(finding)
    }

    /// `6mx4m`: two values and what joins them, with no blanks.
    fn grown_together(&self, items: &[Item], at: usize, wanted: &str) -> Option<Finding> {
        let start = at.checked_sub(1)?;
        let rest = items.get(at..)?;
        // `6 m x4.2 m`: the first of the two stands apart.
        let behind = self.source.text_of(rest).strip_prefix(['x', 'X', '×']);
        if let Some(behind) = behind.filter(|behind| wanted == "by" && literal(behind).is_some()) {
            let place = self.source.place_of(rest);
            let text = format!("by {behind}");
            let message = format!("put a space on each side of what joins two values: `{text}`");
            let finding = Finding::new("word-stray", place, message);
            return Some(finding.fix(Fix::judged(format!("Write `{text}`"), place, text)));
        }
        let tight = rest.iter().take_while(|item| !item.spaced_before).count();
        let together = items.get(start..at + tight)?;
        let (left, right) = self
            .source
            .text_of(together)
            .split_once(['x', 'X', '×'])
            .filter(|_| wanted == "by")?;
        literal(left).and(literal(right))?;
        let apart = format!("{left} by {right}");
        let place = self.source.place_of(together);
        let message = format!("put a space on each side of what joins two values: `{apart}`");
        let finding = Finding::new("word-stray", place, message);
        Some(finding.fix(Fix::judged(format!("Write `{apart}`"), place, apart)))
    }

    fn wrong_value(
        &self,
        items: &[Item],
        at: usize,
        (stands, place): (&str, Place),
        kind: ValueKind,
        is_text_alone: bool,
    ) -> Finding {
        let finding = Finding::new(
            "word-stray",
            place,
            format!("{} belongs here and not `{stands}`", kind.noun()),
        );
        // `tread 350 mm`: how deep a tread is has an entry of its own.
        let is_tread = self.row.word == "tread" && literal(stands).is_some();
        if is_tread && at == 0 {
            let whole = self.source.place(self.source.line.word).to(place);
            let text = format!("going {stands}");
            let message = format!("`tread` says what is trodden on; how deep it is, is `{text}`");
            let finding = Finding::new("word-stray", whole, message);
            return finding.fix(Fix::judged(format!("Write `{text}`"), whole, text));
        }
        // `item £48 "skip permit"`: the two the wrong way round.
        if let (ValueKind::Text, Some(price), Some(text)) = (kind, items.get(at), items.get(at + 1))
            && is_money(price)
            && matches!(text.kind, ItemKind::Text { .. })
        {
            let whole = self.source.place(price.span.join(text.span));
            let written = format!("{} {stands}", self.source.slice(text.span));
            let message = format!("the text comes first: `{written}`");
            let finding = Finding::new("word-stray", whole, message);
            return finding.fix(Fix::judged(format!("Write `{written}`"), whole, written));
        }
        let rest = items.get(at..).unwrap_or_default();
        // `item skip permit $60`: a price is none of the words before it.
        let rest = match rest.split_last() {
            Some((last, words)) if is_money(last) && !words.is_empty() => words,
            _ => rest,
        };
        let words_only = rest
            .iter()
            .all(|item| matches!(item.kind, ItemKind::Word | ItemKind::Number { .. }));
        if kind == ValueKind::Text && words_only {
            let phrases = &self.source.line.phrases;
            // `job Mrs Orrin, back garden`: where no clause can follow, all of
            // the line is the text.
            let last = phrases.iter().rfind(|phrase| !phrase.items.is_empty());
            let last = last.filter(|_| self.is_line_of_words());
            let whole = match last {
                Some(last) => self.source.place_of(rest).to(self.source.place(last.span)),
                None => self.source.place_of(rest),
            };
            let written = whole
                .span
                .relative_to(self.source.start)
                .slice(self.source.text);
            let quoted = format!("\"{written}\"");
            // Where a text is one of several things, this may be another.
            return finding.fix(match is_text_alone {
                true => Fix::safe("Put it in quotes", whole, quoted),
                false => Fix::judged("Put it in quotes", whole, quoted),
            });
        }
        if let (ValueKind::Word, Some(code)) = (kind, code_of(stands)) {
            return finding.fix(Fix::judged(format!("Write `{code}`"), place, code));
        }
        if kind == ValueKind::Name
            && let Some(why) = is_reserved(&stands.to_ascii_lowercase())
        {
            let message = format!("`{stands}` is {why}, so it cannot be a name");
            return Finding::new("name-reserved", place, message + ": choose another");
        }
        if kind == ValueKind::Name && stands.starts_with('"') {
            let bare = stands.trim_matches('"').replace(' ', "-");
            return finding.fix(Fix::judged("Write it as a name", place, bare));
        }
        finding
    }
}

/// The code of a currency whose sign is that of no other here.
fn code_of(sign: &str) -> Option<&'static str> {
    match sign {
        "£" => Some("GBP"),
        "€" => Some("EUR"),
        _ => None,
    }
}

fn is_either(part: &Part) -> bool {
    matches!(part, Part::Either(_))
}

/// Whether a word says that there is none of something.
fn says_no(stands: &str) -> bool {
    ["none", "no", "nil", "without"].contains(&stands.to_lowercase().as_str())
}

fn is_money(item: &Item) -> bool {
    matches!(
        item.kind,
        ItemKind::Number {
            currency: Some(_),
            ..
        }
    )
}
