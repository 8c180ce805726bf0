//! `fall-accessible`: too steep for a wheelchair to stand or turn on.

use super::fall_flat::slope_place;
use crate::findings::Severity;
use crate::model::{Region, Surface, Use};
use crate::rules::documents::{ADA_FLOOR_SPACE, as_nzs_1428};
use crate::rules::wording::limit_in_words;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};

/// An accessible surface that is too steep in its steepest direction.
pub static FALL_ACCESSIBLE: Rule = Rule {
    name: "fall-accessible",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "The steepest slope of a surface that is said to be accessible, fall and cross fall together; not of ramps.",
    reason: "A wheelchair rolls and turns by itself on a steeper floor, whichever way it stands.",
    remedy: "Ease the fall or the cross fall, so that the two together keep the limit.",
    limits: &[Limit {
        row: "plain",
        of: "an accessible surface, in its steepest direction",
        bound: Bound::Most,
        general: Value {
            written: &["1:48"],
            source: ADA_FLOOR_SPACE,
        },
        regions: &[(
            Region::Au,
            Value {
                written: &["1:40"],
                source: as_nzs_1428("cross fall, 1:40"),
            },
        )],
    }],
    sources: &[ADA_FLOOR_SPACE, as_nzs_1428("cross fall, 1:40")],
    breaks: "\
build sand-set
  paving       sandstone, 50 mm, waste 10 %
  bed          sharp-sand, 40 mm
  base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm

surface court
  shape        court
  for          foot, accessible
  meets        north
  level        -160 mm at north
  fall         «1:40» away from north
  build        sand-set
  laid         running-bond, units 300 mm by 600 mm
  joint        8 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    keeps: "\
build sand-set
  paving       sandstone, 50 mm, waste 10 %
  bed          sharp-sand, 40 mm
  base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm

surface court
  shape        court
  for          foot, accessible
  meets        north
  level        -160 mm at (0 m, 4 m)
  fall         1:60 away from north, cross 1:100 toward east
  build        sand-set
  laid         running-bond, units 300 mm by 600 mm
  joint        8 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    mended: Some(
        "\
build sand-set
  paving       sandstone, 50 mm, waste 10 %
  bed          sharp-sand, 40 mm
  base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm

surface court
  shape        court
  for          foot, accessible
  meets        north
  level        -160 mm at north
  fall         1:48 away from north
  build        sand-set
  laid         running-bond, units 300 mm by 600 mm
  joint        8 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    ),
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let Some(accessible) = surface.accessible else {
        return;
    };
    if surface.used_for == Use::Ramp {
        return;
    }
    let (Some(downhill), Some(limit)) = (
        slope::downhill(surface),
        context.limit(&FALL_ACCESSIBLE, "plain"),
    ) else {
        return;
    };
    let steepest = downhill.length();
    if limit.allows_si(steepest) {
        return;
    }
    let shown = slope::shown(steepest, context);
    let message = format!(
        "the surface falls {shown} in its steepest direction; to be accessible it may fall {}: ease it",
        limit_in_words(&limit, context)
    );
    let severity = match context.region() {
        Region::Us => Severity::Error,
        _ => Severity::Warning,
    };
    let mut finding = FALL_ACCESSIBLE
        .finding(slope_place(surface), message)
        .severity(severity)
        .found(shown, slope::as_quantity(steepest))
        .against(&limit, context)
        .related(accessible, "it is said to be accessible here");
    let eased = slope::restated(context, &FALL_ACCESSIBLE, surface, limit.value.si(), found);
    finding.fixes.extend(eased);
    found.add(finding);
}
