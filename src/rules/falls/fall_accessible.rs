//! `fall-accessible`: too steep for a wheelchair to stand or turn on.

use super::fall_flat::slope_place;
use crate::findings::Severity;
use crate::model::{Region, Surface, Use};
use crate::rules::documents::{ADA_FLOOR_SPACE, approved_document_m, as_nzs_1428};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};

/// An accessible surface that is too steep in its steepest direction.
pub(crate) static FALL_ACCESSIBLE: Rule = Rule {
    name: "fall-accessible",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "The steepest slope of an accessible surface, fall and cross fall together; not of ramps or landings, which have rules of their own.",
    reason: "A wheelchair drifts downhill on a steeper floor, whichever way it faces.",
    remedy: "Ease the fall or the cross fall: the two together count.",
    limits: &[Limit {
        row: "plain",
        of: "an accessible surface, in its steepest direction",
        bound: Bound::Most,
        general: Value {
            written: &["1:48"],
            source: ADA_FLOOR_SPACE,
        },
        regions: &[
            (
                Region::Uk,
                Value {
                    written: &["1:40"],
                    source: approved_document_m(
                        "a suitable ground surface: crossfall 1:40 at most",
                    ),
                },
            ),
            (
                Region::Au,
                Value {
                    written: &["1:40"],
                    source: as_nzs_1428("7.1(d) and 10.3.1, crossfall of 1:40"),
                },
            ),
        ],
    }],
    sources: &[
        ADA_FLOOR_SPACE,
        approved_document_m("a suitable ground surface"),
        as_nzs_1428("7.1(d) and 10.3.1"),
    ],
    breaks: "\
build sand-set
  paving       sandstone, 50 mm, waste 10 %
  bed          sharp-sand, 40 mm

surface court
  for          foot, accessible
  fall         «1:40» away from north
  laid         running-bond, units 300 mm by 600 mm
  joint        8 mm, filled with joint-sand
",
    keeps: "\
build sand-set
  paving       sandstone, 50 mm, waste 10 %
  bed          sharp-sand, 40 mm

surface court
  for          foot, accessible
  level        -160 mm at (0 m, 4 m)
  fall         1:60 away from north, cross 1:100 toward east
  laid         running-bond, units 300 mm by 600 mm
  joint        8 mm, filled with joint-sand
",
    mended: Some(
        "\
build sand-set
  paving       sandstone, 50 mm, waste 10 %
  bed          sharp-sand, 40 mm

surface court
  for          foot, accessible
  fall         1:48 away from north
  laid         running-bond, units 300 mm by 600 mm
  joint        8 mm, filled with joint-sand
",
    ),
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let Some(accessible) = surface.accessible else {
        return;
    };
    if matches!(surface.used_for, Use::Ramp | Use::Landing) {
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
    let shown = slope::beside(&limit, steepest, context);
    let message = format!(
        "too steep for a wheelchair: {shown} at its steepest. {} is the most. Ease the fall or the cross fall",
        limit.shown(context.system())
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
        .related(accessible, "accessible, as stated here");
    let eased = slope::restated(context, &FALL_ACCESSIBLE, surface, limit.value.si(), found);
    finding.fixes.extend(eased);
    found.add(finding);
}
