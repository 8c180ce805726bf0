//! `mix-type`: a mortar type that does not suit paving, or its parts.

use super::mix_lean::MIX_LEAN;
use super::proportion::{parts, proportion_finding, sand_to_binder};
use crate::findings::{Finding, Fix, Severity};
use crate::materials::Kind;
use crate::model::{Consistency, Measure, Mix, MixUse, MortarType, Region};
use crate::rules::documents::{C270_SAND, C270_TYPES, masonry_handbook};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::units::{Number, Quantity};

/// A mortar type that does not suit paving, or its parts.
pub(crate) static MIX_TYPE: Rule = Rule {
    name: "mix-type",
    family: Family::Mixes,
    severity: Severity::Warning,
    looks_at: "Mortar of type N or O in paving, by its name or, in the US, by its lime or masonry cement; lime that makes it another type than it is called; sand outside what the type allows. Semi-dry beds may hold more sand.",
    reason: "Types N and O are for walls above ground: too weak and too thirsty for paving. The parts make the type, not the name.",
    remedy: "Use type S or M, and the parts of that type.",
    limits: &[
        Limit {
            row: "sand-most",
            of: "sand to binder of a typed mortar",
            bound: Bound::Most,
            general: Value {
                written: &["3"],
                source: C270_SAND,
            },
            regions: &[],
        },
        Limit {
            row: "sand-least",
            of: "sand to binder of a typed mortar",
            bound: Bound::Least,
            general: Value {
                written: &["2.25"],
                source: C270_SAND,
            },
            regions: &[],
        },
    ],
    sources: &[
        masonry_handbook("p. 124, types and their use"),
        C270_TYPES,
        C270_SAND,
    ],
    breaks: "mix joint-mix
  parts        1 portland-cement : 1/2 hydrated-lime : 4 1/2 sharp-sand
  type         «N»
",
    keeps: "mix joint-mix
  parts        1 portland-cement : 1/2 hydrated-lime : 4 1/2 sharp-sand
  type         S
",
    mended: Some(
        "mix joint-mix
  parts        1 portland-cement : 1/2 hydrated-lime : 4 1/2 sharp-sand
  type         S
",
    ),
    check: Check::Mix(check),
};

fn check(context: &Context<'_>, mix: &Mix, found: &mut Found) {
    let finding = unsuited(context, mix)
        .or_else(|| other_type(mix))
        .or_else(|| sand_outside(context, mix));
    if let Some(finding) = finding {
        found.add(finding);
    }
}

fn unsuited(context: &Context<'_>, mix: &Mix) -> Option<Finding> {
    let Some(stated) = mix.mortar_type.as_ref() else {
        return made_weak(context, mix);
    };
    let is_weak = matches!(stated.value, MortarType::N | MortarType::O);
    let is_for_slab = mix.is_for(MixUse::Slab);
    (is_weak && !is_for_slab).then(|| {
        let message = format!(
            "type {} is too weak for paving: it is made for walls above ground. Use type S or M",
            stated.value.word()
        );
        let finding = MIX_TYPE.finding(stated.place, message);
        match type_of(mix) {
            Some(made @ ("S" | "M")) if sand_outside(context, mix).is_none() => {
                finding.fix(Fix::judged(
                    format!("Call it type {made}, as its parts make it"),
                    stated.place,
                    made,
                ))
            }
            _ => finding,
        }
    })
}

/// A mortar that no word calls weak, and that its parts make so. Elsewhere
/// than in the US nobody mixes by type.
fn made_weak(context: &Context<'_>, mix: &Mix) -> Option<Finding> {
    let is_trodden = mix.is_for(MixUse::Bed) || mix.is_for(MixUse::Joint);
    let made = type_of(mix).filter(|made| matches!(*made, "N" | "O"))?;
    if !is_trodden || context.region() != Region::Us {
        return None;
    }
    let message = format!(
        "these parts make type {made}, which is too weak for paving: use the parts of type S or M"
    );
    Some(MIX_TYPE.finding(mix.parts_place.unwrap_or(mix.name.place), message))
}

/// The type that the bag of a masonry cement names, where nothing else binds.
fn type_of_bag(mix: &Mix) -> Option<&'static str> {
    let mut bags = mix.parts.iter().filter_map(|part| {
        let material = part.material.as_ref()?;
        material.kind.filter(|kind| kind.is_binder())?;
        Some(material.stock)
    });
    let (Some(bag), None) = (bags.next()?, bags.next()) else {
        return None;
    };
    match bag {
        _ if mix.are_parts_unread => None,
        "masonry-cement-m" => Some("M"),
        "masonry-cement-s" => Some("S"),
        "masonry-cement-n" => Some("N"),
        _ => None,
    }
}

/// The type that the lime to the cement makes a mix, or a bag of masonry
/// cement; `None` without either.
fn type_of(mix: &Mix) -> Option<&'static str> {
    if let Some(bag) = type_of_bag(mix) {
        return Some(bag);
    }
    let cement = mix.amount_of(Kind::is_cement);
    let lime = mix.amount_of(Kind::is_lime);
    if mix.measure != Measure::Volume || cement <= 0.0 || lime <= 0.0 {
        return None;
    }
    // The upper end of each type's lime, a little wider for rounded parts.
    let ratio = lime / cement / 1.001;
    Some(if ratio <= 0.25 {
        "M"
    } else if ratio <= 0.5 {
        "S"
    } else if ratio <= 1.25 {
        "N"
    } else {
        "O"
    })
}

fn other_type(mix: &Mix) -> Option<Finding> {
    let stated = mix.mortar_type.as_ref()?;
    let made = type_of(mix).filter(|made| *made != stated.value.word())?;
    let message = format!(
        "called type {}, but its parts make it type {made}: correct one of them",
        stated.value.word()
    );
    let finding = MIX_TYPE.finding(stated.place, message);
    Some(match mix.parts_place {
        Some(place) => finding.related(place, "its parts"),
        None => finding,
    })
}

/// Whether the sand of a mix is held to its stated type. Semi-dry beds may hold
/// more.
pub(super) fn judges_sand(mix: &Mix) -> bool {
    let is_dry = mix.consistency.as_ref().map(|stated| stated.value) == Some(Consistency::Dry);
    mix.mortar_type.is_some() && !(is_dry && mix.is_for(MixUse::Bed))
}

fn sand_outside(context: &Context<'_>, mix: &Mix) -> Option<Finding> {
    let stated = mix.mortar_type.as_ref()?;
    let is_said_already = proportion_finding(&MIX_LEAN, context, mix).is_some();
    if is_said_already || !judges_sand(mix) {
        return None;
    }
    let ratio = sand_to_binder(mix)?;
    let limit = ["sand-least", "sand-most"]
        .into_iter()
        .filter_map(|row| context.limit(&MIX_TYPE, row))
        .find(|limit| !limit.allows_si(ratio))?;
    let (count, shown) = parts(ratio, &limit);
    let message = format!(
        "{count} sand to 1 binder is no type {}; {} to 1 is the {}: correct the sand",
        stated.value.word(),
        limit.shown(context.system()),
        match limit.bound {
            Bound::Least => "least",
            Bound::Most => "most",
        },
    );
    Some(
        MIX_TYPE
            .finding(mix.parts_place.unwrap_or(mix.name.place), message)
            .found(shown, Number::near(ratio).map(Quantity::plain))
            .against(&limit, context)
            .related(stated.place, "its type"),
    )
}
