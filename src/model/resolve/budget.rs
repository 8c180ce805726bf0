//! The `budget` section worked out.

use super::super::job::{Budget, Disposal, Item, Labour, Profit, Quote, Tax, Taxed};
use super::super::reading::{Entry, Value};
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::heading::text_of;
use super::money::{OWN, noted};
use super::want::Range;
use crate::findings::{Finding, Fix, Place};
use crate::units::{Dimension, unit};
use crate::vocabulary::ValueKind;

impl Resolver<'_> {
    /// What a budget says.
    pub(super) fn budget(&mut self, section: &LogicalSection) -> Budget {
        let mut unread = Vec::new();
        let labour = noted(section.entry("labour"), &mut unread, |entry| {
            self.labour(entry)
        });
        let disposal = noted(section.entry("disposal"), &mut unread, |entry| {
            self.disposal(entry)
        });
        let items = section.all("item").map(|entry| Item {
            what: text_of(Some(entry), "WHAT").map_or_else(String::new, |what| what.value),
            price: noted(Some(entry), &mut unread, |entry| self.amount(&entry.filled)),
            place: entry.place,
        });
        let items = items.collect();
        let taxes = section.all("tax");
        let taxes =
            taxes.filter_map(|entry| noted(Some(entry), &mut unread, |entry| self.tax(entry)));
        let taxes = taxes.collect();
        let contingency = noted(section.entry("contingency"), &mut unread, |entry| {
            self.share(&entry.filled, Range::NotNegative)
        });
        let profit = self.profit(section, &mut unread);
        let quotes = section.all("quote").filter_map(|entry| {
            let clause = entry.clause("by");
            let by = clause.and_then(|clause| clause.filled.text("WHO"));
            Some(Quote {
                price: self.amount(&entry.filled)?,
                by: by.map(|(by, _)| by.to_owned()),
                place: entry.place,
            })
        });
        let quotes = quotes.collect();
        Budget {
            place: section.place(),
            labour,
            disposal,
            items,
            taxes,
            contingency,
            profit,
            quotes,
            notes: section
                .all("note")
                .filter_map(|entry| text_of(Some(entry), "NOTE"))
                .collect(),
            unread,
        }
    }

    /// A rate for an hour. A day of work has no length that could be known.
    fn labour(&mut self, entry: &Entry) -> Option<Labour> {
        let range = Range::NotNegative;
        let rate = self.wanted(&entry.filled, "RATE", ValueKind::Price, range, OWN)?;
        let written = entry.filled.quantity("RATE")?;
        let is_for = self.price_is_for(written);
        let is_long = is_for.is_some_and(|time| {
            time.dimension == Dimension::TIME && time.si() >= unit::DAY.size().to_f64()
        });
        let message = match rate.value.dimension {
            Dimension::MONEY_PER_TIME if !is_long => {
                let hours = match entry.values().next() {
                    None => None,
                    Some(clause) => Some(self.wanted(
                        &clause.filled,
                        "HOURS",
                        ValueKind::Time,
                        Range::NotNegative,
                        OWN,
                    )?),
                };
                return Some(Labour {
                    rate,
                    hours,
                    place: entry.place,
                });
            }
            Dimension::MONEY_PER_TIME => "how many hours is that? Give the rate for an hour",
            // `$38 an hour` is told of as that.
            Dimension::MONEY if !entry.is_sound => return None,
            Dimension::MONEY => {
                let message = "for how long is this? Give the rate for an hour";
                let finding = Finding::new("unit-missing", rate.place, message);
                self.find(finding.fix(Fix::judged("Write /h after it", rate.place.end(), "/h")));
                return None;
            }
            _ => "a rate for an hour of work belongs here",
        };
        self.find(
            Finding::new("dimension-wrong", rate.place, message)
                .help("It is written `labour $38/h`."),
        );
        None
    }

    /// A price for a volume, or for a load of one.
    fn disposal(&mut self, entry: &Entry) -> Option<Disposal> {
        let price = self.price(&entry.filled)?;
        let load = match entry.filled.get("LOAD") {
            None => None,
            Some(_) => Some(self.wanted(
                &entry.filled,
                "LOAD",
                ValueKind::Volume,
                Range::Positive,
                OWN,
            )?),
        };
        let wanted = match load {
            None => Dimension::MONEY_PER_VOLUME,
            Some(_) => Dimension::MONEY,
        };
        if price.value.dimension == wanted {
            return Some(Disposal {
                price,
                load,
                place: entry.place,
            });
        }
        let rule = match price.value.dimension {
            Dimension::MONEY => "unit-missing",
            _ => "dimension-wrong",
        };
        let message = "spoil is got rid of by volume, or by the load: say which";
        self.find(
            Finding::new(rule, price.place, message)
                .help("It is written `disposal $28/cu yd`, or `disposal £260 per load of 4.6 m3`."),
        );
        None
    }

    fn tax(&mut self, entry: &Entry) -> Option<Tax> {
        let share = self.share(&entry.filled, Range::NotNegative)?;
        let mut on = Vec::new();
        for (value, place) in entry.filled.all("BASE") {
            let Value::Choice(word) = value else { continue };
            let Some(base) = Taxed::from_word(word) else {
                continue;
            };
            match on.contains(&base) {
                true => self.find(Finding::new(
                    "entry-twice",
                    place,
                    format!("this tax is on {word} already"),
                )),
                false => on.push(base),
            }
        }
        if on.is_empty() {
            if entry.is_sound {
                self.tax_on_nothing(share.place);
            }
            return None;
        }
        Some(Tax {
            share,
            on,
            place: entry.place,
        })
    }

    fn tax_on_nothing(&mut self, place: Place) {
        let finding = Finding::new("entry-missing", place, "a tax on what? Say what it is on");
        let fixes = ["everything", "materials"].into_iter();
        let finding = fixes.fold(finding, |finding, base| {
            let title = format!("Write `on {base}`");
            finding.fix(Fix::judged(title, place.end(), format!(" on {base}")))
        });
        self.find(finding);
    }

    /// A margin or a markup, the first of the two.
    fn profit(&mut self, section: &LogicalSection, unread: &mut Vec<Place>) -> Option<Profit> {
        let (margin, markup) = (section.entry("margin"), section.entry("markup"));
        if let (Some(margin), Some(markup)) = (margin, markup) {
            let message = "a margin and a markup are two ways to say one thing; the margin holds";
            self.find(
                Finding::new("entry-twice", markup.place, message)
                    .related(margin.place, "the margin is here")
                    .fix(Fix::judged("Take this line out", markup.line, "")),
            );
        }
        if margin.is_some() {
            let margin = noted(margin, unread, |entry| {
                self.share(&entry.filled, Range::Share)
            });
            return margin.map(Profit::Margin);
        }
        let markup = noted(markup, unread, |entry| {
            self.share(&entry.filled, Range::NotNegative)
        });
        markup.map(Profit::Markup)
    }
}
