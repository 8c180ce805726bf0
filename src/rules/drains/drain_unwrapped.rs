//! `drain-unwrapped`: drain stone in fine ground with no fabric round it.

use super::readable;
use crate::findings::{Fix, Severity};
use crate::model::DrainKind;
use crate::rules::construction::is_open_graded;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::entry;

/// Drain stone in fine ground with no fabric round it.
pub(crate) static DRAIN_UNWRAPPED: Rule = Rule {
    name: "drain-unwrapped",
    family: Family::Drains,
    severity: Severity::Advisory,
    looks_at: "Trenches and soakaways filled with clean stone or gravel in clay or silt, and crates in any ground, and whether a fabric is wrapped round them.",
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
  fall         1:100 toward east
  to           \"ditch\"
  «filled       open-stone, voids 40 %»
",
    keeps: "\
site
  soil         silt, firm

drain side-drain
  trench       300 mm wide, 450 mm deep, along court.south
  pipe         perforated-pipe, 110 mm
  fall         1:100 toward east
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
  fall         1:100 toward east
  to           \"ditch\"
  filled       open-stone, voids 40 %
  wrapped      geotextile
",
    ),
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let soil = context.job.site.soil.as_ref();
    let fine = soil.filter(|soil| matches!(soil.value.word, "clay" | "silt"));
    for (drain, _) in readable(context.job, context.figures) {
        let takes_water = matches!(drain.kind(), Some(DrainKind::Trench | DrainKind::Soakaway));
        let is_bare = drain.existing.is_none() && drain.entry("wrapped").is_none();
        let Some(filled) = drain.filled.as_ref().filter(|_| takes_water && is_bare) else {
            continue;
        };
        let material = filled.of.value.material();
        let is_crate = material.is_some_and(|own| own.stock == Some("crate"));
        let name = &drain.name.value;
        let message = match fine {
            _ if is_crate => format!(
                "nothing keeps the ground out of the crates of {name}: it runs in and fills them. Wrap them in geotextile"
            ),
            Some(soil) if is_open_graded(&filled.of.value) => format!(
                "nothing keeps the {} out of the stone of {name}: it silts up. Wrap it in geotextile",
                soil.value.word
            ),
            _ => continue,
        };
        let entry = format!("\n  {}", entry("wrapped", "geotextile"));
        let finding = DRAIN_UNWRAPPED
            .finding(filled.place, message)
            .fix(Fix::judged(
                "Wrap it in geotextile",
                filled.place.end(),
                entry,
            ));
        found.add(match fine {
            Some(soil) => finding.related(soil.place, "the soil, as stated here"),
            None => finding,
        });
    }
}
