//! `storm-short`: storms that do not tell what a soakaway has to hold.

use crate::findings::Severity;
use crate::quantities::SoakingGap;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::show;

/// Storms that do not tell what a soakaway has to hold.
pub(crate) static STORM_SHORT: Rule = Rule {
    name: "storm-short",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "Whether the storm that fills a soakaway most is the longest one stated.",
    reason: "While the longest storm stated fills it most, a longer one may fill it more still.",
    remedy: "State longer storms, a line each with its depth or rate and its duration, until one that is not the longest fills it most.",
    limits: &[],
    sources: &[Source::second_hand(
        "BRE Digest 365, by engineers' calculation sheets",
        "durations from minutes to days; the largest need rules",
    )],
    breaks: "\
site
  «storm        20 mm in 30 min»
  infiltration 40 mm/h

drain lawn-soak
  soakaway     1.2 m by 1.2 m by 1 m, centre (3 m, -9 m)
  filled       crate, voids 95 %
  takes        court
",
    keeps: "\
site
  storm        20 mm in 30 min
  storm        21 mm in 6 h
  infiltration 40 mm/h

drain lawn-soak
  soakaway     1.2 m by 1.2 m by 1 m, centre (3 m, -9 m)
  filled       crate, voids 95 %
  takes        court
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(water) = &context.figures.water else {
        return;
    };
    let site = &context.job.site;
    if context.is_misread_at(site.place) {
        return;
    }
    for (drain, comes) in context.job.drains.iter().zip(&water.drains) {
        let Some(soaking) = &comes.soaking else {
            continue;
        };
        let name = &drain.name.value;
        let storm = soaking.storm.and_then(|index| site.storms.get(index));
        match (soaking.unknown, storm) {
            (Some(SoakingGap::StormShort), Some(storm)) => {
                let lasts = storm.duration_s().map(show::time).unwrap_or_default();
                let message = format!(
                    "{name} cannot be sized yet: the longest storm stated, {lasts}, still fills it most. State longer storms"
                );
                let place = drain.body.as_ref().map_or(drain.place, |body| body.place);
                let finding = STORM_SHORT.finding(storm.place, message);
                found.add(finding.related(place, "the soakaway"));
            }
            (Some(SoakingGap::NoStorm), _) => {
                let Some(storm) = site.storms.first() else {
                    continue;
                };
                let message = format!(
                    "{name} cannot be sized: no storm says how long it lasts. State one that does, as storm 30 mm in 1 h"
                );
                let finding = STORM_SHORT.finding(storm.place, message);
                found.add(finding.severity(Severity::Advisory));
            }
            _ => {}
        }
    }
}
