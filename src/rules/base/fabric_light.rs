//! `fabric-light`: weed fabric where a geotextile belongs.

use crate::findings::{Fix, Severity};
use crate::materials::Kind;
use crate::model::{Build, Surface};
use crate::rules::construction::{is_base, is_in_checked_file};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Weed fabric where a geotextile belongs.
pub(crate) static FABRIC_LIGHT: Rule = Rule {
    name: "fabric-light",
    family: Family::Base,
    severity: Severity::Warning,
    looks_at: "Weed fabric under a base of stone. Under gravel on top of the base it is in its place.",
    reason: "It tears under the stone and lets the fines through.",
    remedy: "Lay a geotextile made to separate.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "build sand-set
  fabric       «weed-fabric», beyond 150 mm
",
    keeps: "",
    mended: Some(""),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let mut is_under_base = false;
    for layer in &build.layers {
        is_under_base |= is_base(layer);
        let is_weed = layer.of.value.kind() == Some(Kind::WeedFabric);
        let is_laid = layer.role.value == Role::Fabric && layer.existing.is_none();
        if !(is_under_base && is_weed && is_laid) {
            continue;
        }
        let message = format!(
            "{} is too light under a base: it tears and the fines come through. Lay a geotextile",
            layer.of.value.name()
        );
        let place = context.at(surface, layer.of.place);
        let finding = FABRIC_LIGHT.finding(place, message);
        found.add(if is_in_checked_file(layer.of.place) {
            finding.fix(Fix::judged("Use geotextile", layer.of.place, "geotextile"))
        } else {
            finding
        });
    }
}
