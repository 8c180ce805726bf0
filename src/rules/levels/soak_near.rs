//! `soak-near`: water led into the ground beside the building.

use crate::findings::Severity;
use crate::geometry::Point;
use crate::model::{Build, Stated, Surface};
use crate::rules::documents::{SOAKAWAYS, icpi_permeable};
use crate::rules::wording::limit_in_words;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

/// Permeable paving that soaks in too near the building.
pub static SOAK_NEAR: Rule = Rule {
    name: "soak-near",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "How far permeable paving that is not lined by a membrane, and a soakaway, lie from the building.",
    reason: "Water that soaks in beside a foundation softens the ground under it and finds its way into cellars.",
    remedy: "Keep permeable paving away from the building, or line it there with a membrane and drain it; move the soakaway.",
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
            regions: &[],
        },
        Limit {
            row: "soakaway",
            of: "a soakaway away from the building",
            bound: Bound::Least,
            general: Value {
                written: &["5 m"],
                source: SOAKAWAYS,
            },
            regions: &[],
        },
    ],
    sources: &[icpi_permeable("distance from foundations"), SOAKAWAYS],
    breaks: "\
surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        open-set
  laid         running-bond, units 100 mm by 200 mm
  joint        8 mm, filled with open-stone
  edging       steel-edge, along free
  water        to \"planting bed\"

build open-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          open-stone, 50 mm
  base         open-stone, 200 mm, beyond 200 mm
  fabric       geotextile
  «permeable»
",
    keeps: "\
surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        open-set
  laid         running-bond, units 100 mm by 200 mm
  joint        8 mm, filled with open-stone
  edging       steel-edge, along free
  water        to \"planting bed\"

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
    for soakaway in &context.job.site.soakaways {
        self::soakaway(context, surface, soakaway, found);
    }
}

fn paving(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let is_lined = build.layer(Role::Membrane).is_some();
    let (Some(permeable), false) = (build.permeable, is_lined) else {
        return;
    };
    let Some(limit) = context.limit(&SOAK_NEAR, "plain") else {
        return;
    };
    let nearest = if slope::building_edges(surface).next().is_some() {
        Some(0.0)
    } else {
        slope::building_edges_within(context, surface, limit.value.si())
            .map(|(_, distance)| distance)
            .reduce(f64::min)
    };
    let Some(nearest) = nearest.filter(|nearest| !limit.allows_si(*nearest)) else {
        return;
    };
    let shown = context.show_length(nearest);
    let lies = if nearest > 0.001 {
        format!("{shown} from the building")
    } else {
        "against the building".to_owned()
    };
    let message = format!(
        "the permeable paving lies {lies}; water is to soak in {} away: line it with a membrane and drain it, or keep it away",
        limit_in_words(&limit, context)
    );
    let mut finding = SOAK_NEAR
        .finding(permeable, message)
        .found(shown, Quantity::near(nearest, Dimension::LENGTH))
        .against(&limit, context);
    finding.computed_from.push(build.section);
    found.add(finding);
}

/// A soakaway too near the building; told once, of the surface whose edge
/// against the building is the nearest.
fn soakaway(context: &Context<'_>, surface: &Surface, soakaway: &Stated<Point>, found: &mut Found) {
    let distance = |surface: &Surface| {
        slope::building_edges(surface)
            .map(|edge| edge.distance_to(soakaway.value))
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
    let shown = context.show_length(nearest);
    let message = format!(
        "the soakaway lies {shown} from the building; it is to lie {} away: move it",
        limit_in_words(&limit, context)
    );
    found.add(
        SOAK_NEAR
            .finding(soakaway.place, message)
            .found(shown, Quantity::near(nearest, Dimension::LENGTH))
            .against(&limit, context),
    );
}
