//! `density-unknown`: a mass is wanted, with nothing to weigh it by.

use super::troubles::findings;
use crate::findings::Severity;
use crate::materials::Kind;
use crate::quantities::{Trouble, TroubleKind};
use crate::rules::base::BASE_UNSUITABLE;
use crate::rules::construction::{bases, is_driven_surfacing, rests_on_base};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::Quantity;

/// A mass is wanted, with nothing to weigh it by.
pub(crate) static DENSITY_UNKNOWN: Rule = Rule {
    name: "density-unknown",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "A material of no known density that is sold by weight and used by volume, or goes into a mix. An advisory where no order depends on it.",
    reason: "Without a density its volume cannot be turned into a weight, and none is guessed.",
    remedy: "State its density, from the supplier.",
    limits: &[],
    sources: &[Source::computed("mass = volume × density")],
    breaks: "build sand-set
  base         local-stone, 150 mm, beyond 150 mm

«material local-stone»
  kind         dense-aggregate
  sold         by t
",
    keeps: "build sand-set
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
    for (trouble, finding) in findings(&DENSITY_UNKNOWN, context, |own| message(own, context)) {
        found.add(match trouble.kind {
            TroubleKind::NoMass => finding.severity(Severity::Advisory),
            _ => finding,
        });
    }
}

fn message(trouble: &Trouble, context: &Context<'_>) -> Option<String> {
    let name = &trouble.name;
    // What makes no base has a finding of its own, and with it all that it lacks.
    let is_told = context.is_in_force(&BASE_UNSUITABLE, BASE_UNSUITABLE.severity);
    if is_told && makes_no_base(name, context) {
        return None;
    }
    if let (TroubleKind::NoDensity | TroubleKind::NoMass, Some(density)) =
        (&trouble.kind, own_density(name, context))
    {
        return Some(format!(
            "is {name} {} loose or compacted? It is laid compacted, and only one density is \
             known: give both",
            context.show(&density)
        ));
    }
    Some(match &trouble.kind {
        TroubleKind::NoDensity => {
            format!("no density for {name}, so it cannot be ordered: state its density")
        }
        TroubleKind::NoMass => format!(
            "no density for {name}, so what is in place cannot be weighed: state its density"
        ),
        // A bag that is blended already is no part of a mix: premix-sand says so.
        TroubleKind::NoParticleDensity if is_premix(name, context) => return None,
        TroubleKind::NoParticleDensity => format!(
            "no density for the grains of {name}, so what the mix makes is unknown: state its particle-density"
        ),
        _ => return None,
    })
}

/// The density of a material of a layer, of a surface or under steps, where it
/// has one though not for the state in which it lies.
fn own_density(name: &str, context: &Context<'_>) -> Option<Quantity> {
    let surfaces = context.job.surfaces.iter();
    let builds = surfaces.filter_map(|surface| surface.build.as_ref());
    let layers = builds.flat_map(|build| &build.value.layers);
    let steps = context.job.steps.iter();
    let under_steps = steps.filter_map(|own| Some(&own.base.as_ref()?.layer));
    let layers = layers.chain(under_steps);
    let mut materials = layers.filter_map(|layer| layer.of.value.material());
    let material = materials.find(|material| material.name == *name)?;
    Some(material.density.as_ref()?.value)
}

/// Whether a material lies as a base that it is unfit for.
fn makes_no_base(name: &str, context: &Context<'_>) -> bool {
    let surfaces = context.job.surfaces.iter();
    let built = surfaces.filter_map(|own| Some((own, own.build.as_ref()?.value.as_ref())));
    let carried =
        built.filter(|(own, build)| rests_on_base(build) || is_driven_surfacing(own, build));
    let mut layers = carried.flat_map(|(_, build)| bases(build));
    layers.any(|layer| {
        let of = &layer.of.value;
        layer.existing.is_none()
            && of.name() == name
            && of.kind().is_some_and(Kind::is_unfit_for_base)
    })
}

fn is_premix(name: &str, context: &Context<'_>) -> bool {
    let material = context.job.materials.get(name);
    material
        .and_then(|material| material.kind)
        .is_some_and(Kind::is_premix)
}
