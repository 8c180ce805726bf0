//! `nosing-long`: nosings that catch the toe, or break off.

use super::flights;
use crate::findings::Severity;
use crate::model::Region;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

/// American steps that everybody can climb.
const ADA_NOSINGS: Source = Source::memory(
    "ADA Standards, 504.5 Nosings (check the edition in force)",
    "nosings stand out 1 1/2 in at most",
);

/// American stairs of houses.
const IRC_NOSINGS: Source = Source::memory(
    "International Residential Code (check the edition in force)",
    "R311.7.5.3, nosings of 3/4 to 1 1/4 in",
);

/// Nosings that catch the toe, or break off.
pub(crate) static NOSING_LONG: Rule = Rule {
    name: "nosing-long",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "How far the treads stand out over the risers under them.",
    reason: "A long nosing catches the toe on the way up, and stone snaps where nothing bears it.",
    remedy: "Set the treads further back.",
    limits: &[Limit {
        row: "plain",
        of: "a nosing",
        bound: Bound::Most,
        general: Value {
            written: &["38 mm", "1 1/2 in"],
            source: ADA_NOSINGS,
        },
        regions: &[(
            Region::Us,
            Value {
                written: &["32 mm", "1 1/4 in"],
                source: IRC_NOSINGS,
            },
        )],
    }],
    sources: &[ADA_NOSINGS, IRC_NOSINGS],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  tread        sandstone, 40 mm, nosing «60 mm», in 3 pieces
  fall         1:60
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
    let Some(limit) = context.limit(&NOSING_LONG, "plain") else {
        return;
    };
    for (own, _) in flights(context) {
        let nosing = own.tread.as_ref().and_then(|tread| tread.nosing.as_ref());
        let Some(nosing) = nosing.filter(|nosing| !limit.allows(&nosing.value)) else {
            continue;
        };
        let shown = limit.beside(&nosing.value, context.system());
        let message = format!(
            "a nosing of {shown} catches the toe and snaps; {} is the most. Set the treads further back",
            limit.shown(context.system())
        );
        found.add(
            NOSING_LONG
                .finding(nosing.place, message)
                .found(shown, Some(nosing.value))
                .against(&limit, context),
        );
    }
}
