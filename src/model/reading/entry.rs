//! One entry, or a section's heading: its value and its clauses.

use super::dates::date_with_comma;
use super::fit::{Fit, Wanted, fit};
use super::misread;
use super::source::Source;
use super::spoken_money::with_a_comma;
use super::spoken_sales::sold_otherwise;
use super::usual;
use super::value::{Entry, Filled, Value};
use super::working_time::wait_turned_round;
use crate::findings::{Finding, Fix, Place, Severity};
use crate::syntax::{Fault, FaultKind, Item, ItemKind};
use crate::vocabulary::{Clause as ClauseRow, Form, Key, Part, ValueKind, other_word};

/// Words that join a value to its key in speech, and are no names.
const JOINING: &[&str] = &["in", "with", "of", "from", "at", "on", "by", "to"];

/// Words without which a level would lie above what it lies below.
const BELOW: &[&str] = &["below", "under", "beneath"];

/// What the table says of an entry or heading.
#[derive(Clone, Copy)]
pub(crate) struct Row {
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
    pub(crate) fn example(&self) -> Option<&'static str> {
        self.key.map(|key| key.example)
    }

    /// Whether it is a price, which may be for each of something.
    pub(crate) fn is_price(&self) -> bool {
        ["price", "labour", "disposal"].contains(&self.word)
    }

    /// The word of its form, or of a clause's, that another one of the trade
    /// stands for.
    pub(crate) fn other_word(&self, word: &str) -> Option<&'static str> {
        let is_said = |own: &&str| {
            let mut clauses = self.clauses.iter();
            self.says(own) || clauses.any(|clause| says(&clause.parsed().parts, own))
        };
        let own = other_word(self.word, word).filter(is_said);
        let own = own.or_else(|| other_word("clause", word).filter(is_said));
        own.or_else(|| other_word("kind-of-work", word).filter(is_said))
    }

    /// Whether its value may be written with these words side by side.
    pub(crate) fn says(&self, words: &str) -> bool {
        Form::of(self.value).shown().contains(words)
    }
}

/// Whether a form is a point and nothing else.
fn is_point(form: &Form) -> bool {
    matches!(
        form.parts.as_slice(),
        [Part::Slot {
            kind: ValueKind::Point,
            ..
        }]
    )
}

/// What is told of commas that part numbers; of money, with its sign where it
/// belongs.
fn decimal_commas(source: &Source<'_>, row: Row) -> Vec<(usize, Finding)> {
    let reported = misread::decimal_commas(source);
    if reported.is_empty() {
        return reported;
    }
    let reported = reported.into_iter();
    let slots = Form::of(row.value).slots();
    let is_price = slots.iter().any(|(_, kind)| *kind == ValueKind::Price);
    match is_price {
        true => reported.map(|told| with_a_comma(source, told)).collect(),
        false => reported.collect(),
    }
}

/// Reads a line against its row of the table.
pub(crate) fn read_entry(source: &Source<'_>, row: Row, findings: &mut Vec<Finding>) -> Entry {
    let line = source.line;
    let mut reader = Reader {
        source,
        row,
        findings,
        reported: decimal_commas(source, row),
        commas_missing: 0,
    };
    // `0,0` is no decimal where a point is wanted.
    if !reader.reported.is_empty()
        && is_point(Form::of(row.value))
        && misread::bare_point(source, 0, 0).is_some()
    {
        reader.reported.clear();
    }
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
        is_sound: true,
        clauses: Vec::new(),
    };
    reader
        .findings
        .extend(reader.reported.iter().map(|(_, finding)| finding.clone()));
    reader.value(&mut entry);
    for index in 1..line.phrases.len() {
        if let Some(phrase) = line.phrases.get(index)
            && !phrase.items.is_empty()
            && !reader.is_told(index)
            && !reader.point_in_clause(index, &mut entry)
        {
            reader.clause(&phrase.items, &mut entry);
        }
    }
    // A clause that a finding tells of already is not missing.
    entry.complete &= reader.reported.is_empty();
    entry.clauses.shrink_to_fit();
    let clauses = entry.clauses.iter_mut().map(|clause| &mut clause.filled);
    for filled in clauses.chain([&mut entry.filled]) {
        filled.1 = row.key;
    }
    usual::tell(source, &entry, findings);
    entry
}

/// Reads one line against its row.
pub(super) struct Reader<'s, 'a> {
    pub source: &'s Source<'a>,
    pub row: Row,
    pub findings: &'s mut Vec<Finding>,
    /// Phrases of which a finding tells already, by their index.
    pub reported: Vec<(usize, Finding)>,
    /// How many commas were missing so far.
    pub commas_missing: usize,
}

impl<'a> Reader<'_, 'a> {
    fn is_told(&self, phrase: usize) -> bool {
        self.reported
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
        if let Some(finding) = sold_otherwise(self.source, self.row.word, items) {
            entry.complete = false;
            self.findings.push(finding);
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
        let alone = match form.parts.as_slice() {
            [Part::Slot { kind, .. }] => Some(*kind),
            _ => None,
        };
        let parted = match alone {
            Some(ValueKind::Point) => misread::bare_point(self.source, 0, 0),
            Some(ValueKind::Date) => date_with_comma(self.source),
            Some(_) => None,
            None => wait_turned_round(self.source),
        };
        if let Some(finding) = parted {
            entry.complete = false;
            self.findings.push(finding.clone());
            self.reported.push((0, finding));
            return;
        }
        if self.value_parted_by_comma(form, items, entry) {
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
                // A heading whose value cannot be read still gives its name,
                // and a limit its rule.
                if self.row.key.is_none() || self.row.word == "limit" {
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
            format!("`{word}` says nothing: write `{}`", form.shown_after(word)),
        ));
    }

    /// Fits a phrase; where one stray word is all that keeps it from fitting,
    /// that word is all that it costs. If it does not, the slots before.
    pub(super) fn fitted(&mut self, parts: &[Part], items: &[Item]) -> Result<Fit, Filled> {
        if let Some(mut fit) = self.fits_before_a_clause(parts, items) {
            self.findings.append(&mut fit.findings);
            return Ok(fit);
        }
        let miss = match fit(self.source, items, parts, 0) {
            Ok(mut fit) => {
                // `kept for 3 days`: no name, but a word before the value.
                let taken = fit.next.checked_sub(1);
                if let Some(before) = taken
                    && self.is_filler_before(items, before)
                    && let Some(fit) = self.fits_without(parts, items, before)
                {
                    return Ok(fit);
                }
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
        self.tell(parts, items, miss);
        Err(filled)
    }

    /// Fits what stands before the word of a clause whose comma is missing,
    /// lest that word be taken for a name.
    fn fits_before_a_clause(&self, parts: &[Part], items: &[Item]) -> Option<Fit> {
        let starts_clause = |item: &Item| {
            matches!(item.kind, ItemKind::Word)
                && self
                    .row
                    .clauses
                    .iter()
                    .filter_map(ClauseRow::word)
                    .any(|word| self.source.is_word(item, word) && !says(parts, word))
        };
        let after = items.iter().skip(1).position(starts_clause)?;
        let at = after + 1;
        let before = items.get(..at)?;
        let fit = fit(self.source, before, parts, 0).ok()?;
        (fit.next == at).then_some(fit)
    }

    /// `kept for 3 days`, `wrapped in geotextile`: a small word that was taken
    /// for a name, before what is one or a number.
    fn is_filler_before(&self, items: &[Item], at: usize) -> bool {
        let word = items.get(at).and_then(|item| self.source.word(item));
        let is_small = |word: &str| is_filler(word) || JOINING.contains(&word);
        match items.get(at + 1).map(|next| &next.kind) {
            Some(ItemKind::Number { .. }) => {
                word.is_some_and(|word| is_filler(word) || BELOW.contains(&word))
            }
            Some(ItemKind::Word) => word.is_some_and(is_small),
            _ => false,
        }
    }

    fn fits_without(&mut self, parts: &[Part], items: &[Item], stray: usize) -> Option<Fit> {
        let item = items.get(stray)?;
        if !matches!(
            item.kind,
            ItemKind::Word | ItemKind::By | ItemKind::Stray | ItemKind::Colon
        ) {
            return None;
        }
        // Without its signs `--300 mm` is another figure.
        let is_sign = |character: char| "+-−–".contains(character);
        if self.source.slice(item.span).chars().all(is_sign) {
            return None;
        }
        // `92¢` and `9.8k` without it are other figures too.
        let before = stray.checked_sub(1).and_then(|before| items.get(before));
        let number = before.filter(|item| matches!(item.kind, ItemKind::Number { .. }));
        let is_glued = item.kind != ItemKind::Colon && !item.spaced_before;
        if number.is_some() && is_glued {
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
        let finding = Finding::new(
            "word-stray",
            place,
            format!("`{word}` means nothing here and is skipped"),
        )
        .severity(Severity::Error);
        // `concrete slabs` without the one word is another material.
        let is_small = is_filler(word) || JOINING.contains(&word);
        let is_of_name = names_substance(parts) && !is_small || turns(word);
        let is_below = BELOW.contains(&word);
        if let Some((own, whole, text)) = self.clause_before_value(items, stray) {
            let message = format!("`{own}` says more of the value, and stands after it: `{text}`");
            let finding = Finding::new("word-stray", place, message).severity(Severity::Error);
            let fix = Fix::judged(format!("Write `{text}`"), whole, text);
            self.findings.push(finding.fix(fix));
            self.findings.append(&mut fitted.findings);
            fitted.next = items.len();
            return Some(fitted);
        }
        let is_level = |part: &Part| matches!(part, Part::Slot { name: "LEVEL", .. });
        let after = items.get(stray + 1).filter(|next| {
            matches!(next.kind, ItemKind::Number { .. }) && parts.iter().any(is_level)
        });
        self.findings.push(match is_of_name {
            // `below 160 mm` too.
            _ if let Some(number) = after.filter(|_| is_below) => {
                let whole = place.to(self.source.place(number.span));
                let text = format!("-{}", self.source.slice(number.span));
                let message = format!("what lies below is negative: `{text}`");
                let finding = Finding::new("word-stray", place, message);
                finding.fix(Fix::judged(format!("Write `{text}`"), whole, text))
            }
            // `160 mm below` without that word is a level above.
            _ if let Some(number) = number.filter(|_| is_below) => {
                let whole = self.source.place(number.span).to(place);
                let text = format!("-{}", self.source.slice(number.span));
                let message = format!("what lies below is negative: `{text}`");
                let finding = Finding::new("word-stray", place, message);
                finding.fix(Fix::judged(format!("Write `{text}`"), whole, text))
            }
            true => finding,
            false => finding.fix(Fix::judged(
                format!("Take out `{word}`"),
                self.with_blank_before(place),
                // What follows close by is not to grow together with what
                // stands before.
                match before.is_some() && !item.spaced_after {
                    true => " ",
                    false => "",
                },
            )),
        });
        self.findings.append(&mut fitted.findings);
        fitted.next = items.len();
        Some(fitted)
    }

    /// A place with the blanks before it.
    pub(crate) fn with_blank_before(&self, place: Place) -> Place {
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
}

/// Whether a form begins with the name of a material or mix.
pub(super) fn names_substance(parts: &[Part]) -> bool {
    matches!(
        parts.first(),
        Some(Part::Slot {
            kind: ValueKind::Material | ValueKind::Substance,
            ..
        })
    )
}

/// A word without which the rest would say something else.
pub(super) fn turns(word: &str) -> bool {
    const TURNING: &[&str] = &[
        "not", "no", "without", "except", "minus", "less", "plus", "half", "double", "twice",
    ];
    let mut turning = TURNING.iter().chain(BELOW);
    turning.any(|own| own.eq_ignore_ascii_case(word))
}

/// A word that can be left out of any value and leaves the same.
pub(super) fn is_filler(word: &str) -> bool {
    const FILLERS: &[&str] = &[
        "a", "an", "the", "of", "is", "with", "about", "approx", "layer", "course", "thick",
        "deep", "for",
    ];
    let is_letter = word.chars().any(char::is_alphanumeric);
    !is_letter
        || FILLERS
            .iter()
            .any(|filler| filler.eq_ignore_ascii_case(word))
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
