//! The `hire` sections worked out.

use std::collections::BTreeMap;

use super::super::job::{Hire, Period, PeriodPrice, Stated, Stretch, Task};
use super::super::reading::{Entry, Filled, Value, nearest};
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::money::OWN;
use super::want::Range;
use crate::findings::{Finding, Fix, Place};
use crate::units::{Day, Dimension, Quantity, unit};
use crate::vocabulary::ValueKind;

/// The longest that anything is hired for, and the longest between the first
/// and the last day, in days.
const LONGEST: u32 = 366;

impl Resolver<'_> {
    /// What is hired, in order.
    pub(super) fn hires(&mut self) -> Vec<Hire> {
        let mut first: BTreeMap<&str, Place> = BTreeMap::new();
        let mut hires = Vec::new();
        for (_, section) in self.own("hire") {
            let Some(name) = section.name() else { continue };
            match first.get(name.value) {
                Some(place) => self.find(
                    Finding::new(
                        "name-twice",
                        name.place,
                        format!("`{}` is hired twice; both are paid for", name.value),
                    )
                    .related(*place, "the other one is here"),
                ),
                None => drop(first.insert(name.value, name.place)),
            }
            hires.push(self.hire(section, Stated::new(name.value.to_owned(), name.place)));
        }
        hires
    }

    fn hire(&mut self, section: &LogicalSection, name: Stated<String>) -> Hire {
        let tasks = section.all("for").flat_map(|entry| {
            let words = entry.filled.all("TASK");
            words.filter_map(|(value, place)| match value {
                Value::Choice(word) => Some(Stated::new(Task::from_word(word)?, place)),
                _ => None,
            })
        });
        let tasks = tasks.collect();
        let stretches: Vec<Option<Stretch>> = section
            .all("kept")
            .map(|entry| self.stretch(entry))
            .collect();
        let price = section.entry("price");
        let (prices, all_read) = price.map_or((Vec::new(), true), |entry| self.prices(entry));
        let delivery = section.entry("delivery");
        let delivery_read = delivery.map(|entry| self.amount(&entry.filled));
        let minimum = section.entry("minimum");
        let minimum_read = minimum.map(|entry| self.days(&entry.filled, "LEAST"));
        let is_unread = stretches.iter().any(Option::is_none)
            || !all_read
            || matches!(delivery_read, Some(None))
            || matches!(minimum_read, Some(None));
        let kept: Vec<Stretch> = stretches.into_iter().flatten().collect();
        Hire {
            name,
            section: section.at(),
            place: section.place(),
            tasks,
            is_unread: self.is_too_long(&kept) || is_unread,
            kept,
            prices,
            delivery: delivery_read.flatten(),
            minimum: minimum_read.flatten(),
        }
    }

    fn stretch(&mut self, entry: &Entry) -> Option<Stretch> {
        let days = self.days(&entry.filled, "TIME")?;
        let from = match entry.clause("from") {
            None => None,
            Some(clause) => {
                let (date, place) = clause.filled.date("DATE")?;
                if !self.real_day(date, place) {
                    return None;
                }
                Day::read(date)
            }
        };
        Some(Stretch {
            days: days.value,
            from,
            place: entry.place,
        })
    }

    /// A time in calendar days, each begun a whole one.
    fn days(&mut self, filled: &Filled, slot: &str) -> Option<Stated<u32>> {
        let time = self.wanted(filled, slot, ValueKind::Stay, Range::Positive, OWN)?;
        let days = time.value.in_unit(&unit::DAY)?.ceil().to_f64();
        if days <= f64::from(LONGEST) {
            return Some(Stated::new(days as u32, time.place));
        }
        self.too_long(time.place);
        None
    }

    fn is_too_long(&mut self, kept: &[Stretch]) -> bool {
        let from = kept.iter().filter_map(|stretch| stretch.from).min();
        let too_late = kept.iter().find(|stretch| {
            let both = stretch.from.zip(from);
            let since = both.map_or(0, |(own, first)| own.since(first));
            since.saturating_add(i64::from(stretch.days)) > i64::from(LONGEST)
        });
        if let Some(stretch) = too_late {
            self.too_long(stretch.place);
        }
        too_late.is_some()
    }

    fn too_long(&mut self, place: Place) {
        let message =
            format!("more than {LONGEST} days from the first to the last: buy it instead");
        self.find(Finding::new("value-range", place, message));
    }

    /// The prices of an entry, each period once, and whether all of them
    /// could be made out.
    fn prices(&mut self, entry: &Entry) -> (Vec<PeriodPrice>, bool) {
        let mut prices: Vec<PeriodPrice> = Vec::new();
        let mut all_read = true;
        let clauses = entry.values().map(|clause| &clause.filled);
        for filled in std::iter::once(&entry.filled).chain(clauses) {
            let Some(price) = self.period_price(filled, entry.is_sound) else {
                all_read = false;
                continue;
            };
            match prices.iter().find(|own| own.period == price.period) {
                Some(first) => {
                    let message = "this period has a price already; the first one holds";
                    let finding = Finding::new("entry-twice", price.place, message);
                    let finding = finding.related(first.place, "it is first said here");
                    self.find(finding);
                }
                None => prices.push(price),
            }
        }
        (prices, all_read)
    }

    fn period_price(&mut self, filled: &Filled, is_sound: bool) -> Option<PeriodPrice> {
        let price = self.price(filled)?;
        let of = |period, price: Quantity, place| PeriodPrice {
            period,
            price,
            place,
        };
        if let Some((word, place)) = filled.name("PERIOD") {
            let amount = self.amount(filled)?;
            if word.eq_ignore_ascii_case("weekend") {
                return Some(of(Period::Weekend, amount.value, amount.place.to(place)));
            }
            self.no_period(word, place);
            return None;
        }
        let written = filled.quantity("PRICE")?;
        if price.value.dimension == Dimension::MONEY {
            // `$65 a day` is told of as that.
            if is_sound {
                self.no_length(price);
            }
            return None;
        }
        let length = self
            .price_is_for(written)
            .filter(|_| price.value.dimension == Dimension::MONEY_PER_TIME);
        let days = length.and_then(|length| length.in_unit(&unit::DAY));
        let whole = days.filter(|days| {
            let count = days.to_f64();
            days.floor() == *days && (1.0..=f64::from(LONGEST)).contains(&count)
        });
        let Some((length, days)) = length.zip(whole) else {
            let message =
                "hire is paid by whole days: give the price for a day, a week or a weekend";
            self.find(
                Finding::new("dimension-wrong", price.place, message)
                    .help("It is written `price $65/day, $180/week, $95/weekend`."),
            );
            return None;
        };
        let amount = price.value.times(length).ok()?;
        Some(of(Period::Days(days.to_f64() as u32), amount, price.place))
    }

    /// A price for a word that is no period.
    fn no_period(&mut self, word: &str, place: Place) {
        let message = format!("`{word}` is no period of hire: day, week or weekend");
        let finding = Finding::new("word-unknown", place, message);
        let near = match word.to_lowercase().as_str() {
            "daily" => Some("day"),
            "weekly" => Some("week"),
            "month" | "monthly" => {
                let help = "Four weeks are written `$900/(28 days)`.";
                return self.find(finding.help(help));
            }
            lower => nearest(lower, ["day", "week", "weekend"]),
        };
        self.find(match near {
            Some(near) => finding.fix(Fix::judged(format!("Write `{near}`"), place, near)),
            None => finding,
        });
    }

    /// A price that does not say what it is for.
    fn no_length(&mut self, price: Stated<Quantity>) {
        let message = "for how long is this? Give the price for a day, a week or a weekend";
        let finding = Finding::new("unit-missing", price.place, message);
        let periods = ["day", "week", "weekend"].into_iter();
        let finding = periods.fold(finding, |finding, period| {
            let title = format!("Write /{period} after it");
            finding.fix(Fix::judged(title, price.place.end(), format!("/{period}")))
        });
        self.find(finding);
    }
}

impl Period {
    /// What it is called: `day`, `week`, `weekend`, `3 days`.
    pub fn in_words(self) -> String {
        match self {
            Period::Days(1) => "day".to_owned(),
            Period::Days(7) => "week".to_owned(),
            Period::Days(days) => format!("{days} days"),
            Period::Weekend => "weekend".to_owned(),
        }
    }

    /// So many of it: `2 weeks`, `1 weekend`, `3 times 4 days`.
    pub fn counted(self, count: u32) -> String {
        match (self, count) {
            (Period::Days(2..=6 | 8..), 1) => self.in_words(),
            (Period::Days(2..=6 | 8..), _) => format!("{count} times {}", self.in_words()),
            (_, 1) => format!("1 {}", self.in_words()),
            _ => format!("{count} {}s", self.in_words()),
        }
    }
}
