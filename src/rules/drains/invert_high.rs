//! `invert-high`: a drain that comes into the next below its invert.

use super::{readable, without_minus};
use crate::findings::Severity;
use crate::model::Drain;
use crate::quantities::{Course, DrainFigures};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// A drain that comes into the next below its invert.
pub(crate) static INVERT_HIGH: Rule = Rule {
    name: "invert-high",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "The invert at the end of a drain against that of the drain that it runs into, at that place; a drop into it is no fault.",
    reason: "Water does not run uphill: the upper drain stands full up to the lower one's invert.",
    remedy: "Raise the drain that comes in, or lower the one that it runs into.",
    limits: &[Limit::practice(
        "plain",
        "the rise from one drain into the next",
        Bound::Most,
        &["3.2 mm", "1/8 in"],
    )],
    sources: &[Source::computed("the inverts of the drains")],
    breaks: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -6 m) to (8 m, -6 m)
  fall         1:80
  invert       -700 mm
  bedded       in gravel, 75 mm round
  takes        \"garage roof\" 20 m2
  to           «rear-soak»

drain rear-soak
  soakaway     1 m by 1 m by 1 m, centre (8 m, -6 m)
  invert       -750 mm
  filled       crate, voids 95 %
  wrapped      geotextile
",
    keeps: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -6 m) to (8 m, -6 m)
  fall         1:80
  invert       -700 mm
  bedded       in gravel, 75 mm round
  takes        \"garage roof\" 20 m2
  to           rear-soak

drain rear-soak
  soakaway     1 m by 1 m by 1 m, centre (8 m, -6 m)
  invert       -800 mm
  filled       crate, voids 95 %
  wrapped      geotextile
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&INVERT_HIGH, "plain") else {
        return;
    };
    for (drain, figures) in readable(context.job, context.figures) {
        let Some((next, its)) = next(context, drain) else {
            continue;
        };
        let (Some(own), Some(level)) = (figures.outlet_m, level_there(context, figures, next, its))
        else {
            continue;
        };
        let rise = level - own;
        // One that lies above the ground has a finding of its own.
        if limit.allows_si(rise) || without_minus(next, its).is_some() {
            continue;
        }
        let shown = limit.beside_si(rise, context.system());
        let message = format!(
            "{} ends {shown} below the invert of {}: water will stand in it. Raise it, or lower {}",
            drain.name.value, next.name.value, next.name.value
        );
        let place = drain.to.as_ref().map_or(drain.place, |to| to.place);
        let there = next.inverts.first().map(|invert| invert.value.place);
        found.add(
            INVERT_HIGH
                .finding(place, message)
                .found(shown, Quantity::near(rise, Dimension::LENGTH))
                .against(&limit, context)
                .related(
                    there.unwrap_or(next.place),
                    format!("it lies at {} there", context.show_length(level)),
                ),
        );
    }
}

/// The drain that a drain runs into, with its figures.
fn next<'a>(context: &Context<'a>, drain: &Drain) -> Option<(&'a Drain, &'a DrainFigures)> {
    let next = context.job.drains.after(drain)?;
    let (drain, figures) = (
        context.job.drains.get(next)?,
        context.figures.drains.get(next)?,
    );
    (!drain.is_unread).then_some((drain, figures))
}

/// The invert of the next drain where this one comes to it. One that takes its
/// own level from what comes in says nothing.
fn level_there(
    context: &Context<'_>,
    figures: &DrainFigures,
    next: &Drain,
    its: &DrainFigures,
) -> Option<f64> {
    if next.inverts.is_empty() && its.length_m.is_none() {
        return None;
    }
    let (Some(fall), Some(at)) = (its.fall, figures.outlet_at) else {
        return its.head_m;
    };
    let course = Course::of(context.job, next)?;
    Some(its.head_m? - fall * course.distance_along(at))
}
