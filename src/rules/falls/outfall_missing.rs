//! `outfall-missing`: water that leaves a surface, or comes into a channel,
//! and goes nowhere named.

use super::fall_missing::is_exempt;
use crate::findings::Severity;
use crate::geometry::Point;
use crate::model::{Contact, Drain, DrainKind, DrainLine, Surface, Taken};
use crate::rules::documents::APPROVED_H3_ORDER;
use crate::rules::{Check, Context, Family, Found, Rule, slope};
use crate::vocabulary::Term;

/// Drained paving with no place for its water to go.
pub(crate) static OUTFALL_MISSING: Rule = Rule {
    name: "outfall-missing",
    family: Family::Falls,
    severity: Severity::Advisory,
    looks_at: "A surface that sheds water, or has a channel, and does not say where the water goes; not one that sheds it onto another surface.",
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
    if is_drained(context, surface) {
        return;
    }
    if let Some(channel) = surface.channels.first() {
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
    if !sheds || is_exempt(surface) || runs_onto_another(surface) {
        return;
    }
    let message = "nothing says where the water goes. Name it, as water to \"lawn\"";
    found.add(OUTFALL_MISSING.finding(surface.name.place, message));
}

/// Whether a drain runs along an edge of a surface or lies in it or beside it,
/// or names it among what it takes.
pub(super) fn is_drained(context: &Context<'_>, surface: &Surface) -> bool {
    let takes = |at: Point| {
        surface.contains(at) || surface.edges().any(|edge| edge.distance_to(at) <= BESIDE)
    };
    let mut drains = context.job.drains.iter();
    let is_taken = |drain: &Drain| {
        let mut what = drain.takes.iter().flat_map(|takes| &takes.what);
        what.any(|own| matches!(own, Taken::Surface(name) if name.value == surface.name.value))
    };
    drains.any(|drain| {
        is_taken(drain)
            || match drain.line.as_ref().map(|line| &line.value) {
                Some(DrainLine::At(at)) => drain.kind() == Some(DrainKind::Gully) && takes(*at),
                Some(DrainLine::Along { surface: own, .. }) => *own == surface.name.value,
                Some(DrainLine::Straight(line)) => {
                    drain.kind() != Some(DrainKind::Pipe) && takes(line.midpoint())
                }
                None => false,
            }
    })
}

/// How far outside an edge, in metres, a gully still takes what runs over it.
const BESIDE: f64 = 0.3;

/// Whether water leaves a surface over an edge that it shares with another.
fn runs_onto_another(surface: &Surface) -> bool {
    let Some(downhill) = slope::downhill(surface) else {
        return false;
    };
    surface.edges().any(|edge| {
        matches!(surface.contact(edge.tag), Some(Contact::Surface(_)))
            && slope::leaves_over(edge, downhill)
    })
}
