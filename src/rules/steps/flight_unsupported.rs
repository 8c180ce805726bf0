//! `flight-unsupported`: steps built straight on ground that moves.

use super::flights;
use crate::findings::Severity;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::System;

/// Steps built straight on ground that moves.
pub(crate) static FLIGHT_UNSUPPORTED: Rule = Rule {
    name: "flight-unsupported",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "Steps with a core and no base under it, on clay, silt or peat.",
    reason: "A flight is heavy and stiff: where the ground under it swells, freezes or settles it tips and cracks away from what it leads to.",
    remedy: "Put a compacted base of crushed stone under the flight.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
site
  soil         clay, firm
  ground       -700 mm

steps «garden-steps»
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  core         slab-mix, to foot
  handrail     both sides
",
    keeps: "\
site
  soil         clay, firm
  ground       -700 mm

steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  core         slab-mix, down to base
  base         crushed-stone, 100 mm compacted, top 150 mm below the foot
  handrail     both sides
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(soil) = &context.job.site.soil else {
        return;
    };
    let moves = matches!(soil.value.word, "clay" | "silt" | "peat");
    for (own, _) in flights(context).filter(|_| moves) {
        let is_bare = own.core.is_some() && own.base.is_none();
        if !is_bare || context.is_misread(own.section) {
            continue;
        }
        let depth = match context.system() {
            System::Imperial => "4 in",
            System::Metric => "100 mm",
        };
        let message = format!(
            "the flight stands straight on {}, and will tip as that moves: put {depth} of compacted stone under it",
            soil.value.word
        );
        found.add(
            FLIGHT_UNSUPPORTED
                .finding(own.name.place, message)
                .related(soil.place, "the soil"),
        );
    }
}
