//! `outfall-missing`: water that leaves a surface, or comes into a channel,
//! and goes nowhere named.

use super::fall_missing::is_exempt;
use crate::findings::Severity;
use crate::geometry::Point;
use crate::model::{Contact, Drain, DrainKind, DrainLine, Surface, Taken};
use crate::quantities::{End, Fate};
use crate::rules::documents::APPROVED_H3_ORDER;
use crate::rules::{Check, Context, Family, Found, Rule, slope};
use crate::units::show;
use crate::vocabulary::Term;

/// Drained paving with no place for its water to go.
pub(crate) static OUTFALL_MISSING: Rule = Rule {
    name: "outfall-missing",
    family: Family::Falls,
    severity: Severity::Advisory,
    looks_at: "A surface that sheds water, or has a channel, and does not say where the water goes; not what runs onto another surface or into a drain.",
    reason: "Water sent nowhere in particular ends up next door, in the street or back at the house; a channel with no outlet just fills.",
    remedy: "Say where it goes with water to: a bed, a lawn, a soakaway, a drain.",
    limits: &[],
    sources: &[APPROVED_H3_ORDER],
    breaks: "\
surface «court»
  # no water
",
    keeps: "\
surface court
  water        to \"lawn\"
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if surface.water.is_some()
        || surface.entry("water").is_some()
        || context.is_misread(surface.section)
        || surface.outline.is_none()
        || (surface.build.as_ref()).is_some_and(|build| build.value.has_lost_line)
    {
        return;
    }
    // A drain along an edge says itself where its water goes.
    if is_led(context, surface) {
        return;
    }
    let is_drained = is_drained(context, surface);
    if let Some(channel) = surface.channels.first().filter(|_| !is_drained) {
        let message = format!(
            "the {} has no outlet: it will fill and overflow. Say where it drains, as water to \"{}\"",
            context.word(Term::Channel),
            context.word(Term::Soakaway)
        );
        found.add(
            OUTFALL_MISSING
                .finding(channel.place, message)
                .severity(Severity::Warning),
        );
        return;
    }
    let sheds =
        slope::downhill(surface).is_some_and(|downhill| downhill.length() > slope::SAME_SLOPE);
    if !sheds || is_exempt(surface) {
        return;
    }
    let message = match is_drained || comes_to_another(surface) {
        false => "nothing says where the water goes. Name it, as water to \"lawn\"".to_owned(),
        // A drain takes what comes to it, and a neighbour what runs onto it:
        // what passes both by still goes somewhere.
        true => match running_off(context, surface) {
            Some((area_m2, edge)) => format!(
                "the water of {} runs off {edge}, and nothing says where it goes. Name it, as water to \"lawn\"",
                show::area(area_m2, context.system())
            ),
            None => return,
        },
    };
    found.add(OUTFALL_MISSING.finding(surface.name.place, message));
}

/// Whether a drain runs along an edge of a surface, or names it among what it
/// takes.
fn is_led(context: &Context<'_>, surface: &Surface) -> bool {
    let is_taken = |drain: &Drain| {
        let mut what = drain.takes.iter().flat_map(|takes| &takes.what);
        what.any(|own| matches!(own, Taken::Surface(name) if name.value == surface.name.value))
    };
    let is_along = |drain: &Drain| {
        let line = drain.line.as_ref().map(|line| &line.value);
        matches!(line, Some(DrainLine::Along { surface: own, .. }) if *own == surface.name.value)
    };
    let mut drains = context.job.drains.iter();
    drains.any(|drain| is_taken(drain) || is_along(drain))
}

/// Whether a drain runs along an edge of a surface or lies in it or beside it,
/// or names it among what it takes.
pub(super) fn is_drained(context: &Context<'_>, surface: &Surface) -> bool {
    let takes = |at: Point| {
        surface.contains(at) || surface.edges().any(|edge| edge.distance_to(at) <= BESIDE)
    };
    let mut drains = context.job.drains.iter();
    let is_near = |drain: &Drain| match drain.line.as_ref().map(|line| &line.value) {
        Some(DrainLine::At(at)) => drain.kind() == Some(DrainKind::Gully) && takes(*at),
        Some(DrainLine::Straight(line)) => {
            drain.kind() != Some(DrainKind::Pipe) && takes(line.midpoint())
        }
        Some(DrainLine::Along { .. }) | None => false,
    };
    is_led(context, surface) || drains.any(|drain| is_near(drain))
}

/// How far outside an edge, in metres, a gully still takes what runs over it.
const BESIDE: f64 = 0.3;

/// Whether water comes to an edge that a surface shares with another.
fn comes_to_another(surface: &Surface) -> bool {
    let Some(downhill) = slope::downhill(surface) else {
        return false;
    };
    surface.edges().any(|edge| {
        matches!(surface.contact(edge.tag), Some(Contact::Surface(_)))
            && slope::leaves_over(edge, downhill)
    })
}

/// What may run off an edge beside a drain without a word of where it goes, as
/// a share of the surface: a corner that sheds so little wets no more ground
/// than the rain does.
const LITTLE: f64 = 0.1;

/// The area whose water runs off a surface, along a valley or an edge that
/// holds it too, in m², and the edge that most of it runs off. `None` where it
/// is little, where some runs onto another surface, and where it is not known.
fn running_off(context: &Context<'_>, surface: &Surface) -> Option<(f64, String)> {
    // A drain that could not be made out may take it.
    if context.job.drains.iter().any(|drain| drain.is_unread) {
        return None;
    }
    let water = context.water();
    let ways = water.surfaces.get(surface.index)?.ways.as_ref()?;
    let mut off: Vec<(String, f64)> = Vec::new();
    for way in ways {
        let edge = match (way.fate, way.end) {
            (Fate::Onto(_) | Fate::Unknown(_), _) | (_, Some(End::Unknown)) => return None,
            (Fate::Off, _) => way.edge.map(|edge| surface.edge_name(edge)),
            (
                _,
                Some(End::Off {
                    surface: over,
                    side,
                    ..
                }),
            ) => {
                // Where it runs off another that says where to, it is said.
                let over = context
                    .beside(over)
                    .filter(|own| own.entry("water").is_none());
                over.and_then(|own| Some(own.edge_name(own.sides.get(side as usize)?.edge)))
            }
            _ => None,
        };
        let Some(edge) = edge else { continue };
        match off.iter_mut().find(|(name, _)| *name == edge) {
            Some((_, area)) => *area += way.area_m2,
            None => off.push((edge, way.area_m2)),
        }
    }
    let all: f64 = off.iter().map(|(_, area)| area).sum();
    let (edge, _) = off
        .into_iter()
        .max_by(|one, other| one.1.total_cmp(&other.1))?;
    (all > LITTLE * surface.area_m2()?).then_some((all, edge))
}
