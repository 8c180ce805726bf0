//! One entry, or a section's heading: its value and its clauses.

use super::fit::{Fit, Miss, Wanted, fit};
use super::misread;
use super::source::{Source, apart};
use super::suggest::nearest;
use super::value::{Clause, Entry, Filled, Value};
use crate::findings::{Finding, Fix, Place, Severity};
use crate::syntax::{Fault, FaultKind, Item, ItemKind};
use crate::vocabulary::{Clause as ClauseRow, Form, Key, Part, ValueKind, is_reserved};

/// What the table says of an entry or heading.
#[derive(Clone, Copy)]
pub struct Row {
    /// The key; `None` for a heading.
    pub key: Option<&'static Key>,
    /// The word that starts it.
    pub word: &'static str,
    /// The form of the value.
    pub value: &'static str,
    /// The clauses.
    pub clauses: &'static [ClauseRow],
}

impl Row {
    /// How the table shows it by an example.
    pub fn example(&self) -> Option<&'static str> {
        self.key.map(|key| key.example)
    }

    /// Whether its value may be written with these words side by side.
    fn says(&self, words: &str) -> bool {
        Form::of(self.value).shown().contains(words)
    }

    /// Whether its value is a point and nothing else.
    fn takes_point(&self) -> bool {
        matches!(
            Form::of(self.value).parts.as_slice(),
            [Part::Slot {
                kind: ValueKind::Point,
                ..
            }]
        )
    }
}

/// Reads a line against its row of the table.
pub fn read_entry(source: &Source<'_>, row: Row, findings: &mut Vec<Finding>) -> Entry {
    let line = source.line;
    let mut reader = Reader {
        source,
        row,
        findings,
        told: if row.takes_point() && misread::bare_point(source).is_some() {
            Vec::new()
        } else {
            misread::decimal_commas(source)
        },
    };
    let mut entry = Entry {
        key: row.key,
        word: source.place(line.word),
        place: line
            .phrases
            .iter()
            .rev()
            .find(|phrase| !phrase.items.is_empty())
            .map_or(source.place(line.word), |last| {
                source.place(line.word.join(last.span))
            }),
        line: source.place(crate::text::Span::new(0, line.length)),
        filled: Filled::default(),
        complete: true,
        clauses: Vec::new(),
    };
    reader
        .findings
        .extend(reader.told.iter().map(|(_, finding)| finding.clone()));
    reader.value(&mut entry);
    for index in 1..line.phrases.len() {
        if let Some(phrase) = line.phrases.get(index)
            && !phrase.items.is_empty()
            && !reader.is_told(index)
        {
            reader.clause(&phrase.items, &mut entry);
        }
    }
    // A clause that a finding tells of already is not missing.
    entry.complete &= reader.told.is_empty();
    entry
}

/// Reads one line against its row.
pub(super) struct Reader<'s, 'a> {
    pub source: &'s Source<'a>,
    pub row: Row,
    pub findings: &'s mut Vec<Finding>,
    /// Phrases of which a finding tells already, by their index.
    pub told: Vec<(usize, Finding)>,
}

impl<'a> Reader<'_, 'a> {
    fn is_told(&self, phrase: usize) -> bool {
        self.told
            .iter()
            .any(|(first, _)| phrase == *first || phrase == first + 1)
    }

    fn value(&mut self, entry: &mut Entry) {
        let form = Form::of(self.row.value);
        let mut items: &[Item] = self
            .source
            .line
            .phrases
            .first()
            .map_or(&[], |phrase| &phrase.items);
        if let Some((skipped, finding)) = misread::mark_after_key(self.source, self.row.word, items)
        {
            self.findings.push(finding);
            items = items.get(skipped..).unwrap_or_default();
        }
        if self.is_told(0) {
            entry.complete = false;
            return;
        }
        if items.is_empty() {
            if self.value_after_comma(form, entry) {
                return;
            }
            if form
                .parts
                .iter()
                .any(|part| !matches!(part, Part::Optional(_)))
            {
                entry.complete = false;
                self.missing_value(form);
            }
            return;
        }
        if form.parts.is_empty() {
            self.leftovers(items, 0, entry);
            return;
        }
        if self.row.takes_point()
            && let Some(finding) = misread::bare_point(self.source)
        {
            entry.complete = false;
            self.findings.push(finding.clone());
            self.told.push((0, finding));
            return;
        }
        match self.fitted(&form.parts, items) {
            Ok(fit) => {
                entry.complete = !fit
                    .filled
                    .0
                    .iter()
                    .any(|(_, value, _)| *value == Value::Unreadable);
                entry.filled = fit.filled;
                self.leftovers(items, fit.next, entry);
            }
            Err(filled) => {
                entry.complete = false;
                // A heading whose value cannot be read still gives its name.
                if self.row.key.is_none() {
                    entry.filled = filled;
                }
            }
        }
    }

    /// A value that a comment takes in is told of as that.
    fn missing_value(&mut self, form: &Form) {
        let is_taken = |fault: &Fault| fault.kind == FaultKind::HashTouchesDigit;
        if self.source.line.faults.iter().any(is_taken) {
            return;
        }
        let word = self.row.word;
        let place = self.source.place(self.source.line.word);
        self.findings.push(Finding::new(
            "entry-missing",
            place,
            format!("`{word}` says nothing: write `{word} {}`", form.shown()),
        ));
    }

    /// Fits a phrase; where one stray word is all that keeps it from fitting,
    /// that word is all that it costs. If it does not, the slots before.
    fn fitted(&mut self, parts: &[Part], items: &[Item]) -> Result<Fit, Filled> {
        if let Some(mut fit) = self.fits_before_a_clause(parts, items) {
            self.findings.append(&mut fit.findings);
            return Ok(fit);
        }
        let miss = match fit(self.source, items, parts, 0) {
            Ok(mut fit) => {
                self.findings.append(&mut fit.findings);
                return Ok(fit);
            }
            Err(miss) => miss,
        };
        if !matches!(miss.wanted, Wanted::Told | Wanted::Finding(_)) {
            let last = miss.at.min(items.len().saturating_sub(1));
            for stray in (0..=last).rev() {
                if let Some(fit) = self.fits_without(parts, items, stray) {
                    return Ok(fit);
                }
            }
        }
        let filled = miss.filled.clone();
        self.tell(items, miss);
        Err(filled)
    }

    /// Fits what stands before the word of a clause whose comma is missing,
    /// lest that word be taken for a name.
    fn fits_before_a_clause(&self, parts: &[Part], items: &[Item]) -> Option<Fit> {
        let starts_clause = |item: &Item| {
            let mut clauses = self.row.clauses.iter().filter_map(ClauseRow::word);
            matches!(item.kind, ItemKind::Word)
                && clauses.any(|word| self.source.is_word(item, word) && !says(parts, word))
        };
        let after = items.iter().skip(1).position(starts_clause)?;
        let at = after + 1;
        let before = items.get(..at)?;
        let fit = fit(self.source, before, parts, 0).ok()?;
        (fit.next == at).then_some(fit)
    }

    fn fits_without(&mut self, parts: &[Part], items: &[Item], stray: usize) -> Option<Fit> {
        let item = items.get(stray)?;
        if !matches!(
            item.kind,
            ItemKind::Word | ItemKind::Stray | ItemKind::Colon
        ) {
            return None;
        }
        let mut kept = items.to_vec();
        kept.remove(stray);
        let mut fitted = fit(self.source, &kept, parts, 0).ok()?;
        if fitted.next < kept.len() || kept.is_empty() {
            return None;
        }
        // A name that is taken for a value is no sign that the rest fits.
        let word = self.source.slice(item.span);
        let place = self.source.place(item.span);
        self.findings.push(
            Finding::new(
                "word-stray",
                place,
                format!("`{word}` has no meaning here and is passed over"),
            )
            .severity(Severity::Error)
            .fix(Fix::judged(
                format!("Take out `{word}`"),
                self.with_blank_before(place),
                "",
            )),
        );
        self.findings.append(&mut fitted.findings);
        fitted.next = items.len();
        Some(fitted)
    }

    /// A place with the blanks before it.
    pub fn with_blank_before(&self, place: Place) -> Place {
        let start = place.span.start.saturating_sub(self.source.start) as usize;
        let before = self.source.text.get(..start).unwrap_or_default();
        let blank = before.len() - before.trim_end_matches([' ', '\t']).len();
        Place {
            span: crate::text::Span::new(
                place.span.start.saturating_sub(blank as u32),
                place.span.end,
            ),
            ..place
        }
    }

    /// A phrase that qualifies the value.
    pub fn clause(&mut self, items: &[Item], entry: &mut Entry) {
        let Some(first) = items.first() else { return };
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
            if unkeyed.is_empty() || self.is_mistyped_clause(first) {
                self.unknown_clause(items);
                return;
            }
            unkeyed
        } else {
            keyed
        };
        let chosen = candidates
            .iter()
            .copied()
            .find(|clause| fit(self.source, items, &clause.parsed().parts, 0).is_ok())
            .or_else(|| {
                candidates.iter().copied().max_by_key(|clause| {
                    match fit(self.source, items, &clause.parsed().parts, 0) {
                        Ok(fit) => fit.next,
                        Err(miss) => miss.at,
                    }
                })
            });
        let Some(row) = chosen else { return };
        let place = self.source.place_of(items);
        if let Some(first) = entry.clauses.iter().find(|clause| clause.form == row.form) {
            let word = row.word().unwrap_or("this value");
            self.findings.push(
                Finding::new(
                    "entry-twice",
                    place,
                    format!("`{word}` is already said in this entry; the first one holds"),
                )
                .related(first.place, "it is first said here"),
            );
            return;
        }
        let (filled, next) = match self.fitted(&row.parsed().parts, items) {
            Ok(fit) => (fit.filled, fit.next),
            Err(_) => {
                entry.clauses.push(Clause {
                    form: row.form,
                    word: row.word(),
                    filled: Filled(vec![("", Value::Unreadable, place)]),
                    place,
                });
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

    /// Whether a word is nearly a clause's word, and so no value.
    fn is_mistyped_clause(&self, item: &Item) -> bool {
        self.source.word(item).is_some_and(|word| {
            nearest(word, self.row.clauses.iter().filter_map(ClauseRow::word)).is_some()
        })
    }

    fn unknown_clause(&mut self, items: &[Item]) {
        let Some(first) = items.first() else { return };
        if self.source.has_fault(first.span) {
            return;
        }
        let place = self.source.place(first.span);
        if let Some(finding) = self.member(items) {
            self.findings.push(finding);
            return;
        }
        let shown = self.source.slice(first.span);
        let words = self.row.clauses.iter().filter_map(ClauseRow::word);
        let finding = match nearest(shown, words) {
            Some(word) => Finding::new(
                "word-unknown",
                place,
                format!(
                    "`{shown}` is no clause of `{}`; did you mean `{word}`?",
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
                Finding::new(
                    "word-unknown",
                    place,
                    format!("`{shown}` is no clause of `{}`", self.row.word),
                )
                .help(format!("It takes {}.", takes.join(", ")))
            }
        };
        self.findings.push(finding);
    }

    /// Tells why a phrase does not fit.
    fn tell(&mut self, items: &[Item], miss: Miss) {
        let at = items.get(miss.at);
        let place = match at {
            Some(item) => self.source.place(item.span),
            None => self.source.place_of(items).end(),
        };
        let stands = at.map(|item| self.source.slice(item.span));
        let word = self.row.word;
        let finding = match miss.wanted {
            Wanted::Told => return,
            Wanted::Finding(finding) => *finding,
            Wanted::Word(wanted) => match stands {
                Some(stands) if nearest(stands, [wanted]).is_some() => Finding::new(
                    "word-unknown",
                    place,
                    format!("`{stands}` has no meaning here; did you mean `{wanted}`?"),
                )
                .fix(Fix::judged(format!("Write `{wanted}`"), place, wanted)),
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
                Some(stands) => Finding::new(
                    "word-stray",
                    place,
                    format!("`{wanted}` belongs here and not `{stands}`"),
                ),
                None => Finding::new(
                    "entry-missing",
                    self.source.place_of(items),
                    format!("`{wanted}` and what follows it are missing after this"),
                ),
            },
            Wanted::OneOf(words)
                if let Some((word, whole)) = at.and_then(|first| {
                    let next = items.get(miss.at + 1);
                    self.source.in_two(first.span, next, words.iter().copied())
                }) =>
            {
                apart(word, whole)
            }
            Wanted::OneOf(words) => {
                let choices = words.join(", ");
                match stands {
                    Some(stands) => {
                        let lower = stands.to_lowercase();
                        let finding = Finding::new(
                            "word-unknown",
                            place,
                            match nearest(&lower, words.iter().copied()) {
                                Some(near) => {
                                    format!("`{stands}` is not known here; did you mean `{near}`?")
                                }
                                None => format!("`{stands}` is not known here"),
                            },
                        )
                        .help(format!("It may be {choices}."));
                        match nearest(&lower, words.iter().copied()) {
                            Some(near) => {
                                finding.fix(Fix::judged(format!("Write `{near}`"), place, near))
                            }
                            None => finding,
                        }
                    }
                    None => Finding::new(
                        "entry-missing",
                        self.source.place_of(items),
                        format!("one of {choices} is missing after this"),
                    ),
                }
            }
            Wanted::Value(kind) => match stands {
                Some(stands) => self.wrong_value(items, miss.at, stands, place, kind),
                None => Finding::new(
                    "entry-missing",
                    self.source.place_of(items),
                    format!("{} is missing after this", kind.noun()),
                ),
            },
        };
        let form = Form::of(self.row.value).shown();
        let finding = if finding.help.is_none() && !form.is_empty() {
            let example = match self.row.example() {
                Some(example) => format!(", as in `{example}`"),
                None => String::new(),
            };
            finding.help(format!("It is written `{word} {form}`{example}."))
        } else {
            finding
        };
        self.findings.push(finding);
    }

    fn wrong_value(
        &self,
        items: &[Item],
        at: usize,
        stands: &str,
        place: Place,
        kind: ValueKind,
    ) -> Finding {
        let finding = Finding::new(
            "word-stray",
            place,
            format!("{} belongs here and not `{stands}`", kind.noun()),
        );
        let rest = items.get(at..).unwrap_or_default();
        let words_only = rest
            .iter()
            .all(|item| matches!(item.kind, ItemKind::Word | ItemKind::Number { .. }));
        if kind == ValueKind::Text && words_only {
            let whole = self.source.place_of(rest);
            let written = whole
                .span
                .relative_to(self.source.start)
                .slice(self.source.text);
            return finding.fix(Fix::safe(
                "Put it in quotes",
                whole,
                format!("\"{written}\""),
            ));
        }
        if kind == ValueKind::Name
            && let Some(why) = is_reserved(&stands.to_ascii_lowercase())
        {
            let message = format!("`{stands}` is {why}, and can name nothing else");
            return Finding::new("name-reserved", place, message + ": choose another name");
        }
        if kind == ValueKind::Name && stands.starts_with('"') {
            let bare = stands.trim_matches('"').replace(' ', "-");
            return finding.fix(Fix::judged("Write it as a name", place, bare));
        }
        finding
    }
}

/// Whether a word stands in a form. The table is ours and nests no deeper
/// than it is written.
fn says(parts: &[Part], word: &str) -> bool {
    parts.iter().any(|part| match part {
        Part::Word(own) => *own == word,
        Part::Choice { words, .. } => words.contains(&word),
        Part::Optional(inner) | Part::Repeated(inner) => says(inner, word),
        Part::Either(choices) => choices.iter().any(|inner| says(inner, word)),
        Part::Slot { .. } | Part::Equals => false,
    })
}
