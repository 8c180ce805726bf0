//! `guard-missing`: a drop beside paving with nothing to stop a fall.

use super::lip::drops_to_neighbours;
use crate::findings::{Place, Severity};
use crate::model::{Region, Surface};
use crate::rules::documents::{APPROVED_K_GUARDS, IRC_GUARDS, NCC_GUARDS};
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::units::{Dimension, Quantity};

/// How deep anybody may fall from an edge that nothing guards.
pub(crate) const DROP: Limit = Limit {
    row: "plain",
    of: "a drop without a guard",
    bound: Bound::Most,
    general: Value {
        written: &["760 mm", "30 in"],
        source: IRC_GUARDS,
    },
    regions: &[
        (
            Region::Uk,
            Value {
                written: &["600 mm"],
                source: APPROVED_K_GUARDS,
            },
        ),
        (
            Region::Au,
            Value {
                written: &["1 m"],
                source: NCC_GUARDS,
            },
        ),
    ],
};

/// A drop beside paving with nothing to stop a fall.
pub(crate) static GUARD_MISSING: Rule = Rule {
    name: "guard-missing",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "How far the ground, or other paving, lies below an edge that nothing guards. State a guard with guard along.",
    reason: "A child who runs, or anyone in the dark, goes over the edge and is badly hurt.",
    remedy: "Put up a guard and state it, or bring the ground up to the edge.",
    limits: &[DROP],
    sources: &[IRC_GUARDS, APPROVED_K_GUARDS, NCC_GUARDS],
    breaks: "\
site
  ground       -1200 mm

surface court
  «level        -160 mm at north»
  build        raised

build raised
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, 150 mm compacted, lifts 2
  subbase      crushed-stone, 900 mm compacted, lifts 9
",
    keeps: "\
site
  ground       -1200 mm

surface court
  build        raised
  guard        along free

build raised
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, 150 mm compacted, lifts 2
  subbase      crushed-stone, 900 mm compacted, lifts 9
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let Some(limit) = context.limit(&GUARD_MISSING, "plain") else {
        return;
    };
    let place = level_place(surface);
    for drop in drops_to_neighbours(context, surface) {
        if limit.allows_si(drop.most) || drop.is_guarded {
            continue;
        }
        let message = format!(
            "a drop of {} from {} to {} with no guard. {} is the most. Put up a guard, or steps between",
            limit.beside_si(drop.most, context.system()),
            drop.higher,
            drop.lower,
            limit.shown(context.system())
        );
        let related = format!("{} has its level here", drop.other.name.value);
        let reported = finding(place, message, drop.most, &limit, context);
        found.add(reported.related(level_place(drop.other), related));
    }
    let Some(drop) = drop_to_ground(context, surface) else {
        return;
    };
    if limit.allows_si(drop) {
        return;
    }
    let message = format!(
        "a drop of {} to the ground with no guard. {} is the most. Put up a guard, or bring the ground up",
        limit.beside_si(drop, context.system()),
        limit.shown(context.system())
    );
    found.add(finding(place, message, drop, &limit, context));
}

fn finding(
    place: Place,
    message: String,
    drop: f64,
    limit: &InForce,
    context: &Context<'_>,
) -> crate::findings::Finding {
    GUARD_MISSING
        .finding(place, message)
        .found(
            limit.beside_si(drop, context.system()),
            Quantity::near(drop, Dimension::LENGTH),
        )
        .against(limit, context)
}

/// How far the ground lies below a free edge that nothing guards, at most, in
/// metres.
fn drop_to_ground(context: &Context<'_>, surface: &Surface) -> Option<f64> {
    let ground = context.job.site.ground.as_ref()?;
    surface
        .edges()
        .filter(|edge| surface.is_free(edge.tag) && !surface.is_guarded(edge.tag))
        .filter_map(|edge| {
            let above = surface.plane_along(edge)?.less(&ground.plane);
            Some(above.levels_along(edge).1)
        })
        .reduce(f64::max)
}

fn level_place(surface: &Surface) -> Place {
    let level = surface.levels.first();
    level.map_or(surface.name.place, |level| level.place)
}
