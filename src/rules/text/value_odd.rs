//! `value-odd`: a figure that nobody builds by, so that its unit or its point
//! is most likely wrong.

use crate::findings::{Place, Severity};
use crate::materials::Kind;
use crate::model::{Material, Sold, Stated};
use crate::rules::construction::is_in_checked_file;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// A figure far from all that is built.
pub static VALUE_ODD: Rule = Rule {
    name: "value-odd",
    family: Family::Text,
    severity: Severity::Warning,
    looks_at: "Figures that are read well and are far from all that is built: levels, widenings, densities, packs, prices, water, voids and spacings of joints. Falling ground that does not say where it is so high, too.",
    reason: "A slip of a unit or a decimal point makes an order a thousand times too large, or too small.",
    remedy: "Correct the figure or its unit. If it is right, accept the finding and say why.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, 150 mm compacted, beyond «150 m»
",
    keeps: "\
build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, 150 mm compacted, beyond 150 mm
",
    mended: None,
    check: Check::Job(check),
};

/// No paving lies farther from the floor of its building, in metres.
const FARTHEST_LEVEL: f64 = 10.0;

/// No layer goes farther past the paving, in metres.
const WIDEST_MARGIN: f64 = 2.0;

/// Movement joints are never closer, in metres.
const CLOSEST_JOINTS: f64 = 0.3;

/// No paving stone, aggregate or binder is heavier in bulk, in kg/m³.
const HEAVIEST: f64 = 3300.0;

/// Nor lighter.
const LIGHTEST: f64 = 300.0;

/// Sand, aggregate and binders come in no smaller packs, in kg.
const SMALLEST_PACK: f64 = 1.0;

/// No sand or aggregate costs more for a kilogram, in any currency here.
const DEAREST: f64 = 5.0;

/// Water to binder, by mass: over this a mix pours like water.
const WETTEST: f64 = 2.0;

/// The share of voids in what is laid loose.
const EMPTIEST: f64 = 0.6;

fn check(context: &Context<'_>, found: &mut Found) {
    levels(context, found);
    for build in context.job.builds.values() {
        for layer in &build.layers {
            if let Some(beyond) = &layer.beyond
                && beyond.value.si() > WIDEST_MARGIN
            {
                let shown = context.show(&beyond.value);
                ask(found, beyond, shown, |shown| {
                    format!(
                        "the {} runs {shown} past the paving",
                        layer.role.value.word()
                    )
                });
            }
        }
        if let Some(voids) = build
            .voids
            .as_ref()
            .filter(|voids| voids.value.si() > EMPTIEST)
        {
            ask(found, voids, context.show(&voids.value), |shown| {
                format!("{shown} voids is more than any stone has: about 40 % is common")
            });
        }
    }
    for mix in context.job.mixes.values() {
        if let Some(water) = mix
            .water
            .as_ref()
            .filter(|water| water.value.si() > WETTEST)
        {
            ask(found, water, context.show(&water.value), |shown| {
                format!("{shown} of water to 1 of binder by weight is a soup: about 0.5 is common")
            });
        }
        if let Some(voids) = mix
            .voids
            .as_ref()
            .filter(|voids| voids.value.si() > EMPTIEST)
        {
            ask(found, voids, context.show(&voids.value), |shown| {
                format!("{shown} air leaves hardly any mix")
            });
        }
    }
    for material in context.job.materials.values() {
        densities(context, material, found);
        pack(context, material, found);
        price(context, material, found);
    }
}

/// Levels far from the floor, where the datum is at the floor or unsaid; and
/// movement joints that leave no paving between them.
fn levels(context: &Context<'_>, found: &mut Found) {
    let site = &context.job.site;
    let floor = match (&site.floor, &site.datum) {
        (Some(floor), _) => Some(floor.value.si()),
        (None, None) => Some(0.0),
        (None, Some(_)) => None,
    };
    let surfaces = context.job.surfaces.iter();
    let stated = surfaces.flat_map(|surface| surface.levels.iter().map(|level| &level.value));
    let ground = site.ground.iter().flat_map(|ground| &ground.levels);
    let others = site.damp_course.iter().chain(&site.cladding);
    for level in stated.chain(ground).chain(others) {
        let Some(apart) = floor.map(|floor| level.value.si() - floor) else {
            break;
        };
        if apart.abs() > FARTHEST_LEVEL {
            let side = if apart < 0.0 { "below" } else { "above" };
            let shown = context.show_length(apart.abs());
            ask(found, level, shown, |shown| {
                format!("this level lies {shown} {side} the floor")
            });
        }
    }
    let spacings = context.job.surfaces.iter();
    for spacing in spacings.filter_map(|surface| surface.movement_joints.as_ref()) {
        if spacing.value.si() < CLOSEST_JOINTS {
            ask(found, spacing, context.show(&spacing.value), |shown| {
                format!("movement joints {shown} apart leave no paving between them")
            });
        }
    }
}

fn densities(context: &Context<'_>, material: &Material, found: &mut Found) {
    let is_mineral =
        |kind: Kind| kind.is_granular() || kind.is_binder() || kind.is_unit() || kind.is_concrete();
    if !material.kind.is_some_and(is_mineral) {
        return;
    }
    let grains = material.particle_density.as_ref().map(|own| own.value);
    for density in [&material.density, &material.compacted]
        .into_iter()
        .flatten()
    {
        let Some(place) = density.origin.place() else {
            continue;
        };
        let stated = Stated::new(density.value, place);
        let own = density.value.si();
        let name = &material.name;
        let shown = context.show(&density.value);
        if let Some(grains) = grains.filter(|grains| own > grains.si() && own <= HEAVIEST) {
            let grains = context.show(&grains);
            ask(found, &stated, shown, |shown| {
                format!("{name} at {shown} is denser than its own grains, which have {grains}")
            });
        } else if own > HEAVIEST {
            ask(found, &stated, shown, |shown| {
                format!("{name} at {shown} is heavier than any stone")
            });
        } else if own < LIGHTEST {
            ask(found, &stated, shown, |shown| {
                format!("{name} at {shown} would nearly float away")
            });
        }
    }
}

fn pack(context: &Context<'_>, material: &Material, found: &mut Found) {
    let is_bulk = |kind: Kind| kind.is_granular() || kind.is_binder() || kind.is_premix();
    let Some(Sold::Pack(pack)) = material.sold.as_ref().map(|sold| &sold.value) else {
        return;
    };
    let is_small = pack.content.dimension == Dimension::MASS && pack.content.si() < SMALLEST_PACK;
    if let Some(place) = pack.place
        && is_small
        && material.kind.is_some_and(is_bulk)
    {
        let stated = Stated::new(pack.content, place);
        ask(found, &stated, context.show(&pack.content), |shown| {
            format!(
                "a {} of {shown} is smaller than {} is sold in",
                pack.word, material.name
            )
        });
    }
}

fn price(context: &Context<'_>, material: &Material, found: &mut Found) {
    let Some(price) = &material.price else { return };
    let by_mass = Dimension::MONEY.divided_by(Dimension::MASS) == Some(price.value.dimension);
    if by_mass && price.value.si() > DEAREST && material.kind.is_some_and(Kind::is_granular) {
        ask(found, price, context.show(&price.value), |shown| {
            format!("{shown} is dear for {}", material.name)
        });
    }
}

/// Asks whether a figure of the checked file is right.
fn ask(found: &mut Found, stated: &Stated<Quantity>, shown: String, says: impl Fn(&str) -> String) {
    let place: Place = stated.place;
    if !is_in_checked_file(place) {
        return;
    }
    let message = format!("{}. Is the unit right?", says(&shown));
    found.add(
        VALUE_ODD
            .finding(place, message)
            .found(shown, Some(stated.value)),
    );
}
