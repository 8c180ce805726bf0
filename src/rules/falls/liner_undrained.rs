//! `liner-undrained`: permeable paving over a liner that nothing drains.

use super::outfall_missing::is_drained;
use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Drain, Surface};
use crate::rules::documents::icpi_permeable;
use crate::rules::drains::passes_through;
use crate::rules::wording::has_word;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Permeable paving over a liner that nothing drains.
pub(crate) static LINER_UNDRAINED: Rule = Rule {
    name: "liner-undrained",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "A permeable build over a membrane, and whether its water has a place to go or a drain lies in it.",
    reason: "The liner keeps the rain from the ground: with no way out the base fills like a bath, and freezes or floats the bed out.",
    remedy: "Lead an underdrain out of the liner, and say where it goes: water to \"ditch\".",
    limits: &[],
    sources: &[
        icpi_permeable("near foundations only if waterproofed and underdrained"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "\
surface court
  joint        8 mm, filled with chip-stone
  # no water

build sand-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          chip-stone, 40 mm
  base         open-stone, 200 mm, beyond 200 mm
  «membrane     impermeable-liner»
  fabric       geotextile, beyond 200 mm
  permeable, voids 40 %
",
    keeps: "\
surface court
  joint        8 mm, filled with chip-stone
  water        to \"underdrain to the ditch\"

build sand-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          chip-stone, 40 mm
  base         open-stone, 200 mm, beyond 200 mm
  membrane     impermeable-liner
  fabric       geotextile, beyond 200 mm
  permeable, voids 40 %
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let build = surface.build.as_ref().map(|build| build.value.as_ref());
    let Some((build, permeable)) = build.and_then(|build| Some((build, build.permeable?))) else {
        return;
    };
    let is_liner = |kind: Option<Kind>| kind == Some(Kind::Membrane);
    let mut sheets = build.layers_for(Role::Membrane);
    let Some(liner) = sheets.find(|sheet| is_liner(sheet.of.value.kind())) else {
        return;
    };
    let into_ground = |text: &str| has_word(text, GROUND);
    let is_led_off = match &surface.water {
        Some(water) => !water.value.text().is_some_and(into_ground),
        None => surface.entry("water").is_some(),
    };
    let is_unclear = [surface.section, build.section].map(|section| context.is_misread(section));
    if is_led_off
        || is_unclear.contains(&true)
        || is_drained(context, surface)
        || has_drain_in(context, surface)
    {
        return;
    }
    let message = format!(
        "{} holds the rain in the base and nothing lets it out: lead an underdrain out of it, and name where it goes",
        liner.of.value.name()
    );
    found.add(
        LINER_UNDRAINED
            .finding(context.at(surface, liner.place), message)
            .related(permeable, "permeable"),
    );
}

/// Words of the ground below, from which the liner keeps the water.
const GROUND: &[&str] = &[
    "ground",
    "subgrade",
    "formation",
    "soil",
    "subsoil",
    "earth",
];

/// Whether the run of a drain begins, ends or passes in a surface: an
/// underdrain in its base.
fn has_drain_in(context: &Context<'_>, surface: &Surface) -> bool {
    let ends_in = |drain: &Drain| {
        let mut pieces = drain.line.iter().flat_map(|line| line.value.edges());
        pieces.any(|piece| surface.contains(piece.start) || surface.contains(piece.end))
    };
    let mut drains = context.job.drains.iter();
    drains.any(|drain| passes_through(drain, surface) || ends_in(drain))
}
