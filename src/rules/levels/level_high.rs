//! `level-high`: paving too near the damp course, the foundation or the floor.

use super::{
    SAME_LEVEL, highest_undrained, is_garage_drive, lacks_minus, level_at_building, moved,
};
use crate::findings::{Place, Severity};
use crate::model::{Region, Stated, Surface, Walls};
use crate::rules::documents::{AS_3700, IRC_FOUNDATION, IRC_VENEER, NCC_SLAB_FLOOR, nhbc_external};
use crate::rules::wording::limit_as_written;
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value, slope};
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Term;

const SIX_INCHES: &[&str] = &["150 mm", "6 in"];

/// Below the damp course where no region says otherwise.
const BELOW_DAMP_COURSE: Value = Value {
    written: SIX_INCHES,
    source: nhbc_external("10.2.6, paving below the damp-proof course"),
};

/// Below an American threshold.
const AMERICAN: (Region, Value) = (Region::Us, Value::practice(&["13 mm", "1/2 in"]));

const fn australian(written: &'static [&'static str]) -> (Region, Value) {
    (
        Region::Au,
        Value {
            written,
            source: AS_3700,
        },
    )
}

/// A finished level at the building too near what has to stay dry.
pub(crate) static LEVEL_HIGH: Rule = Rule {
    name: "level-high",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "How far the paving at the building lies below the damp course, the top of the foundation and, where no damp course is stated, the floor; not along an edge with a channel.",
    reason: "Rain splashes up from paving and snow lies on it: too high, it wets the wall above and the floor inside.",
    remedy: "Lower the paving, hold it back from the wall, or put a channel along the wall.",
    limits: &[
        Limit {
            row: "plain",
            of: "paving below the floor, where no damp course is stated",
            bound: Bound::Least,
            general: Value::practice(SIX_INCHES),
            regions: &[
                AMERICAN,
                (
                    Region::Au,
                    Value {
                        written: &["50 mm"],
                        source: NCC_SLAB_FLOOR,
                    },
                ),
            ],
        },
        Limit {
            row: "floor-level",
            of: "paving that does not fall away below the floor, where no damp course is stated",
            bound: Bound::Least,
            general: Value::practice(SIX_INCHES),
            regions: &[
                AMERICAN,
                (
                    Region::Au,
                    Value {
                        written: &["150 mm"],
                        source: NCC_SLAB_FLOOR,
                    },
                ),
            ],
        },
        Limit::practice(
            "garage",
            "a drive below the floor at a garage door, where no damp course is stated",
            Bound::Least,
            &["13 mm", "1/2 in"],
        ),
        Limit {
            row: "damp-course",
            of: "paving below the damp course",
            bound: Bound::Least,
            general: BELOW_DAMP_COURSE,
            regions: &[(Region::Uk, BELOW_DAMP_COURSE), australian(&["75 mm"])],
        },
        Limit {
            row: "damp-course-roofed",
            of: "paving under a roof below the damp course",
            bound: Bound::Least,
            general: BELOW_DAMP_COURSE,
            regions: &[(Region::Uk, BELOW_DAMP_COURSE), australian(&["50 mm"])],
        },
        Limit {
            row: "damp-course-level",
            of: "paving that does not fall away below the damp course",
            bound: Bound::Least,
            general: BELOW_DAMP_COURSE,
            regions: &[(Region::Uk, BELOW_DAMP_COURSE), australian(&["150 mm"])],
        },
        Limit {
            row: "foundation",
            of: "paving below the top of the foundation",
            bound: Bound::Least,
            general: Value {
                written: SIX_INCHES,
                source: IRC_FOUNDATION,
            },
            regions: &[],
        },
        Limit {
            row: "veneer",
            of: "paving below the top of the foundation under masonry veneer",
            bound: Bound::Least,
            general: Value {
                written: &["100 mm", "4 in"],
                source: IRC_VENEER,
            },
            regions: &[],
        },
    ],
    sources: &[
        nhbc_external("10.2.6, paving below the damp-proof course"),
        AS_3700,
        NCC_SLAB_FLOOR,
        IRC_FOUNDATION,
        IRC_VENEER,
    ],
    breaks: "\
surface court
  level        «-60 mm» at north
",
    keeps: "\
site
  damp-course  -10 mm
",
    mended: Some(
        "\
surface court
  level        -150 mm at north
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
    /// What comes of it.
    pub harm: &'static str,
    /// How much it matters.
    pub severity: Severity,
}

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Some(level), Some(stated)) = (highest_undrained(surface), level_at_building(surface))
    else {
        return;
    };
    // A channel that could not be read may keep the wall dry.
    let is_lost = surface.channels.is_empty() && surface.entry("channel").is_some();
    if lacks_minus(context, surface) || is_lost {
        return;
    }
    for above in all_above(context, surface) {
        let Some(limit) = limit(context, &above) else {
            continue;
        };
        let below = above.level - level;
        if limit.allows_si(below + SAME_LEVEL) {
            continue;
        }
        let (name, harm) = (above.name, above.harm);
        let shown = limit.beside_si(below.abs(), context.system());
        let lies = match below {
            below if below.abs() <= SAME_LEVEL => format!("the paving is level with the {name}"),
            below if below < 0.0 => format!("the paving lies {shown} above the {name}"),
            _ => format!("the paving lies only {shown} below the {name}"),
        };
        let message = format!(
            "{lies}: {harm}. {} is the least. Lower it, or put a {} at the wall",
            limit.shown(context.system()),
            context.word(Term::Channel)
        );
        let mut finding = LEVEL_HIGH
            .finding(stated.value.place, message)
            .severity(above.severity)
            .found(
                limit.beside_si(below, context.system()),
                Quantity::near(below, Dimension::LENGTH),
            )
            .against(&limit, context)
            .related(above.place, format!("the {name}, as stated here"));
        let lowered = lowered(&above, &limit, context);
        let title = "Lower the level to";
        let fix = moved(context, &LEVEL_HIGH, surface, title, lowered, found);
        finding.fixes.extend(fix);
        found.add(finding);
    }
}

/// The limit that is in force below what must stay dry.
pub(super) fn limit(context: &Context<'_>, above: &Above) -> Option<InForce> {
    context.limit(&LEVEL_HIGH, above.row)
}

/// All that the paving must stay below: the damp course, or where none is
/// stated the floor; and the top of the foundation.
pub(super) fn all_above(context: &Context<'_>, surface: &Surface) -> Vec<Above> {
    let site = &context.job.site;
    let is_american = context.region() == Region::Us;
    let damp_course = site.damp_course.as_ref().map(|level| Above {
        level: level.value.si(),
        place: level.place,
        row: damp_course_row(surface),
        name: context.word(Term::DampCourse),
        harm: "rain splashes up the wall over it",
        severity: match context.region() {
            Region::Uk => Severity::Error,
            _ => Severity::Warning,
        },
    });
    let is_veneer = site.walls.as_ref().map(|walls| walls.value) == Some(Walls::MasonryVeneer);
    let foundation = site
        .foundation
        .as_ref()
        .map(|level: &Stated<Quantity>| Above {
            level: level.value.si(),
            place: level.place,
            row: if is_veneer { "veneer" } else { "foundation" },
            name: "top of the foundation",
            harm: "the wall on it gets wet",
            severity: Severity::Warning,
        });
    // An American threshold may be all but flush, most of all one for wheels.
    let counts = damp_course.is_none() && !(is_american && surface.accessible.is_some());
    let floor = site.floor.as_ref().filter(|_| counts);
    let is_near_flush = is_american || is_garage_drive(site, surface);
    let floor = floor.map(|level| Above {
        level: level.value.si(),
        place: level.place,
        row: match is_garage_drive(site, surface) {
            true => "garage",
            false if falls_away(surface) => "plain",
            false => "floor-level",
        },
        name: "floor",
        harm: match is_near_flush {
            true => "rain blows in",
            false => "rain splashes up the wall",
        },
        severity: match is_near_flush {
            true => Severity::Advisory,
            false => Severity::Warning,
        },
    });
    [damp_course, foundation, floor]
        .into_iter()
        .flatten()
        .collect()
}

/// The row below a damp course: a roof and a fall away keep the wall drier.
fn damp_course_row(surface: &Surface) -> &'static str {
    match surface.covered {
        Some(_) => "damp-course-roofed",
        None if falls_away(surface) => "damp-course",
        None => "damp-course-level",
    }
}

/// Whether it falls away from every edge at the building.
fn falls_away(surface: &Surface) -> bool {
    slope::downhill(surface).is_some_and(|downhill| {
        let away = slope::away_from_building(surface, downhill).into_iter();
        let least = away.reduce(f64::min);
        least.is_some_and(|least| least > slope::SAME_SLOPE)
    })
}

/// The highest level that keeps the limit, of twins the one in the job's
/// units, in metres.
fn lowered(above: &Above, limit: &InForce, context: &Context<'_>) -> f64 {
    let wanted = crate::model::literal(&limit_as_written(limit, context))
        .map_or(limit.value.si(), |twin| twin.si());
    above.level - wanted
}
