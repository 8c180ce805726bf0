//! `front-garden`: more impermeable paving in front than may be laid unasked.

use std::sync::Arc;

use super::fall_missing::is_exempt;
use crate::findings::Severity;
use crate::model::{Drain, Job, Outfall, Region, Surface};
use crate::rules::documents::{FRONT_GARDENS, FRONT_GARDENS_ELSEWHERE};
use crate::rules::wording::has_word;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::units::{Dimension, Quantity};

/// Impermeable paving in front of a building that drains to the street.
pub(crate) static FRONT_GARDEN: Rule = Rule {
    name: "front-garden",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "In the UK, the hard surfaces in front of the building that drain to the street, the footway, a sewer or nowhere named: their areas together.",
    reason: "Front gardens paved over flood the sewers: more needs planning permission in England since 2008 and in Wales since 2013; in Scotland paving of any size does.",
    remedy: "Pave permeably, send the water to a bed or a soakaway and say so, or apply for permission. Ask the local authority.",
    limits: &[Limit {
        row: "plain",
        of: "impermeable paving in front, all surfaces together",
        bound: Bound::Most,
        general: Value {
            written: &["5 m2"],
            source: FRONT_GARDENS,
        },
        regions: &[],
    }],
    sources: &[FRONT_GARDENS, FRONT_GARDENS_ELSEWHERE],
    breaks: "\
job \"Example court\"
  region       uk

surface court
  for          foot, «front»
  water        to \"street gutter\"
",
    keeps: "\
job \"Example court\"
  region       uk

surface court
  for          foot, front
  water        to \"broad border\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    if context.region() != Region::Uk {
        return;
    }
    let in_front: Vec<&Surface> = context
        .job
        .surfaces
        .iter()
        .map(Arc::as_ref)
        .filter(|surface: &&Surface| {
            let is_built = surface.build.as_ref();
            let is_clear =
                !surface.is_build_lost() && is_built.is_none_or(|build| !build.value.has_lost_line);
            surface.front.is_some() && is_clear && drains_to_street(context.job, surface)
        })
        .collect();
    let area: f64 = in_front
        .iter()
        .filter_map(|surface| surface.area_m2())
        .sum();
    let first = in_front.iter().find_map(|surface| surface.front);
    let (Some(place), Some(limit)) = (first, context.limit(&FRONT_GARDEN, "plain")) else {
        return;
    };
    if limit.allows_si(area) {
        return;
    }
    let shown = limit.beside_si(area, context.system());
    let piped = in_front
        .iter()
        .find_map(|surface| sewer(context.job, surface));
    let to = match piped {
        Some(last) => format!("{}, most likely a sewer's", last.name.value),
        None => "the street".to_owned(),
    };
    let message = format!(
        "{shown} of hard paving in front drains to {to}: over {} needs permission, in Scotland any. Send it to a bed, or pave permeably",
        limit.shown(context.system())
    );
    let mut finding = FRONT_GARDEN
        .finding(place, message)
        .found(shown, Quantity::near(area, Dimension::AREA))
        .against(&limit, context);
    for other in in_front.iter().filter_map(|surface| surface.front).skip(1) {
        finding = finding.related(other, "in front as well");
    }
    found.add(finding);
}

/// Whether a surface's water goes to the street, a sewer or nowhere named, by
/// whatever drains; a drain that is there already is taken for the sewer's.
fn drains_to_street(job: &Job, surface: &Surface) -> bool {
    let is_street = |text: &str| has_word(text, STREET) && !has_word(text, ON_SITE);
    let goes_there = match &surface.water {
        Some(water) => match job.outfall(&water.value) {
            Some(Outfall::Text(text)) => is_street(text),
            Some(Outfall::Drain(last)) => last.existing.is_some(),
            Some(Outfall::Circle) | None => false,
        },
        None => !surface.has_lost_line && surface.entry("water").is_none(),
    };
    !is_exempt(surface) && goes_there
}

/// The drain that is there already to which a surface's water comes in the end.
fn sewer<'a>(job: &'a Job, surface: &'a Surface) -> Option<&'a Drain> {
    match job.outfall(&surface.water.as_ref()?.value)? {
        Outfall::Drain(last) if last.existing.is_some() => Some(last),
        _ => None,
    }
}

/// Words that tell of water that stays on the site, by whatever way.
const ON_SITE: &[&str] = &[
    "bed", "beds", "border", "borders", "lawn", "soakaway", "swale", "garden", "planting",
    "planted", "planter", "planters", "strip", "tree", "trees", "shrubs",
];

/// Words that tell of the street and its drains.
const STREET: &[&str] = &[
    "street", "road", "roadway", "lane", "highway", "pavement", "footway", "footpath", "gutter",
    "sewer", "drain", "drains", "gully", "gullies",
];
