//! `front-garden`: more impermeable paving in front than may be laid unasked.

use std::sync::Arc;

use super::fall_missing::is_exempt;
use crate::findings::Severity;
use crate::model::{Region, Surface};
use crate::rules::documents::FRONT_GARDENS;
use crate::rules::wording::limit_in_words;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::units::{Dimension, Quantity, show};

/// Impermeable paving in front of a building that drains to the street.
pub static FRONT_GARDEN: Rule = Rule {
    name: "front-garden",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "In the United Kingdom, the impermeable surfaces in front of the building that drain to the street, to a sewer or to nowhere named: their areas together.",
    reason: "In England more of it needs planning permission since 2008, because so many front gardens paved over flood the sewers.",
    remedy: "Pave permeably, lead the water to a bed or a soakaway and say so, or ask for permission.",
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
    sources: &[FRONT_GARDENS],
    breaks: "\
job \"Example court\"
  units        metric
  region       uk
  currency     GBP

surface court
  shape        court
  for          foot, «front»
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"street gutter\"
",
    keeps: "\
job \"Example court\"
  units        metric
  region       uk
  currency     GBP

surface court
  shape        court
  for          foot, front
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
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
        .filter(|surface: &&Surface| surface.front.is_some() && drains_to_street(surface))
        .collect();
    let area: f64 = in_front
        .iter()
        .filter_map(|surface| Some(surface.outline.as_ref()?.area()))
        .sum();
    let first = in_front.iter().find_map(|surface| surface.front);
    let (Some(place), Some(limit)) = (first, context.limit(&FRONT_GARDEN, "plain")) else {
        return;
    };
    if limit.allows_si(area) {
        return;
    }
    let shown = show::area(area, context.system());
    let message = format!(
        "{shown} of paving in front sends its water to the street or nowhere named; without permission that may be {}: lead it to a bed, or pave permeably",
        limit_in_words(&limit, context)
    );
    let mut finding = FRONT_GARDEN
        .finding(place, message)
        .found(shown, Quantity::near(area, Dimension::AREA))
        .against(&limit, context);
    for other in in_front.iter().filter_map(|surface| surface.front).skip(1) {
        finding = finding.related(other, "this lies in front as well");
    }
    found.add(finding);
}

/// Whether a surface's water goes to the street, a sewer or nowhere named.
fn drains_to_street(surface: &Surface) -> bool {
    let is_street = |text: &str| {
        let lower = text.to_lowercase();
        STREET.iter().any(|word| lower.contains(word))
    };
    !is_exempt(surface)
        && surface
            .water
            .as_ref()
            .is_none_or(|water| is_street(&water.value))
}

/// Words that tell of the street and its drains.
const STREET: &[&str] = &[
    "street", "road", "highway", "pavement", "gutter", "sewer", "drain", "gully",
];
