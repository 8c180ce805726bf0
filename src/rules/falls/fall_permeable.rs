//! `fall-permeable`: permeable paving too steep to hold its water.

use super::fall_accessible::FALL_ACCESSIBLE;
use super::fall_flat::slope_place;
use crate::findings::Severity;
use crate::model::{Build, Surface, Use};
use crate::rules::documents::icpi_permeable;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};

/// Permeable paving that is too steep.
pub(crate) static FALL_PERMEABLE: Rule = Rule {
    name: "fall-permeable",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "The steepest slope of permeable paving. It needs no least fall.",
    reason: "On a slope the water runs down through the base and comes out at its low end instead of soaking in.",
    remedy: "Ease the fall, step the base with check dams, or pave with falls and drains.",
    limits: &[Limit {
        row: "plain",
        of: "permeable paving",
        bound: Bound::Most,
        general: Value {
            written: &["5 %"],
            source: icpi_permeable("slope of the surface, 0 to 5 %"),
        },
        regions: &[],
    }],
    sources: &[icpi_permeable("slope of the surface, 0 to 5 %")],
    breaks: "\
surface court
  # no meets
  fall         «6 %» toward south
  build        open-set
  joint        8 mm, filled with chip-stone

build open-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          open-stone, 50 mm
  base         open-stone, 200 mm, beyond 200 mm
  permeable
",
    keeps: "\
surface court
  # no meets
  fall         5 % toward south
  build        open-set
  joint        8 mm, filled with chip-stone

build open-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          open-stone, 50 mm
  base         open-stone, 200 mm, beyond 200 mm
  permeable
",
    mended: Some(
        "\
surface court
  # no meets
  fall         1:20 toward south
  build        open-set
  joint        8 mm, filled with chip-stone

build open-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          open-stone, 50 mm
  base         open-stone, 200 mm, beyond 200 mm
  permeable
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(permeable) = build.permeable else {
        return;
    };
    let is_told =
        surface.accessible.is_some() && context.is_in_force(&FALL_ACCESSIBLE, Severity::Warning);
    if surface.used_for == Use::Ramp || is_told {
        return;
    }
    let (Some(downhill), Some(limit)) = (
        slope::downhill(surface),
        context.limit(&FALL_PERMEABLE, "plain"),
    ) else {
        return;
    };
    let steepest = downhill.length();
    if limit.allows_si(steepest) {
        return;
    }
    let shown = slope::beside(&limit, steepest, context);
    let message = format!(
        "permeable paving at {shown} is too steep: over {} the water runs down the base instead of soaking in. Ease it, or put in check dams",
        limit.shown(context.system())
    );
    let mut finding = FALL_PERMEABLE
        .finding(slope_place(surface), message)
        .found(shown, slope::as_quantity(steepest))
        .against(&limit, context)
        .related(permeable, "permeable, as stated here");
    let eased = slope::restated(context, &FALL_PERMEABLE, surface, limit.value.si(), found);
    finding.fixes.extend(eased);
    found.add(finding);
}
