//! `lip`: an edge to trip over, where two surfaces meet.

use crate::findings::{Place, Severity};
use crate::geometry::Edge;
use crate::model::{Contact, Surface};
use crate::rules::construction::is_stepping_stone;
use crate::rules::documents::ADA_CHANGES_IN_LEVEL;
use crate::rules::wording::limit_in_words;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// Surfaces that differ in level along their common edge by less than a step.
pub static LIP: Rule = Rule {
    name: "lip",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "The finished levels of two surfaces along the edge that they share: they differ by more than a lip may and by less than a step.",
    reason: "People trip over what is too low to be seen as a step, and wheels stop at it.",
    remedy: "Bring the two to one level along the edge, or make a proper step of it.",
    limits: &[
        Limit {
            row: "plain",
            of: "the difference in level along a common edge",
            bound: Bound::Most,
            general: Value {
                written: &["6.4 mm", "1/4 in"],
                source: ADA_CHANGES_IN_LEVEL,
            },
            regions: &[],
        },
        Limit {
            row: "step",
            of: "the difference in level that makes a step",
            bound: Bound::Least,
            general: Value {
                written: &["100 mm", "4 in"],
                source: STEPS,
            },
            regions: &[],
        },
    ],
    sources: &[ADA_CHANGES_IN_LEVEL, STEPS],
    breaks: "\
shape path
  rectangle    3 m by 4 m, at (6 m, 0 m)

surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"

surface path
  shape        path
  meets        north
  level        «-180 mm» at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    keeps: "\
shape path
  rectangle    3 m by 4 m, at (6 m, 0 m)

surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"

surface path
  shape        path
  meets        north
  level        -165 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    mended: None,
    check: Check::Surface(check),
};

/// The least rise that is taken for a step.
const STEPS: Source = Source::read(
    "ABA and ADA Standards, 504.2 Treads and Risers",
    "risers of 4 to 7 in",
);

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Some(lip), Some(step)) = (context.limit(&LIP, "plain"), context.limit(&LIP, "step"))
    else {
        return;
    };
    let is_stepped_on = |surface: &Surface| {
        let build = surface.build.as_ref();
        build.is_some_and(|build| is_stepping_stone(surface, &build.value))
    };
    for (other, difference) in neighbours(context, surface) {
        let by_stones = is_stepped_on(surface) || is_stepped_on(other);
        if by_stones || lip.allows_si(difference) || step.allows_si(difference) {
            continue;
        }
        let shown = context.show_length(difference);
        let message = format!(
            "along the common edge {} and {} differ in level by {shown}; they may differ by {}, or make a step: bring them to one level",
            surface.name.value,
            other.name.value,
            limit_in_words(&lip, context)
        );
        let related = format!("{} has its level here", other.name.value);
        found.add(
            LIP.finding(level_place(surface), message)
                .found(shown, Quantity::near(difference, Dimension::LENGTH))
                .against(&lip, context)
                .related(level_place(other), related),
        );
    }
}

/// The surfaces written before this one that share an edge with it, each with
/// the greatest difference in level along that edge, in metres.
fn neighbours<'a>(context: &'a Context<'_>, surface: &'a Surface) -> Vec<(&'a Surface, f64)> {
    let mut all: Vec<(usize, &Surface, f64)> = Vec::new();
    let (Some(outline), Some(plane)) = (&surface.outline, &surface.plane) else {
        return Vec::new();
    };
    for edge in outline.edges() {
        let Some(Contact::Surface(index)) = surface.contact(edge.tag) else {
            continue;
        };
        let Some(other) = context.beside(index).filter(|_| index < surface.index) else {
            continue;
        };
        let Some(other_plane) = &other.plane else {
            continue;
        };
        let difference = greatest(edge, |point| {
            (plane.level_at(point) - other_plane.level_at(point)).abs()
        });
        match all.iter_mut().find(|(known, ..)| *known == index) {
            Some((_, _, known)) => *known = known.max(difference),
            None => all.push((index, other, difference)),
        }
    }
    let found = all.into_iter();
    found
        .map(|(_, other, difference)| (other, difference))
        .collect()
}

fn greatest(edge: &Edge, figure: impl Fn(crate::geometry::Point) -> f64) -> f64 {
    let ends = [edge.start, edge.midpoint(), edge.end];
    ends.into_iter().map(figure).fold(0.0, f64::max)
}

fn level_place(surface: &Surface) -> Place {
    let level = surface.levels.first();
    level.map_or(surface.name.place, |level| level.value.place)
}
