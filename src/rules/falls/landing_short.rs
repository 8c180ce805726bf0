//! `landing-short`: a landing with no room to stand on.

use crate::findings::Severity;
use crate::geometry::{Edge, Outline};
use crate::model::{Ending, LevelAt, Region, Surface, Use};
use crate::rules::documents::{APPROVED_K_LANDINGS, IRC_LANDING_LENGTH};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// Landings of American ramps.
const ADA_LANDINGS: Source = Source::memory(
    "2010 ADA Standards for Accessible Design",
    "405.7.3, landings 60 in (1525 mm) long",
);

/// Landings of Australian ramps.
const AS_LANDINGS: Source = Source::memory(
    "AS 1428.1 (Australia)",
    "landings of ramps and walkways 1200 mm long",
);

/// A landing with no room to stand on.
pub(crate) static LANDING_SHORT: Rule = Rule {
    name: "landing-short",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "How deep a landing is, out from the building, or where it meets none how wide it is at its narrowest; and on any surface how far a door is from the steps that lead to it.",
    reason: "There is no room to stand clear of the door, or to turn a wheelchair between two flights.",
    remedy: "Make the landing deeper.",
    limits: &[
        Limit {
            row: "plain",
            of: "the depth of a landing",
            bound: Bound::Least,
            general: Value {
                written: &["914 mm", "36 in"],
                source: IRC_LANDING_LENGTH,
            },
            regions: &[(
                Region::Uk,
                Value {
                    written: &["1200 mm"],
                    source: APPROVED_K_LANDINGS,
                },
            )],
        },
        Limit {
            row: "accessible",
            of: "the depth of an accessible landing",
            bound: Bound::Least,
            general: Value {
                written: &["1524 mm", "60 in"],
                source: ADA_LANDINGS,
            },
            regions: &[
                (
                    Region::Uk,
                    Value {
                        written: &["1200 mm"],
                        source: APPROVED_K_LANDINGS,
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["1200 mm"],
                        source: AS_LANDINGS,
                    },
                ),
            ],
        },
        Limit {
            row: "door",
            of: "a door from the steps before it",
            bound: Bound::Least,
            general: Value {
                written: &["914 mm", "36 in"],
                source: IRC_LANDING_LENGTH,
            },
            regions: &[],
        },
    ],
    sources: &[
        IRC_LANDING_LENGTH,
        APPROVED_K_LANDINGS,
        ADA_LANDINGS,
        AS_LANDINGS,
    ],
    breaks: "\
shape court
  rectangle    2 m by 800 mm

surface court
  «for          landing»
",
    keeps: "\
shape court
  rectangle    2 m by 1200 mm

surface court
  for          landing
",
    mended: None,
    check: Check::SurfaceAndJob(check, doors_above_steps),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Use::Landing, Some(outline), Some(place)) = (
        surface.used_for,
        surface.outline.as_ref(),
        surface.used_for_place,
    ) else {
        return;
    };
    let row = match surface.accessible {
        Some(_) => "accessible",
        None => "plain",
    };
    let (Some(depth), Some(limit)) = (
        depth_m(surface, outline),
        context.limit(&LANDING_SHORT, row),
    ) else {
        return;
    };
    if limit.allows_si(depth) {
        return;
    }
    let shown = limit.beside_si(depth, context.system());
    let message = format!(
        "the landing is {shown} deep: no room to stand clear of the door. {} is the least",
        limit.shown(context.system())
    );
    found.add(
        LANDING_SHORT
            .finding(place, message)
            .found(shown, Quantity::near(depth, Dimension::LENGTH))
            .against(&limit, context),
    );
}

/// Doors that open over a flight of steps, or straight onto one.
fn doors_above_steps(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&LANDING_SHORT, "door") else {
        return;
    };
    let (job, figures) = (context.job, context.figures);
    for (own, figures) in job.steps.iter().zip(figures.steps.iter()) {
        let Some(flight) = &figures.flight else {
            continue;
        };
        let half = flight.climbing.left() * (0.5 * flight.width_m);
        let foot = flight.at + flight.climbing * -flight.run_m;
        for (ending, middle) in [(&own.to, flight.at), (&own.from, foot)] {
            let Some(Ending::Surface(name)) = ending.as_ref().map(|ending| &ending.value) else {
                continue;
            };
            let mut surfaces = job.surfaces.iter();
            let Some(surface) = surfaces.find(|surface| surface.name.value == *name) else {
                continue;
            };
            let riser = Edge::line(middle + half, middle + -half, 0);
            for door in surface
                .doors
                .iter()
                .filter(|_| surface.used_for != Use::Landing)
            {
                let LevelAt::Point(at) = door.at else {
                    continue;
                };
                let depth = riser.distance_to(at);
                if limit.allows_si(depth) {
                    continue;
                }
                let shown = limit.beside_si(depth, context.system());
                let message = format!(
                    "the steps begin {shown} from the door: no room to stand clear of it. {} is the least",
                    limit.shown(context.system())
                );
                found.add(
                    LANDING_SHORT
                        .finding(door.place, message)
                        .found(shown, Quantity::near(depth, Dimension::LENGTH))
                        .against(&limit, context)
                        .related(own.place, "the steps"),
                );
            }
        }
    }
}

/// How far a landing reaches out from the building; where it meets none, the
/// least width of any of its sides.
fn depth_m(surface: &Surface, outline: &Outline) -> Option<f64> {
    let across = |edge: &Edge| outline.extent(slope::inward(edge));
    let from_building = slope::building_edges(surface).map(across).reduce(f64::min);
    from_building.or_else(|| outline.edges().map(across).reduce(f64::min))
}
