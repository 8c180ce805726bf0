//! `fabric-light`: weed fabric where a geotextile belongs.

use crate::findings::{Finding, Fix, Place, Severity};
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
    looks_at: "Weed fabric under a base of stone, and round the stone of a drain; in ground other than clay or silt there an advisory. Under gravel on top of the base it is in its place.",
    reason: "It tears under the stone and lets the fines through; round a drain it clogs as well.",
    remedy: "Lay a geotextile made to separate, or to filter.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "build sand-set
  fabric       «weed-fabric», beyond 150 mm
",
    keeps: "",
    mended: Some(""),
    check: Check::BuiltAndJob(build, drains),
};

fn build(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
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
        found.add(with_geotextile(finding, layer.of.place));
    }
}

fn drains(context: &Context<'_>, found: &mut Found) {
    let soil = context.job.site.soil.as_ref();
    let fine = soil.filter(|soil| matches!(soil.value.word, "clay" | "silt"));
    for drain in context.job.drains.iter() {
        let wrapped = drain
            .wrapped
            .as_ref()
            .filter(|_| drain.existing.is_none())
            .filter(|wrapped| wrapped.value.kind() == Some(Kind::WeedFabric));
        let Some(wrapped) = wrapped else { continue };
        let message = format!(
            "{} round the stone of {} tears, or clogs with fines: wrap it in a geotextile",
            wrapped.value.name(),
            drain.name.value
        );
        let finding = FABRIC_LIGHT.finding(wrapped.place, message);
        let finding = with_geotextile(finding, wrapped.place);
        found.add(match fine {
            Some(soil) => finding.related(soil.place, "the soil, as stated here"),
            // Where little washes in, one that holds is good enough.
            None => finding.severity(Severity::Advisory),
        });
    }
}

/// Offers a geotextile in place of a fabric, where the file may be changed.
fn with_geotextile(finding: Finding, place: Place) -> Finding {
    match is_in_checked_file(place) {
        true => finding.fix(Fix::judged("Use geotextile", place, "geotextile")),
        false => finding,
    }
}
