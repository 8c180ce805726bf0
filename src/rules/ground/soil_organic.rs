//! `soil-organic`: paving on ground that holds plant remains.

use super::builds_anything;
use crate::findings::Severity;
use crate::rules::documents::{AS_NZS_SUBGRADE, NHBC_SUBGRADE};
use crate::rules::{Check, Context, Family, Found, Rule};

/// Paving on ground that holds plant remains.
pub(crate) static SOIL_ORGANIC: Rule = Rule {
    name: "soil-organic",
    family: Family::Ground,
    severity: Severity::Warning,
    looks_at: "Peat or other organic ground under what is built.",
    reason: "Plant remains rot and hold water, and the ground sinks for years.",
    remedy: "Dig it out to firm ground, and refill with compacted stone.",
    limits: &[],
    sources: &[AS_NZS_SUBGRADE, NHBC_SUBGRADE],
    breaks: "\
site
  soil         «peat»
",
    keeps: "\
site
  soil         loam, firm
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(soil) = &context.job.site.soil else {
        return;
    };
    if !soil.value.organic || !builds_anything(context) {
        return;
    }
    let message = format!(
        "{} under the base rots and sinks. Dig it out to firm ground, and refill with compacted stone",
        soil.value.word
    );
    found.add(SOIL_ORGANIC.finding(soil.place, message));
}
