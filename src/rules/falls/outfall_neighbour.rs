//! `outfall-neighbour`: water sent where it may not go.

use super::fall_missing::is_exempt;
use crate::findings::Severity;
use crate::model::{Outfall, Surface};
use crate::rules::documents::{APPROVED_H3_ORDER, HIGHWAYS_ACT};
use crate::rules::wording::has_word;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::vocabulary::{Term, spelled_in};

/// Water sent to a neighbour or over a footway.
pub(crate) static OUTFALL_NEIGHBOUR: Rule = Rule {
    name: "outfall-neighbour",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "Water sent to a neighbour's land, or over a footway or sidewalk.",
    reason: "Water that paving gathers may not be sent onto other people's land, and on a footway it freezes under their feet.",
    remedy: "Keep the water on the site: a bed, a lawn, a soakaway, a drain; or show the right to send it there. Local rules decide.",
    limits: &[],
    sources: &[HIGHWAYS_ACT, APPROVED_H3_ORDER],
    breaks: "\
surface court
  «water        to \"the neighbour's drive\"»
",
    keeps: "\
surface court
  water        to \"border along the neighbour's fence\"
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let Some(water) = surface.water.as_ref().filter(|_| !is_exempt(surface)) else {
        return;
    };
    let Some(Outfall::Text(text)) = context.job.outfall(&water.value) else {
        return;
    };
    let Some(taken_by) = TakenBy::of(text) else {
        return;
    };
    let whose = match taken_by {
        TakenBy::Neighbour => spelled_in(context.region(), "a neighbour's land").into_owned(),
        TakenBy::Footway => format!("the {}", context.word(Term::Footway)),
    };
    let message = format!(
        "the water goes to {whose}: it may not be sent there. Keep it on the site, in a bed, a {} or a drain",
        context.word(Term::Soakaway)
    );
    let place = surface.entry("water").unwrap_or(water.place);
    found.add(OUTFALL_NEIGHBOUR.finding(place, message));
}

/// Where water goes that may not be sent there.
enum TakenBy {
    Neighbour,
    Footway,
}

impl TakenBy {
    fn of(text: &str) -> Option<TakenBy> {
        // What stays on this side of the boundary, or is led away below it,
        // is named by its neighbour only.
        let stays = has_word(text, STAYS);
        let to_neighbour = has_word(text, NEIGHBOUR) || text.to_lowercase().contains("next door");
        let to_footway = has_word(text, FOOTWAY);
        match (stays, to_neighbour, to_footway) {
            (true, ..) => None,
            (_, true, _) => Some(TakenBy::Neighbour),
            (_, _, true) => Some(TakenBy::Footway),
            _ => None,
        }
    }
}

const NEIGHBOUR: &[&str] = &[
    "neighbour",
    "neighbours",
    "neighbour's",
    "neighbours'",
    "neighbor",
    "neighbors",
    "neighbor's",
    "neighbors'",
    "neighbouring",
    "neighboring",
];

const FOOTWAY: &[&str] = &["footway", "footpath", "sidewalk", "sidewalks", "pavement"];

const STAYS: &[&str] = &[
    "bed",
    "beds",
    "border",
    "borders",
    "planting",
    "drain",
    "drains",
    "channel",
    "gully",
    "soakaway",
    "swale",
    "hedge",
    "drywell",
    "sewer",
    "inlet",
    "agreed",
    "agreement",
    "easement",
];
