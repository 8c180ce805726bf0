//! Times and rates of work as people write them: `2 m2 per person`,
//! `1 night`, `wait from laying to jointing 24 h`, `off saturday`.

use super::entry::Reader;
use super::misread::refused;
use super::number::single;
use super::source::Source;
use super::suggest::slip_of;
use super::value::{Clause, Filled, Value};
use crate::findings::{Finding, Fix};
use crate::syntax::{Item, ItemKind, Operator};
use crate::text::Span;
use crate::vocabulary::{Clause as ClauseRow, Task, ValueKind, Weekday};

/// Words for one of those who work.
const PERSONS: &[&str] = &[
    "person", "man", "head", "hand", "worker", "labourer", "laborer", "paver",
];

/// `12 sq ft per h per person`: what each of those who work does; `2 h per
/// person`: how long each is at it.
pub(super) fn per_person(
    source: &Source<'_>,
    rest: &[Item],
    kind: ValueKind,
) -> Option<(usize, Finding)> {
    let is_per = |item: &Item| {
        let per = [Operator::Per, Operator::Divide].map(ItemKind::Operator);
        per.contains(&item.kind)
    };
    let is_person = |item: &Item| PERSONS.iter().any(|word| source.is_word(item, word));
    let at = rest
        .windows(2)
        .position(|pair| matches!(pair, [per, person] if is_per(per) && is_person(person)))?;
    let (before, from) = rest.split_at_checked(at)?;
    let after = from.iter().skip(2);
    let after = after.take_while(|item| matches!(item.kind, ItemKind::Per { .. }));
    let own = rest.get(..at + 2 + after.clone().count())?;
    let written = source.text_of(before);
    let after: String = after
        .map(|item| format!(" {}", source.slice(item.span)))
        .collect();
    let is_over_time = |item: &Item| matches!(item.kind, ItemKind::Per { .. });
    let (message, fixes) = match kind {
        ValueKind::Time => (
            "how long it takes is by the clock, however many do it".to_owned(),
            vec![written.to_owned()],
        ),
        // What a person does has no time yet: each reading is offered.
        _ if after.is_empty() && !before.iter().any(is_over_time) => (
            "a rate is so much in a time, and `each` says that it is by each person".to_owned(),
            ["h", "day"]
                .map(|time| format!("{written} per {time} each"))
                .into(),
        ),
        _ => (
            "what each person does is written `each`".to_owned(),
            vec![format!("{written}{after} each")],
        ),
    };
    refused(source, own, "word-stray", message, &fixes)
}

/// `1 night`: what stands overnight.
pub(super) fn nights(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let [number, night, ..] = rest else {
        return None;
    };
    let (count, None) = single(source, number)? else {
        return None;
    };
    if !["night", "nights"]
        .iter()
        .any(|word| source.is_word(night, word))
    {
        return None;
    }
    let own = rest.get(..2)?;
    let is_wait = source.slice(source.line.word).eq_ignore_ascii_case("wait");
    let (message, fixes) = match (is_wait, count) {
        (true, "1") => (
            "a night is written `overnight`".to_owned(),
            vec!["overnight".to_owned()],
        ),
        (true, count) => {
            let text = format!("{count} day");
            let message = format!("so many nights by the clock are written `{text}`");
            (message, vec![text])
        }
        (false, _) => {
            let message = "nobody works through a night: what must stand overnight is written as in `wait overnight from laying to jointing`";
            (message.to_owned(), Vec::new())
        }
    };
    refused(source, own, "word-stray", message, &fixes)
}

/// `wait from laying to jointing 24 h`, with or without a comma: how long
/// stands first.
pub(super) fn wait_turned_round(source: &Source<'_>) -> Option<Finding> {
    let line = source.line;
    let items: Vec<&Item> = line
        .phrases
        .iter()
        .flat_map(|phrase| &phrase.items)
        .collect();
    let (last, tasks) = items.split_last()?;
    let first = *tasks.first()?;
    let is_wait = source.slice(line.word).eq_ignore_ascii_case("wait");
    let is_long = source.is_word(last, "overnight")
        || single(source, last).is_some_and(|(_, unit)| unit.is_some());
    if !is_wait || !source.is_word(first, "from") || !is_long {
        return None;
    }
    let tasks = source.slice(first.span.join(tasks.last()?.span));
    let text = format!("{} {tasks}", source.slice(last.span));
    let place = source.place(first.span.join(last.span));
    let message = format!("how long stands first: `wait {text}`");
    let finding = Finding::new("word-stray", place, message);
    Some(finding.fix(Fix::judged(format!("Write `wait {text}`"), place, text)))
}

/// `off saturday`: a day of the week on which nobody works.
pub(super) fn weekday_off(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    if !source.slice(source.line.word).eq_ignore_ascii_case("off") {
        return None;
    }
    let day = |item: &Item| {
        let written = source.word(item)?.to_lowercase();
        let bare = written.trim_end_matches(['.', 's']);
        let mut days = Weekday::ALL.iter();
        days.find(|day| bare.len() >= 3 && day.word().starts_with(bare))
    };
    let is_joiner = |item: &Item| ["to", "and"].iter().any(|word| source.is_word(item, word));
    let own = rest
        .iter()
        .take_while(|item| day(item).is_some() || is_joiner(item))
        .count();
    let days: Vec<_> = rest.iter().take(own).filter_map(day).collect();
    if days.is_empty() {
        return None;
    }
    let message = "`off` takes dates. The days that are worked stand in `day`, Monday to Friday if none do, as in `day 8:00 to 16:30, monday to friday`";
    let place = source.place_of(rest.get(..own)?);
    let finding = Finding::new("word-stray", place, message);
    let is_weekend = |day: &&Weekday| matches!(day.word(), "saturday" | "sunday");
    let line = source.place(Span::new(0, source.line.length));
    Some((
        own,
        match days.iter().all(is_weekend) {
            true => finding.fix(Fix::judged("Take this line out", line, "")),
            false => finding,
        },
    ))
}

impl Reader<'_, '_> {
    /// `after court`, `before the bench is set`: words where a task stands in
    /// quotes or a kind of work. What they name is told where names are known;
    /// what is nearly a kind of work is none.
    pub(super) fn task_without_quotes(&self, row: &ClauseRow, items: &[Item]) -> Option<Clause> {
        let word = row
            .word()
            .filter(|word| ["after", "before"].contains(word))?;
        let named = items.get(1..).filter(|named| !named.is_empty())?;
        if self.row.word != "task" || !named.iter().all(|item| item.kind == ItemKind::Word) {
            return None;
        }
        let written = named.iter().map(|item| self.source.slice(item.span));
        let written: Vec<String> = written.map(str::to_lowercase).collect();
        let first = written.first()?;
        let tasks = || Task::ALL.iter().map(|task| task.word());
        let is_work = self.row.other_word(first).is_some()
            || tasks().any(|task| task == first)
            || slip_of(first, tasks()).is_some()
            || written.len() > 1 && self.row.other_word(&written.join("-")).is_some();
        if is_work {
            return None;
        }
        let place = self.source.place_of(named);
        let name = Value::Name(self.source.text_of(named).to_owned());
        Some(Clause {
            form: row.form,
            word: Some(word),
            filled: Filled(vec![("WHAT", name, place)], None),
            place: self.source.place_of(items),
        })
    }
}
