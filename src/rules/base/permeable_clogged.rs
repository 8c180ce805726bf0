//! `permeable-clogged`: a layer or joint that keeps water out of permeable
//! paving.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Substance, Surface};
use crate::rules::construction::{Binding, loose_surfacing, unit_kind};
use crate::rules::documents::FILTER_LAYERS;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::vocabulary::{Role, Term};

/// A layer or joint that keeps water out of permeable paving.
pub(crate) static PERMEABLE_CLOGGED: Rule = Rule {
    name: "permeable-clogged",
    family: Family::Base,
    severity: Severity::Warning,
    looks_at: "Joints, bed, base and slab of a permeable build that let little or no water through: sand, dust, mortar, concrete, stone graded to fines. An advisory under loose gravel.",
    reason: "Water goes only as fast as the tightest layer lets it; the paving floods and the bed washes out.",
    remedy: "Use clean open-graded stone in joints, bed and base.",
    limits: &[],
    sources: &[FILTER_LAYERS],
    breaks: "build sand-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          chip-stone, 40 mm
  base         «crushed-stone», 150 mm compacted, lifts 2, beyond 150 mm
  permeable, voids 40 %

surface court
  joint        8 mm, filled with chip-stone
",
    keeps: "build sand-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          chip-stone, 40 mm
  base         open-stone, 150 mm, beyond 150 mm
  permeable, voids 40 %

surface court
  joint        8 mm, filled with chip-stone
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let surfacing = build.layer(Role::Surfacing);
    let is_laid = unit_kind(build).is_some() || surfacing.is_some();
    let Some(permeable) = build.permeable.filter(|_| is_laid) else {
        return;
    };
    // Gravel itself lets the water through whatever it lies on.
    let severity = match loose_surfacing(build) {
        Some(_) => Severity::Advisory,
        None => Severity::Warning,
    };
    let mut say = |place, what: String| {
        found.add(
            PERMEABLE_CLOGGED
                .finding(context.at(surface, place), what)
                .severity(severity)
                .related(permeable, "permeable"),
        );
    };
    let what = match surfacing {
        Some(_) => "surfacing",
        None => "paving",
    };
    let joint = surface.joint.as_ref();
    if let Some(filling) = joint.and_then(|joint| joint.filling.as_ref())
        && is_tight(&filling.value)
    {
        let message = format!(
            "joints of {} let no water into permeable paving: fill them with clean chips",
            filling.value.name()
        );
        say(filling.place, message);
    }
    for layer in &build.layers {
        let (role, instead) = match layer.role.value {
            Role::Bed => ("bed", "clean chips"),
            Role::Base => ("base", "clean open-graded stone"),
            Role::Subbase => (context.word(Term::Subbase), "clean open-graded stone"),
            Role::Slab => ("slab", "clean open-graded stone"),
            _ => continue,
        };
        // Asphalt under porous asphalt is most likely porous too.
        let kinds = [Some(layer), surfacing].map(|own| own.and_then(|own| own.of.value.kind()));
        if is_tight(&layer.of.value) && kinds != [Some(Kind::Asphalt); 2] {
            let message = format!(
                "a {role} of {} holds the water up under permeable {what}: use {instead}",
                layer.of.value.name()
            );
            say(layer.of.place, message);
        }
    }
}

/// Whether a substance lets hardly any water through.
pub(in crate::rules) fn is_tight(substance: &Substance) -> bool {
    match Binding::of(substance) {
        Binding::Mortar | Binding::Stabilised => true,
        Binding::Loose => substance
            .kind()
            .is_none_or(|kind| !matches!(kind, Kind::OpenAggregate | Kind::RoundedGravel)),
        Binding::Resin | Binding::Unknown => substance.kind() == Some(Kind::Asphalt),
    }
}
