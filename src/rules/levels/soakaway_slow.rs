//! `soakaway-slow`: water led into ground that does not take it.

use super::soak_near::soakaways;
use crate::findings::{Finding, Place, Severity};
use crate::model::{Drain, Region, SoilCondition};
use crate::quantities::SoakingGap;
use crate::rules::documents::{COUNTY_SOAKAGE, US_DRY_WELLS_SOIL};
use crate::rules::drains::{is_collector, passes_through};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::{Role, Term};

const DIGEST_365: Source = Source::second_hand(
    "BRE Digest 365, by engineers' calculation sheets",
    "half empty within 24 h",
);
const US_DRY_WELLS_EMPTY: Source =
    Source::read("US county guide to dry wells (2010)", "empties in 48 h");

/// Water led into ground that does not take it.
pub(crate) static SOAKAWAY_SLOW: Rule = Rule {
    name: "soakaway-slow",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "A soakaway, and permeable paving without a membrane, against how fast the ground takes water; where that is not stated, on clay or wet ground; and how long what a soakaway has to hold takes to leave.",
    reason: "In slow ground it is still full when the next storm comes, and backs up to the house.",
    remedy: "Test how fast the ground takes water and state it with infiltration; in slow ground line the paving and drain it, and send the water elsewhere.",
    limits: &[
        Limit {
            row: "emptying",
            of: "the time until what a soakaway has to hold is half gone, in America all of it",
            bound: Bound::Most,
            general: Value {
                written: &["24 h"],
                source: DIGEST_365,
            },
            regions: &[
                (
                    Region::Uk,
                    Value {
                        written: &["24 h"],
                        source: DIGEST_365,
                    },
                ),
                (
                    Region::Us,
                    Value {
                        written: &["48 h"],
                        source: US_DRY_WELLS_EMPTY,
                    },
                ),
            ],
        },
        Limit {
            row: "plain",
            of: "how fast the ground takes water",
            bound: Bound::Least,
            general: Value {
                written: &["3.6 mm/h"],
                source: COUNTY_SOAKAGE,
            },
            regions: &[
                (
                    Region::Us,
                    Value {
                        written: &["0.27 in/h"],
                        source: US_DRY_WELLS_SOIL,
                    },
                ),
                (
                    Region::Uk,
                    Value {
                        written: &["3.6 mm/h"],
                        source: COUNTY_SOAKAGE,
                    },
                ),
            ],
        },
    ],
    sources: &[COUNTY_SOAKAGE, US_DRY_WELLS_SOIL],
    breaks: "\
site
  infiltration 2 mm/h
  soakaway     «(3 m, -9 m)»
",
    keeps: "\
site
  infiltration 20 mm/h
  soakaway     (3 m, -9 m)
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let soakaways = soakaways(context.job).into_iter();
    let pit = format!("the {}", context.word(Term::Soakaway));
    let soakaways = soakaways.map(|soakaway| (pit.as_str(), soakaway.place));
    let mut all: Vec<(&str, Place)> = soakaways.collect();
    for surface in context.job.surfaces.iter() {
        let build = surface.build.as_ref().map(|build| &build.value);
        let Some((build, permeable)) = build.and_then(|build| Some((build, build.permeable?)))
        else {
            continue;
        };
        if build.layer(Role::Membrane).is_some() || build.has_lost_line {
            continue;
        }
        // What the ground does not take, a drain in the base does.
        let led = surface
            .water
            .as_ref()
            .is_some_and(|water| water.value.drain().is_some());
        let drains = context.job.drains.iter();
        let mut within = drains.filter(|drain| is_collector(context, drain));
        if led || within.any(|drain| passes_through(drain, surface)) {
            continue;
        }
        let place = context.at(surface, permeable);
        if !all.iter().any(|(_, known)| *known == place) {
            all.push(("permeable paving", place));
        }
    }
    for (what, place) in all {
        found.findings.extend(slow(context, what, place));
    }
    emptying(context, found);
}

/// The soakaways whose water takes too long to leave, in ground that is not
/// told of already.
fn emptying(context: &Context<'_>, found: &mut Found) {
    let (Some(water), Some(limit)) = (
        &context.figures.water,
        context.limit(&SOAKAWAY_SLOW, "emptying"),
    ) else {
        return;
    };
    for (drain, comes) in context.job.drains.iter().zip(&water.drains) {
        let Some(soaking) = &comes.soaking else {
            continue;
        };
        if soaking.unknown == Some(SoakingGap::Infiltration)
            && context.job.site.infiltration.is_none()
        {
            found.findings.extend(untested(context, drain, found));
            continue;
        }
        let Some(seconds) = soaking.empties_need_s.filter(|own| !limit.allows_si(*own)) else {
            continue;
        };
        let Some(line) = &drain.line else { continue };
        if found.findings.iter().any(|known| known.place == line.place) {
            continue;
        }
        let shown = limit.beside_si(seconds, context.system());
        let gone = if soaking.is_whole {
            "gone"
        } else {
            "half gone"
        };
        let message = format!(
            "{} is slow: what it has to hold is {gone} only after {shown}, and {} is the most. Make its sides longer, or lead less water to it",
            drain.name.value,
            limit.shown(context.system())
        );
        found.add(
            SOAKAWAY_SLOW
                .finding(line.place, message)
                .found(shown, Quantity::near(seconds, Dimension::TIME))
                .against(&limit, context),
        );
    }
}

/// A soakaway in ground that nobody has tested, where that is not told of
/// already.
fn untested(context: &Context<'_>, drain: &Drain, found: &Found) -> Option<Finding> {
    let line = drain.line.as_ref()?;
    let is_told = found.findings.iter().any(|known| known.place == line.place);
    if is_told || context.is_misread_at(context.job.site.place) {
        return None;
    }
    let message = format!(
        "what {} has to hold is not known: test how fast the ground takes water, and state what it gives, as infiltration",
        drain.name.value
    );
    let finding = SOAKAWAY_SLOW.finding(line.place, message);
    Some(finding.severity(Severity::Advisory))
}

/// What is wrong with the ground for water that is led into it.
fn slow(context: &Context<'_>, what: &str, place: Place) -> Option<Finding> {
    let site = &context.job.site;
    if let Some(stated) = &site.infiltration {
        let limit = context.limit(&SOAKAWAY_SLOW, "plain")?;
        if limit.allows_si(stated.value.si()) {
            return None;
        }
        let shown = limit.beside(&stated.value, context.system());
        let message = format!(
            "{what} will not empty: the ground takes only {shown}. {} is the least. Send the water elsewhere",
            limit.shown(context.system())
        );
        return Some(
            SOAKAWAY_SLOW
                .finding(place, message)
                .found(shown, Some(stated.value))
                .against(&limit, context)
                .related(
                    stated.place,
                    "how fast the ground takes water, as stated here",
                ),
        );
    }
    let soil = site.soil.as_ref()?;
    let is_clay = soil.value.word == "clay";
    let wet = site.is(SoilCondition::Wet);
    // Firm clay may yet do, if it is tested.
    let (ground, severity) = match (wet, is_clay) {
        (Some(_), true) => ("wet clay", Severity::Warning),
        (Some(_), false) => ("wet ground", Severity::Warning),
        (None, true) => ("clay", Severity::Advisory),
        _ => return None,
    };
    let message = match severity {
        Severity::Advisory => format!(
            "{what} in {ground} may not empty. Test how fast the ground takes water, and state what it gives, as infiltration"
        ),
        _ => format!(
            "{what} in {ground} will not empty. Test how fast the ground takes water, and state what it gives, as infiltration"
        ),
    };
    Some(
        SOAKAWAY_SLOW
            .finding(place, message)
            .severity(severity)
            .related(soil.place, "the soil, as stated here"),
    )
}
