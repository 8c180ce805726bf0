//! `soil-expansive`: paving on ground that swells and shrinks.

use super::builds_anything;
use crate::findings::Severity;
use crate::model::SoilCondition;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Paving on ground that swells and shrinks.
pub static SOIL_EXPANSIVE: Rule = Rule {
    name: "soil-expansive",
    family: Family::Ground,
    severity: Severity::Advisory,
    looks_at: "Ground that is said to be expansive under what is built.",
    reason: "Expansive clay lifts and drops by the season, more than a base of the usual thickness evens out.",
    remedy: "Have the base and the joints designed by someone licensed to do so.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
site
  soil         clay, «expansive»
  datum        \"hall floor\"
  ground       -200 mm
",
    keeps: "\
site
  soil         clay, firm
  datum        \"hall floor\"
  ground       -200 mm
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
    let message = "expansive ground moves by the season: have base and joints designed by someone licensed to do so";
    found.add(SOIL_EXPANSIVE.finding(place, message));
}
