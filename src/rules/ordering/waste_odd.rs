//! `waste-odd`: waste that is left out, out of proportion or stated twice.

use crate::findings::{Place, Severity};
use crate::model::{Build, Layer, Stated, Substance, Surface};
use crate::rules::documents::{NAVY_WASTE, STONE_YARDS};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::Quantity;
use crate::vocabulary::Role;

/// Waste that is left out, out of proportion or stated twice.
pub(crate) static WASTE_ODD: Rule = Rule {
    name: "waste-odd",
    family: Family::Ordering,
    severity: Severity::Advisory,
    looks_at: "The waste of layers, borders and joints, given there or with the material or mix: over 30 %, given twice, or left out for paving and for mortar in beds and joints.",
    reason: "Paving is cut and broken and mortar is left in the barrow: an order with no waste runs short. Given twice, nobody knows which counts.",
    remedy: "Give one: 5 to 10 % for pavers, 10 to 25 % for irregular stone, 10 to 20 % for mortar.",
    limits: &[Limit::practice(
        "plain",
        "waste of anything that is ordered",
        Bound::Most,
        &["30 %"],
    )],
    sources: &[NAVY_WASTE, STONE_YARDS, Source::COMMON_PRACTICE],
    breaks: "build sand-set
  paving       concrete-paver, 60 mm, waste «40 %»
",
    keeps: "build sand-set
  paving       concrete-paver, 60 mm, waste 8 %
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let ordered = |layer: &&Layer| layer.existing.is_none();
    for layer in build.layers.iter().filter(ordered) {
        let own = of_substance(&layer.of.value);
        match (&layer.waste, own) {
            (Some(waste), own) => {
                too_much(context, waste.place, &waste.value, found);
                if let Some((other, _)) = own {
                    stated_twice(&layer.of, waste.place, other, found);
                }
            }
            (None, Some((place, waste))) => too_much(context, place, &waste, found),
            (None, None) => {
                let figures = context.figures.surfaces.get(surface.index);
                let is_laid_out = figures.is_some_and(|figures| figures.layout.is_some());
                // What is laid out unit by unit has its waste in the count.
                let may_be =
                    is_laid_out || surface.outline.is_none() || context.is_misread(surface.section);
                let is_stated = may_be || layer.may_say("waste") || has_waste(&layer.of.value);
                match layer.role.value {
                    Role::Paving if !is_stated => left_out(&layer.of, found),
                    Role::Bed => barrow(context, &layer.of, found),
                    _ => {}
                }
            }
        }
    }
    borders(context, surface, found);
    let filling = surface
        .joint
        .as_ref()
        .and_then(|joint| joint.filling.as_ref());
    let Some(filling) = filling.filter(|_| build.layers.iter().any(is_new_paving)) else {
        return;
    };
    match of_substance(&filling.value) {
        Some((place, waste)) => too_much(context, place, &waste, found),
        None => barrow(context, filling, found),
    }
}

/// Borders are cut at corners and curves as any paving is. One on a build of
/// its own is paving of that.
fn borders(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    for border in surface.borders.iter().filter(|own| own.on.is_none()) {
        let own = of_substance(&border.material.value);
        match (&border.waste, own) {
            (Some(waste), own) => {
                too_much(context, waste.place, &waste.value, found);
                if let Some((other, _)) = own {
                    stated_twice(&border.material, waste.place, other, found);
                }
            }
            (None, Some((place, waste))) => too_much(context, place, &waste, found),
            (None, None) if border.is_waste_unread || has_waste(&border.material.value) => {}
            (None, None) if context.is_misread(surface.section) => {}
            (None, None) => left_out(&border.material, found),
        }
    }
}

/// Joints of paving that lies there already are not filled anew.
fn is_new_paving(layer: &Layer) -> bool {
    layer.role.value == Role::Paving && layer.existing.is_none()
}

/// Tells of mortar whose mix has no waste, and none that could not be read.
fn barrow(context: &Context<'_>, of: &Stated<Substance>, found: &mut Found) {
    let Substance::Mix(mix) = &of.value else {
        return;
    };
    if mix.waste.is_none() && !mix.is_waste_unread && !context.is_misread(mix.section) {
        let message = format!(
            "no waste for {}: the order leaves nothing for what stays in the barrow. Add it to the mix, as in waste 10 %",
            of.value.name()
        );
        found.add(WASTE_ODD.finding(of.place, message));
    }
}

/// The waste that a line of a material's or mix's own section states.
fn of_substance(substance: &Substance) -> Option<(Place, Quantity)> {
    match substance {
        Substance::Material(material) => {
            let waste = material.waste.as_ref()?;
            Some((waste.origin.place()?, waste.value))
        }
        Substance::Mix(mix) => {
            let waste = mix.waste.as_ref()?;
            Some((waste.place, waste.value))
        }
        Substance::Unknown(_) => None,
    }
}

/// Whether anything, the catalogue too, knows its waste or states one that
/// cannot be read, or nobody can.
fn has_waste(substance: &Substance) -> bool {
    match substance {
        Substance::Material(material) => material.waste.is_some() || material.is_unread("waste"),
        Substance::Mix(_) | Substance::Unknown(_) => true,
    }
}

fn too_much(context: &Context<'_>, place: Place, waste: &Quantity, found: &mut Found) {
    let Some(limit) = context.limit(&WASTE_ODD, "plain") else {
        return;
    };
    if limit.allows(waste) {
        return;
    }
    let shown = limit.beside(waste, context.system());
    let message = format!(
        "{shown} waste is high; {} is about the most anyone allows. Is it right?",
        limit.shown(context.system()),
    );
    found.add(
        WASTE_ODD
            .finding(place, message)
            .found(shown, Some(*waste))
            .against(&limit, context),
    );
}

fn stated_twice(of: &Stated<Substance>, place: Place, other: Place, found: &mut Found) {
    let message = format!(
        "waste for {} is given twice, here and in its own section; this one counts: leave one out",
        of.value.name()
    );
    found.add(
        WASTE_ODD
            .finding(place, message)
            .severity(Severity::Warning)
            .related(other, "given here too"),
    );
}

fn left_out(of: &Stated<Substance>, found: &mut Found) {
    let message = format!(
        "no waste for {}: the order leaves nothing for cuts and breakage. Add it, as in waste 10 %",
        of.value.name()
    );
    found.add(WASTE_ODD.finding(of.place, message));
}
