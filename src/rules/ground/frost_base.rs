//! `frost-base`: a base that holds water on ground that heaves.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Surface};
use crate::rules::construction;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Which soils heave.
const FROST_SOILS: Source = Source::read(
    "US Army course EN5341, soil characteristics",
    "potential frost action by soil",
);

/// A dense base on ground that heaves in frost.
pub static FROST_BASE: Rule = Rule {
    name: "frost-base",
    family: Family::Ground,
    severity: Severity::Advisory,
    looks_at: "A base that is not of open stone, where the ground freezes and the soil heaves in frost. How thick it must be is told by base-thin.",
    reason: "Frost draws water up through fine soil into ice that lifts the paving; an open base breaks the way up and drains.",
    remedy: "Make the base, or at least its lowest layer, of open stone, and drain it.",
    limits: &[],
    sources: &[FROST_SOILS, Source::COMMON_PRACTICE],
    breaks: "\
site
  soil         silt, firm
  frost        500 mm
  datum        \"hall floor\"
  ground       -200 mm

build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         «crushed-stone», 150 mm compacted, lifts 2, beyond 150 mm
  fabric       geotextile, beyond 150 mm
",
    keeps: "\
site
  soil         silt, firm
  frost        500 mm
  datum        \"hall floor\"
  ground       -200 mm

build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         open-stone, 150 mm, beyond 150 mm
  fabric       geotextile, beyond 150 mm
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
    let is_open = construction::bases(build)
        .any(|base| base.of.value.kind().is_some_and(Kind::is_open_graded));
    let Some(lowest) = construction::bases(build).last() else {
        return;
    };
    if is_open || lowest.existing.is_some() {
        return;
    }
    let message = format!(
        "the ground freezes {} deep and {} heaves, and {} holds water: make the lowest layer of open stone and drain it",
        context.show(&frost.value),
        soil.value.word,
        lowest.of.value.name()
    );
    found.add(
        FROST_BASE
            .finding(lowest.of.place, message)
            .related(soil.place, "the soil is stated here")
            .related(frost.place, "the frost is stated here"),
    );
}
