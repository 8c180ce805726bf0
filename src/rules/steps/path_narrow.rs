//! `path-narrow`: steps too narrow to walk with something in both hands, and
//! ways too narrow for a wheelchair.

use super::{IRC_WIDTH, length};
use crate::findings::Severity;
use crate::geometry::{Edge, narrowed};
use crate::model::{Contact, Region, Surface};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

/// How wide American ways for wheelchairs are.
const ADA_WIDTH: Source = Source::memory(
    "2010 ADA Standards for Accessible Design",
    "403.5.1 and 405.5, 36 in (915 mm) clear",
);

/// The same in England.
const APPROVED_M_WIDTH: Source = Source::memory(
    "Approved Document M, volume 1 (England, 2015)",
    "approach routes 900 mm wide at least",
);

/// The same in Australia.
const AS_WIDTH: Source = Source::memory(
    "AS 1428.1, Design for access and mobility",
    "paths of travel 1 m wide at least: read the 2021 edition",
);

/// Steps or a way too narrow for who is to use them.
pub(crate) static PATH_NARROW: Rule = Rule {
    name: "path-narrow",
    family: Family::Steps,
    severity: Severity::Advisory,
    looks_at: "The width of a flight of steps, and of an accessible surface where it is widest; what lies beside other paving goes on over it.",
    reason: "There is no room for a barrow, a pram or a helping hand, and a wheelchair leaves the edge or does not get through at all.",
    remedy: "Make the flight or the way wider.",
    limits: &[
        Limit {
            row: "plain",
            of: "the width of steps",
            bound: Bound::Least,
            general: Value {
                written: &["914 mm", "36 in"],
                source: IRC_WIDTH,
            },
            regions: &[],
        },
        Limit {
            row: "accessible",
            of: "the width of an accessible way",
            bound: Bound::Least,
            general: Value {
                written: &["914 mm", "36 in"],
                source: ADA_WIDTH,
            },
            regions: &[
                (
                    Region::Uk,
                    Value {
                        written: &["900 mm"],
                        source: APPROVED_M_WIDTH,
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["1 m"],
                        source: AS_WIDTH,
                    },
                ),
            ],
        },
    ],
    sources: &[IRC_WIDTH, ADA_WIDTH, APPROVED_M_WIDTH, AS_WIDTH],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        «700 mm»
  going        350 mm
  handrail     both sides
",
    keeps: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  handrail     both sides
",
    mended: None,
    check: Check::SurfaceAndJob(way, steps),
};

fn way(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Some(accessible), Some(limit)) = (
        surface.accessible,
        context.limit(&PATH_NARROW, "accessible"),
    ) else {
        return;
    };
    let Some(width) = widest_under(surface, limit.value.si()) else {
        return;
    };
    let shown = limit.beside_si(width, context.system());
    let message = format!(
        "{shown} is too narrow for a wheelchair: {} is the least. Make it wider",
        limit.shown(context.system())
    );
    let place = surface.shape.as_ref();
    found.add(
        PATH_NARROW
            .finding(
                place.map_or(surface.name.place, |shape| shape.place),
                message,
            )
            .severity(Severity::Warning)
            .found(shown, length(width))
            .against(&limit, context)
            .related(accessible, "accessible, as stated here"),
    );
}

/// How wide a surface is where it is widest, in metres, if that is less than
/// `least`: found by halving how far its edges may be moved in before nothing
/// is left. Over an edge against other paving it goes on.
fn widest_under(surface: &Surface, least: f64) -> Option<f64> {
    let outline = surface.outline.as_ref()?;
    let goes_on = |edge: &Edge| matches!(surface.contact(edge.tag), Some(Contact::Surface(_)));
    let is_left = |width: f64| {
        let left = narrowed(outline, 0.5 * width, &|edge| !goes_on(edge));
        left.map_or(true, |left| !left.is_empty())
    };
    if is_left(least - 1e-6) {
        return None;
    }
    let (mut under, mut over) = (0.0, least);
    for _ in 0..30 {
        let middle = 0.5 * (under + over);
        match is_left(middle) {
            true => under = middle,
            false => over = middle,
        }
    }
    Some(under)
}

fn steps(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&PATH_NARROW, "plain") else {
        return;
    };
    for own in context.job.steps.iter() {
        let Some(width) = own
            .width
            .as_ref()
            .filter(|width| !limit.allows(&width.value))
        else {
            continue;
        };
        let shown = limit.beside(&width.value, context.system());
        let message = format!(
            "{shown} is narrow for steps: {} is the least. Make them wider",
            limit.shown(context.system())
        );
        found.add(
            PATH_NARROW
                .finding(width.place, message)
                .found(shown, Some(width.value))
                .against(&limit, context),
        );
    }
}
