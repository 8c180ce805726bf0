//! `dig-deep`: a dig that nobody gets out of, or that falls in.

use super::documents::{TRENCH_EXIT, TRENCH_PROTECTION};
use crate::findings::{Place, Severity};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::units::{Dimension, Quantity};

/// A dig that nobody gets out of, or that falls in.
pub(crate) static DIG_DEEP: Rule = Rule {
    name: "dig-deep",
    family: Family::Work,
    severity: Severity::Error,
    looks_at: "How deep a dig and the trench of a drain are where they are deepest, in a job that plans its work.",
    reason: "The sides of a deep dig fall in without warning, and a cubic metre of soil weighs as much as a car.",
    remedy: "Batter the sides back or shore them, put in a ladder, keep spoil well back, and have a competent person look at it each day. Local rules on excavations come first.",
    limits: &[
        Limit {
            row: "exit",
            of: "a dig with no ladder or ramp out of it",
            bound: Bound::Most,
            general: Value {
                written: &["1.2 m", "4 ft"],
                source: TRENCH_EXIT,
            },
            regions: &[],
        },
        Limit {
            row: "protection",
            of: "a dig whose sides are not protected",
            bound: Bound::Most,
            general: Value {
                written: &["1.5 m", "5 ft"],
                source: TRENCH_PROTECTION,
            },
            regions: &[],
        },
    ],
    sources: &[TRENCH_EXIT, TRENCH_PROTECTION],
    breaks: "site
  ground       «1400 mm»

work
  crew         2
",
    keeps: "site
  ground       -200 mm

work
  crew         2
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    if context.job.work.is_none() {
        return;
    }
    for (surface, own) in context
        .job
        .surfaces
        .iter()
        .zip(context.figures.surfaces.iter())
    {
        if let Some(dig) = own.dig.as_ref() {
            let ground = context.job.site.ground.as_ref();
            let level = ground.and_then(|ground| ground.levels.first());
            let place = level.map_or(surface.place, |level| level.place);
            deep(context, (&surface.name.value, place), dig.deepest_m, found);
        }
    }
    for (drain, own) in context.job.drains.iter().zip(context.figures.drains.iter()) {
        if let Some(dig) = own.dig.as_ref() {
            let place = drain.name.place;
            deep(context, (&drain.name.value, place), dig.deepest_m, found);
        }
    }
}

fn deep(context: &Context<'_>, (name, place): (&str, Place), depth_m: f64, found: &mut Found) {
    let rows = [
        ("protection", "the sides must be shored or battered back"),
        ("exit", "put in a ladder or a ramp to get out by"),
    ];
    let broken = rows.into_iter().find_map(|(row, wants)| {
        let limit = context.limit(&DIG_DEEP, row)?;
        (!limit.allows_si(depth_m)).then_some((limit, wants))
    });
    let Some((limit, wants)) = broken else { return };
    let shown = limit.beside_si(depth_m, context.system());
    let message = format!(
        "the dig for {name} is {shown} deep; from {} on {wants}",
        limit.shown(context.system())
    );
    found.add(
        DIG_DEEP
            .finding(place, message)
            .found(shown, Quantity::near(depth_m, Dimension::LENGTH))
            .against(&limit, context),
    );
}
