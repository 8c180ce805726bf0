//! `drain-unled`: a drain that leads nowhere, or past what it leads to.

use super::readable;
use crate::findings::Severity;
use crate::model::{Drain, DrainBody, DrainKind, DrainLine, Job, Outfall, Outlet, Surface};
use crate::quantities::{BESIDE, DrainFigures, share_led};
use crate::rules::falls::is_piped;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Number, Quantity};
use crate::vocabulary::Term;

/// A drain that leads nowhere, or past what it leads to.
pub(crate) static DRAIN_UNLED: Rule = Rule {
    name: "drain-unled",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "A channel, a gully or a pipe that does not say where its water goes; one that ends short of the drain it names; a surface of whose water too little reaches the drain it names; and one that falls to a drain and sends its water elsewhere. Not of permeable paving, whose water goes down through it.",
    reason: "Water that is led nowhere fills the drain, then stands where it was meant to be kept out.",
    remedy: "Say where it leads with to: a drain by its name, or what takes the water in quotes; and let it end where that begins.",
    limits: &[
        Limit::practice(
            "gap",
            "the gap between the end of a drain and the next",
            Bound::Most,
            &["150 mm", "6 in"],
        ),
        Limit::practice(
            "share",
            "the share of a surface's water that reaches the drain it names",
            Bound::Least,
            &["90 %"],
        ),
    ],
    sources: &[
        Source::computed("the ends of the drains on the plan, and where the water runs"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "\
drain «side-pipe»
  pipe         plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)
  fall         1:80
  invert       -700 mm
  bedded       in gravel, 75 mm round
",
    keeps: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)
  fall         1:80
  invert       -700 mm
  bedded       in gravel, 75 mm round
  to           side-gully

drain side-gully
  existing
  gully        at (6 m, -1.1 m)
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for (drain, figures) in readable(context.job, context.figures) {
        if drain.entry("to").is_none() {
            if must_lead(drain) {
                let kind = drain.kind().map_or("drain", DrainKind::word);
                let message = format!(
                    "this {kind} leads nowhere: it will fill and overflow. Say where, as to \"storm drain\""
                );
                found.add(DRAIN_UNLED.finding(drain.name.place, message));
            }
            continue;
        }
        gap(context, drain, figures, found);
    }
    surfaces(context, found);
    for surface in context.job.surfaces.iter() {
        elsewhere(context, surface, found);
    }
}

/// A surface that falls to a drain and says that its water goes somewhere else
/// than that drain leads.
fn elsewhere(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Some(fall), Some(water)) = (&surface.fall_to, &surface.water) else {
        return;
    };
    let Some(text) = water.value.text().filter(|text| !is_piped(text)) else {
        return;
    };
    let (name, pit) = (&surface.name.value, &fall.drain.value);
    let led = Outlet::Drain(pit.clone());
    let is_there = match context.job.outfall(&led) {
        Some(Outfall::Text(last)) => last.eq_ignore_ascii_case(text),
        Some(Outfall::Drain(_)) => false,
        Some(Outfall::Circle) | None => true,
    };
    if is_there {
        return;
    }
    let message = format!(
        "{name} falls to {pit}, so its water goes there and not to \"{text}\": write water to {pit}"
    );
    found.add(
        DRAIN_UNLED
            .finding(water.place, message)
            .related(fall.place, "the fall to it"),
    );
}

/// A drain that takes less than this part of the water is of no use to the
/// surface that names it.
const MOST_OF_IT: f64 = 0.5;

/// A surface that leads its water to a drain which too little of it reaches.
fn surfaces(context: &Context<'_>, found: &mut Found) {
    let job = context.job;
    let led = |own: &Surface| Some((own.water.as_ref()?.place, job.drain_of(own)?));
    if !job.surfaces.iter().any(|own| led(own).is_some()) {
        return;
    }
    let known = context.water();
    let mut astray: Vec<usize> = Vec::new();
    for (index, own) in job.surfaces.iter().enumerate() {
        let Some((place, drain)) = led(own) else {
            continue;
        };
        // What it takes is said in place of what is found.
        if job
            .drains
            .get(drain)
            .is_some_and(|drain| !drain.takes.is_empty())
        {
            continue;
        }
        let is_known = known
            .surfaces
            .get(index)
            .is_some_and(|water| water.ways.is_some());
        let to = job.drains.get(drain);
        let to = to.filter(|to| !to.is_unread && to.line.is_some());
        let Some(to) = to.filter(|_| is_known && !own.is_permeable()) else {
            continue;
        };
        if is_astray(job, to) {
            if !astray.contains(&drain) {
                astray.push(drain);
                let there = to.line.as_ref().map_or(to.place, |line| line.place);
                let message = format!(
                    "{} lies on no paving, so no water runs into it: is a minus missing, or are east and north swapped?",
                    to.name.value
                );
                let finding = DRAIN_UNLED.finding(there, message);
                found.add(
                    finding.related(place, format!("{} leads its water there", own.name.value)),
                );
            }
            continue;
        }
        let share = share_led(job, &known.surfaces, index, drain);
        let Some(limit) = context.limit(&DRAIN_UNLED, "share") else {
            continue;
        };
        if limit.allows_si(share) {
            continue;
        }
        let shown = limit.beside_si(share, context.system());
        let (from, into) = (&own.name.value, &to.name.value);
        let reaches = match share > 0.0 {
            true => format!(
                "only {shown} of the water from {from} reaches {into}, and {} is the least: the rest",
                limit.shown(context.system())
            ),
            false => format!("no water from {from} reaches {into}: it"),
        };
        let message = format!(
            "{reaches} falls past it or away from it. Put a {} or a {} where the water comes, or turn the fall",
            context.word(Term::Channel),
            context.word(Term::Gully)
        );
        let there = to.line.as_ref().map_or(to.place, |line| line.place);
        found.add(
            DRAIN_UNLED
                .finding(place, message)
                .severity(match to.has_mouth() && share < MOST_OF_IT {
                    true => Severity::Warning,
                    false => Severity::Advisory,
                })
                .found(shown, Number::near(share).map(Quantity::proportion))
                .against(&limit, context)
                .related(there, format!("{} lies here", to.name.value)),
        );
    }
}

/// Whether a gully lies beside all paving.
fn is_astray(job: &Job, drain: &Drain) -> bool {
    let Some(DrainLine::At(at)) = drain.line.as_ref().map(|line| &line.value) else {
        return false;
    };
    let is_beside = |own: &Surface| {
        let mut edges = own.edges();
        !own.contains(*at) && edges.all(|edge| edge.distance_to(*at) > BESIDE)
    };
    drain.kind() == Some(DrainKind::Gully) && job.surfaces.iter().all(|own| is_beside(own))
}

/// Whether a drain is of use only where it leads on. A trench may let its
/// water soak away, and what is there already leads somewhere.
fn must_lead(drain: &Drain) -> bool {
    let soaks = match drain.body.as_ref().map(|body| &body.value) {
        Some(DrainBody::Trench { pipe, .. }) => pipe.is_none(),
        Some(DrainBody::Soakaway { .. }) | None => true,
        _ => false,
    };
    !soaks && drain.existing.is_none()
}

/// A drain that ends where the next does not begin.
fn gap(context: &Context<'_>, drain: &Drain, figures: &DrainFigures, found: &mut Found) {
    let next = context.job.drain_after(drain);
    let (Some(to), Some(next), Some(end)) = (&drain.to, next, figures.outlet_at) else {
        return;
    };
    let (Some(off), Some(limit)) = (next.distance_to(end), context.limit(&DRAIN_UNLED, "gap"))
    else {
        return;
    };
    if limit.allows_si(off) {
        return;
    }
    let shown = limit.beside_si(off, context.system());
    let message = format!(
        "{} ends {shown} short of {}: no water gets across. Lead it there, or move one of them",
        drain.name.value, next.name.value
    );
    let there = next.line.as_ref().map_or(next.place, |line| line.place);
    found.add(
        DRAIN_UNLED
            .finding(to.place, message)
            .found(shown, Quantity::near(off, Dimension::LENGTH))
            .against(&limit, context)
            .related(there, format!("{} lies here", next.name.value)),
    );
}
