//! `soil-expansive`: paving on ground that swells and shrinks.

use super::builds_anything;
use crate::findings::Severity;
use crate::model::SoilCondition;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Paving on ground that swells and shrinks.
pub(crate) static SOIL_EXPANSIVE: Rule = Rule {
    name: "soil-expansive",
    family: Family::Ground,
    severity: Severity::Advisory,
    looks_at: "Expansive ground under what is built.",
    reason: "Expansive clay heaves and shrinks with the seasons, more than any usual base evens out.",
    remedy: "Have the base and the joints designed by a licensed engineer.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
site
  soil         clay, «expansive»
",
    keeps: "\
site
  soil         clay, firm
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(place) = context.job.site.is(SoilCondition::Expansive) else {
        return;
    };
    if !builds_anything(context) {
        return;
    }
    let message = "expansive ground heaves and shrinks with the seasons. Have base and joints designed by a licensed engineer";
    found.add(SOIL_EXPANSIVE.finding(place, message));
}
