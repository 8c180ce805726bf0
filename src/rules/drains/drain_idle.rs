//! `drain-idle`: a channel to which no water runs.

use super::readable;
use crate::findings::Severity;
use crate::model::{Contact, Drain, DrainBody, DrainLine, Job, Surface};
use crate::quantities::DrainWater;
use crate::rules::{Check, Context, Family, Found, Rule, slope};
use crate::sources::Source;
use crate::vocabulary::Term;

/// A channel to which no water runs.
pub(crate) static DRAIN_IDLE: Rule = Rule {
    name: "drain-idle",
    family: Family::Drains,
    severity: Severity::Advisory,
    looks_at: "A channel along edges from which the surface falls away, that takes nothing else; not one at a door. Where a storm is stated, any channel or gully to which no water comes.",
    reason: "A channel that no water reaches costs as much as any other, and the water still stands elsewhere.",
    remedy: "Put it along the low edge, turn the fall, or say with takes what else drains into it.",
    limits: &[],
    sources: &[Source::computed("which way the surface falls")],
    breaks: "\
drain wall-channel
  channel      polymer-channel, 100 mm by 80 mm clear, «along court.north»
  to           \"storm drain\"
",
    keeps: "\
drain wall-channel
  channel      polymer-channel, 100 mm by 80 mm clear, along court.south
  to           \"storm drain\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    if let Some(water) = &context.figures.water {
        by_catchments(context, &water.drains, found);
        return;
    }
    for (drain, _) in readable(context.job, context.figures) {
        let Some(DrainBody::Channel { at_door: None, .. }) =
            drain.body.as_ref().map(|body| &body.value)
        else {
            continue;
        };
        let Some(line) = &drain.line else { continue };
        let DrainLine::Along { surface, tags, .. } = &line.value else {
            continue;
        };
        let mut surfaces = context.job.surfaces.iter();
        let Some(surface) = surfaces.find(|own| own.name.value == *surface) else {
            continue;
        };
        if !drain.takes.is_empty() || is_fed(context.job, drain) {
            continue;
        }
        let side = |tag: u32| surface.sides.get(tag as usize).map(|side| side.edge);
        let mut own = surface
            .edges()
            .filter(|edge| side(edge.tag).is_some_and(|tag| tags.contains(&tag)));
        let Some(downhill) =
            slope::downhill(surface).filter(|way| way.length() > slope::SAME_SLOPE)
        else {
            continue;
        };
        let comes_here = own.any(|edge| {
            slope::leaves_over(edge, downhill)
                || matches!(surface.contact(edge.tag), Some(Contact::Surface(other)) if runs_over(context, other))
        });
        if comes_here {
            continue;
        }
        let message = format!(
            "no water runs to this {}: {} falls away from it. Put it along the low edge, or turn the fall",
            context.word(Term::Channel),
            surface.name.value
        );
        found.add(DRAIN_IDLE.finding(line.place, message));
    }
}

/// The channels and gullies to which no water comes, where it is known what
/// comes to each.
fn by_catchments(context: &Context<'_>, water: &[DrainWater], found: &mut Found) {
    for (drain, comes) in context.job.drains.iter().zip(water) {
        let kind = match drain.body.as_ref().map(|body| &body.value) {
            Some(DrainBody::Channel { at_door: None, .. }) => context.word(Term::Channel),
            Some(DrainBody::Gully { .. }) => context.word(Term::Gully),
            _ => continue,
        };
        let is_idle = comes.all.area_m2 == Some(0.0) && drain.takes.is_empty();
        let Some(line) = drain.line.as_ref().filter(|_| is_idle) else {
            continue;
        };
        // A surface that names the drain and misses it has a finding of its own.
        if drain.is_unread || drain.existing.is_some() || is_fed(context.job, drain) {
            continue;
        }
        let message = format!(
            "no water runs to this {kind}: every surface falls past it or away from it. Put it where the water comes, or turn the fall"
        );
        found.add(DRAIN_IDLE.finding(line.place, message));
    }
}

/// Whether a neighbour may send water over: it has a fall, or its own is not
/// known.
fn runs_over(context: &Context<'_>, index: usize) -> bool {
    let neighbour = context.job.surfaces.get(index).map(AsRef::as_ref);
    neighbour.is_none_or(|other: &Surface| {
        slope::downhill(other).is_none_or(|way| way.length() > slope::SAME_SLOPE)
    })
}

/// Whether another drain or a surface leads into a drain by its name.
fn is_fed(job: &Job, drain: &Drain) -> bool {
    let is_this = |name: Option<&str>| name == Some(drain.name.value.as_str());
    let drains = job.drains.iter();
    let surfaces = job.surfaces.iter();
    let mut by_drains = drains.filter_map(|other| other.to.as_ref());
    let mut by_surfaces = surfaces.filter_map(|other| other.water.as_ref());
    by_drains.any(|to| is_this(to.value.drain())) || by_surfaces.any(|to| is_this(to.value.drain()))
}
