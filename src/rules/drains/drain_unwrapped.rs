//! `drain-unwrapped`: drain stone in fine ground with no fabric round it.

use super::readable;
use crate::findings::{Fix, Severity};
use crate::model::DrainKind;
use crate::rules::construction::is_open_graded;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Drain stone in fine ground with no fabric round it.
pub(crate) static DRAIN_UNWRAPPED: Rule = Rule {
    name: "drain-unwrapped",
    family: Family::Drains,
    severity: Severity::Advisory,
    looks_at: "Trenches and soakaways filled with clean stone or gravel in clay or silt, and whether a fabric is wrapped round them.",
    reason: "The fines wash in between the stones, and in a few winters the drain is full of mud.",
    remedy: "Wrap the stone in geotextile.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
site
  soil         silt, firm

drain side-drain
  trench       300 mm wide, 450 mm deep, along court.south
  pipe         perforated-pipe, 110 mm
  fall         1:100
  to           \"ditch\"
  «filled       open-stone, voids 40 %»
",
    keeps: "\
site
  soil         silt, firm

drain side-drain
  trench       300 mm wide, 450 mm deep, along court.south
  pipe         perforated-pipe, 110 mm
  fall         1:100
  to           \"ditch\"
  filled       open-stone, voids 40 %
  wrapped      geotextile
",
    mended: Some(
        "\
site
  soil         silt, firm

drain side-drain
  trench       300 mm wide, 450 mm deep, along court.south
  pipe         perforated-pipe, 110 mm
  fall         1:100
  to           \"ditch\"
  filled       open-stone, voids 40 %
  wrapped      geotextile
",
    ),
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(soil) = &context.job.site.soil else {
        return;
    };
    if !matches!(soil.value.word, "clay" | "silt") {
        return;
    }
    for (drain, _) in readable(context.job, context.figures) {
        let takes_water = matches!(drain.kind(), Some(DrainKind::Trench | DrainKind::Soakaway));
        let is_bare = drain.existing.is_none() && drain.entry("wrapped").is_none();
        let Some(filled) = drain.filled.as_ref().filter(|_| takes_water && is_bare) else {
            continue;
        };
        if !is_open_graded(&filled.of.value) {
            continue;
        }
        let message = format!(
            "nothing keeps the {} out of the stone of {}: it silts up. Wrap it in geotextile",
            soil.value.word, drain.name.value
        );
        let entry = format!("\n  {:<12} geotextile", "wrapped");
        found.add(
            DRAIN_UNWRAPPED
                .finding(filled.place, message)
                .related(soil.place, "the soil, as stated here")
                .fix(Fix::judged(
                    "Wrap it in geotextile",
                    filled.place.end(),
                    entry,
                )),
        );
    }
}
