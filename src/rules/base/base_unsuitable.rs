//! `base-unsuitable`: a base of something that does not lock together.

use super::base_thin::wants_base;
use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Layer, Surface};
use crate::rules::construction::is_base;
use crate::rules::documents::{BASE_GRADING, as_nzs_3727};
use crate::rules::{Check, Context, Family, Found, Rule};

/// A base of something that does not lock together.
pub static BASE_UNSUITABLE: Rule = Rule {
    name: "base-unsuitable",
    family: Family::Base,
    severity: Severity::Warning,
    looks_at: "What the base under sand-set paving is made of: rounded gravel, sand, soil or mixed fill.",
    reason: "Rounded grains roll and sand runs, and mixed fill holds what rots or softens: none makes a base that stays as it was compacted.",
    remedy: "Use crushed stone graded down to fines.",
    limits: &[],
    sources: &[BASE_GRADING, as_nzs_3727("ground and base under paving")],
    breaks: "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         «pea-gravel», 150 mm, beyond 150 mm
",
    keeps: "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, 150 mm, beyond 150 mm
",
    mended: None,
    check: Check::Layer(check),
};

fn check(
    _context: &Context<'_>,
    _surface: &Surface,
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
    if !is_base(layer) || layer.existing.is_some() || !wants_base(build) {
        return;
    }
    let what = match kind {
        Kind::RoundedGravel => "rounded gravel, which does not lock together",
        Kind::Soil => "soil, which settles and rots",
        Kind::Fill => "mixed fill of no known grading",
        _ => "sand, which runs from under a load",
    };
    let message = format!(
        "{} is {what}: use crushed stone graded down to fines for the base",
        layer.of.value.name()
    );
    found.add(BASE_UNSUITABLE.finding(layer.of.place, message));
}
