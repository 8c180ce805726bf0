//! `bond-thick`: a bond coat thicker than its mortar is made for.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Layer, Substance, Surface};
use crate::rules::documents::{ANSI_THIN_SET, MEDIUM_BED_SHEET};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::vocabulary::Role;

/// A bond coat thicker than its mortar is made for.
pub(crate) static BOND_THICK: Rule = Rule {
    name: "bond-thick",
    family: Family::Beds,
    severity: Severity::Advisory,
    looks_at: "The thickness of thin-set and other bond coats; medium-bed mortar by a row of its own.",
    reason: "Thin-set laid thick shrinks as it dries and lets go of stone and slab.",
    remedy: "Level with a mortar bed and bond in a thin coat, or use a medium-bed mortar.",
    limits: &[
        Limit {
            row: "plain",
            of: "thin-set, priming slurry and the like",
            bound: Bound::Most,
            general: Value {
                written: &["5 mm", "3/16 in"],
                source: ANSI_THIN_SET,
            },
            regions: &[],
        },
        Limit::practice(
            "mixed",
            "a slurry or bond coat mixed on site",
            Bound::Most,
            &["6 mm", "1/4 in"],
        ),
        Limit {
            row: "medium",
            of: "medium-bed mortar",
            bound: Bound::Most,
            general: Value {
                written: &["19 mm", "3/4 in"],
                source: MEDIUM_BED_SHEET,
            },
            regions: &[],
        },
    ],
    sources: &[ANSI_THIN_SET, MEDIUM_BED_SHEET, Source::COMMON_PRACTICE],
    breaks: "surface court
  build        mortar-set

build mortar-set
  bond         thin-set, «20 mm»
",
    keeps: "surface court
  build        mortar-set

build mortar-set
  bond         thin-set, 5 mm
",
    mended: None,
    check: Check::Layer(check),
};

fn check(
    context: &Context<'_>,
    _surface: &Surface,
    _build: &Build,
    layer: &Layer,
    found: &mut Found,
) {
    let kind = layer.of.value.kind();
    let is_coat = matches!(layer.role.value, Role::Bond | Role::Slurry);
    let is_bought = kind.is_some_and(Kind::is_bond_coat);
    let row = match (&layer.of.value, kind) {
        (_, Some(Kind::MediumBed)) => "medium",
        (Substance::Mix(_), _) if is_coat => "mixed",
        _ if is_bought && (is_coat || layer.role.value == Role::Bed) => "plain",
        _ => return,
    };
    let Some(thickness) = &layer.thickness else {
        return;
    };
    let Some(limit) = context.limit(&BOND_THICK, row) else {
        return;
    };
    if limit.allows(&thickness.value) || layer.existing.is_some() {
        return;
    }
    let shown = limit.beside(&thickness.value, context.system());
    let message = format!(
        "{shown} of {} is too thick to hold; {} is the most: level up with a mortar bed",
        layer.of.value.name(),
        limit.shown(context.system()),
    );
    found.add(
        BOND_THICK
            .finding(thickness.place, message)
            .found(shown, Some(thickness.value))
            .against(&limit, context),
    );
}
