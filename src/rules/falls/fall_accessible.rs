//! `fall-accessible`: too steep for a wheelchair to stand or turn on.

use super::fall_flat::slope_place;
use crate::findings::Severity;
use crate::geometry::Vector;
use crate::model::{Region, Surface, Use};
use crate::rules::documents::{ADA_FLOOR_SPACE, approved_document_m, as_nzs_1428};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};

/// An accessible surface that is too steep in its steepest direction.
pub(crate) static FALL_ACCESSIBLE: Rule = Rule {
    name: "fall-accessible",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "The steepest slope of an accessible surface, fall and cross fall together; of a straight walk what it falls across, as fall-steep looks at it lengthways. Not of ramps or landings, which have rules of their own.",
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
    // A walk may run down as steeply as any paving; across it nobody drifts.
    let across = walk_across(surface);
    let steepest = across.map_or(downhill.length(), |across| downhill.dot(across).abs());
    if limit.allows_si(steepest) {
        return;
    }
    let shown = slope::beside(&limit, steepest, context);
    let (where_to, remedy) = match across {
        Some(_) => ("across the walk", "Ease what it falls to the side"),
        None => ("at its steepest", "Ease the fall or the cross fall"),
    };
    let message = format!(
        "too steep for a wheelchair: {shown} {where_to}. {} is the most. {remedy}",
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
    if across.is_none() {
        let eased = slope::restated(context, &FALL_ACCESSIBLE, surface, limit.value.si(), found);
        finding.fixes.extend(eased);
    }
    found.add(finding);
}

/// How wide a walk is at most, in metres, and how many times as long at least:
/// a wider or a shorter surface is one to stand and turn on.
const WALK: (f64, f64) = (2.0, 3.0);

/// The way across a surface that is a straight walk.
pub(super) fn walk_across(surface: &Surface) -> Option<Vector> {
    let outline = surface.outline.as_ref()?;
    let straight = outline.edges().filter(|edge| !edge.is_arc());
    let longest = straight.max_by(|one, other| one.length().total_cmp(&other.length()))?;
    let along = longest.chord().unit();
    let (long, wide) = (outline.extent(along), outline.extent(along.left()));
    (wide <= WALK.0 && long >= WALK.1 * wide).then_some(along.left())
}
