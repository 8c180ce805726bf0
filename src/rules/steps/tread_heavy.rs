//! `tread-heavy`: a tread too heavy for one person.

use crate::findings::Severity;
use crate::rules::documents::{HSE_LIFTING, NIOSH_LIFTING};
use crate::rules::units::{BY_HAND, BY_MACHINE, Heavy, ONE_PERSON};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Task;

/// A tread too heavy for one person.
pub(crate) static TREAD_HEAVY: Rule = Rule {
    name: "tread-heavy",
    family: Family::Steps,
    severity: Severity::Advisory,
    looks_at: "The mass of one piece of a tread, by its size, thickness and density. Not where a machine that digs is hired for the building too.",
    reason: "Treads are long and are set at arm's length: backs and fingers suffer.",
    remedy: "Plan two people, a clamp or a vacuum lifter, beyond that a machine; or make each tread of more pieces.",
    limits: &[ONE_PERSON, BY_HAND, BY_MACHINE],
    sources: &[NIOSH_LIFTING, HSE_LIFTING, Source::COMMON_PRACTICE],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  tread        «sandstone», 50 mm
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
  tread        sandstone, 50 mm, in 4 pieces
  fall         1:60
  core         slab-mix, to foot
  handrail     both sides
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let all = context.job.steps.iter().zip(context.figures.steps.iter());
    for (own, figures) in all {
        let piece = figures.treads.as_ref().and_then(|treads| treads.piece_kg);
        let (Some(mass), Some(tread)) = (piece, &own.tread) else {
            continue;
        };
        // Of bricks and setts no piece is as long as the tread.
        let is_of_units = tread
            .of
            .value
            .kind()
            .is_some_and(|kind| kind.is_unit() && !kind.is_flag());
        if is_of_units {
            continue;
        }
        let Some(heavy) = Heavy::of(&TREAD_HEAVY, context, Task::Building, mass) else {
            continue;
        };
        let message = format!(
            "one piece of a tread weighs about {}; {}",
            heavy.shown, heavy.words
        );
        found.add(
            TREAD_HEAVY
                .finding(tread.of.place, message)
                .severity(heavy.severity)
                .found(heavy.shown, heavy.mass)
                .against(&heavy.limit, context),
        );
    }
}
