//! `bed-fines`: a paver bed of something too rich in fines.

use crate::findings::{Fix, Severity};
use crate::materials::Kind;
use crate::model::{Build, Layer, Surface};
use crate::rules::construction::{is_in_checked_file, unit_kind};
use crate::rules::documents::CMHA_BEDDING;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::vocabulary::{Role, Term};

/// A paver bed of something too rich in fines.
pub(crate) static BED_FINES: Rule = Rule {
    name: "bed-fines",
    family: Family::Beds,
    severity: Severity::Warning,
    looks_at: "Stone dust, screenings or mason sand as the bed of pavers, and the sands that joints are filled with as the bed of anything.",
    reason: "Fines hold water: the bed turns to slurry under load and pumps out of the joints.",
    remedy: "Use washed sharp (concrete) sand.",
    limits: &[],
    sources: &[CMHA_BEDDING],
    breaks: "build sand-set
  bed          «stone-dust», 30 mm
",
    keeps: "build sand-set
  bed          sharp-sand, 30 mm
",
    mended: Some(
        "build sand-set
  bed          sharp-sand, 30 mm
",
    ),
    check: Check::Layer(check),
};

fn check(
    context: &Context<'_>,
    _surface: &Surface,
    build: &Build,
    layer: &Layer,
    found: &mut Found,
) {
    let (Some(kind), name) = (layer.of.value.kind(), layer.of.value.name()) else {
        return;
    };
    if layer.role.value != Role::Bed || layer.existing.is_some() {
        return;
    }
    let sand = context.word(Term::BeddingSand);
    let is_under_pavers = unit_kind(build).is_some_and(Kind::is_paver);
    let message = match kind {
        Kind::JointSand => format!(
            "{name} is fine dry sand for joints: as a bed it runs and washes out. Use washed {sand}"
        ),
        Kind::PolymericSand => format!(
            "{name} sets hard when wetted, as a skin over the loose sand below: it is for joints. Bed on washed {sand}"
        ),
        _ if kind.is_too_fine_for_bed() && is_under_pavers => format!(
            "{name} has too many fines to bed pavers on, and goes soft when wet: use washed {sand}"
        ),
        _ => return,
    };
    let finding = BED_FINES.finding(layer.of.place, message);
    found.add(if is_in_checked_file(layer.of.place) {
        let name = sand.replace(' ', "-");
        finding.fix(Fix::judged(format!("Use {name}"), layer.of.place, name))
    } else {
        finding
    });
}
