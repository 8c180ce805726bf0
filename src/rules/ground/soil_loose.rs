//! `soil-loose`: paving on ground that gives.

use super::builds_anything;
use crate::findings::Severity;
use crate::model::SoilCondition;
use crate::rules::documents::{AS_NZS_SUBGRADE, NHBC_SUBGRADE};
use crate::rules::{Check, Context, Family, Found, Rule};

/// Paving on ground that gives.
pub static SOIL_LOOSE: Rule = Rule {
    name: "soil-loose",
    family: Family::Ground,
    severity: Severity::Warning,
    looks_at: "Ground that is tilled, soft or filled under what is built, with nothing said of compacting it.",
    reason: "Loose ground goes on settling under the base, and the paving with it, unevenly.",
    remedy: "Compact the ground or dig it out and refill in compacted layers, and say so in a note of the site.",
    limits: &[],
    sources: &[AS_NZS_SUBGRADE, NHBC_SUBGRADE],
    breaks: "\
site
  soil         gravel, «tilled»
  datum        \"hall floor\"
  ground       -200 mm
",
    keeps: "\
site
  soil         gravel, tilled
  datum        \"hall floor\"
  ground       -200 mm
  note         \"subgrade proof-rolled and compacted before the base\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let site = &context.job.site;
    let conditions = [SoilCondition::Tilled, SoilCondition::Soft];
    let loose = site
        .conditions
        .iter()
        .find(|stated| conditions.contains(&stated.value));
    let (place, ground) = match (loose, &site.soil) {
        (Some(stated), _) if stated.value == SoilCondition::Tilled => (stated.place, "tilled"),
        (Some(stated), _) => (stated.place, "soft"),
        (None, Some(soil)) if soil.value.word == "fill" => (soil.place, "filled"),
        _ => return,
    };
    let is_firm = site.is(SoilCondition::Firm).is_some();
    if is_firm || !builds_anything(context) || says_compacted(context) {
        return;
    }
    let message = format!(
        "the ground is {ground} and nothing says that it is compacted: compact it or dig it out, and say so in a note"
    );
    found.add(SOIL_LOOSE.finding(place, message));
}

/// Whether a note of the site or of a surface tells of compacting the ground.
fn says_compacted(context: &Context<'_>) -> bool {
    let of_surfaces = context.job.surfaces.iter().flat_map(|one| &one.notes);
    context
        .job
        .site
        .notes
        .iter()
        .chain(of_surfaces)
        .any(|note| note.value.to_lowercase().contains("compact"))
}
