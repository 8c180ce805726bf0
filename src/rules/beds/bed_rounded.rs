//! `bed-rounded`: pavers bedded on rounded gravel.

use crate::findings::{Fix, Severity};
use crate::materials::Kind;
use crate::model::{Build, Layer, Surface};
use crate::rules::construction::{is_in_checked_file, unit_kind};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Pavers bedded on rounded gravel.
pub(crate) static BED_ROUNDED: Rule = Rule {
    name: "bed-rounded",
    family: Family::Beds,
    severity: Severity::Warning,
    looks_at: "Rounded gravel as the bed of pavers, brick or setts. Not of flags, which are stiff enough to lie on it.",
    reason: "Round stones roll under a wheel or a heel and never lock: the pavers rut and tip, and the sand of the joints runs down between them.",
    remedy: "Bed on washed sharp (concrete) sand, or on clean angular chips where the bed has to drain.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "build sand-set
  bed          «pea-gravel», 30 mm
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
    _context: &Context<'_>,
    _surface: &Surface,
    build: &Build,
    layer: &Layer,
    found: &mut Found,
) {
    let is_bed = layer.role.value == Role::Bed && layer.existing.is_none();
    let is_rounded = layer.of.value.kind() == Some(Kind::RoundedGravel);
    let is_small = unit_kind(build).is_some_and(|kind| kind.is_paver() || kind == Kind::Sett);
    if !is_bed || !is_rounded || !is_small {
        return;
    }
    let (instead, name) = match build.permeable {
        Some(_) => ("clean angular chips", "chip-stone"),
        None => ("washed coarse sand", "sharp-sand"),
    };
    let message = format!(
        "{} is round: it rolls under the pavers and never locks. Bed them on {instead}",
        layer.of.value.name()
    );
    let finding = BED_ROUNDED.finding(layer.of.place, message);
    found.add(if is_in_checked_file(layer.of.place) {
        finding.fix(Fix::judged(format!("Use {name}"), layer.of.place, name))
    } else {
        finding
    });
}
