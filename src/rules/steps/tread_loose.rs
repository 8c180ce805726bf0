//! `tread-loose`: thin treads on a bed that gives.

use super::treads;
use crate::findings::Severity;
use crate::rules::construction::Binding;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;

/// Thin treads on a bed that gives.
pub(crate) static TREAD_LOOSE: Rule = Rule {
    name: "tread-loose",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "Treads on a bed of sand or stone that nothing binds, by their thickness: a block that is a step by itself lies by its weight.",
    reason: "The foot comes down on the front edge: a thin tread on sand rocks, slides forward and lets its bed wash out.",
    remedy: "Bed the treads in mortar, or use blocks the whole height of a step.",
    limits: &[Limit::practice(
        "plain",
        "a tread on sand or stone",
        Bound::Least,
        &["100 mm", "4 in"],
    )],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  tread        sandstone, 40 mm, nosing 20 mm, in 3 pieces
  «bed          sharp-sand, 15 mm»
  fall         1:60
  core         slab-mix, to foot
  handrail     both sides
",
    keeps: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  tread        sandstone, 40 mm, nosing 20 mm, in 3 pieces
  bed          bed-mix, 15 mm
  fall         1:60
  core         slab-mix, to foot
  handrail     both sides
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&TREAD_LOOSE, "plain") else {
        return;
    };
    for (own, tread) in treads(context) {
        let (Some(bed), Some(thickness)) = (&own.bed, &tread.thickness) else {
            continue;
        };
        let is_loose = Binding::of(&bed.of.value) == Binding::Loose;
        if !is_loose || limit.allows(&thickness.value) {
            continue;
        }
        let shown = limit.beside(&thickness.value, context.system());
        let message = format!(
            "treads of {shown} on {} rock and slide forward: bed them in mortar. On sand {} is the least",
            bed.of.value.name(),
            limit.shown(context.system())
        );
        found.add(
            TREAD_LOOSE
                .finding(bed.place, message)
                .found(shown, Some(thickness.value))
                .against(&limit, context)
                .related(tread.place, "the treads"),
        );
    }
}
