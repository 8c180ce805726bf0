//! `edging-bed`: an edging that stands on the bedding sand.

use crate::findings::{Fix, Severity};
use crate::model::{Build, Surface};
use crate::rules::construction::{self, Construction};
use crate::rules::documents::icpi_edges;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

/// A sand bed that is carried on under the edging.
pub(crate) static EDGING_BED: Rule = Rule {
    name: "edging-bed",
    family: Family::Edges,
    severity: Severity::Warning,
    looks_at: "A bed of sand that runs past the free edges, under an edging that stands on no concrete of its own.",
    reason: "Sand under an edging washes out and shifts; the edging leans and lets the paving go.",
    remedy: "Stop the bed at the edge of the paving, so that the edging stands on the base.",
    limits: &[],
    sources: &[icpi_edges(
        "restraints stand on the base, not on the bedding sand",
    )],
    breaks: "\
build sand-set
  bed          sharp-sand, 30 mm, beyond «150 mm»
",
    keeps: "\
build sand-set
  bed          sharp-sand, 30 mm
",
    mended: Some(
        "\
build sand-set
  bed          sharp-sand, 30 mm, beyond 0
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    // What stands on a bed of concrete of its own does not stand on the sand.
    let on_sand = surface
        .edgings
        .iter()
        .find(|edging| edging.footing.is_none());
    let Some(edging) = on_sand.filter(|_| Construction::of(build) == Construction::SandSet) else {
        return;
    };
    let Some(bed) = build
        .layer(Role::Bed)
        .filter(|bed| construction::is_sand(&bed.of.value))
    else {
        return;
    };
    let Some(beyond) = bed.beyond.as_ref().filter(|beyond| beyond.value.si() > 0.0) else {
        return;
    };
    let shown = context.show(&beyond.value);
    let message = format!(
        "the bed runs {shown} past the edge, so the edging stands on sand and will lean: stop the bed at the edge"
    );
    let finding = EDGING_BED
        .finding(beyond.place, message)
        .found(shown, Quantity::near(beyond.value.si(), Dimension::LENGTH))
        .fix(Fix::judged("Stop the bed at the edge", beyond.place, "0"))
        .related(edging.place, "the edging");
    found.add(finding);
}
