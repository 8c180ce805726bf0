//! `absorption-high`: stone that soaks up water where it freezes.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Layer, Origin, Surface};
use crate::rules::documents::{ASTM_STONE, ASTM_TRAVERTINE};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::vocabulary::Role;

/// Stone that soaks up water where it freezes.
pub(crate) static ABSORPTION_HIGH: Rule = Rule {
    name: "absorption-high",
    family: Family::Units,
    severity: Severity::Advisory,
    looks_at: "The stated absorption of natural stone on a site with frost, by the sort of stone.",
    reason: "Water in the pores of a stone splits it as it freezes, layer by layer.",
    remedy: "Ask the supplier for a frost test, or use denser stone.",
    limits: &[
        Limit {
            row: "plain",
            of: "absorption of stone where it freezes",
            bound: Bound::Most,
            general: Value {
                written: &["3 %"],
                source: ASTM_STONE,
            },
            regions: &[],
        },
        Limit {
            row: "sandstone",
            of: "absorption of sandstone where it freezes",
            bound: Bound::Most,
            general: Value {
                written: &["8 %"],
                source: ASTM_STONE,
            },
            regions: &[],
        },
        Limit {
            row: "travertine",
            of: "absorption of travertine where it freezes",
            bound: Bound::Most,
            general: Value {
                written: &["2.5 %"],
                source: ASTM_TRAVERTINE,
            },
            regions: &[],
        },
        Limit {
            row: "severe",
            of: "absorption of the weakest stone that is used outdoors",
            bound: Bound::Most,
            general: Value {
                written: &["8 %"],
                source: ASTM_STONE,
            },
            regions: &[],
        },
    ],
    sources: &[ASTM_STONE, ASTM_TRAVERTINE],
    breaks: "site
  frost        600 mm

surface court
  build        mortar-set

material sandstone
  absorption   «9 %»
",
    keeps: "site
  frost        600 mm

surface court
  build        mortar-set

material sandstone
  absorption   8 %
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
    let Some(frost) = &context.job.site.frost else {
        return;
    };
    let material = layer.of.value.material();
    let Some(absorption) = material.and_then(|material| material.absorption.as_ref()) else {
        return;
    };
    let Origin::Line(place) = absorption.origin else {
        return;
    };
    let is_stone = layer.of.value.kind().is_some_and(Kind::is_natural_stone);
    if layer.role.value != Role::Paving || !is_stone || frost.value.si() <= 0.0 {
        return;
    }
    let row = match material.and_then(|material| material.stock) {
        Some("sandstone" | "york-stone" | "bluestone") => "sandstone",
        Some("travertine") => "travertine",
        _ => "plain",
    };
    let (Some(plain), Some(severe)) = (
        context.limit(&ABSORPTION_HIGH, row),
        context.limit(&ABSORPTION_HIGH, "severe"),
    ) else {
        return;
    };
    let (limit, severity) = if !severe.allows(&absorption.value) {
        (severe, Severity::Warning)
    } else if !plain.allows(&absorption.value) {
        (plain, Severity::Advisory)
    } else {
        return;
    };
    let shown = limit.beside(&absorption.value, context.system());
    let message = format!(
        "{} absorbs {shown} of its weight in water; {} is the most where it freezes: ask for a frost test or use denser stone",
        layer.of.value.name(),
        limit.shown(context.system()),
    );
    found.add(
        ABSORPTION_HIGH
            .finding(place, message)
            .severity(severity)
            .found(shown, Some(absorption.value))
            .against(&limit, context)
            .related(frost.place, "it freezes here"),
    );
}
