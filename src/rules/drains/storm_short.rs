//! `storm-short`: storms that do not tell what a soakaway has to hold.

use crate::findings::{Finding, Severity};
use crate::model::{Drain, Region};
use crate::quantities::SoakingGap;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, show};

/// Storms that do not tell what a soakaway has to hold.
pub(crate) static STORM_SHORT: Rule = Rule {
    name: "storm-short",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "Whether the storm that fills a soakaway most is the longest one stated; in America, where nothing is let off for what soaks away meanwhile, how long that lasts.",
    reason: "While the longest storm stated fills it most, a longer one may fill it more still.",
    remedy: "State longer storms, a line each with its depth or rate and its duration, until one that is not the longest fills it most.",
    limits: &[Limit::practice(
        "dry-well",
        "the longest storm that an American dry well is sized on",
        Bound::Least,
        &["24 h"],
    )],
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
  wrapped      geotextile
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
  wrapped      geotextile
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
            (None, Some(_)) => found.findings.extend(for_dry_well(context, drain)),
            _ => {}
        }
    }
}

/// A dry well is sized on the water of a whole storm, with nothing let off for
/// what soaks away meanwhile: the longest storm stated always fills it most,
/// and one that is too short says nothing.
fn for_dry_well(context: &Context<'_>, drain: &Drain) -> Option<Finding> {
    if context.region() != Region::Us {
        return None;
    }
    let limit = context.limit(&STORM_SHORT, "dry-well")?;
    let storms = context.job.site.storms.iter();
    let lasting = storms.filter_map(|storm| Some((storm.duration_s()?, storm)));
    let (lasts, storm) = lasting.max_by(|(one, _), (other, _)| one.total_cmp(other))?;
    if limit.allows_si(lasts) {
        return None;
    }
    let shown = limit.beside_si(lasts, context.system());
    let message = format!(
        "{} is sized on a storm of {shown}: dry wells are sized on {}. State such a storm",
        drain.name.value,
        limit.shown(context.system())
    );
    Some(
        STORM_SHORT
            .finding(storm.place, message)
            .severity(Severity::Advisory)
            .found(shown, Quantity::near(lasts, Dimension::TIME))
            .against(&limit, context),
    )
}
