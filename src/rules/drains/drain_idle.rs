//! `drain-idle`: a channel or a soakaway to which no water comes.

use super::pipe_unsuited::is_perforated;
use super::readable;
use crate::findings::Severity;
use crate::model::{Contact, Drain, DrainBody, DrainKind, DrainLine, Job, Surface};
use crate::quantities::DrainWater;
use crate::rules::{Check, Context, Family, Found, Rule, slope};
use crate::sources::Source;
use crate::vocabulary::Term;

/// A channel or a soakaway to which no water comes.
pub(crate) static DRAIN_IDLE: Rule = Rule {
    name: "drain-idle",
    family: Family::Drains,
    severity: Severity::Advisory,
    looks_at: "A channel along edges from which the surface falls away, that takes nothing else; not one at a door. Where a storm is stated, any channel or gully to which no water comes. A soakaway that no drain, no surface and no roof leads to, through plain pipes or straight.",
    reason: "A drain that no water reaches costs as much as any other, and the water still stands elsewhere.",
    remedy: "Put it along the low edge, turn the fall, lead the water to it by its name, or say with takes what else drains into it.",
    limits: &[],
    sources: &[Source::computed("which way the surface falls")],
    breaks: "\
drain wall-channel
  channel      polymer-channel, 100 mm by 80 mm clear, «along court.north»
  bedded       in concrete, 100 mm round
  to           \"storm drain\"
",
    keeps: "\
drain wall-channel
  channel      polymer-channel, 100 mm by 80 mm clear, along court.south
  bedded       in concrete, 100 mm round
  to           \"storm drain\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    match &context.figures.water {
        Some(water) => by_catchments(context, &water.drains, found),
        None => by_falls(context, found),
    }
    // What could not be read may lead to it.
    if !context.is_any_misread() {
        unled(context, found);
    }
}

/// The channels along edges over which no water leaves.
fn by_falls(context: &Context<'_>, found: &mut Found) {
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

/// The soakaways to which nothing leads: they have no mouth, so that only what
/// names them brings them water.
fn unled(context: &Context<'_>, found: &mut Found) {
    let job = context.job;
    // What leads nowhere has a finding of its own, and may be meant for it.
    let is_open = |drain: &Drain| {
        let is_last = drain.kind() == Some(DrainKind::Soakaway);
        drain.to.is_none() && drain.existing.is_none() && !is_last
    };
    if job.drains.iter().any(|drain| is_open(drain)) {
        return;
    }
    for (index, drain) in job.drains.iter().enumerate() {
        let is_new = drain.kind() == Some(DrainKind::Soakaway) && drain.existing.is_none();
        let Some(line) = drain.line.as_ref().filter(|_| is_new) else {
            continue;
        };
        if drain.is_unread || comes_to(job, index) {
            continue;
        }
        let message = format!(
            "no water comes to {}: nothing is led to it. Name it where the water should go, or say with takes what drains into it",
            drain.name.value
        );
        found.add(DRAIN_IDLE.finding(line.place, message));
    }
}

/// Whether something brings water to a drain, by its index, or may: a surface
/// that names it, what is said to drain into it, a drain with a mouth. A plain
/// pipe passes on what comes to it.
fn comes_to(job: &Job, drain: usize) -> bool {
    let mut all = vec![drain];
    let mut at = 0;
    while let Some(index) = all.get(at).copied() {
        at += 1;
        let Some(own) = job.drains.get(index) else {
            continue;
        };
        let is_passed = match own.body.as_ref().map(|body| &body.value) {
            Some(DrainBody::Pipe(pipe)) => is_perforated(pipe) != Some(true),
            _ => index == drain,
        };
        if !is_passed || !own.takes.is_empty() || own.existing.is_some() || own.is_unread {
            return true;
        }
        // Each leads to one, so that only a circle comes to one again.
        let before = job.drains.before(index).iter();
        all.extend(before.filter(|before| **before != drain));
    }
    let mut all = all.into_iter().filter_map(|index| job.drains.get(index));
    all.any(|own| is_named(job, &own.name.value))
}

/// Whether a surface or what runs over elsewhere goes to a drain, or a text
/// spells its name, which has a finding of its own.
fn is_named(job: &Job, name: &str) -> bool {
    let over = job.drains.iter().map(|other| &other.overflow);
    let by_surfaces = job.surfaces.iter().map(|other| &other.water);
    let mut named = over.chain(by_surfaces).flatten();
    let mut ends = job.drains.iter().filter_map(|other| other.to.as_ref());
    named.any(|to| to.value.drain() == Some(name) || to.value.spells(name))
        || ends.any(|to| to.value.spells(name))
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
