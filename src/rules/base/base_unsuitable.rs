//! `base-unsuitable`: a base of something that does not lock together.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Layer, Surface};
use crate::rules::construction::{is_base, is_driven_surfacing, rests_on_base};
use crate::rules::documents::{BASE_GRADING, as_nzs_3727};
use crate::rules::{Check, Context, Family, Found, Rule};

/// A base of something that does not lock together.
pub(crate) static BASE_UNSUITABLE: Rule = Rule {
    name: "base-unsuitable",
    family: Family::Base,
    severity: Severity::Warning,
    looks_at: "Rounded gravel, sand, soil or mixed fill as the base of paving on sand or in mortar, or of gravel, asphalt and the like that cars drive on.",
    reason: "Round stones roll, sand runs and mixed fill rots or softens: none stays as it was compacted.",
    remedy: "Use crushed stone graded down to fines.",
    limits: &[],
    sources: &[BASE_GRADING, as_nzs_3727("ground and base under paving")],
    breaks: "build sand-set
  base         «pea-gravel», 150 mm, beyond 150 mm
",
    keeps: "",
    mended: None,
    check: Check::Layer(check),
};

fn check(
    _context: &Context<'_>,
    surface: &Surface,
    build: &Build,
    layer: &Layer,
    found: &mut Found,
) {
    let kind = layer
        .of
        .value
        .kind()
        .filter(|kind| kind.is_unfit_for_base());
    let Some(kind) = kind else { return };
    if !is_base(layer) || layer.existing.is_some() || build.has_lost_line {
        return;
    }
    if !rests_on_base(build) && !is_driven_surfacing(surface, build) {
        return;
    }
    let what = match kind {
        Kind::RoundedGravel => "round stones roll and never lock",
        Kind::Soil => "soil rots and settles",
        Kind::Fill => "mixed fill rots, softens and settles",
        _ => "sand runs out from under a load",
    };
    let message = format!(
        "{} makes no base: {what}. Use graded crushed stone",
        layer.of.value.name()
    );
    found.add(BASE_UNSUITABLE.finding(layer.of.place, message));
}
