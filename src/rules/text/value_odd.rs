//! `value-odd`: a figure that nobody builds by, so that its unit or its point
//! is most likely wrong.

use crate::findings::{Fix, Place, Severity};
use crate::materials::Kind;
use crate::model::{DesignStorm, Material, Period, Rain, Sold, Stated};
use crate::rules::construction::is_in_checked_file;
use crate::rules::wording::has_word;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::show::{self, in_unit};
use crate::units::unit::{FOOT, INCH, METRE, MILLIMETRE};
use crate::units::{Dimension, Quantity, System};

/// A figure far from all that is built.
pub(crate) static VALUE_ODD: Rule = Rule {
    name: "value-odd",
    family: Family::Text,
    severity: Severity::Warning,
    looks_at: "Figures that are read well and lie far from all that is built: sizes, thicknesses, levels, shares, times, densities; and an infiltration that clay or silt never has. Falling ground that does not say where it is so high, too.",
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
    mended: Some(
        "\
build sand-set
  base         crushed-stone, 150 mm compacted, beyond 150 mm
",
    ),
    check: Check::Job(check),
};

/// No paving lies farther from the floor of its building, in metres.
const FARTHEST_LEVEL: f64 = 10.0;

/// No pipe or pit of a garden is dug so deep, in metres.
const DEEPEST_DIG: f64 = 5.0;

/// No paving is heavier, in kg/m³.
const HEAVIEST: f64 = 3300.0;

/// Nothing that paving is built of is lighter in bulk, in kg/m³.
const LIGHTEST: f64 = 300.0;

fn check(context: &Context<'_>, found: &mut Found) {
    let from = levels(context, found);
    inverts(context, from.unwrap_or_default(), found);
    storms(context, found);
    soaks(context, found);
    hires(context, found);
    for material in context.job.materials.values() {
        densities(context, material, found);
        loads(context, material, found);
    }
}

/// A pack that nobody lifts, and a load that nobody would drive out for.
fn loads(context: &Context<'_>, material: &Material, found: &mut Found) {
    let name = &material.name;
    if let Some(Sold::Pack(pack)) = material.sold.as_ref().map(|sold| &sold.value)
        && let Some(place) = pack.place
    {
        let is_lifted = has_word(&pack.word, SACKS);
        let most = if is_lifted {
            LARGEST_SACK
        } else {
            LARGEST_LOAD
        };
        if amount(&pack.content).is_some_and(|tonnes| tonnes > most) {
            let stated = Stated::new(pack.content, place);
            ask(found, &stated, context.show(&pack.content), None, |shown| {
                format!("a {} of {name} holds {shown}", pack.word)
            });
        }
    }
    if let Some(delivery) = &material.delivery
        && amount(&delivery.value.size).is_some_and(|tonnes| tonnes < SMALLEST_LOAD)
    {
        let stated = Stated::new(delivery.value.size, delivery.place);
        ask(found, &stated, context.show(&stated.value), None, |shown| {
            format!("a load of {name} is {shown}, and each load is charged for")
        });
    }
}

/// A mass in tonnes or a volume in cubic metres: roughly as much.
fn amount(of: &Quantity) -> Option<f64> {
    match of.dimension {
        Dimension::MASS => Some(of.si() / 1000.0),
        Dimension::VOLUME => Some(of.si()),
        _ => None,
    }
}

/// What is lifted by hand, or by a hook at most.
const SACKS: &[&str] = &["bag", "sack", "tub", "bucket", "pail", "box"];

/// The most that one of those holds, in tonnes or cubic metres; what a lorry
/// brings; and the least that anybody sends one for.
const LARGEST_SACK: f64 = 2.0;
const LARGEST_LOAD: f64 = 40.0;
const SMALLEST_LOAD: f64 = 0.05;

/// Levels far from the floor; where the datum is another and no floor is
/// stated, far from the other levels. Gives the level that they are held to.
fn levels(context: &Context<'_>, found: &mut Found) -> Option<f64> {
    let site = &context.job.site;
    let surfaces = context.job.surfaces.iter();
    let stated = surfaces.flat_map(|surface| surface.levels.iter().map(|level| &level.value));
    let ground = site.ground.iter().flat_map(|ground| &ground.levels);
    let drains = context.job.drains.iter();
    let inverts = drains.flat_map(|drain| drain.inverts.iter().map(|invert| &invert.value));
    let others = [
        &site.damp_course,
        &site.cladding,
        &site.foundation,
        &site.vents,
        &site.weep_holes,
    ];
    let others = others.into_iter().flatten();
    // Every level of the job is looked at at every edit: none is copied.
    let all = stated.chain(ground).chain(others).chain(inverts);
    let is_near_0 = |level: &&Stated<Quantity>| level.value.si().abs() <= FARTHEST_LEVEL;
    let (from, name) = match (&site.floor, &site.datum) {
        (Some(floor), _) => (floor.value.si(), "the floor"),
        (None, None) => (0.0, "the floor"),
        (None, Some(_)) if all.clone().any(|level| is_near_0(&level)) => (0.0, "the datum"),
        (None, Some(_)) => (all.clone().next()?.value.si(), "the first level"),
    };
    for level in all {
        let apart = level.value.si() - from;
        if apart.abs() > FARTHEST_LEVEL {
            let side = if apart < 0.0 { "below" } else { "above" };
            let shown = context.show_length(apart.abs());
            ask(found, level, shown, meant(context, &level.value), |shown| {
                format!("this level lies {shown} {side} {name}")
            });
        }
    }
    Some(from)
}

/// Inverts far below the ground: of new drains, as a sewer that is there may
/// well lie so deep. What is told of as a level is not told of again.
fn inverts(context: &Context<'_>, from: f64, found: &mut Found) {
    for (drain, figures) in context.job.drains.iter().zip(context.figures.drains.iter()) {
        let deep = figures.dig.map_or(0.0, |dig| dig.below_top_m);
        let stated = drain.inverts.iter().map(|invert| &invert.value);
        let lowest = stated.min_by(|one, other| one.value.si().total_cmp(&other.value.si()));
        let is_odd = |level: f64| deep > DEEPEST_DIG && (level - from).abs() <= FARTHEST_LEVEL;
        let Some(lowest) = lowest.filter(|level| is_odd(level.value.si())) else {
            continue;
        };
        let name = &drain.name.value;
        ask(found, lowest, context.show_length(deep), None, |shown| {
            format!("{name} would be dug {shown} deep by this invert")
        });
    }
}

/// No rain falls harder, in metres a second: 2 m/h.
const HARDEST_RAIN: f64 = 2.0 / 3_600.0;

/// Storms that rain harder than any, and those in which less falls than in a
/// shorter one.
fn storms(context: &Context<'_>, found: &mut Found) {
    let storms = &context.job.site.storms;
    for storm in storms {
        let Rain::Depth(depth) = storm.rain else {
            continue;
        };
        let (Some(rate), Some(falls), Some(lasts)) =
            (storm.rate(), storm.depth_m(), storm.duration_s())
        else {
            continue;
        };
        let stated = Stated::new(depth, storm.place);
        if rate > HARDEST_RAIN {
            let shown = show::time(lasts);
            ask(found, &stated, shown, None, |shown| {
                format!("it never rains so much in {shown}")
            });
            continue;
        }
        let is_more = |other: &&DesignStorm| {
            let shorter = other.duration_s().is_some_and(|other| other < lasts);
            shorter && other.depth_m().is_some_and(|other| other > falls + 1e-4)
        };
        let Some(other) = storms.iter().find(is_more) else {
            continue;
        };
        let message = format!(
            "less rain in {} than in the {} of another storm: is one of the two figures wrong?",
            show::time(lasts),
            show::time(other.duration_s().unwrap_or_default())
        );
        let finding = VALUE_ODD.finding(storm.place, message);
        let finding = finding.related(other.place, "the other storm");
        found.add(finding.severity(Severity::Advisory));
    }
}

/// Ground that takes water faster than any of its kind: the rate is a slip, or
/// the soil is another. Either way nothing may be led into it on that word.
fn soaks(context: &Context<'_>, found: &mut Found) {
    let site = &context.job.site;
    let (Some(rate), Some(soil)) = (&site.infiltration, &site.soil) else {
        return;
    };
    let word = soil.value.word;
    let Some((_, fastest)) = FASTEST.iter().find(|(kind, _)| *kind == word) else {
        return;
    };
    let own = rate.value.si();
    // What no ground at all takes is told of where it is read.
    if own <= fastest * ROUNDING || own > NO_GROUND || !is_in_checked_file(rate.place) {
        return;
    }
    let most = match context.system() {
        System::Metric => format!("{} mm/h", (fastest * 3_600_000.0).round()),
        System::Imperial => format!("{} in/h", (fastest * 3_600_000.0 / 25.4).round()),
    };
    let shown = context.show(&rate.value);
    let message = format!(
        "no {word} takes {shown}: {most} is about the most. Is the rate wrong, or the soil?"
    );
    let severity = match own > 3.0 * fastest {
        true => Severity::Warning,
        false => Severity::Advisory,
    };
    let finding = VALUE_ODD
        .finding(rate.place, message)
        .severity(severity)
        .found(shown, Some(rate.value));
    found.add(finding.related(soil.place, "the soil, as stated here"));
}

/// The soils with grains so fine that they take water slowly, and the fastest
/// that the loosest of each does, in metres a second: 1 and 4 in/h. Common practice,
/// no source; tables give a tenth of it.
const FASTEST: &[(&str, f64)] = &[("clay", 0.0254 / 3_600.0), ("silt", 0.1016 / 3_600.0)];

/// What a rate may lie over the fastest, for rounding.
const ROUNDING: f64 = 1.0 + 1e-9;

/// No ground takes water faster, in metres a second: 3 m/h.
const NO_GROUND: f64 = 3.0 / 3_600.0;

/// Hire that costs less for longer.
fn hires(context: &Context<'_>, found: &mut Found) {
    let days = |period: Period| match period {
        Period::Days(days) => days,
        Period::Weekend => 2,
    };
    for hire in context.job.hires.iter() {
        let longest = hire.prices.iter().find(|long| {
            let mut shorter = hire.prices.iter();
            shorter.any(|short| {
                days(short.period) < days(long.period) && long.price.si() < short.price.si()
            })
        });
        let Some(longest) = longest else { continue };
        let message = format!(
            "{} costs less for {} than for a shorter time: is a figure of the price missing?",
            hire.name.value,
            longest.period.counted(1)
        );
        found.add(VALUE_ODD.finding(longest.place, message));
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
            ask(found, &stated, shown, None, |shown| {
                format!("{name} at {shown} is heavier than any stone")
            });
        } else if own < LIGHTEST {
            ask(found, &stated, shown, None, |shown| {
                format!("{name} at {shown} would nearly float away")
            });
        }
    }
}

/// A level in metres or feet that is most likely so many millimetres or
/// inches.
fn meant(context: &Context<'_>, level: &Quantity) -> Option<String> {
    let (large, small) = match context.system() {
        System::Metric => (&METRE, &MILLIMETRE),
        System::Imperial => (&FOOT, &INCH),
    };
    let number = level.in_unit(large)?;
    let meant = Quantity::of(number, small)?;
    (meant.si().abs() <= FARTHEST_LEVEL).then(|| in_unit(&meant, small))?
}

/// Asks whether a figure of the checked file is right, and offers what may be
/// meant.
fn ask(
    found: &mut Found,
    stated: &Stated<Quantity>,
    shown: String,
    meant: Option<String>,
    says: impl Fn(&str) -> String,
) {
    let place: Place = stated.place;
    if !is_in_checked_file(place) {
        return;
    }
    let message = format!("{}. Is the unit right?", says(&shown));
    let finding = VALUE_ODD
        .finding(place, message)
        .found(shown, Some(stated.value));
    found.add(match meant {
        Some(text) => finding.fix(Fix::judged(format!("Write `{text}`"), place, text)),
        None => finding,
    });
}
