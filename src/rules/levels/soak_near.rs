//! `soak-near`: water led into the ground beside a building or a road.

use crate::findings::{Place, Severity};
use crate::geometry::{Edge, Outline, Point};
use crate::model::{Build, DrainKind, DrainLine, Job, Layer, Region, Surface, Use};
use crate::rules::documents::{PERMEABLE_IN_ENGLAND, SOAKAWAYS, US_DRY_WELLS, icpi_permeable};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};
use crate::units::{Dimension, Quantity};
use crate::vocabulary::{Role, Term};

/// Permeable paving that soaks in too near the building.
pub(crate) static SOAK_NEAR: Rule = Rule {
    name: "soak-near",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "How far what is dug for permeable paving without a membrane, and a soakaway, lie from the building; a soakaway from a street as well.",
    reason: "Water that soaks in beside a foundation or a road softens the ground under it, and finds its way into cellars.",
    remedy: "Keep permeable paving away from the building, or line it with a membrane and drain it; move the soakaway.",
    limits: &[
        Limit {
            row: "plain",
            of: "permeable paving away from the building",
            bound: Bound::Least,
            general: Value {
                written: &["3 m", "10 ft"],
                source: icpi_permeable(
                    "10 ft (3 m) from foundations, unless waterproofed and underdrained",
                ),
            },
            regions: &[(
                Region::Uk,
                Value {
                    written: &["5 m"],
                    source: PERMEABLE_IN_ENGLAND,
                },
            )],
        },
        Limit {
            row: "soakaway",
            of: "a soakaway away from the building",
            bound: Bound::Least,
            general: Value {
                written: &["5 m"],
                source: SOAKAWAYS,
            },
            regions: &[
                (
                    Region::Us,
                    Value {
                        written: &["10 ft"],
                        source: US_DRY_WELLS,
                    },
                ),
                (
                    Region::Uk,
                    Value {
                        written: &["5 m"],
                        source: SOAKAWAYS,
                    },
                ),
            ],
        },
        Limit {
            row: "road",
            of: "a soakaway away from a street",
            bound: Bound::Least,
            general: Value {
                written: &["5 m"],
                source: SOAKAWAYS,
            },
            regions: &[],
        },
    ],
    sources: &[
        icpi_permeable("distance from foundations"),
        PERMEABLE_IN_ENGLAND,
        SOAKAWAYS,
        US_DRY_WELLS,
    ],
    breaks: "\
surface court
  build        open-set
  joint        8 mm, filled with chip-stone

build open-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          open-stone, 50 mm
  base         open-stone, 200 mm, beyond 200 mm
  fabric       geotextile
  «permeable»
",
    keeps: "\
surface court
  build        open-set
  joint        8 mm, filled with chip-stone

build open-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          open-stone, 50 mm
  base         open-stone, 200 mm, beyond 200 mm
  membrane     impermeable-liner
  fabric       geotextile
  permeable
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if let Some(build) = &surface.build {
        paving(context, surface, &build.value, found);
    }
    for soakaway in soakaways(context.job) {
        self::soakaway(context, surface, &soakaway, found);
        beside_road(context, surface, &soakaway, found);
    }
}

/// A soakaway: of the site, by its point alone, or of a drain.
pub(super) struct Soakaway {
    at: Point,
    /// Its side on the plan, if its size is known.
    side: Option<Outline>,
    /// Where it is stated.
    pub place: Place,
}

impl Soakaway {
    /// How far its side lies from an edge, in metres.
    fn distance_to(&self, edge: &Edge) -> f64 {
        let from_side = self.side.iter().flat_map(|side| side.edges());
        let from_side = from_side.map(|side| side.distance_to_edge(edge));
        from_side
            .reduce(f64::min)
            .unwrap_or_else(|| edge.distance_to(self.at))
    }
}

/// The soakaways of a job, each once: those of the site, and those that are
/// drains.
pub(super) fn soakaways(job: &Job) -> Vec<Soakaway> {
    let of_site = job.soakaways_of_site().map(|stated| Soakaway {
        at: stated.value,
        side: None,
        place: stated.place,
    });
    let pits = job.drains.iter();
    let pits = pits.filter(|drain| drain.kind() == Some(DrainKind::Soakaway));
    let pits = pits.filter_map(|drain| {
        let line = drain.line.as_ref()?;
        let DrainLine::At(at) = line.value else {
            return None;
        };
        Some(Soakaway {
            at,
            side: drain.plan(),
            place: line.place,
        })
    });
    of_site.chain(pits).collect()
}

/// The sides of what is dug for a surface: water stands in its base, which
/// goes past the paving.
fn dug_edges<'a>(context: &Context<'a>, surface: &'a Surface) -> impl Iterator<Item = &'a Edge> {
    let figures = context.figures.surfaces.get(surface.index);
    let dug = figures.and_then(|figures| figures.dug.as_ref());
    let of_dug = dug.into_iter().flat_map(|dug| &dug.outlines);
    let of_dug = of_dug.flat_map(|outline| outline.edges());
    let of_paving = surface.edges().filter(move |_| dug.is_none());
    of_dug.chain(of_paving)
}

/// A soakaway too near a street.
fn beside_road(context: &Context<'_>, surface: &Surface, soakaway: &Soakaway, found: &mut Found) {
    let (Use::Street, Some(_), Some(limit)) = (
        surface.used_for,
        surface.outline.as_ref(),
        context.limit(&SOAK_NEAR, "road"),
    ) else {
        return;
    };
    let to_edges = surface.edges().map(|edge| soakaway.distance_to(edge));
    let distance = match surface.contains(soakaway.at) {
        true => 0.0,
        false => to_edges.fold(f64::INFINITY, f64::min),
    };
    if limit.allows_si(distance) {
        return;
    }
    let shown = limit.beside_si(distance, context.system());
    let message = format!(
        "the {} is {shown} from the street {}: it will soften the road. {} is the least. Move it",
        context.word(Term::Soakaway),
        surface.name.value,
        limit.shown(context.system())
    );
    found.add(
        SOAK_NEAR
            .finding(soakaway.place, message)
            .found(shown, Quantity::near(distance, Dimension::LENGTH))
            .against(&limit, context),
    );
}

fn paving(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let is_lined = build.layer(Role::Membrane).is_some() || build.has_lost_line;
    let (Some(permeable), false) = (build.permeable, is_lined) else {
        return;
    };
    let Some(limit) = context.limit(&SOAK_NEAR, "plain") else {
        return;
    };
    let nearest = if slope::building_edges(surface).next().is_some() {
        Some(0.0)
    } else {
        let beyond = build.layers.iter().map(Layer::beyond_m).fold(0.0, f64::max);
        let reach = limit.value.si() + beyond;
        let walls = slope::building_edges_within(context, surface, reach);
        walls
            .flat_map(|(wall, _)| {
                dug_edges(context, surface).map(|edge| edge.distance_to_edge(wall))
            })
            .reduce(f64::min)
    };
    let Some(nearest) = nearest.filter(|nearest| !limit.allows_si(*nearest)) else {
        return;
    };
    let shown = limit.beside_si(nearest, context.system());
    let lies = if nearest > 0.001 {
        format!("that is dug to {shown} from the building")
    } else {
        "against the building".to_owned()
    };
    let message = format!(
        "permeable paving {lies} soaks the ground at the foundation. {} is the least. Line it and drain it, or keep it away",
        limit.shown(context.system())
    );
    // What England asks is disputed where the paving takes its own rain only.
    let severity = match context.region() {
        Region::Uk => Severity::Advisory,
        _ => Severity::Warning,
    };
    let mut finding = SOAK_NEAR
        .finding(permeable, message)
        .severity(severity)
        .found(shown, Quantity::near(nearest, Dimension::LENGTH))
        .against(&limit, context);
    finding.computed_from.push(build.section);
    found.add(finding);
}

/// A soakaway too near the building; told once, of the surface whose edge
/// against the building is the nearest.
fn soakaway(context: &Context<'_>, surface: &Surface, soakaway: &Soakaway, found: &mut Found) {
    let distance = |surface: &Surface| {
        slope::building_edges(surface)
            .map(|edge| soakaway.distance_to(edge))
            .reduce(f64::min)
    };
    let surfaces = context.all_surfaces().iter();
    let nearest = surfaces
        .filter_map(|other| Some((distance(other)?, other)))
        .reduce(|nearest, next| if next.0 < nearest.0 { next } else { nearest });
    let (Some((nearest, beside)), Some(limit)) = (nearest, context.limit(&SOAK_NEAR, "soakaway"))
    else {
        return;
    };
    if beside.section != surface.section || limit.allows_si(nearest) {
        return;
    }
    let shown = limit.beside_si(nearest, context.system());
    let message = format!(
        "the {} is {shown} from the building: too near the foundation. {} is the least. Move it",
        context.word(Term::Soakaway),
        limit.shown(context.system())
    );
    found.add(
        SOAK_NEAR
            .finding(soakaway.place, message)
            .found(shown, Quantity::near(nearest, Dimension::LENGTH))
            .against(&limit, context),
    );
}
