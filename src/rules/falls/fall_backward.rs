//! `fall-backward`: water that runs towards the building.

use super::fall_missing::is_exempt;
use crate::findings::{Finding, Severity};
use crate::geometry::{ALONGSIDE, Edge, Vector};
use crate::model::{Region, Surface, Use};
use crate::rules::documents::{IRC_GRADING, nhbc_external};
use crate::rules::{Check, Context, Family, Found, Rule, slope};
use crate::units::{Dimension, Quantity, show};
use crate::vocabulary::Term;

/// Water that runs towards an edge that meets the building.
pub(crate) static FALL_BACKWARD: Rule = Rule {
    name: "fall-backward",
    family: Family::Falls,
    severity: Severity::Error,
    looks_at: "Water that runs towards an edge at the building with no channel along it; and paving near the building whose free low edge faces it, a warning in the US and elsewhere an advisory.",
    reason: "The water gathers against the wall and finds its way in.",
    remedy: "Turn the fall away from the building, or take the water in a channel along that edge.",
    limits: &[],
    sources: &[
        IRC_GRADING,
        nhbc_external(
            "10.2.6, paths and patios fall away from the home unless a channel takes the water",
        ),
    ],
    breaks: "\
surface court
  «fall         1:50 toward north»
",
    keeps: "\
surface court
  fall         1:50 toward south
",
    mended: Some(
        "\
surface court
  fall         1:50 away from north
",
    ),
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if surface.covered.is_some() {
        return;
    }
    let Some(downhill) = slope::downhill(surface) else {
        return;
    };
    let worst = slope::away_from_building(surface, downhill)
        .into_iter()
        .reduce(f64::min)
        .filter(|away| *away < -slope::SAME_SLOPE);
    let Some(worst) = worst else {
        found.findings.extend(from_afar(context, surface, downhill));
        return;
    };
    let place = surface
        .fall
        .as_ref()
        .map_or(surface.name.place, |fall| fall.place);
    let shown = show::slope(-worst);
    let message = format!(
        "falls {shown} towards the building: water will run to the wall. Turn the fall, or put a {} along that edge",
        context.word(Term::Channel)
    );
    let mut finding = FALL_BACKWARD
        .finding(place, message)
        .found(shown, slope::as_quantity(-worst));
    if let Some(fix) = slope::turned_away(context, &FALL_BACKWARD, surface, found) {
        finding = finding.fix(fix);
    }
    found.add(finding);
}

/// How far from a building its ground is to fall away from it, in metres:
/// 10 ft.
const GRADED: f64 = 3.05;

/// Paving that stands clear of the building and sends its water there over
/// the ground between.
fn from_afar(context: &Context<'_>, surface: &Surface, downhill: Vector) -> Option<Finding> {
    let is_led = surface
        .water
        .as_ref()
        .is_some_and(|water| water.value.drain().is_some());
    // A ramp that doubles back, and its landings, come towards the house.
    let is_way = matches!(surface.used_for, Use::Ramp | Use::Landing);
    if is_led || is_way || is_exempt(surface) || slope::building_edges(surface).next().is_some() {
        return None;
    }
    let faces = |wall: &Edge, distance: f64| {
        surface.edges().any(|side| {
            surface.is_free(side.tag)
                && surface.channel(side.tag).is_none()
                && slope::leaves_over(side, downhill)
                && side.distance_to_edge(wall) <= distance + ALONGSIDE
        })
    };
    let near = slope::building_edges_within(context, surface, GRADED);
    let near = near.filter(|(wall, distance)| {
        wall.inward_share(downhill).1 < -slope::SAME_SLOPE && faces(wall, *distance)
    });
    let (_, distance) = near.min_by(|(_, one), (_, other)| one.total_cmp(other))?;
    let place = surface
        .fall
        .as_ref()
        .map_or(surface.name.place, |fall| fall.place);
    let shown = context.show_length(distance);
    let message = format!(
        "falls towards the building, {shown} away: water will run to the wall. Turn the fall, or put a {} along the low edge",
        context.word(Term::Channel)
    );
    let severity = match context.region() {
        Region::Us => Severity::Warning,
        _ => Severity::Advisory,
    };
    let finding = FALL_BACKWARD.finding(place, message).severity(severity);
    Some(finding.found(shown, Quantity::near(distance, Dimension::LENGTH)))
}
