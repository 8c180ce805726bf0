//! `aggregate-coarse`: mortar with stones too large for its joint or bed.

use crate::findings::{Fix, Place, Severity};
use crate::materials::Kind;
use crate::model::{Layer, Mix, MixPart, Region, Substance, Surface};
use crate::rules::construction::{grain_m, is_in_checked_file};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Number, Quantity};
use crate::vocabulary::Role;

/// Mortar with stones too large for its joint or bed.
pub(crate) static AGGREGATE_COARSE: Rule = Rule {
    name: "aggregate-coarse",
    family: Family::Mixes,
    severity: Severity::Warning,
    looks_at: "The largest stones of a mix against the joints that it fills and the beds and bond coats that it is laid as. Of what a supplier sells under a name of its own the size is not known.",
    reason: "Stones as large as the joint do not go into it, and a bed of them cannot be tapped down.",
    remedy: "Use sand in its place, or a finer stone.",
    limits: &[Limit::practice(
        "share",
        "the largest stones of a mix, as a share of the joint or bed that it goes into",
        Bound::Most,
        &["60 %"],
    )],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "surface court
  build        mortar-set

mix joint-mix
  parts        1 portland-cement : 3 «concrete-stone»
",
    keeps: "surface court
  build        mortar-set

mix joint-mix
  parts        1 portland-cement : 3 sharp-sand
",
    mended: Some(
        "surface court
  build        mortar-set

mix joint-mix
  parts        1 portland-cement : 3 sharp-sand
",
    ),
    check: Check::Mix(check),
};

fn check(context: &Context<'_>, mix: &Mix, found: &mut Found) {
    let grain = |part: &MixPart| grain_m(part.material.as_deref()?);
    let coarsest = mix
        .parts
        .iter()
        .filter_map(|part| Some((part, grain(part)?)))
        .max_by(|one, other| one.1.total_cmp(&other.1));
    let Some((part, grain)) = coarsest else {
        return;
    };
    let narrowest = context
        .all_surfaces()
        .iter()
        .flat_map(|surface| gaps(surface, mix))
        .min_by(|one, other| one.metres.total_cmp(&other.metres));
    let (Some(gap), Some(limit)) = (narrowest, context.limit(&AGGREGATE_COARSE, "share")) else {
        return;
    };
    let share = grain / gap.metres;
    if limit.allows_si(share) {
        return;
    }
    let message = format!(
        "the stones of {} are about {}, too large for a {} of {}: use washed sand",
        part.name.value,
        context.show_length(grain),
        gap.what,
        context.show_length(gap.metres)
    );
    let finding = AGGREGATE_COARSE
        .finding(part.name.place, message)
        .found(
            limit.beside_si(share, context.system()),
            Number::near(share).map(Quantity::proportion),
        )
        .against(&limit, context)
        .related(gap.place, format!("the {}", gap.what));
    // Beside sand that is there already, more of it is another mix.
    let has_sand = mix.amount_of(Kind::is_sand) > 0.0;
    let sand = match context.region() {
        Region::Us => "concrete-sand",
        _ => "sharp-sand",
    };
    let fix = (!has_sand && is_in_checked_file(part.name.place))
        .then(|| Fix::judged(format!("Use {sand}"), part.name.place, sand));
    found.add(
        fix.into_iter()
            .fold(finding, |finding, fix| finding.fix(fix)),
    );
}

/// What a mix goes into.
struct Gap {
    what: &'static str,
    metres: f64,
    place: Place,
}

/// The joints, beds and bond coats of a surface that are of a mix.
fn gaps(surface: &Surface, mix: &Mix) -> Vec<Gap> {
    let is_it = |of: &Substance| of.mix().is_some_and(|own| own.name == mix.name);
    let mut all = Vec::new();
    if let Some(joint) = &surface.joint
        && joint.filling.as_ref().is_some_and(|own| is_it(&own.value))
    {
        all.push(Gap {
            what: "joint",
            metres: joint.width.value.si(),
            place: joint.width.place,
        });
    }
    let build = surface.build.iter().flat_map(|build| &build.value.layers);
    let layers = build.filter_map(|layer: &Layer| {
        let what = match layer.role.value {
            Role::Bed => "bed",
            Role::Bond => "bond coat",
            _ => return None,
        };
        is_it(&layer.of.value).then_some(())?;
        let thickness = layer.thickness.as_ref()?;
        Some(Gap {
            what,
            metres: layer.thickness_m(),
            place: thickness.place,
        })
    });
    all.extend(layers);
    all.retain(|gap| gap.metres > 0.0);
    all
}
