//! `soil-loose`: paving on ground that gives.

use super::builds_anything;
use crate::findings::Severity;
use crate::model::SoilCondition;
use crate::rules::documents::{AS_NZS_SUBGRADE, NHBC_SUBGRADE};
use crate::rules::wording::has_word;
use crate::rules::{Check, Context, Family, Found, Rule};

/// Paving on ground that gives.
pub(crate) static SOIL_LOOSE: Rule = Rule {
    name: "soil-loose",
    family: Family::Ground,
    severity: Severity::Warning,
    looks_at: "Tilled, soft or filled ground under what is built, with no word that it was compacted.",
    reason: "Loose ground goes on settling under the base, unevenly, and the paving with it.",
    remedy: "Compact the ground, or dig it out and refill in compacted lifts, and say so: soil loam, tilled, compacted.",
    limits: &[],
    sources: &[AS_NZS_SUBGRADE, NHBC_SUBGRADE],
    breaks: "\
site
  soil         gravel, «tilled»
",
    keeps: "\
site
  soil         gravel, tilled, compacted
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
    let is_firm = [SoilCondition::Firm, SoilCondition::Compacted]
        .into_iter()
        .any(|condition| site.is(condition).is_some());
    if is_firm || !builds_anything(context) || says_compacted(context) {
        return;
    }
    let message = format!(
        "the ground is {ground}: it will settle under the base. Compact it or dig it out, and say so with compacted"
    );
    found.add(SOIL_LOOSE.finding(place, message));
}

/// Whether a note of the site or of a surface tells of compacting the ground.
fn says_compacted(context: &Context<'_>) -> bool {
    let of_surfaces = context.job.surfaces.iter().flat_map(|one| &one.notes);
    let mut notes = context.job.site.notes.iter().chain(of_surfaces);
    notes.any(|note| tells_of_compacting(&note.value))
}

/// Whether a note says that the ground, and not the base or a plant, is
/// compacted.
fn tells_of_compacting(note: &str) -> bool {
    const DONE: &[&str] = &["compacted", "compact", "rolled", "consolidated"];
    const GROUND: &[&str] = &[
        "ground",
        "subgrade",
        "grade",
        "formation",
        "soil",
        "fill",
        "subsoil",
        "earth",
    ];
    const NOT: &[&str] = &["not", "never", "no", "cannot", "don't", "without"];
    has_word(note, DONE) && has_word(note, GROUND) && !has_word(note, NOT)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_note_that_the_ground_is_compacted_is_heard() {
        for (note, reported) in [
            ("subgrade proof-rolled and compacted before the base", true),
            ("Compact the ground first.", true),
            ("keep the compactor off the drain", false),
            ("base compacted in two lifts", false),
            ("the fill is not compacted", false),
            ("uncompacted fill by the fence", false),
        ] {
            assert_eq!(tells_of_compacting(note), reported, "{note}");
        }
    }
}
