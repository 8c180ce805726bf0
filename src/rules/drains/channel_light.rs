//! `channel-light`: a channel for patios that cars drive over.

use super::cover_thin::is_encased;
use super::{passes_through, readable};
use crate::findings::{Finding, Place, Severity};
use crate::model::{Drain, DrainBody, DrainLine, Surface};
use crate::rules::construction::{is_driven, is_mortar};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Term;

/// Channels and their gratings by the loads that they carry.
const LOAD_CLASSES: Source = Source::memory(
    "EN 1433, Drainage channels for vehicular and pedestrian areas",
    "class A 15 where people walk, B 125 for cars: read the sheet of the channel",
);

/// A channel for patios that cars drive over.
pub(crate) static CHANNEL_LIGHT: Rule = Rule {
    name: "channel-light",
    family: Family::Drains,
    severity: Severity::Advisory,
    looks_at: "Channels that are not bedded in concrete, along or across a drive or street or where people walk.",
    reason: "Wheels crack a channel for patios and bend its grating, and the paving beside it drops. In sand or stone its walls lean in, the grating rocks, and the line leaks.",
    remedy: "Bed and haunch it in concrete; where cars drive, take a channel and grating of load class B 125 or more.",
    limits: &[],
    sources: &[LOAD_CLASSES],
    breaks: "\
surface court
  for          drive
  laid         herringbone, units 100 mm by 200 mm
  edging       concrete-kerb, along free
  water        to gate-channel

drain gate-channel
  channel      «plastic-channel», 100 mm by 90 mm clear, 140 mm over all, along court.south
  fall         1:100 toward east
  to           \"storm drain\"
",
    keeps: "\
surface court
  for          drive
  laid         herringbone, units 100 mm by 200 mm
  edging       concrete-kerb, along free
  water        to gate-channel

drain gate-channel
  channel      polymer-channel, 100 mm by 90 mm clear, 140 mm over all, along court.south
  bedded       in concrete, 100 mm round
  fall         1:100 toward east
  to           \"storm drain\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for (drain, _) in readable(context.job, context.figures) {
        let Some(DrainBody::Channel { of, .. }) = drain.body.as_ref().map(|body| &body.value)
        else {
            continue;
        };
        let material = of.value.material();
        let is_plastic = material.is_some_and(|own| own.stock == Some("plastic-channel"));
        if is_encased(drain) || drain.existing.is_some() {
            continue;
        }
        let mut surfaces = context.job.surfaces.iter();
        let Some(own) = surfaces.find(|own| is_driven(own) && lies_at(drain, own)) else {
            found
                .findings
                .extend(where_people_walk(context, drain, of.place));
            continue;
        };
        let message = match &drain.bedded {
            Some(bedded) if !is_plastic && is_mortar(&bedded.of.value) => format!(
                "cars cross {}, and mortar alone will not carry them: {}",
                drain.name.value,
                context.word(Term::InConcrete)
            ),
            Some(bedded) if !is_plastic => format!(
                "cars cross {}, and {} lets it tip: {}",
                drain.name.value,
                bedded.of.value.name(),
                context.word(Term::InConcrete)
            ),
            None if !is_plastic => format!(
                "cars cross {}, and nothing says what it stands in: {}",
                drain.name.value,
                context.word(Term::InConcrete)
            ),
            _ => format!(
                "cars cross {} and will crack it: take a {} of load class B 125 or more, in concrete",
                drain.name.value,
                context.word(Term::Channel)
            ),
        };
        let finding = CHANNEL_LIGHT.finding(of.place, message);
        found.add(match own.used_for_place {
            Some(place) => finding.related(place, "cars drive here"),
            None => finding,
        });
    }
}

/// A channel that stands loose where people walk.
fn where_people_walk(context: &Context<'_>, drain: &Drain, place: Place) -> Option<Finding> {
    let mut surfaces = context.job.surfaces.iter();
    surfaces.find(|own| lies_at(drain, own))?;
    let (name, remedy) = (&drain.name.value, context.word(Term::InConcrete));
    let message = match &drain.bedded {
        Some(bedded) if is_mortar(&bedded.of.value) => return None,
        Some(bedded) => format!(
            "in {} the walls of {name} lean in and its grating rocks: {remedy}",
            bedded.of.value.name()
        ),
        None => format!(
            "nothing says what {name} stands in; loose, its walls lean in and its grating rocks: {remedy}"
        ),
    };
    Some(CHANNEL_LIGHT.finding(place, message))
}

/// Whether a drain lies along an edge of a surface or runs over it.
fn lies_at(drain: &Drain, own: &Surface) -> bool {
    match drain.line.as_ref().map(|line| &line.value) {
        Some(DrainLine::Along { surface, .. }) => *surface == own.name.value,
        _ => passes_through(drain, own),
    }
}
