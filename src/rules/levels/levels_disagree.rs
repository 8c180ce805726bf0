//! `levels-disagree`: levels stated more than once that do not agree.

use super::{SAME_LEVEL, restated};
use crate::findings::{Finding, Place, Severity};
use crate::geometry::Plane;
use crate::model::{Drain, Level, LevelAt, Surface};
use crate::quantities::DrainFigures;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// Levels that are stated more than once and do not agree.
pub(crate) static LEVELS_DISAGREE: Rule = Rule {
    name: "levels-disagree",
    family: Family::Levels,
    severity: Severity::Error,
    looks_at: "A stated level against what the surface's other levels and its fall come to at the same place; an invert of a drain against its fall and its other inverts. The depth of a channel or a trench against the depth at which its inverts put it, where the one is over twice the other, a warning.",
    reason: "Only one of the two can be built, and nobody on site can tell which.",
    remedy: "Work the odd one out again, or leave it out.",
    limits: &[Limit::practice(
        "plain",
        "the difference of two levels stated for one place",
        Bound::Most,
        &["3.2 mm", "1/8 in"],
    )],
    sources: &[Source::computed("the levels of the spec itself")],
    breaks: "\
surface court
  level        -160 mm at north
  level        «-200 mm» at south
",
    keeps: "\
surface court
  level        -160 mm at north
  level        -240 mm at south
",
    mended: Some(
        "\
surface court
  level        -160 mm at north
  level        -240 mm at south
",
    ),
    check: Check::SurfaceAndJob(check, check_drains),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let Some(limit) = context.limit(&LEVELS_DISAGREE, "plain") else {
        return;
    };
    for (index, level) in surface.levels.iter().enumerate() {
        let earlier = surface.levels.get(..index).unwrap_or_default();
        let Some((other, why)) = expected(surface, level, earlier) else {
            continue;
        };
        let stated = level.value.value.si();
        let difference = (stated - other).abs();
        if !difference.is_finite() || limit.allows_si(difference) {
            continue;
        }
        let shown = limit.beside_si(difference, context.system());
        let computed = context.show_length(other);
        let message = match surface.plane {
            Some(_) => format!(
                "the fall and the other levels put this point at {computed}, {shown} off what is written: one of them is wrong"
            ),
            None => format!(
                "this point is at {computed} elsewhere, {shown} off what is written here: one of them is wrong"
            ),
        };
        let mut finding = LEVELS_DISAGREE
            .finding(level.value.place, message)
            .found(shown, Quantity::near(difference, Dimension::LENGTH))
            .against(&limit, context);
        for (place, what) in why {
            finding = finding.related(place, what);
        }
        finding
            .fixes
            .extend(restated(context, "Write", level, other));
        found.add(finding);
    }
}

/// Drains whose fall and inverts do not agree.
fn check_drains(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&LEVELS_DISAGREE, "plain") else {
        return;
    };
    let both = context.job.drains.iter().zip(context.figures.drains.iter());
    for (drain, figures) in both.filter(|(drain, _)| !drain.is_unread) {
        found.findings.extend(other_depth(context, drain, figures));
        let Some((off, place)) = figures
            .misfit
            .filter(|(off, _)| !limit.allows_si(off.abs()))
        else {
            continue;
        };
        let shown = limit.beside_si(off.abs(), context.system());
        let message = format!(
            "this invert is {shown} off what the fall and the other invert of {} give: one of the three is wrong",
            drain.name.value
        );
        let mut finding = LEVELS_DISAGREE
            .finding(place, message)
            .found(shown, Quantity::near(off.abs(), Dimension::LENGTH))
            .against(&limit, context);
        if let Some(fall) = &drain.fall {
            finding = finding.related(fall.place, "the fall is stated here");
        }
        found.add(finding);
    }
}

/// So many times the stated depth a channel or a trench may lie deep: it falls
/// along its length, and the ground over it too.
const TIMES_AS_DEEP: f64 = 2.0;

/// A channel or a trench that lies by its inverts far from as deep as it says.
/// Of one above the finish cover-thin tells.
fn other_depth(context: &Context<'_>, drain: &Drain, figures: &DrainFigures) -> Option<Finding> {
    let (stated, invert) = (drain.depth()?, drain.inverts.first()?);
    let (head, outlet) = figures.depths_m?;
    let (least, most) = (head.min(outlet), head.max(outlet));
    let deep = stated.value.si();
    let lies = if least > TIMES_AS_DEEP * deep {
        least
    } else if least >= 0.0 && TIMES_AS_DEEP * most < deep {
        most
    } else {
        return None;
    };
    let shown = context.show_length(lies);
    let message = format!(
        "{} is {} deep, but this invert puts it {shown} below the finish: one of the two is wrong",
        drain.name.value,
        context.show_length(deep)
    );
    let finding = LEVELS_DISAGREE
        .finding(invert.value.place, message)
        .severity(Severity::Warning)
        .found(shown, Quantity::near(lies, Dimension::LENGTH))
        .related(stated.place, "its depth is stated here");
    Some(finding)
}

/// What the rest of a surface says of a level's place, and where it says it:
/// its plane, or where there is none an earlier level of the same place.
fn expected<'a>(
    surface: &Surface,
    level: &Level,
    earlier: &'a [Level],
) -> Option<(f64, Vec<(Place, &'a str)>)> {
    let Some(plane) = &surface.plane else {
        let same = earlier.iter().find(|other| other.at == level.at)?;
        return Some((
            same.value.value.si(),
            vec![(same.place, "stated here as well")],
        ));
    };
    let other = farthest(surface, plane, level)?;
    let first = surface.levels.first();
    let others = first.filter(|first| first.place != level.place);
    let fall = surface.fall.as_ref();
    let why = others
        .map(|first| (first.place, "the other levels start here"))
        .into_iter()
        .chain(fall.map(|fall| (fall.place, "the fall is stated here")));
    Some((other, why.collect()))
}

/// The level of the plane where a level is stated; along an edge, where it is
/// farthest from what is stated.
fn farthest(surface: &Surface, plane: &Plane, level: &Level) -> Option<f64> {
    let stated = level.value.value.si();
    match &level.at {
        LevelAt::Point(point) => Some(plane.level_at(*point)),
        LevelAt::Edge(_, tags) => {
            let edges = surface.outline.as_ref()?.edges().filter(|edge| {
                let side = surface.sides.get(edge.tag as usize);
                side.is_some_and(|side| tags.contains(&side.edge))
            });
            let (low, high) = edges
                .map(|edge| plane.levels_along(edge))
                .reduce(|all, one| (all.0.min(one.0), all.1.max(one.1)))?;
            // An edge that falls along its length is told by the reading.
            if surface.fall.is_some() && high - low > SAME_LEVEL {
                return None;
            }
            let is_low_farther = (stated - low).abs() > (stated - high).abs();
            Some(if is_low_farther { low } else { high })
        }
        LevelAt::Whole => None,
    }
}
