//! `tread-flat`: treads that hold water.

use super::treads;
use crate::findings::{Fix, Severity};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, slope};
use crate::sources::Source;
use crate::vocabulary::entry;

/// Treads that hold water.
pub(crate) static TREAD_FLAT: Rule = Rule {
    name: "tread-flat",
    family: Family::Steps,
    severity: Severity::Advisory,
    looks_at: "The fall of the treads to their front, stated or left out.",
    reason: "Water stands on a level tread, soaks its bed and freezes where people put their feet.",
    remedy: "Lay each tread to a fall of 1:60 (1/4 in per ft) to its front.",
    limits: &[Limit::practice(
        "plain",
        "the fall of a tread to its front",
        Bound::Least,
        &["1:100"],
    )],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  «tread        sandstone, 40 mm, nosing 20 mm, in 3 pieces»
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
    mended: Some(
        "\
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
    ),
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&TREAD_FLAT, "plain") else {
        return;
    };
    for (own, tread) in treads(context) {
        let fall = own.fall.as_ref();
        let is_unclear = fall.is_none() && context.is_misread(own.section);
        let slope = fall.map_or(0.0, |fall| fall.value.si());
        if limit.allows_si(slope) || is_unclear {
            continue;
        }
        let least = limit.shown(context.system());
        found.add(match fall {
            Some(fall) => {
                let shown = slope::beside(&limit, slope, context);
                let message = format!(
                    "the treads hardly fall: {shown}. {least} is the least. Steepen them to their front"
                );
                TREAD_FLAT
                    .finding(fall.place, message)
                    .found(shown, slope::as_quantity(slope))
                    .against(&limit, context)
            }
            None => {
                let message = format!(
                    "the treads lie level and hold water: state their fall to the front, {least} at least"
                );
                TREAD_FLAT
                    .finding(tread.place, message)
                    .against(&limit, context)
                    .fix(Fix::judged(
                        "State a fall of 1:60",
                        tread.place.end(),
                        format!("\n  {}", entry("fall", "1:60")),
                    ))
            }
        });
    }
}
