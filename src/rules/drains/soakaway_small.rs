//! `soakaway-small`: a soakaway that does not hold what comes to it.

use super::{ROUNDING, with_water};
use crate::findings::Severity;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, show};

/// A soakaway that does not hold what comes to it.
pub(crate) static SOAKAWAY_SMALL: Rule = Rule {
    name: "soakaway-small",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "What a soakaway has to hold in the storms stated, against what it holds below its inlet.",
    reason: "What it cannot hold backs up the pipe and stands on the paving, or at the house.",
    remedy: "Make it longer, wider or deeper, fill it with crates, or lead less water to it; say with overflow where the rest may go.",
    limits: &[],
    sources: &[
        Source::second_hand(
            "BRE Digest 365, by engineers' calculation sheets",
            "inflow less what leaves through the sides to half depth; the largest need rules",
        ),
        Source::read(
            "US county guide to dry wells (2010)",
            "the runoff of the design storm is held whole",
        ),
    ],
    breaks: "\
site
  storm        30 mm in 1 h
  storm        32 mm in 6 h
  infiltration 40 mm/h

drain lawn-soak
  «soakaway     0.8 m by 0.8 m by 0.6 m, centre (3 m, -9 m)»
  filled       crate, voids 95 %
  wrapped      geotextile
  takes        court
",
    keeps: "\
site
  storm        30 mm in 1 h
  storm        32 mm in 6 h
  infiltration 40 mm/h

drain lawn-soak
  soakaway     1.2 m by 1.2 m by 1 m, centre (3 m, -9 m)
  filled       crate, voids 95 %
  wrapped      geotextile
  takes        court
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for (drain, figures, comes) in with_water(context.job, context.figures) {
        let Some(soaking) = &comes.soaking else {
            continue;
        };
        let need = soaking.need_m3.or(soaking.at_least_m3);
        let (Some(need), Some(holds)) = (need, figures.storage_m3) else {
            continue;
        };
        if need <= holds * ROUNDING {
            continue;
        }
        let system = context.system();
        let beside = |one, other| show::volume_beside(one, Some(other), system);
        let (shown, held) = (beside(need, holds), beside(holds, need));
        let storm = soaking.storm;
        let storm = storm.and_then(|index| context.job.site.storms.get(index));
        let lasts = storm.and_then(|storm| storm.duration_s());
        let lasts = lasts.map_or_else(String::new, |lasts| {
            format!(" in a storm of {}", show::time(lasts))
        });
        let message = format!(
            "too small: {} holds {held}, and has to hold {shown}{lasts}. Make it larger, or lead less water to it",
            drain.name.value
        );
        let place = drain.body.as_ref().map_or(drain.place, |body| body.place);
        let mut finding = SOAKAWAY_SMALL
            .finding(place, message)
            .found(shown, Quantity::near(need, Dimension::VOLUME));
        if let Some(storm) = storm {
            finding = finding.related(storm.place, "the storm that fills it most");
        }
        found.add(finding);
    }
}
