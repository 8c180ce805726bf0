//! `level-high`: paving too near the damp course or the floor.

use super::{SAME_LEVEL, clearance, highest_undrained, is_over_floor, level_at_building, moved};
use crate::findings::{Place, Severity};
use crate::model::{Region, Surface, Walls};
use crate::rules::documents::{IRC_FOUNDATION, IRC_VENEER, nhbc_external};
use crate::rules::wording::{limit_as_written, limit_in_words};
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

const SIX_INCHES: &[&str] = &["150 mm", "6 in"];

/// A finished level at the building too near the damp course or the floor.
pub static LEVEL_HIGH: Rule = Rule {
    name: "level-high",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "How far the finished level at the building lies below the damp course or, where none is given, below the floor; not along an edge with a drain channel.",
    reason: "Rain splashes up from paving and snow lies on it: too near the damp course or the floor, it wets the wall above and the floor inside.",
    remedy: "Lower the paving, hold it back from the wall, or put a channel along the wall.",
    limits: &[
        Limit {
            row: "plain",
            of: "paving below the floor, where no damp course is given",
            bound: Bound::Least,
            general: Value {
                written: SIX_INCHES,
                source: Source::COMMON_PRACTICE,
            },
            regions: &[(
                Region::Us,
                Value {
                    written: SIX_INCHES,
                    source: IRC_FOUNDATION,
                },
            )],
        },
        Limit {
            row: "veneer",
            of: "paving below the floor of a house with masonry veneer, where no damp course is given",
            bound: Bound::Least,
            general: Value {
                written: SIX_INCHES,
                source: Source::COMMON_PRACTICE,
            },
            regions: &[(
                Region::Us,
                Value {
                    written: &["100 mm", "4 in"],
                    source: IRC_VENEER,
                },
            )],
        },
        Limit {
            row: "damp-course",
            of: "paving below the damp course",
            bound: Bound::Least,
            general: Value {
                written: SIX_INCHES,
                source: nhbc_external("10.2.6, paving below the damp-proof course"),
            },
            regions: &[],
        },
    ],
    sources: &[
        nhbc_external("10.2.6, paving below the damp-proof course"),
        IRC_FOUNDATION,
        IRC_VENEER,
    ],
    breaks: "\
surface court
  shape        court
  meets        north
  level        «-60 mm» at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    keeps: "\
site
  soil         gravel, firm
  datum        \"hall floor\"
  damp-course  -10 mm
  ground       -200 mm
",
    mended: Some(
        "\
surface court
  shape        court
  meets        north
  level        -150 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    ),
    check: Check::Surface(check),
};

/// What the paving must stay below.
pub(super) struct Above {
    /// Its level, in metres.
    pub level: f64,
    /// Where that is stated.
    pub place: Place,
    /// The row of the limit.
    pub row: &'static str,
    /// What it is.
    pub name: &'static str,
    /// How much it matters.
    pub severity: Severity,
}

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Some(above), Some(level), Some(stated)) = (
        above(context),
        highest_undrained(surface),
        level_at_building(surface),
    ) else {
        return;
    };
    let Some(limit) = limit(context, &above) else {
        return;
    };
    let below = above.level - level;
    if is_over_floor(context, surface)
        || limit.allows_si(below + SAME_LEVEL)
        || clearance::conflict(context, surface).is_some()
    {
        return;
    }
    let name = above.name;
    let shown = context.show_length(below.abs());
    let lies = match below {
        below if below.abs() <= SAME_LEVEL => format!("at the level of the {name}"),
        below if below < 0.0 => format!("{shown} above the {name}"),
        _ => format!("{shown} below the {name}"),
    };
    let message = format!(
        "the paving lies {lies} at the building; it wants {} below it: lower it, hold it back from the wall, or put a channel there",
        limit_in_words(&limit, context)
    );
    let mut finding = LEVEL_HIGH
        .finding(stated.value.place, message)
        .severity(above.severity)
        .found(
            context.show_length(below),
            Quantity::near(below, Dimension::LENGTH),
        )
        .against(&limit, context)
        .related(above.place, format!("the {name} is stated here"));
    let lowered = lowered(&above, &limit, context);
    let title = "Lower the level to";
    let fix = moved(context, &LEVEL_HIGH, surface, title, lowered, found);
    finding.fixes.extend(fix);
    found.add(finding);
}

/// The limit that is in force below the damp course or floor.
pub(super) fn limit(context: &Context<'_>, above: &Above) -> Option<InForce> {
    context.limit(&LEVEL_HIGH, above.row)
}

/// The damp course, or where none is given the floor.
pub(super) fn above(context: &Context<'_>) -> Option<Above> {
    let site = &context.job.site;
    if let Some(damp_course) = &site.damp_course {
        return Some(Above {
            level: damp_course.value.si(),
            place: damp_course.place,
            row: "damp-course",
            name: "damp course",
            severity: match context.region() {
                Region::Uk => Severity::Error,
                _ => Severity::Warning,
            },
        });
    }
    let floor = site.floor.as_ref()?;
    let is_veneer = site.walls.as_ref().map(|walls| walls.value) == Some(Walls::MasonryVeneer);
    Some(Above {
        level: floor.value.si(),
        place: floor.place,
        row: if is_veneer { "veneer" } else { "plain" },
        name: "floor",
        severity: Severity::Warning,
    })
}

/// The highest level that keeps the limit, of twins the one in the job's
/// units, in metres.
fn lowered(above: &Above, limit: &InForce, context: &Context<'_>) -> f64 {
    let wanted = crate::model::literal(&limit_as_written(limit, context))
        .map_or(limit.value.si(), |twin| twin.si());
    above.level - wanted
}
