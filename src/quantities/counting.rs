//! What the whole job needs of a material, counted in what it is sold by.

use std::sync::Arc;

use super::counts::Count;
use super::needs::Need;
use super::notes::{Amount, Notes};
use super::selling::{By, Counted, Selling, Short, measured};
use super::trouble::{Trouble, TroubleKind};
use crate::findings::Place;
use crate::model::{Material, Pack, Sold, Sourced};
use crate::units::{Dimension, Quantity};

/// Where the troubles of one material go.
pub(super) struct Troubled<'a> {
    pub material: &'a Material,
    pub needs: &'a [Arc<Need>],
    pub troubles: &'a mut Vec<Trouble>,
}

impl Troubled<'_> {
    /// A trouble at the line that states what is wrong, else at the material,
    /// else at the first place that needs it.
    pub fn add(&mut self, kind: TroubleKind, line: Option<Place>) {
        let used = self.needs.first().map(|need| need.place);
        let Some(place) = line.or(self.material.place).or(used) else {
            return;
        };
        self.troubles.push(Trouble {
            kind,
            name: self.material.name.clone(),
            place,
            uses: self.needs.iter().map(|need| need.place).collect(),
        });
    }

    /// A trouble about needs that cannot be counted, if nothing else says so.
    fn short(&mut self, short: Short, selling: &Selling<'_>) {
        let sold = self
            .material
            .sold
            .as_ref()
            .and_then(|sold| sold.origin.place());
        match short {
            Short::Unknown => {}
            Short::NoDensity => self.add(TroubleKind::NoDensity, None),
            Short::NoUnitSize => self.add(TroubleKind::NoUnitSize, None),
            Short::NotConvertible => match self.bare_pack() {
                Some((pack, used)) => {
                    let word = pack.word.clone();
                    let kind = TroubleKind::BareContent { pack: word, used };
                    self.add(kind, pack.place.or(sold));
                }
                None => {
                    let kind = TroubleKind::NotConvertible {
                        sold: selling.word().to_owned(),
                        wants: selling.one().1,
                    };
                    self.add(kind, sold);
                }
            },
        }
    }

    /// The pack whose content is a bare number, with what is known of the
    /// material's use.
    fn bare_pack(&self) -> Option<(&Pack, Dimension)> {
        let Sold::Pack(pack) = &self.material.sold.as_ref()?.value else {
            return None;
        };
        let known = |wanted: &Dimension| {
            let mut needs = self.needs.iter();
            needs.all(|need| measured(need, *wanted).is_ok())
        };
        let used = [
            Dimension::MASS,
            Dimension::VOLUME,
            Dimension::AREA,
            Dimension::LENGTH,
        ];
        let used = used.into_iter().find(known)?;
        (pack.content.dimension == Dimension::NONE).then_some((pack, used))
    }
}

/// What is needed of a material in sold units, each need with its waste.
pub(super) fn needed(
    selling: &Selling<'_>,
    (needs, counts): (&[Arc<Need>], &[Count]),
    notes: &mut impl Notes,
    troubled: &mut Troubled<'_>,
) -> Option<f64> {
    let mut amounts = Vec::with_capacity(needs.len());
    let (mut told, mut shown) = (None, None);
    for (need, count) in needs.iter().zip(counts) {
        match count.counted {
            Ok(counted) => {
                // What one sold unit gives is the same for most needs.
                if shown.replace((counted.by, counted.each)) != Some((counted.by, counted.each)) {
                    one_gives(selling, counted, notes);
                }
                with_its_waste(selling, need, (counted, count.amount), notes);
                amounts.push(count.amount);
            }
            Err(short) => {
                if told.replace(short) != Some(short) {
                    troubled.short(short, selling);
                }
            }
        }
    }
    if amounts.len() < needs.len() {
        return None;
    }
    let sum = amounts.iter().sum();
    let unit = selling.word();
    let of = || "all that is needed".to_owned();
    let terms = amounts
        .iter()
        .map(|amount| (of(), Amount::Counted(*amount, unit)));
    notes.sum("needed", terms, Amount::Counted(sum, unit));
    Some(sum)
}

/// Takes down what one sold unit gives.
fn one_gives(selling: &Selling<'_>, counted: Counted, notes: &mut impl Notes) {
    let (material, unit) = (selling.material, selling.word());
    let origin = |own: &Option<Sourced<Quantity>>| own.as_ref().map(|own| own.origin);
    let (gives, origin) = match counted.by {
        By::Measure => ("measures", material.sold.as_ref().map(|own| own.origin)),
        By::Makes => ("makes", origin(&material.makes)),
        By::Cover => ("covers", origin(&material.covers)),
    };
    let each = Amount::Measured(counted.each, counted.taken.1);
    notes.input(&format!("one {unit} {gives}"), each, origin);
}

/// Takes down a need in sold units, with its waste.
fn with_its_waste(
    selling: &Selling<'_>,
    need: &Need,
    (counted, amount): (Counted, f64),
    notes: &mut impl Notes,
) {
    let (taken, dimension) = counted.taken;
    let taken = Amount::Measured(taken, dimension);
    let each = Amount::Measured(counted.each, dimension);
    notes.stated(&need.what, taken, need.place);
    let share = Amount::Share(need.waste.map_or(0.0, |waste| waste.value));
    if let Some(waste) = &need.waste {
        notes.input("waste", share, Some(waste.origin));
    }
    let formula = match need.waste {
        Some(_) => "{what is taken} ÷ {what one gives} × (1 + {waste})",
        None => "{what is taken} ÷ {what one gives}",
    };
    let result = Amount::Counted(amount, selling.word());
    notes.step(&need.what, formula, &[taken, each, share], result);
}

#[cfg(test)]
mod tests {
    use super::super::figures;
    use super::super::fixture::{
        area_of, catalogued, close, job, job_of, layer, material, sold, sourced, stated, surface,
    };
    use std::sync::Arc;

    use super::*;
    use crate::units::Dimension;
    use crate::vocabulary::Role;

    fn stone(sold_by: &str) -> Material {
        Material {
            density: sourced("100 lb/cu ft"),
            sold: sold(sold_by),
            ..material("stone")
        }
    }

    #[test]
    fn stone_goes_as_far_as_its_supplier_says_a_base_as_thick_as_it_is() {
        for (role, sold_by, covers, expected) in [
            (Role::Paving, "by ton", "80 sq ft/ton", 1.25),
            (
                Role::Paving,
                "by pallet of 3,000 lb",
                "80 sq ft/ton",
                2500.0 / 3000.0,
            ),
            (
                Role::Paving,
                "by pallet of 3,000 lb",
                "120 sq ft",
                100.0 / 120.0,
            ),
            (Role::Base, "by ton", "80 sq ft/ton", 5.0),
        ] {
            let own = Material {
                covers: sourced(covers),
                ..stone(sold_by)
            };
            let figures = figures(&job_of(role, own, "100", "12 in"));
            let needed = figures.orders[0].needed.unwrap();
            assert!(
                close(needed, expected, 1e-12),
                "{} {sold_by}: {needed}",
                role.word()
            );
        }
    }

    #[test]
    fn a_mix_out_of_a_bag_goes_by_what_it_makes() {
        let figures = figures(&job_of(Role::Bond, catalogued("thin-set"), "96", "1/8 in"));
        assert!(close(figures.orders[0].needed.unwrap(), 2.0, 1e-12));
        assert_eq!(figures.orders[0].unit, "bag");
    }

    #[test]
    fn a_material_that_does_not_say_is_counted_as_usual() {
        let gravel = || Material {
            sold: None,
            ..stone("by ton")
        };
        for (role, own, unit) in [
            (Role::Base, gravel(), "ton"),
            (Role::Base, material("stone"), "cu yd"),
            (Role::Paving, gravel(), "sq ft"),
            (Role::Fabric, material("fabric"), "sq ft"),
        ] {
            let thickness = if role == Role::Fabric { "" } else { "12 in" };
            let figures = figures(&job_of(role, own, "100", thickness));
            assert_eq!(figures.orders[0].unit, unit, "{}", role.word());
            assert!(figures.orders[0].ordered.is_some());
        }
    }

    #[test]
    fn what_cannot_be_counted_is_told_and_not_guessed() {
        let bare = |sold_by: &str| Material {
            sold: sold(sold_by),
            ..material("stone")
        };
        let not_convertible = |sold: &str, wants| TroubleKind::NotConvertible {
            sold: sold.to_owned(),
            wants,
        };
        for (role, own, expected) in [
            (Role::Base, bare("by ton"), TroubleKind::NoDensity),
            (Role::Base, bare("by bag of 50 lb"), TroubleKind::NoDensity),
            (
                Role::Base,
                stone("by ft"),
                not_convertible("ft", Dimension::LENGTH),
            ),
            (
                Role::Base,
                stone("by each"),
                not_convertible("each", Dimension::NONE),
            ),
            (
                Role::Base,
                stone("by bag of 50"),
                TroubleKind::BareContent {
                    pack: "bag".to_owned(),
                    used: Dimension::MASS,
                },
            ),
            (
                Role::Fabric,
                bare("by roll of 50"),
                TroubleKind::BareContent {
                    pack: "roll".to_owned(),
                    used: Dimension::AREA,
                },
            ),
            (Role::Paving, stone("by each"), TroubleKind::NoUnitSize),
            (
                Role::Paving,
                stone("by pallet of 480"),
                TroubleKind::NoUnitSize,
            ),
            (
                Role::Fabric,
                bare("by ton"),
                not_convertible("ton", Dimension::MASS),
            ),
        ] {
            let thickness = if role == Role::Fabric { "" } else { "12 in" };
            let figures = figures(&job_of(role, own, "100", thickness));
            let order = &figures.orders[0];
            assert_eq!(
                (order.needed, order.ordered, order.cost),
                (None, None, None)
            );
            let kinds: Vec<_> = figures
                .troubles
                .iter()
                .map(|trouble| &trouble.kind)
                .collect();
            assert_eq!(kinds, [&expected], "{}", role.word());
        }
    }

    #[test]
    fn what_another_finding_tells_is_not_told_again() {
        let mut job = job_of(Role::Base, stone("by ton"), "100", "12 in");
        Arc::make_mut(&mut Arc::make_mut(&mut job.surfaces)[0]).outline = None;
        let figures = figures(&job);
        assert_eq!(figures.orders[0].ordered, None);
        assert!(figures.troubles.is_empty());
    }

    #[test]
    fn waste_of_a_layer_replaces_the_material_s() {
        for (own, entry, tons) in [("5 %", None, 5.25), ("5 %", Some("12 %"), 5.6)] {
            let own = Material {
                waste: sourced(own),
                ..stone("by ton")
            };
            let mut base = layer(Role::Base, own, "12 in");
            base.waste = entry.map(stated);
            let figures = figures(&job(vec![surface(
                "a",
                area_of("100 ft", "1 ft"),
                vec![base],
            )]));
            assert!(close(figures.orders[0].needed.unwrap(), tons, 1e-12));
        }
    }
}
