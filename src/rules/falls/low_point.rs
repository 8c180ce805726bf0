//! `low-point`: a line from which water has nowhere to run.

use crate::findings::{Place, Severity};
use crate::geometry::Edge;
use crate::model::{Contact, Drain, DrainKind, DrainLine, Edging, Surface};
use crate::quantities::{BESIDE, End, Fate, Shut};
use crate::rules::{Check, Context, Family, Found, Rule, slope};
use crate::sources::Source;
use crate::vocabulary::Term;

use super::fall_missing::is_exempt;

/// Where less of a surface drains to a corner, in square metres, nobody sees
/// what stands there.
const PUDDLE_M2: f64 = 0.1;

/// Two surfaces that fall towards one another.
pub(crate) static LOW_POINT: Rule = Rule {
    name: "low-point",
    family: Family::Falls,
    severity: Severity::Error,
    looks_at: "Two surfaces that fall towards the edge that they share, where that edge is level and no channel, trench or gully takes the water; and an edging that stands proud, or a surface that stands higher, against which water stands.",
    reason: "The water of both gathers there, stands and soaks in.",
    remedy: "Turn one of the falls, put a channel between the two, or let their edge fall along its length.",
    limits: &[],
    sources: &[Source::computed("the falls of the spec itself")],
    breaks: "\
shape path
  rectangle    3 m by 4 m, at (6 m, 0 m)

surface court
  # no meets
  level        -160 mm at west
  fall         1:50 toward east

surface path
  shape        path
  level        -220 mm at east
  «fall         1:50 toward west»
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    keeps: "\
site
  ground       -260 mm

shape path
  rectangle    3 m by 4 m, at (6 m, 0 m)

surface court
  # no meets
  level        -160 mm at west
  fall         1:50 toward east

surface path
  shape        path
  level        -280 mm at west
  fall         1:50 toward east
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let own = surface.index;
    let mut proud = surface.edgings.iter().filter(|own| own.above.is_some());
    let proud = proud.next();
    if !is_exempt(surface) && (proud.is_some() || may_be_held(context, surface)) {
        held_up(context, surface, proud, found);
    }
    let mut reported: Vec<usize> = Vec::new();
    for edge in surface.edges() {
        let Some(Contact::Surface(index)) = surface.contact(edge.tag) else {
            continue;
        };
        // Told once, at the surface that is written later.
        if index >= own || reported.contains(&index) {
            continue;
        }
        let Some(other) = context.beside(index) else {
            continue;
        };
        if gathers(edge, surface, other) && !is_drained(context, edge, surface, other) {
            reported.push(index);
            let message = format!(
                "{} and {} both fall to the level edge between them: water will stand there. Turn one of the falls, or put in a {}",
                surface.name.value,
                other.name.value,
                context.word(Term::Channel)
            );
            let related = format!("{} falls this way", other.name.value);
            found.add(
                LOW_POINT
                    .finding(fall_place(surface), message)
                    .related(fall_place(other), related),
            );
        }
    }
}

/// Whether both surfaces fall towards an edge of the first that is level
/// along its length.
fn gathers(edge: &Edge, surface: &Surface, other: &Surface) -> bool {
    if edge.is_arc() || is_exempt(surface) || is_exempt(other) {
        return false;
    }
    let (Some(own), Some(theirs)) = (slope::downhill(surface), slope::downhill(other)) else {
        return false;
    };
    let (inward, along) = (slope::inward(edge), edge.chord().unit());
    own.dot(inward) < -slope::SAME_SLOPE
        && theirs.dot(inward) > slope::SAME_SLOPE
        && own.dot(along).abs() <= slope::SAME_SLOPE
        && theirs.dot(along).abs() <= slope::SAME_SLOPE
}

/// Whether a drain takes what comes to an edge between two surfaces: a channel
/// or a trench of either, or a gully at it.
fn is_drained(context: &Context<'_>, edge: &Edge, surface: &Surface, other: &Surface) -> bool {
    let mut theirs = other
        .edges()
        .filter(|edge| other.contact(edge.tag) == Some(Contact::Surface(surface.index)));
    let takes = |drain: &Drain| match drain.line.as_ref().map(|line| &line.value) {
        Some(DrainLine::At(at)) => {
            drain.kind() == Some(DrainKind::Gully) && edge.distance_to(*at) <= BESIDE
        }
        Some(DrainLine::Along { edges, .. }) => {
            drain.kind() == Some(DrainKind::Trench)
                && edges
                    .iter()
                    .any(|own| own.distance_to(edge.midpoint()) <= BESIDE)
        }
        _ => false,
    };
    surface.channel(edge.tag).is_some()
        || theirs.any(|edge| other.channel(edge.tag).is_some())
        || context.job.drains.iter().any(|drain| takes(drain))
}

/// Whether a surface falls to one beside it that stands higher.
fn may_be_held(context: &Context<'_>, surface: &Surface) -> bool {
    let (Some(own), Some(downhill)) = (surface.plane, slope::downhill(surface)) else {
        return false;
    };
    surface.edges().any(|edge| {
        let Some(Contact::Surface(other)) = surface.contact(edge.tag) else {
            return false;
        };
        let theirs = context.beside(other);
        let theirs = theirs.and_then(|other| other.plane_along(edge));
        let stands = theirs.is_some_and(|plane| plane.less(&own).levels_along(edge).1 > 0.0);
        edge.inward_share(downhill).0 < 0.0 && stands
    })
}

/// Water that comes to an edging that stands proud, or to a surface that stands
/// higher, and stands there.
fn held_up(context: &Context<'_>, surface: &Surface, proud: Option<&Edging>, found: &mut Found) {
    let water = context.water();
    let ways = water.surfaces.get(surface.index);
    let ways = ways.and_then(|water| water.ways.as_ref());
    let standing = ways
        .into_iter()
        .flatten()
        .filter(|way| matches!(way.end, Some(End::Stands { .. })) && way.area_m2 >= PUDDLE_M2);
    // The edge to which most of it comes is told.
    let mut standing: Vec<_> = standing.collect();
    standing.sort_by(|one, other| other.area_m2.total_cmp(&one.area_m2));
    let mut reported: Vec<Shut> = Vec::new();
    for way in standing {
        let (Some(edge), Fate::Shut(shut)) = (way.edge, way.fate) else {
            continue;
        };
        let Some(End::Stands { at, .. }) = way.end else {
            continue;
        };
        if reported.contains(&shut) {
            continue;
        }
        reported.push(shut);
        let drain = format!(
            "a {} or a {}",
            context.word(Term::Gully),
            context.word(Term::Channel)
        );
        let edge = surface.edge_name(edge);
        let shown = |along: f64| context.show_length(along);
        let at = format!("({}, {})", shown(at.x), shown(at.y));
        let (place, message) = match (shut, proud) {
            (Shut::Proud, Some(edging)) => (
                edging.place,
                format!(
                    "water comes to the edging that stands proud at {edge}, and stands at {at}. Put in {drain} there, or set the edging flush"
                ),
            ),
            (Shut::Higher(other), _) => {
                let other = context.beside(other).map_or("", |other| &*other.name.value);
                let message = format!(
                    "water comes to {edge}, where {other} stands higher, and stands at {at}. Put in {drain} there, lower {other}, or turn the fall"
                );
                (fall_place(surface), message)
            }
            _ => continue,
        };
        let finding = LOW_POINT.finding(place, message);
        found.add(match place == fall_place(surface) {
            true => finding,
            false => finding.related(fall_place(surface), "the surface falls this way"),
        });
    }
}

fn fall_place(surface: &Surface) -> Place {
    let fall = surface.fall.as_ref();
    fall.map_or(surface.name.place, |fall| fall.place)
}
