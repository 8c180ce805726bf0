//! The concrete that an edging stands in.

use super::super::job::{Footing, Haunch, Stated, Substance};
use super::super::reading::Entry;
use super::evaluate::Resolver;
use super::want::Range;
use crate::findings::{FileId, Finding};
use crate::units::{Quantity, show};
use crate::vocabulary::ValueKind;

const OWN: FileId = FileId(0);

impl Resolver<'_> {
    /// What an edging of a material stands in, if it says so.
    pub(crate) fn footing(&mut self, entry: &Entry, material: &Substance) -> Option<Footing> {
        let (on, haunched) = (entry.clause("on"), entry.clause("haunched"));
        let Some(on) = on else {
            if let Some(haunched) = haunched {
                self.find(
                    Finding::new(
                        "entry-missing",
                        haunched.place,
                        "haunched in what? The bed is missing",
                    )
                    .help("It is written `edging kerb, on haunch-mix 100 mm, haunched 100 mm to 50 mm below the top`."),
                );
            }
            return None;
        };
        let (name, place) = on.filled.name("MIX")?;
        let of = Stated::new(self.substance_named(name, place, OWN), place);
        let length = |resolver: &mut Self, filled, slot, range| {
            resolver.wanted(filled, slot, ValueKind::Length, range, OWN)
        };
        let depth = length(self, &on.filled, "DEPTH", Range::Positive);
        let haunch = haunched.and_then(|clause| {
            let width = length(self, &clause.filled, "WIDTH", Range::Positive);
            let below_top = length(self, &clause.filled, "DOWN", Range::NotNegative);
            let (width, below_top) = width.zip(below_top)?;
            self.reaches_up(&below_top, material)?;
            Some(Haunch { width, below_top })
        });
        Some(Footing {
            is_read: depth.is_some() && haunch.is_some() == haunched.is_some(),
            of,
            depth,
            haunch,
        })
    }

    /// Whether a haunch that ends so far below the top has any height.
    fn reaches_up(&mut self, down: &Stated<Quantity>, material: &Substance) -> Option<()> {
        self.is_within_unit(down, material, |high| {
            format!("the unit is {high} high, so no haunch is left this far below its top")
        })
    }

    /// Whether an edging that stands so far above the paving stands in
    /// anything.
    pub(crate) fn stands(&mut self, above: &Stated<Quantity>, material: &Substance) -> Option<()> {
        self.is_within_unit(above, material, |high| {
            format!("the unit is {high} high, so none of it is left in the ground: how far above the paving does it stand?")
        })
    }

    /// Whether a length of an edging is less than its units are high.
    fn is_within_unit(
        &mut self,
        length: &Stated<Quantity>,
        material: &Substance,
        says: impl Fn(String) -> String,
    ) -> Option<()> {
        let unit = material.material().and_then(|own| own.unit.as_ref());
        let past = unit.filter(|(_, height)| length.value.si() >= height.value.si());
        let Some((_, height)) = past else {
            return Some(());
        };
        let message = says(show::quantity(&height.value, self.system));
        self.find(Finding::new("value-range", length.place, message));
        None
    }

    /// What is in place already is not bedded anew.
    pub(crate) fn no_footing_in_place(&mut self, entry: &Entry) {
        for word in ["on", "haunched"] {
            if let Some(clause) = entry.clause(word) {
                self.find(Finding::new(
                    "entry-misplaced",
                    clause.place,
                    "what is in place already needs no concrete: name the material of a new edging",
                ));
                return;
            }
        }
    }
}
