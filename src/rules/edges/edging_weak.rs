//! `edging-weak`: an edging that cars push over.

use crate::findings::{Fix, Severity};
use crate::model::{Build, Surface, Use};
use crate::rules::construction::Construction;
use crate::rules::documents::icpi_edges;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::spelled_in;

/// An edging that cars push over.
pub(crate) static EDGING_WEAK: Rule = Rule {
    name: "edging-weak",
    family: Family::Edges,
    severity: Severity::Warning,
    looks_at: "Edging of plastic or timber along paving on sand that cars drive on.",
    reason: "Turning wheels push the paving against its edge; plastic on pins leans and timber rots, and the paving spreads.",
    remedy: "Bed and haunch a kerb or a row of block in concrete.",
    limits: &[],
    sources: &[
        icpi_edges("restraints stay put under impacts from vehicles"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "surface court
  for          drive
  laid         herringbone, units 100 mm by 200 mm
  edging       «plastic-edge», along free
",
    keeps: "surface court
  for          drive
  laid         herringbone, units 100 mm by 200 mm
  edging       concrete-kerb, along free
",
    mended: Some(
        "surface court
  for          drive
  laid         herringbone, units 100 mm by 200 mm
  edging       concrete-kerb, along free
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    if !matches!(surface.used_for, Use::Drive | Use::Street)
        || Construction::of(build) != Construction::SandSet
    {
        return;
    }
    let kerb = spelled_in(context.region(), "kerb");
    for edging in &surface.edgings {
        let stock = edging.material.value.material().and_then(|own| own.stock);
        let what = match stock {
            Some("plastic-edge") => "plastic edging",
            Some("timber-edge") => "timber edging",
            _ => continue,
        };
        let message = format!(
            "{what} will not hold a drive: turning cars push it over. Use a {kerb} or a row of block haunched in concrete"
        );
        let place = edging.material.place;
        let finding = EDGING_WEAK.finding(place, message).fix(Fix::judged(
            format!("Use a concrete {kerb}"),
            place,
            "concrete-kerb",
        ));
        found.add(match surface.used_for_place {
            Some(place) => finding.related(place, "cars drive here"),
            None => finding,
        });
    }
}
