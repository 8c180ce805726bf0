//! `tread-steep`: treads that tip people forward.

use super::flights;
use crate::findings::Severity;
use crate::model::Region;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};
use crate::sources::Source;

/// The slope of American treads.
const IRC_TREAD_SLOPE: Source = Source::memory(
    "International Residential Code (check the edition in force)",
    "R311.7.7, treads and landings no steeper than 1:48",
);

/// Treads that tip people forward.
pub(crate) static TREAD_STEEP: Rule = Rule {
    name: "tread-steep",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "The fall of the treads to their front.",
    reason: "A tread that falls forward throws people down the flight, first of all in the wet.",
    remedy: "Ease the treads: 1:60 (1/4 in per ft) sheds the water.",
    limits: &[Limit {
        row: "plain",
        of: "the fall of a tread to its front",
        bound: Bound::Most,
        general: Value::practice(&["1:40"]),
        regions: &[(
            Region::Us,
            Value {
                written: &["1:48"],
                source: IRC_TREAD_SLOPE,
            },
        )],
    }],
    sources: &[IRC_TREAD_SLOPE, Source::COMMON_PRACTICE],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  tread        sandstone, 40 mm, nosing 20 mm, in 3 pieces
  fall         «1:20»
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
  tread        sandstone, 40 mm, nosing 20 mm, in 3 pieces
  fall         1:60
  core         slab-mix, to foot
  handrail     both sides
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&TREAD_STEEP, "plain") else {
        return;
    };
    for (own, _) in flights(context) {
        let fall = own.fall.as_ref();
        let Some(fall) = fall.filter(|fall| !limit.allows_si(fall.value.si())) else {
            continue;
        };
        let shown = slope::beside(&limit, fall.value.si(), context);
        let message = format!(
            "treads too steep to stand on: {shown}. {} is the most. Ease them",
            limit.shown(context.system())
        );
        found.add(
            TREAD_STEEP
                .finding(fall.place, message)
                .found(shown, Some(fall.value))
                .against(&limit, context),
        );
    }
}
