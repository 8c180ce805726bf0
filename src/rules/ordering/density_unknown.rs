//! `density-unknown`: sold by weight, with nothing to weigh it by.

use super::uses::uses;
use crate::findings::Severity;
use crate::model::{Material, Sold};
use crate::rules::construction::is_in_checked_file;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::Dimension;

/// Sold by weight, with nothing to weigh it by.
pub static DENSITY_UNKNOWN: Rule = Rule {
    name: "density-unknown",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "A material that is sold by weight and used by volume, whose density is not known.",
    reason: "Without a density its volume cannot be turned into the weight to be ordered, and none is guessed.",
    remedy: "State its density, as the supplier gives it.",
    limits: &[],
    sources: &[Source::computed("mass = volume × density")],
    breaks: "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         local-stone, 150 mm, beyond 150 mm

material «local-stone»
  kind         dense-aggregate
  sold         by t
",
    keeps: "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         local-stone, 150 mm, beyond 150 mm

material local-stone
  kind         dense-aggregate
  density      2100 kg/m3
  sold         by t
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for material in context.job.materials.values() {
        let is_weighed = material.density.is_some() || material.covers.is_some();
        if is_weighed || !is_sold_by_weight(material) {
            continue;
        }
        let uses = uses(context.job, material);
        let Some(used) = uses.iter().find(|used| used.is_by_volume) else {
            continue;
        };
        let message = format!(
            "{} is sold by weight and its density is not known, so that its order cannot be worked out: state its density",
            material.name
        );
        let own = material.place.filter(|place| is_in_checked_file(*place));
        let finding = DENSITY_UNKNOWN.finding(own.unwrap_or(used.place), message);
        found.add(match own {
            Some(_) => finding.related(used.place, "it is used here"),
            None => finding,
        });
    }
}

fn is_sold_by_weight(material: &Material) -> bool {
    match material.sold.as_ref().map(|sold| &sold.value) {
        Some(Sold::Unit(unit)) => unit.dimension == Dimension::MASS,
        Some(Sold::Pack(pack)) => {
            pack.content.dimension == Dimension::MASS && material.makes.is_none()
        }
        Some(Sold::Each) | None => false,
    }
}
