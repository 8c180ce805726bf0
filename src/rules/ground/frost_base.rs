//! `frost-base`: a base of fines on ground that heaves.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Surface};
use crate::rules::construction;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Term;

/// Which soils heave.
const FROST_SOILS: Source = Source::read(
    "US Army course EN5341, soil characteristics",
    "potential frost action by soil",
);

/// The assembly that the trade body recommends where it freezes.
const RECOMMENDED_ASSEMBLY: Source = Source::second_hand(
    "CMHA PAV-FAQ-002 (October 2025)",
    "a dense-graded base under concrete sand; an open-graded one for foot traffic only, with conditions",
);

/// A base of sand, dust or fill on ground that heaves in frost.
pub(crate) static FROST_BASE: Rule = Rule {
    name: "frost-base",
    family: Family::Ground,
    severity: Severity::Advisory,
    looks_at: "A base of sand, stone dust, gravel or fill where the ground freezes and the soil heaves. Graded and open-graded stone pass; how thick they must be, base-thin tells.",
    reason: "Frost draws water up through fines into ice that lifts the paving; graded or open-graded stone breaks its way up.",
    remedy: "Make the base of graded or open-graded stone, and drain it.",
    limits: &[],
    sources: &[FROST_SOILS, RECOMMENDED_ASSEMBLY],
    breaks: "\
site
  soil         silt, firm
  frost        500 mm

build sand-set
  base         «stone-dust», 150 mm compacted, lifts 2, beyond 150 mm
",
    keeps: "\
site
  soil         silt, firm
  frost        500 mm

build sand-set
  base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, _: &Surface, build: &Build, found: &mut Found) {
    let site = &context.job.site;
    let (Some(soil), Some(frost)) = (&site.soil, &site.frost) else {
        return;
    };
    if frost.value.si() <= 0.0 || !soil.value.frost_susceptible {
        return;
    }
    let Some(lowest) = construction::bases(build).last() else {
        return;
    };
    let holds_water = lowest.of.value.kind().is_some_and(|kind| {
        kind.is_sand()
            || matches!(
                kind,
                Kind::StoneDust | Kind::RoundedGravel | Kind::Fill | Kind::Soil
            )
    });
    if !holds_water || lowest.existing.is_some() {
        return;
    }
    let message = format!(
        "{} over {} heaves where it freezes {} deep. Make the base of graded or {}, and drain it",
        lowest.of.value.name(),
        soil.value.word,
        context.show(&frost.value),
        context.word(Term::OpenStone)
    );
    found.add(
        FROST_BASE
            .finding(lowest.of.place, message)
            .related(soil.place, "the soil, as stated here")
            .related(frost.place, "the frost, as stated here"),
    );
}
