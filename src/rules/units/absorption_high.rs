//! `absorption-high`: stone that soaks up water where it freezes.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Layer, Origin, Surface};
use crate::rules::documents::ASTM_STONE;
use crate::rules::wording::limit_in_words;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::vocabulary::Role;

/// Stone that soaks up water where it freezes.
pub static ABSORPTION_HIGH: Rule = Rule {
    name: "absorption-high",
    family: Family::Units,
    severity: Severity::Advisory,
    looks_at: "The stated absorption of natural stone laid on a site with frost.",
    reason: "Water in the pores of a stone splits it as it freezes, layer by layer.",
    remedy: "Use denser stone, or ask the supplier for its frost test.",
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
    sources: &[ASTM_STONE],
    breaks: "site
  soil         gravel, firm
  frost        600 mm
  datum        \"hall floor\"
  ground       -200 mm

surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        mortar-set
  laid         running-bond, units 300 mm by 600 mm
  joint        10 mm, filled with joint-mix
  isolation-joint 12 mm
  movement-joints every 3 m
  water        to \"planting bed\"

material sandstone
  absorption   «5 %»
",
    keeps: "site
  soil         gravel, firm
  frost        600 mm
  datum        \"hall floor\"
  ground       -200 mm

surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        mortar-set
  laid         running-bond, units 300 mm by 600 mm
  joint        10 mm, filled with joint-mix
  isolation-joint 12 mm
  movement-joints every 3 m
  water        to \"planting bed\"

material sandstone
  absorption   3 %
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
    let (Some(plain), Some(severe)) = (
        context.limit(&ABSORPTION_HIGH, "plain"),
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
    let shown = crate::units::show::share(absorption.value.si());
    let message = format!(
        "{} takes up {shown} of water; where it freezes it is to be {}: use denser stone",
        layer.of.value.name(),
        limit_in_words(&limit, context),
    );
    found.add(
        ABSORPTION_HIGH
            .finding(place, message)
            .severity(severity)
            .found(shown, Some(absorption.value))
            .against(&limit, context)
            .related(frost.place, "the frost is stated here"),
    );
}
