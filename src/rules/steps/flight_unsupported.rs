//! `flight-unsupported`: steps built straight on ground that moves.

use super::flights;
use crate::findings::{Finding, Severity};
use crate::model::{CoreFoot, Steps};
use crate::quantities::Flight;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::System;

/// Steps built straight on ground that moves.
pub(crate) static FLIGHT_UNSUPPORTED: Rule = Rule {
    name: "flight-unsupported",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "Steps with a core and no base under it, on clay, silt or peat; a core that ends above its base; and several treads too thin to carry one another, with no core: an advisory where no base is stated either, as over an old flight.",
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
    for (own, flight) in flights(context) {
        found.findings.extend(uncarried(context, own, flight));
        found.findings.extend(hollow(context, own));
    }
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

/// Between a core and a base that lie closer, in metres, nobody leaves a gap.
const GAP: f64 = 0.01;

/// A core that ends at the foot, above the top of its base.
fn hollow(context: &Context<'_>, own: &Steps) -> Option<Finding> {
    let core = own.core.as_ref()?;
    let base = own.base.as_ref()?;
    let top = base.top.as_ref()?;
    let ends_at_foot = core.down_to == Some(CoreFoot::Foot);
    if !ends_at_foot || top.value.si() <= GAP || context.is_misread(own.section) {
        return None;
    }
    let message = format!(
        "the core ends at the foot, {} above its base: nothing fills the gap or is ordered for it. Write core {}, down to base",
        context.show_length(top.value.si()),
        core.of.value.name()
    );
    let finding = FLIGHT_UNSUPPORTED.finding(core.place, message);
    Some(finding.related(base.layer.place, "the base, and where its top is"))
}

/// Treads no thinner, in metres, are blocks that carry one another.
const BLOCK: f64 = 0.1;

/// Thin treads with no core stated under them.
fn uncarried(context: &Context<'_>, own: &Steps, flight: &Flight) -> Option<Finding> {
    let tread = own.tread.as_ref().filter(|_| own.core.is_none())?;
    let thickness = tread.thickness.as_ref()?.value.si();
    let is_carried = thickness >= BLOCK || flight.treads() < 2;
    if is_carried || context.is_misread(own.section) {
        return None;
    }
    let message = "nothing carries these treads, and nothing is ordered to carry them: state the core, as in core slab-mix, to foot";
    let finding = FLIGHT_UNSUPPORTED.finding(tread.place, message);
    // With no base either, they may be laid over an old flight.
    Some(finding.severity(match own.base {
        Some(_) => Severity::Warning,
        None => Severity::Advisory,
    }))
}
