//! `size-odd`: units, joints and thicknesses that no yard sells.

use crate::findings::{Place, Severity};
use crate::materials::Kind;
use crate::model::{Build, Stones, Surface, Use};
use crate::rules::construction::{is_stepping_stone, unit_kind};
use crate::rules::wording::large_units;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::Quantity;
use crate::vocabulary::Role;

const fn band(
    row: &'static str,
    of: &'static str,
    bound: Bound,
    written: &'static [&'static str],
) -> Limit {
    Limit {
        row,
        of,
        bound,
        general: Value {
            written,
            source: Source::COMMON_PRACTICE,
        },
        regions: &[],
    }
}

/// Units, joints and thicknesses that no yard sells.
pub(crate) static SIZE_ODD: Rule = Rule {
    name: "size-odd",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "The sides and thickness of units and the width of joints, against anything that is sold and laid.",
    reason: "A slip of a unit goes into every count and every order.",
    remedy: "Check the figure and its unit.",
    limits: &[
        band(
            "side-least",
            "a side of a unit, at least",
            Bound::Least,
            &["20 mm", "3/4 in"],
        ),
        band(
            "side-most",
            "a side of a unit, at most",
            Bound::Most,
            &["3 m", "10 ft"],
        ),
        band(
            "thickness-least",
            "the thickness of a unit, at least",
            Bound::Least,
            &["6 mm", "1/4 in"],
        ),
        band(
            "thickness-most",
            "the thickness of a unit, at most",
            Bound::Most,
            &["300 mm", "12 in"],
        ),
        band(
            "porcelain-most",
            "the thickness of porcelain, at most",
            Bound::Most,
            &["50 mm", "2 in"],
        ),
        band(
            "flag-most",
            "the thickness of stone and concrete slabs to walk on, at most",
            Bound::Most,
            &["150 mm", "6 in"],
        ),
        band(
            "joint-most",
            "a joint between units",
            Bound::Most,
            &["150 mm", "6 in"],
        ),
        band(
            "isolation-most",
            "an isolation joint",
            Bound::Most,
            &["50 mm", "2 in"],
        ),
    ],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "surface court
  laid         running-bond, units 200 mm by «10 mm»
",
    keeps: "surface court
  laid         running-bond, units 200 mm by 100 mm
",
    mended: None,
    check: Check::Units(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let mut judge = |rows: &[&str], what: &str, value: Quantity, place: Place| {
        let missed = rows.iter().find_map(|row| {
            let limit = context.limit(&SIZE_ODD, row)?;
            (!limit.allows(&value)).then_some(limit)
        });
        let Some(limit) = missed else { return };
        let shown = limit.beside(&value, context.system());
        let bound = match limit.bound {
            Bound::Least => "least",
            Bound::Most => "most",
        };
        let message = format!(
            "nobody lays {what} of {shown}; {} is about the {bound}: check the unit",
            limit.shown(context.system()),
        );
        found.add(
            SIZE_ODD
                .finding(place, message)
                .found(shown, Some(value))
                .against(&limit, context),
        );
    };
    let laid = surface.laid.as_ref();
    let sides = ["side-least", "side-most"];
    if let Some((one, other)) = laid.and_then(|laid| laid.units.as_ref()) {
        judge(&sides, "a unit with a side", one.value, one.place);
        judge(&sides, "a unit with a side", other.value, other.place);
    }
    for size in laid.iter().flat_map(|laid| &laid.sizes) {
        for side in [&size.length, &size.width] {
            judge(&sides, "a unit with a side", side.value, side.place);
        }
    }
    if let Some(wide) = laid.and_then(|laid| laid.wide.as_ref()) {
        judge(&sides, "a course", wide.value, wide.place);
    }
    match laid.and_then(|laid| laid.stones.as_ref()) {
        Some(Stones::About(size)) => judge(&sides, "a stone", size.value, size.place),
        Some(Stones::Between(least, most)) => {
            judge(&sides, "a stone", least.value, least.place);
            judge(&sides, "a stone", most.value, most.place);
        }
        None => {}
    }
    let (most, paved) = match unit_kind(build) {
        Some(Kind::Porcelain) => ("porcelain-most", "porcelain"),
        // Boulders are stepped on, and cars need what they need.
        Some(kind)
            if kind.is_flag()
                && surface.used_for == Use::Foot
                && !is_stepping_stone(surface, build) =>
        {
            ("flag-most", large_units(Some(kind), context))
        }
        _ => ("thickness-most", "paving"),
    };
    let thick = ["thickness-least", most];
    if let Some(paving) = build
        .layer(Role::Paving)
        .filter(|own| own.existing.is_none())
    {
        match (&paving.range, &paving.thickness) {
            (Some((least, most)), _) => {
                judge(&thick, paved, least.value, least.place);
                judge(&thick, paved, most.value, most.place);
            }
            (None, Some(own)) => judge(&thick, paved, own.value, own.place),
            (None, None) => {}
        }
    }
    if let Some(joint) = surface
        .joint
        .as_ref()
        .filter(|_| !is_stepping_stone(surface, build))
    {
        judge(
            &["joint-most"],
            "a joint",
            joint.width.value,
            joint.width.place,
        );
    }
    if let Some(joint) = &surface.isolation_joint {
        judge(
            &["isolation-most"],
            "an isolation joint",
            joint.value,
            joint.place,
        );
    }
}
