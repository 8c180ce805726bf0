//! `gravel-deep`: loose gravel that feet and wheels sink into.

use crate::findings::Severity;
use crate::model::{Build, Surface};
use crate::rules::construction::{Construction, loose_surfacing};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;

/// Loose gravel that feet and wheels sink into.
pub(crate) static GRAVEL_DEEP: Rule = Rule {
    name: "gravel-deep",
    family: Family::Beds,
    severity: Severity::Advisory,
    looks_at: "The depth of loose gravel or stone that is walked or driven on.",
    reason: "Loose stone does not lock: in a deep layer feet sink and wheels dig in.",
    remedy: "Lay 40 to 50 mm (1 1/2 to 2 in) of gravel, and make up the rest with compacted base.",
    limits: &[Limit::practice(
        "plain",
        "loose gravel",
        Bound::Most,
        &["75 mm", "3 in"],
    )],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
surface court
  build        gravel-court

build gravel-court
  surfacing    pea-gravel, «120 mm»
  base         crushed-stone, 100 mm compacted, beyond 100 mm
",
    keeps: "\
surface court
  build        gravel-court

build gravel-court
  surfacing    pea-gravel, 50 mm
  base         crushed-stone, 100 mm compacted, beyond 100 mm
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, _: &Surface, build: &Build, found: &mut Found) {
    let gravel = loose_surfacing(build).filter(|gravel| gravel.existing.is_none());
    let (Some(gravel), Some(limit)) = (gravel, context.limit(&GRAVEL_DEEP, "plain")) else {
        return;
    };
    let Some(depth) = gravel.thickness.as_ref() else {
        return;
    };
    let is_surfacing = Construction::of(build) == Construction::Surfacing;
    if !is_surfacing || limit.allows(&depth.value) {
        return;
    }
    let shown = limit.beside(&depth.value, context.system());
    let message = format!(
        "{shown} of loose {}: feet and wheels sink in. {} is the most. Make up the rest with base",
        gravel.of.value.name(),
        limit.shown(context.system())
    );
    found.add(
        GRAVEL_DEEP
            .finding(depth.place, message)
            .found(shown, Some(depth.value))
            .against(&limit, context),
    );
}
