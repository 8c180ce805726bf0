//! `lip`: an edge to trip over, where two surfaces meet.

use super::guard_missing::GUARD_MISSING;
use crate::findings::{Place, Severity};
use crate::geometry::{Edge, Plane};
use crate::model::{Contact, Ending, Region, Stated, Surface};
use crate::rules::construction::{Construction, is_stepping_stone};
use crate::rules::documents::{ADA_CHANGES_IN_LEVEL, APPROVED_K_STAIRS, IRC_RISERS, NCC_RISERS};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Use;

/// The least rise that is taken for a step.
const STEPS: Source = Source::read(
    "ABA and ADA Standards, 504.2 Treads and Risers",
    "risers of 4 to 7 in",
);

/// Surfaces that differ in level along their common edge by less than a step,
/// or by more than one.
pub(crate) static LIP: Rule = Rule {
    name: "lip",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "The finished levels of two surfaces all along the edge that they share: where the difference is more than a lip and less than a step, or more than one riser; at the end of a ramp any step.",
    reason: "People trip over what is too low to be seen as a step, and fall where a step is too high to take.",
    remedy: "Bring the two to one level along the edge, or put in proper steps.",
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
        Limit::practice(
            "loose",
            "the difference in level beside loose gravel",
            Bound::Most,
            &["25 mm", "1 in"],
        ),
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
        Limit {
            row: "riser",
            of: "the difference in level that one step takes up",
            bound: Bound::Most,
            general: Value {
                written: &["220 mm", "8 5/8 in"],
                source: APPROVED_K_STAIRS,
            },
            regions: &[
                (
                    Region::Us,
                    Value {
                        written: &["196 mm", "7 3/4 in"],
                        source: IRC_RISERS,
                    },
                ),
                (
                    Region::Uk,
                    Value {
                        written: &["220 mm"],
                        source: APPROVED_K_STAIRS,
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["190 mm"],
                        source: NCC_RISERS,
                    },
                ),
            ],
        },
    ],
    sources: &[ADA_CHANGES_IN_LEVEL, STEPS, APPROVED_K_STAIRS, NCC_RISERS],
    breaks: "\
shape path
  rectangle    3 m by 4 m, at (6 m, 0 m)

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

surface court
  level        -160 mm at north
",
    keeps: "\
shape path
  rectangle    3 m by 4 m, at (6 m, 0 m)

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

surface court
  level        -160 mm at north
",
    mended: None,
    check: Check::Surface(check),
};

/// A shorter stretch, in metres, is a point where two planes cross, and
/// nobody trips over it.
const A_FOOT: f64 = 0.01;

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Some(step), Some(riser)) = (context.limit(&LIP, "step"), context.limit(&LIP, "riser"))
    else {
        return;
    };
    for drop in drops_to_neighbours(context, surface) {
        let other = drop.other;
        if is_stepped_on(surface) || is_stepped_on(other) {
            continue;
        }
        let row = match is_loose(surface) || is_loose(other) {
            true => "loose",
            false => "plain",
        };
        let Some(lip) = context.limit(&LIP, row) else {
            continue;
        };
        let related = format!("{} has its level here", other.name.value);
        let low = lip.value.si() + 1e-9;
        let has_steps = are_joined_by_steps(context, surface, other);
        let ends_ramp = !has_steps && drop.ends_ramp(surface);
        if ends_ramp && drop.within(step.value.si() - 1e-9, f64::MAX).0 > A_FOOT {
            let shown = lip.beside_si(drop.most, context.system());
            let message = format!(
                "the ramp ends in a step of {shown}: {} lies that far below {}. {} is the most. Bring them level",
                drop.lower,
                drop.higher,
                lip.shown(context.system())
            );
            found.add(
                LIP.finding(level_place(surface), message)
                    .found(shown, Quantity::near(drop.most, Dimension::LENGTH))
                    .against(&lip, context)
                    .related(level_place(other), related),
            );
            continue;
        }
        let high = step.value.si() - 1e-9;
        let (length, most) = drop.within(low, high);
        if length > A_FOOT {
            let shown = lip.beside_si(most, context.system());
            let message = format!(
                "a lip of {shown} between {} and {}, along {} of edge: people will trip. {} is the most. Bring them level, or make a step",
                other.name.value,
                surface.name.value,
                context.show_length(length),
                lip.shown(context.system())
            );
            found.add(
                LIP.finding(level_place(surface), message)
                    .found(shown, Quantity::near(most, Dimension::LENGTH))
                    .against(&lip, context)
                    .related(level_place(other), related.clone()),
            );
        }
        // What is to be guarded, `guard-missing` tells, which is graver.
        let guard = context.limit(&GUARD_MISSING, "plain");
        let is_to_guard = guard.is_some_and(|guard| !guard.allows_si(drop.most))
            && context.is_in_force(&GUARD_MISSING, Severity::Warning);
        if riser.allows_si(drop.most) || is_to_guard || drop.is_guarded || has_steps {
            continue;
        }
        let shown = riser.beside_si(drop.most, context.system());
        let message = format!(
            "{} lies {shown} below {}: too high for one step. {} is the most. Put in steps, or guard the edge",
            drop.lower,
            drop.higher,
            riser.shown(context.system())
        );
        found.add(
            LIP.finding(level_place(surface), message)
                .found(shown, Quantity::near(drop.most, Dimension::LENGTH))
                .against(&riser, context)
                .related(level_place(other), related),
        );
    }
}

/// Whether a flight of steps leads from one surface to another.
fn are_joined_by_steps(context: &Context<'_>, one: &Surface, other: &Surface) -> bool {
    let is_end = |ending: &Option<Stated<Ending>>, surface: &Surface| match ending {
        Some(stated) => stated.value == Ending::Surface(surface.name.value.clone()),
        None => false,
    };
    context.job.steps.iter().any(|steps| {
        let leads = |low, high| is_end(&steps.from, low) && is_end(&steps.to, high);
        leads(one, other) || leads(other, one)
    })
}

/// Whether a surface is of stepping stones, which stand a little proud.
fn is_stepped_on(surface: &Surface) -> bool {
    let build = surface.build.as_ref();
    build.is_some_and(|build| is_stepping_stone(surface, &build.value))
}

/// Whether a surface is of loose gravel, which is never true to a lip.
fn is_loose(surface: &Surface) -> bool {
    let build = surface.build.as_ref();
    build.is_some_and(|build| Construction::of(&build.value) == Construction::Surfacing)
}

/// How two surfaces differ in level along the edges that they share.
pub(super) struct Drop<'a> {
    /// The one that is not looked at.
    pub other: &'a Surface,
    /// The greatest difference, in metres.
    pub most: f64,
    /// The name of the one that is higher there.
    pub higher: &'a str,
    /// The name of the one that is lower there.
    pub lower: &'a str,
    /// Whether a guard runs along all of it where it is greatest.
    pub is_guarded: bool,
    /// The shared sides, and how much higher the other lies over them.
    shared: Vec<(Edge, Plane)>,
}

impl Drop<'_> {
    /// Whether one of the two is a ramp that is walked across the edges that
    /// they share, and not beside them.
    fn ends_ramp(&self, own: &Surface) -> bool {
        let surfaces = [own, self.other].into_iter();
        let mut ramps = surfaces.filter(|one| one.used_for == Use::Ramp);
        ramps.any(|ramp| {
            let mut edges = self.shared.iter().map(|(edge, _)| edge);
            edges.any(|edge| {
                ramp.plane.is_some_and(|plane| {
                    let along = plane.fall_toward(edge.chord().unit()).abs();
                    along < 0.5 * plane.slope()
                })
            })
        })
    }

    /// The length of the stretches along which the difference lies between
    /// two figures, in metres, and the greatest difference within them.
    fn within(&self, low: f64, high: f64) -> (f64, f64) {
        let (mut length, mut most) = (0.0, 0.0_f64);
        for (edge, above) in &self.shared {
            let stretches = [(low, high), (-high, -low)]
                .into_iter()
                .flat_map(|(low, high)| above.stretches_between(edge, low, high));
            for (from, to) in stretches {
                length += to - from;
                let (least, greatest) = above.levels_along(&edge.between(from, to));
                most = most.max(least.abs()).max(greatest.abs());
            }
        }
        (length, most.min(high))
    }
}

/// The surfaces written before this one that share an edge with it, and how
/// they differ in level.
pub(super) fn drops_to_neighbours<'a>(
    context: &Context<'a>,
    surface: &'a Surface,
) -> Vec<Drop<'a>> {
    let mut all: Vec<(usize, Drop<'a>)> = Vec::new();
    for edge in surface.edges() {
        let Some(Contact::Surface(index)) = surface.contact(edge.tag) else {
            continue;
        };
        let Some(other) = context.beside(index).filter(|_| index < surface.index) else {
            continue;
        };
        let planes = (surface.plane_along(edge), other.plane_along(edge));
        let (Some(plane), Some(other_plane)) = planes else {
            continue;
        };
        let above = other_plane.less(&plane);
        let (least, greatest) = above.levels_along(edge);
        let (most, is_other_higher) = match greatest >= -least {
            true => (greatest.abs(), true),
            false => (-least, false),
        };
        let (own, theirs) = (surface.name.value.as_str(), other.name.value.as_str());
        let known = all.iter().position(|(known, _)| *known == index);
        let at = known.unwrap_or_else(|| {
            let drop = Drop {
                other,
                most: 0.0,
                higher: own,
                lower: theirs,
                is_guarded: false,
                shared: Vec::new(),
            };
            all.push((index, drop));
            all.len() - 1
        });
        let Some((_, drop)) = all.get_mut(at) else {
            continue;
        };
        drop.shared.push((*edge, above));
        if most > drop.most {
            drop.most = most;
            (drop.higher, drop.lower) = match is_other_higher {
                true => (theirs, own),
                false => (own, theirs),
            };
            drop.is_guarded = surface.is_guarded(edge.tag) || other.guards_against(surface.index);
        }
    }
    all.into_iter().map(|(_, drop)| drop).collect()
}

fn level_place(surface: &Surface) -> Place {
    let level = surface.levels.first();
    level.map_or(surface.name.place, |level| level.value.place)
}
