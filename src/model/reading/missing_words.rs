//! A word that a form wants where another thing stands: it is missing, or the
//! other stands for it, or for another way to say the same.

use super::super::resolve::constant;
use super::entry::Reader;
use super::fit::fit;
use super::source::{Source, meant};
use super::value::Value;
use crate::findings::{Finding, Fix, Place};
use crate::syntax::{Item, ItemKind, Operator, Tree};
use crate::text::{Span, Text};
use crate::vocabulary::{DIRECTIONS, Form, Part, SMALL_WORDS, ValueKind};

/// What is longer, in bytes, is not read again with another word in it.
const LONGEST: usize = 500;

/// So many words in a row may stand for one.
const MOST_WORDS: usize = 3;

/// Words of which one never stands for another.
const OPPOSITES: &[&str] = &[
    "above", "below", "over", "under", "beneath", "after", "since", "without", "not", "except",
];

impl Reader<'_, '_> {
    /// `pegs 4'`, `8:00 - 16:30`, `-8 in below sill`: a value before which a
    /// word is missing, and what stands for one.
    pub(super) fn joined_by_another(
        &self,
        parts: &[Part],
        items: &[Item],
        at: usize,
        wanted: &str,
    ) -> Option<Finding> {
        let item = items.get(at)?;
        let (place, stands) = (self.source.place(item.span), self.source.slice(item.span));
        let before = at.checked_sub(1).and_then(|before| items.get(before));
        if let Some(before) = before.filter(|before| self.source.is_word(before, wanted)) {
            let whole = self.source.place(before.span).to(place);
            let text = format!("{stands} {wanted}");
            let message = format!("`{wanted}` comes after its value: `{text}`");
            let finding = Finding::new("word-stray", whole, message);
            return Some(finding.fix(Fix::judged(format!("Write `{text}`"), whole, text)));
        }
        let for_another = |whole: Place, stands: &str| {
            let message = format!("`{wanted}` belongs here and not `{stands}`");
            let finding = Finding::new("word-stray", whole, message);
            match OPPOSITES.contains(&stands.to_lowercase().as_str()) {
                true => finding,
                false => finding.fix(Fix::judged(format!("Write `{wanted}`"), whole, wanted)),
            }
        };
        // `$75 per 400 sq ft`: two words are missing, `load of`.
        let both = format!("{wanted} of");
        let missing = match self.row.says(&both) {
            true => both.as_str(),
            false => wanted,
        };
        let is_missing = || {
            let message = format!("`{missing}` is missing before `{stands}`");
            let finding = Finding::new("word-stray", place, message);
            let title = format!("Write `{missing}` before it");
            finding.fix(Fix::judged(title, place.start(), format!("{missing} ")))
        };
        match item.kind {
            ItemKind::Operator(Operator::Subtract) => Some(for_another(place, stands)),
            // `string 150 mm below`: the other way round is no slip.
            ItemKind::Word if ["below", "under"].contains(&stands) => None,
            ItemKind::Word if SMALL_WORDS.contains(&stands) => Some(for_another(place, stands)),
            ItemKind::Word => {
                let reads = |place, text: &str| self.reads_with(parts, items, place, text);
                // `soakaway 5 ft across`: the word of another way to say it.
                if let Some(before) = before.filter(|_| self.row.says(stands)) {
                    let whole = self.source.place(before.span).to(place);
                    let text = format!("{stands} {}", self.source.slice(before.span));
                    if reads(whole, &text) {
                        let message = format!("`{stands}` comes before its value: `{text}`");
                        let finding = Finding::new("word-stray", whole, message);
                        let fix = Fix::judged(format!("Write `{text}`"), whole, text);
                        return Some(finding.fix(fix));
                    }
                }
                if reads(place.start(), &format!("{missing} ")) {
                    return Some(is_missing());
                }
                (1..=MOST_WORDS).find_map(|count| {
                    let words = items.get(at..at + count)?;
                    let are_words = words.iter().all(|item| item.kind == ItemKind::Word);
                    let whole = self.source.place_of(words);
                    let is_meant = are_words && reads(whole, wanted);
                    is_meant.then(|| for_another(whole, self.source.text_of(words)))
                })
            }
            ItemKind::Number { .. }
            | ItemKind::Group { .. }
            | ItemKind::Date
            | ItemKind::Text { .. } => Some(is_missing()),
            _ => None,
        }
    }

    /// `fall 1:60 south`: a way of which nothing says whether the water runs
    /// that way or from there, the way first that a compass word points.
    pub(super) fn way_alone(&self, items: &[Item], at: usize) -> Option<Finding> {
        let item = items.get(at)?;
        let way = self.source.word(item)?;
        let mut ways = DIRECTIONS.iter();
        let is_way = ways.any(|(word, _)| word.eq_ignore_ascii_case(way));
        if !is_way
            || !["toward HEADING", "away from EDGE"]
                .iter()
                .all(|own| self.row.says(own))
        {
            return None;
        }
        let place = self.source.place(item.span);
        let [to, from] = [format!("toward {way}"), format!("away from {way}")];
        let message = format!("is `{to}` meant, or `{from}`?");
        let finding = Finding::new("word-stray", place, message);
        Some([to, from].into_iter().fold(finding, |finding, text| {
            finding.fix(Fix::judged(format!("Write `{text}`"), place, text))
        }))
    }

    /// `soakaway diameter 5 ft`: a word before a value that was taken for a
    /// name, and is another for one of the form.
    pub(super) fn other_word_before(&self, items: &[Item], at: usize) -> Option<Finding> {
        let before = items.get(at.checked_sub(1)?)?;
        let shown = self.source.word(before)?;
        let own = self.row.other_word(&shown.to_lowercase())?;
        Some(meant(shown, own, self.source.place(before.span)))
    }

    /// `trench 600 mm deep, 300 mm wide`: a clause that stands before the
    /// value.
    pub(super) fn value_comes_first(&mut self, items: &[Item]) -> Option<Finding> {
        let phrases = &self.source.line.phrases;
        let fits = |items: &[Item], parts: &[Part]| {
            fit(self.source, items, parts, 0).is_ok_and(|fit| fit.next == items.len())
        };
        let first = phrases.first().filter(|first| *first.items == *items)?;
        let mut clauses = self.row.clauses.iter();
        if !clauses.any(|clause| fits(items, &clause.parsed().parts)) {
            return None;
        }
        let value = &Form::of(self.row.value).parts;
        let mut others = phrases.iter().enumerate().skip(1);
        let (index, other) = others.find(|(_, other)| fits(&other.items, value))?;
        let [first, other] = [first, other].map(|own| self.source.place_of(&own.items));
        let slice = |span: Span| span.relative_to(self.source.start).slice(self.source.text);
        let between = Span::new(first.span.end, other.span.start);
        let [shown, after] = [other.span, first.span].map(slice);
        let text = format!("{shown}{}{after}", slice(between));
        let whole = first.to(other);
        let message = format!("`{shown}` comes first: `{} {text}`", self.row.word);
        let finding = Finding::new("word-stray", whole, message);
        let finding = finding.fix(Fix::judged(format!("Write `{shown}` first"), whole, text));
        let told = (0..index).map(|phrase| (phrase, finding.clone()));
        self.reported.extend(told);
        Some(finding)
    }

    /// Whether some items fit all of a form once another text stands at a
    /// place of them.
    pub(super) fn reads_with(
        &self,
        parts: &[Part],
        items: &[Item],
        place: Place,
        text: &str,
    ) -> bool {
        let whole = self.source.place_of(items).span;
        let slice = |span: Span| span.relative_to(self.source.start).slice(self.source.text);
        let before = slice(Span::new(whole.start, place.span.start));
        let after = slice(Span::new(place.span.end, whole.end));
        let text = format!("let {before}{text}{after}");
        text.len() <= LONGEST && reads(parts, &text)
    }
}

/// Whether what stands behind the first word of a text fits all of a form.
fn reads(parts: &[Part], text: &str) -> bool {
    let tree = Tree::parse(Text::from(text));
    let Some(source) = Source::of_first(&tree) else {
        return false;
    };
    let [phrase] = &*source.line.phrases else {
        return false;
    };
    // `215 mm courses`: so many are no measure.
    let is_count = |slot: &str| {
        let is_it = |part: &Part| matches!(part, Part::Slot { name, kind: ValueKind::Count } if *name == slot);
        parts.iter().any(is_it)
    };
    fit(&source, &phrase.items, parts, 0).is_ok_and(|fit| {
        let is_measure = |value: &Value| match value {
            Value::Quantity(own) => constant(own).is_some_and(|own| !own.dimension.is_none()),
            _ => false,
        };
        let mut filled = fit.filled.0.iter();
        let is_odd = filled.any(|(name, value, _)| is_count(name) && is_measure(value));
        fit.next == phrase.items.len() && fit.findings.is_empty() && !is_odd
    })
}
