//! `care-trench`: a trench or pit deep enough to bury somebody.

use super::caution::{HARMLESS, say};
use crate::findings::Severity;
use crate::model::Region;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

/// American rules for trenches.
const OSHA_TRENCHES: Source = Source::memory(
    "OSHA 29 CFR 1926.651 and 652",
    "a ladder from 4 ft, protection from 5 ft, unless the rock is solid",
);

/// A trench or pit deep enough to bury somebody.
pub(crate) static CARE_TRENCH: Rule = Rule {
    name: "care-trench",
    family: Family::Cautions,
    severity: Severity::Advisory,
    looks_at: "How deep the digs for drains and steps are below the ground or the paving.",
    reason: "The side of a trench gives way without warning, and whoever is buried to the chest rarely lives.",
    remedy: "Shore it or cut its sides back before anybody goes in, keep the spoil away from its edge, and never work in it alone.",
    limits: &[Limit {
        row: "plain",
        of: "the depth of a trench that people go into as it is",
        bound: Bound::Most,
        general: Value::practice(&["1.2 m", "4 ft"]),
        regions: &[(
            Region::Us,
            Value {
                written: &["4 ft"],
                source: OSHA_TRENCHES,
            },
        )],
    }],
    sources: &[OSHA_TRENCHES, Source::COMMON_PRACTICE],
    breaks: "\
job «\"Example court\"»
  units        metric

drain rear-soak
  soakaway     1 m by 1 m by 1.2 m, centre (3 m, -6 m)
  invert       -900 mm
  filled       crate, voids 95 %
  wrapped      geotextile
",
    keeps: HARMLESS,
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let drains = context.figures.drains.iter();
    let drains = drains.filter_map(|own| Some((own.dig?.below_top_m, &own.name)));
    let steps = context.figures.steps.iter();
    let steps = steps.filter_map(|own| Some((own.dig?.deepest_m, &own.name)));
    let deepest = drains
        .chain(steps)
        .max_by(|one, other| one.0.total_cmp(&other.0));
    let (Some((deep, name)), Some(limit)) = (deepest, context.limit(&CARE_TRENCH, "plain")) else {
        return;
    };
    if limit.allows_si(deep) {
        return;
    }
    let message = format!(
        "the dig for {name} is {} deep: shore it or cut its sides back before anybody goes in, and never work in it alone",
        context.show_length(deep)
    );
    say(&CARE_TRENCH, &message, context, found);
}
