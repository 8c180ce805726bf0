//! What the whole job needs of a material, counted in what it is sold by.

use std::sync::Arc;

use super::counts::{Count, with_its_waste};
use super::measures::Counted;
use super::needs::Need;
use super::selling::{By, Counting, Selling, Short, measured};
use super::term::Term;
use super::trace::Trace;
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
    pub(crate) fn add(&mut self, kind: TroubleKind, line: Option<Place>) {
        let used = self.needs.first().map(|need| need.place);
        let Some(place) = line.or(self.material.place).or(used) else {
            return;
        };
        let name = &self.material.name;
        let same = |known: &&mut Trouble| known.name == *name && known.kind == kind;
        let uses: Vec<Place> = self.needs.iter().map(|need| need.place).collect();
        // Another size of the same is in the same trouble.
        match self.troubles.iter_mut().find(same) {
            Some(known) => known.uses.extend(uses),
            None => self.troubles.push(Trouble {
                kind,
                name: name.clone(),
                place,
                uses,
            }),
        }
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
pub(super) fn needed<'s, 't: 's>(
    selling: &'s Selling<'_>,
    (needs, counts): (&[Arc<Need>], &[Count]),
    trace: &'t Trace,
    troubled: &mut Troubled<'_>,
) -> Option<Term<'t, Counted<'s>>> {
    let unit = selling.word();
    let (mut reported, mut shown) = (None, None);
    let mut is_known = true;
    for (need, count) in needs.iter().zip(counts) {
        match count.counted {
            Ok(counting) => {
                // What one sold unit gives is the same for most needs.
                let one = Some((counting.by, counting.each));
                if shown != one {
                    one_gives(selling, counting, trace);
                    shown = one;
                }
                if !trace.is_silent() {
                    trace.stated(&need.what, counting.taken, need.place);
                    let amount = with_its_waste(counting, need, trace);
                    let number = |amount: super::measures::Count| amount.0;
                    let amount = amount.map(number).map(|number| Counted { number, unit });
                    trace.gives(&need.what, amount);
                }
            }
            Err(short) => {
                is_known = false;
                if reported.replace(short) != Some(short) {
                    troubled.short(short, selling);
                }
            }
        }
    }
    let number = |count: &Count| count.amount;
    let amounts = counts.iter().map(number);
    let amounts = amounts.map(|number| Counted { number, unit });
    is_known.then(|| trace.sum("needed", "all that is needed", amounts))
}

/// Takes down what one sold unit gives.
fn one_gives(selling: &Selling<'_>, counting: Counting, trace: &Trace) {
    let (material, unit) = (selling.material, selling.word());
    let origin = |own: &Option<Sourced<Quantity>>| own.as_ref().map(|own| own.origin);
    let (gives, origin) = match counting.by {
        By::Measure => ("measures", material.sold.as_ref().map(|own| own.origin)),
        By::Makes => ("makes", origin(&material.makes)),
        By::Cover => ("covers", origin(&material.covers)),
    };
    trace.input(format_args!("one {unit} {gives}"), counting.each, origin);
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
