//! The `job` section worked out.

use super::super::job::{Heading, Job, Stated};
use super::super::reading::{Entry, nearest};
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use crate::findings::{Finding, Fix, Place};
use crate::units::{Currency, Day, System};

/// The text in an entry's slot.
pub(crate) fn text_of(entry: Option<&Entry>, slot: &str) -> Option<Stated<String>> {
    let (text, place) = entry?.filled.text(slot)?;
    Some(Stated::new(text.to_owned(), place))
}

/// The date in an entry's slot.
pub(crate) fn date_of(entry: Option<&Entry>, slot: &str) -> Option<Stated<String>> {
    let (date, place) = entry?.filled.date(slot)?;
    Some(Stated::new(date.to_owned(), place))
}

impl Resolver<'_> {
    /// Fills in the job's heading, and how the rest is to be read by it.
    pub(crate) fn heading(&mut self, job: &mut Job) {
        let first_length = self.files.first().and_then(|own| {
            own.sections
                .iter()
                .flat_map(LogicalSection::parts)
                .find_map(|part| part.first_length)
        });
        job.heading.written_imperial = first_length == Some(System::Imperial);
        if let Some((_, section)) = self.own("job").into_iter().next() {
            let title = section.heading().and_then(|heading| {
                let (text, place) = heading.filled.text("TITLE")?;
                Some(Stated::new(text.to_owned(), place))
            });
            let units = section.entry("units");
            let units = units.and_then(|entry| entry.filled.chosen("SYSTEM"));
            let region = section.entry("region");
            let region = region.and_then(|entry| entry.filled.chosen("REGION"));
            let is_region_unread =
                region.is_none() && (section.has_lost_line() || section.entry("region").is_some());
            let currency = section
                .entry("currency")
                .and_then(|entry| self.currency(entry));
            job.heading = Heading {
                title,
                place: Some(section.place()),
                reference: text_of(section.entry("reference"), "REFERENCE"),
                units,
                region,
                is_region_unread,
                currency,
                date: self.checked_date(section.entry("date")),
                prepared_by: text_of(section.entry("prepared-by"), "NAME"),
                notes: section
                    .all("note")
                    .filter_map(|entry| text_of(Some(entry), "NOTE"))
                    .collect(),
                ..std::mem::take(&mut job.heading)
            };
        }
        (self.system, self.region) = (job.heading.system(), job.heading.region());
        self.currency = job.heading.currency();
    }

    fn currency(&mut self, entry: &Entry) -> Option<Stated<Currency>> {
        let (code, place) = entry.filled.name("CODE")?;
        if let Some(currency) = Currency::parse(&code.to_ascii_uppercase())
            .filter(|currency| *currency != Currency::Dollar)
        {
            return Some(Stated::new(currency, place));
        }
        let codes: Vec<&str> = Currency::ALL
            .iter()
            .filter(|currency| **currency != Currency::Dollar)
            .map(|currency| currency.code())
            .collect();
        let upper = code.to_ascii_uppercase();
        let finding = Finding::new(
            "word-unknown",
            place,
            format!("`{code}` is not a currency known here"),
        )
        .help(format!("It may be {}.", codes.join(", ")));
        let meant: &[&str] = match code.to_lowercase().trim_end_matches('s') {
            "dollar" | "us" | "buck" => &["USD", "AUD", "CAD", "NZD"],
            "pound" | "sterling" | "quid" | "stg" => &["GBP"],
            "euro" => &["EUR"],
            _ => &[],
        };
        if !meant.is_empty() {
            let write = |code: &&str| Fix::judged(format!("Write `{code}`"), place, *code);
            let fixes = meant.iter().map(write);
            self.find(fixes.fold(finding, Finding::fix));
            return None;
        }
        self.find(match nearest(&upper, codes.iter().copied()) {
            Some(near) => finding.fix(Fix::judged(format!("Write `{near}`"), place, near)),
            None => finding,
        });
        None
    }

    /// The date of an entry, if it is a day of the calendar.
    pub(crate) fn checked_date(&mut self, entry: Option<&Entry>) -> Option<Stated<String>> {
        let date = date_of(entry, "DATE")?;
        self.real_day(&date.value, date.place).then_some(date)
    }

    /// Whether a date is a day of the calendar; if not, a finding says so.
    pub(crate) fn real_day(&mut self, date: &str, place: Place) -> bool {
        if Day::read(date).is_some() {
            return true;
        }
        self.find(Finding::new(
            "value-range",
            place,
            format!("there is no day {date}"),
        ));
        false
    }
}
