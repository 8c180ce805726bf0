//! `spacing-odd`: joints or weeps closer together than anybody makes them.

use crate::findings::Severity;
use crate::model::{Build, Stated, Surface};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::Quantity;
use crate::vocabulary::Role;

const fn least(row: &'static str, of: &'static str, written: &'static [&'static str]) -> Limit {
    Limit {
        row,
        of,
        bound: Bound::Least,
        general: Value {
            written,
            source: Source::COMMON_PRACTICE,
        },
        regions: &[],
    }
}

/// Joints or weeps closer together than anybody makes them.
pub(crate) static SPACING_ODD: Rule = Rule {
    name: "spacing-odd",
    family: Family::Joints,
    severity: Severity::Warning,
    looks_at: "The spacing of movement joints, of a slab's joints and of weeps.",
    reason: "Nobody cuts joints so close: a unit slipped, or the width of the joint was written for its spacing.",
    remedy: "Check the figure and its unit.",
    limits: &[
        least(
            "joints",
            "movement joints, and joints of a slab",
            &["0.9 m", "3 ft"],
        ),
        least("weeps", "weeps", &["100 mm", "4 in"]),
    ],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "surface court
  build        mortar-set
  movement-joints every «3 mm»
",
    keeps: "surface court
  build        mortar-set
  movement-joints every 3 m
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let slab = build
        .layer(Role::Slab)
        .and_then(|slab| slab.joints.as_ref());
    let spacings: [(&str, &str, Option<&Stated<Quantity>>); 3] = [
        (
            "joints",
            "movement joints",
            surface.movement_joints.as_ref(),
        ),
        ("joints", "joints in the slab", slab),
        ("weeps", "weeps", surface.weeps.as_ref()),
    ];
    for (row, what, spacing) in spacings {
        let (Some(spacing), Some(limit)) = (spacing, context.limit(&SPACING_ODD, row)) else {
            continue;
        };
        if limit.allows(&spacing.value) {
            continue;
        }
        let shown = limit.beside(&spacing.value, context.system());
        let message = format!(
            "{what} every {shown} are closer than anyone makes them; {} is about the least: check the unit",
            limit.shown(context.system()),
        );
        found.add(
            SPACING_ODD
                .finding(spacing.place, message)
                .found(shown, Some(spacing.value))
                .against(&limit, context),
        );
    }
}
