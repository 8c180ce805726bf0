//! `value-odd`: a figure that nobody builds by, so that its unit or its point
//! is most likely wrong.

use crate::findings::{Place, Severity};
use crate::materials::Kind;
use crate::model::{DrainKind, Material, Stated};
use crate::rules::construction::is_in_checked_file;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::Quantity;

/// A figure far from all that is built.
pub(crate) static VALUE_ODD: Rule = Rule {
    name: "value-odd",
    family: Family::Text,
    severity: Severity::Warning,
    looks_at: "Levels, widenings, densities and the sizes of drains that are read well and far from all that is built. Falling ground that does not say where it is so high, too.",
    reason: "A slip of a unit or a decimal point makes an order a thousand times too large, or too small.",
    remedy: "Correct the figure or its unit. If it is right, accept the finding and say why.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
build sand-set
  base         crushed-stone, 150 mm compacted, beyond «150 m»
",
    keeps: "\
build sand-set
  base         crushed-stone, 150 mm compacted, beyond 150 mm
",
    mended: None,
    check: Check::Job(check),
};

/// No paving lies farther from the floor of its building, in metres.
const FARTHEST_LEVEL: f64 = 10.0;

/// No layer goes farther past the paving, in metres.
const WIDEST_MARGIN: f64 = 2.0;

/// No drain of paving is wider, nor its gully or trench, in metres.
const WIDEST_DRAIN: f64 = 2.0;

/// None is narrower, in metres.
const NARROWEST_DRAIN: f64 = 0.012;

/// No paving is heavier, in kg/m³.
const HEAVIEST: f64 = 3300.0;

/// Nothing that paving is built of is lighter in bulk, in kg/m³.
const LIGHTEST: f64 = 300.0;

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
    }
    drains(context, found);
    for material in context.job.materials.values() {
        densities(context, material, found);
    }
}

/// Widths and depths that no drain has.
fn drains(context: &Context<'_>, found: &mut Found) {
    for drain in context.job.drains.iter() {
        let kind = drain.kind().map_or("drain", DrainKind::word);
        for size in drain.sizes() {
            let own = size.value.si();
            let how = match own {
                own if own > WIDEST_DRAIN => "wide for",
                own if own < NARROWEST_DRAIN => "narrow for",
                _ => continue,
            };
            let shown = context.show(&size.value);
            ask(found, size, shown, |shown| {
                format!("{shown} is {how} a {kind}")
            });
        }
    }
}

/// Levels far from the floor, where the datum is at the floor or unsaid.
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
}

/// Densities of what no other rule weighs: natural stone has its own, and so has
/// what is heavier than its grains, or is stated both loose and compacted.
fn densities(context: &Context<'_>, material: &Material, found: &mut Found) {
    let is_mineral =
        |kind: Kind| kind.is_granular() || kind.is_binder() || kind.is_unit() || kind.is_concrete();
    let is_weighed = material.kind.is_some_and(Kind::is_natural_stone)
        || material.density.is_some() && material.compacted.is_some();
    if is_weighed || !material.kind.is_some_and(is_mineral) {
        return;
    }
    let is_in_grains = |kind: Kind| kind.is_granular() || kind.is_binder();
    let is_in_grains = material.kind.is_some_and(is_in_grains);
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
        if own > HEAVIEST && !is_in_grains {
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
