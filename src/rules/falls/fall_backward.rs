//! `fall-backward`: water that runs towards the building.

use crate::findings::Severity;
use crate::model::Surface;
use crate::rules::documents::{IRC_GRADING, nhbc_external};
use crate::rules::{Check, Context, Family, Found, Rule, slope};
use crate::units::show;
use crate::vocabulary::Term;

/// Water that runs towards an edge that meets the building.
pub(crate) static FALL_BACKWARD: Rule = Rule {
    name: "fall-backward",
    family: Family::Falls,
    severity: Severity::Error,
    looks_at: "Water that runs towards an edge at the building with no channel along it.",
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
