//! `base-unsuitable`: a base of something that does not lock together.

use crate::findings::{Finding, Severity};
use crate::materials::Kind;
use crate::model::{Layer, Surface};
use crate::rules::construction::{is_base, is_driven_surfacing, is_in_checked_file, rests_on_base};
use crate::rules::documents::{BASE_GRADING, as_nzs_3727};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::vocabulary::Role;

/// A base of something that does not lock together.
pub(crate) static BASE_UNSUITABLE: Rule = Rule {
    name: "base-unsuitable",
    family: Family::Base,
    severity: Severity::Warning,
    looks_at: "Rounded gravel, sand, soil or mixed fill as the base of paving on sand or in mortar, of gravel, asphalt and the like that cars drive on, or of steps; soil as the base of anything, a slab too, and as a surfacing.",
    reason: "Round stones roll, sand runs and mixed fill rots or softens: none stays as it was compacted.",
    remedy: "Use crushed stone graded down to fines.",
    limits: &[],
    sources: &[BASE_GRADING, as_nzs_3727("ground and base under paving")],
    breaks: "build sand-set
  base         «pea-gravel», 150 mm, beyond 150 mm
",
    keeps: "",
    mended: None,
    check: Check::SurfaceAndJob(under_paving, under_steps),
};

fn under_paving(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let Some(build) = surface.build.as_ref().map(|build| &build.value) else {
        return;
    };
    let rests = rests_on_base(build) || is_driven_surfacing(surface, build);
    if build.has_lost_line {
        return;
    }
    // Sand or rubble bears a slab, humus rots away under it.
    let counts = |layer: &&Layer| is_base(layer) && (rests || is_soil(layer));
    for layer in build.layers.iter().filter(counts) {
        found.findings.extend(unsuitable(layer));
    }
    let surfacing = build.layer(Role::Surfacing);
    if let Some(layer) = surfacing.filter(|own| is_soil(own) && own.existing.is_none()) {
        let message = format!(
            "{} is no surfacing: it turns to mud underfoot. Use gravel, stone dust or the like",
            layer.of.value.name()
        );
        let finding = BASE_UNSUITABLE.finding(context.at(surface, layer.of.place), message);
        found.add(finding.severity(Severity::Advisory));
    }
}

fn is_soil(layer: &Layer) -> bool {
    layer.of.value.kind().is_some_and(Kind::is_organic)
}

/// A flight is as heavy as what is paved, and stiffer.
fn under_steps(context: &Context<'_>, found: &mut Found) {
    let bases = context.job.steps.iter().filter_map(|own| own.base.as_ref());
    let own = bases.filter(|base| is_in_checked_file(base.layer.place));
    found
        .findings
        .extend(own.filter_map(|base| unsuitable(&base.layer)));
}

fn unsuitable(layer: &Layer) -> Option<Finding> {
    let kind = layer
        .of
        .value
        .kind()
        .filter(|kind| kind.is_unfit_for_base() && layer.existing.is_none())?;
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
    Some(BASE_UNSUITABLE.finding(layer.of.place, message))
}
