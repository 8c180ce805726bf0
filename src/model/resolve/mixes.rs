//! Mixes worked out.

use super::super::job::{Measure, Mix, MixPart, MixUse, Stated, Substance};
use super::super::reading::{NamedPart, Value};
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::want::Range;
use crate::findings::{FileId, Finding, Place};
use crate::units::{Number, Quantity};
use crate::vocabulary::{NameSpace, ValueKind};

impl Resolver<'_> {
    /// What a mix section says.
    pub(crate) fn mix(&mut self, section: &LogicalSection, file: FileId) -> Option<Mix> {
        let name = section.name()?;
        let parts_entry = section.entry("parts");
        let mut unlabelled = None;
        let mut parts = Vec::new();
        let mut are_parts_unread = parts_entry.is_some_and(|entry| !entry.is_sound);
        if let Some(entry) = parts_entry {
            match entry.filled.get("PARTS") {
                Some((Value::Parts(named), _)) => {
                    let known;
                    (parts, known) = self.parts(named, file);
                    are_parts_unread |= !known;
                }
                Some((Value::UnlabelledParts(amounts), place)) => {
                    unlabelled = Some(Stated::new(amounts.clone(), place));
                    are_parts_unread = false;
                }
                Some((Value::UnreadParts(names), _)) => {
                    parts = self.unread_parts(names);
                    are_parts_unread = true;
                }
                _ => {}
            }
        }
        let measured = parts_entry
            .and_then(|entry| entry.clause("by"))
            .and_then(|clause| clause.filled.chosen("MEASURE"))
            .or_else(|| section.entry("by")?.filled.chosen("MEASURE"));
        let uses = section
            .all("for")
            .flat_map(|entry| entry.filled.all("USE"))
            .filter_map(|(value, place)| match value {
                Value::Choice(word) => Some(Stated::new(MixUse::from_word(word)?, place)),
                _ => None,
            })
            .collect();
        let quantity = |resolver: &mut Self, key: &str, slot: &str, kind, range| {
            let entry = section.entry(key)?;
            resolver.wanted(&entry.filled, slot, kind, range, file)
        };
        let waste = quantity(self, "waste", "SHARE", ValueKind::Share, Range::NotNegative);
        Some(Mix {
            name: Stated::new(name.value.to_owned(), name.place),
            section: section.at(),
            uses,
            parts,
            are_parts_unread,
            parts_place: parts_entry.map(|entry| entry.place),
            unlabelled,
            measure: measured.map_or(Measure::Volume, |stated| stated.value),
            mortar_type: section
                .entry("type")
                .and_then(|entry| entry.filled.chosen("TYPE")),
            consistency: section
                .entry("consistency")
                .and_then(|entry| entry.filled.chosen("CONSISTENCY")),
            strength: quantity(
                self,
                "strength",
                "STRENGTH",
                ValueKind::Strength,
                Range::Positive,
            ),
            water: quantity(self, "water", "RATIO", ValueKind::Number, Range::Positive),
            voids: quantity(self, "voids", "SHARE", ValueKind::Share, Range::Share),
            pot_life: quantity(self, "pot-life", "TIME", ValueKind::Time, Range::Positive),
            batch: quantity(self, "batch", "VOLUME", ValueKind::Volume, Range::Positive),
            laid_in: section
                .entry("batch")
                .and_then(|entry| entry.clause("laid"))
                .and_then(|clause| {
                    self.wanted(
                        &clause.filled,
                        "TIME",
                        ValueKind::Time,
                        Range::Positive,
                        file,
                    )
                }),
            is_waste_unread: section.entry("waste").is_some() && waste.is_none(),
            waste,
        })
    }

    /// What goes into a mix, nobody knows how much of each.
    fn unread_parts(&mut self, names: &[(String, Place)]) -> Vec<MixPart> {
        let parts = names.iter().filter_map(|(name, place)| {
            self.done.dependencies.use_name(NameSpace::Substances, name);
            let substance = self.work_substance(name, *place)?;
            Some(MixPart {
                amount: Stated::new(Quantity::plain(Number::ZERO), *place),
                name: Stated::new(name.clone(), *place),
                material: Some(substance.material()?.clone()),
            })
        });
        parts.collect()
    }

    /// What goes into a mix, and whether it is known how much of each.
    fn parts(&mut self, named: &[NamedPart], file: FileId) -> (Vec<MixPart>, bool) {
        let mut parts: Vec<MixPart> = Vec::new();
        let mut are_known = true;
        for part in named {
            let amount = self.want(&part.amount, ValueKind::Number, Range::Positive, file);
            let substance = self.substance_named(&part.name, part.place, file);
            if let Substance::Mix(mix) = &substance {
                self.find(
                    Finding::new(
                        "dimension-wrong",
                        part.place,
                        format!("`{}` is a mix; the parts of a mix are materials", part.name),
                    )
                    .related(mix.name.place, "the mix is here"),
                );
            }
            if let Some(twice) = parts.iter().find(|other| other.name.value == part.name) {
                let first = twice.name.place;
                self.find(
                    Finding::new(
                        "entry-twice",
                        part.place,
                        format!("`{}` is already a part of this mix", part.name),
                    )
                    .related(first, "first given here"),
                );
            }
            are_known &= amount.is_some();
            let nobody_knows = || Stated::new(Quantity::plain(Number::ZERO), part.place);
            let amount = amount.map(|own| Stated::new(plain(own.value), own.place));
            parts.push(MixPart {
                amount: amount.unwrap_or_else(nobody_knows),
                name: Stated::new(part.name.clone(), part.place),
                material: substance.material().cloned(),
            });
        }
        (parts, are_known)
    }
}

/// The same number, whatever it came from.
fn plain(quantity: Quantity) -> Quantity {
    Quantity::plain(quantity.number)
}
