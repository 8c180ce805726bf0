//! `fall-flat`: too little fall for the water to run off.

use super::fall_missing::is_exempt;
use crate::findings::Severity;
use crate::geometry::Vector;
use crate::model::{Region, Surface, Use};
use crate::rules::documents::{
    BS_7533, BS_7533_LENGTHWAYS, IRC_GRADING, approved_document_h, as_nzs_3727, bia_14a,
    icpi_tolerances, ncc,
};
use crate::rules::{
    Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value, construction, slope,
};

const ONE_IN_EIGHTY: Value = Value {
    written: &["1:80"],
    source: BS_7533,
};

const AUSTRALIAN: (Region, Value) = (
    Region::Au,
    Value {
        written: &["1:40"],
        source: as_nzs_3727(
            "residential paving, 25 mm per m; less is allowed under cover and for foot traffic alone",
        ),
    },
);

const BRITISH: (Region, Value) = (Region::Uk, ONE_IN_EIGHTY);

/// What stands in for foot traffic in Australia, away from buildings.
const BORROWED: (Region, Value) = (Region::Au, ONE_IN_EIGHTY);

const ONE_IN_A_HUNDRED: Value = Value {
    written: &["1:100"],
    source: BS_7533_LENGTHWAYS,
};

/// A fall under the least.
pub(crate) static FALL_FLAT: Rule = Rule {
    name: "fall-flat",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "How steeply a surface falls away from the building or, where none is near, at its steepest. What it is made of counts before where it lies; a narrow walk away from buildings has a row of its own.",
    reason: "Water stands in every dip that laying leaves, and beside a building it finds its way in.",
    remedy: "Steepen it: raise the edge at the building, or lower the far one.",
    limits: &[
        Limit {
            row: "plain",
            of: "paving in general",
            bound: Bound::Least,
            general: ONE_IN_EIGHTY,
            regions: &[(Region::Us, Value::practice(&["1 %"])), BRITISH, BORROWED],
        },
        Limit {
            row: "drive",
            of: "drives",
            bound: Bound::Least,
            general: ONE_IN_EIGHTY,
            regions: &[(Region::Us, Value::practice(&["1 %"])), BRITISH, AUSTRALIAN],
        },
        Limit {
            row: "walk",
            of: "landings, and narrow walks away from buildings",
            bound: Bound::Least,
            general: ONE_IN_A_HUNDRED,
            regions: &[
                (Region::Us, Value::practice(&["1 %"])),
                (Region::Uk, ONE_IN_A_HUNDRED),
                (Region::Au, ONE_IN_A_HUNDRED),
            ],
        },
        Limit {
            row: "building",
            of: "paving within 10 ft of the building",
            bound: Bound::Least,
            general: ONE_IN_EIGHTY,
            regions: &[
                (
                    Region::Us,
                    Value {
                        written: &["2 %"],
                        source: IRC_GRADING,
                    },
                ),
                BRITISH,
                (
                    Region::Au,
                    Value {
                        written: &["1:40"],
                        source: ncc(
                            "3.1.3.3: 25 mm over the first 1 m where little rain falls on hard paving; 50 mm, 1:20, elsewhere",
                        ),
                    },
                ),
            ],
        },
        Limit {
            row: "pavers",
            of: "concrete pavers",
            bound: Bound::Least,
            general: Value {
                written: &["2 %"],
                source: icpi_tolerances("least slope of the surface"),
            },
            regions: &[BRITISH, AUSTRALIAN],
        },
        Limit {
            row: "brick",
            of: "clay pavers and brick",
            bound: Bound::Least,
            general: Value {
                written: &["2 %"],
                source: bia_14a("summary box; BIA Technical Note 14C says the same in mortar"),
            },
            regions: &[BRITISH, AUSTRALIAN],
        },
        Limit {
            row: "rough",
            of: "irregular and riven stone",
            bound: Bound::Least,
            general: Value {
                written: &["1:60"],
                source: approved_document_h(
                    "H3, 2.7, 1:60, perhaps of all hard paving: read the 2015 edition",
                ),
            },
            regions: &[AUSTRALIAN],
        },
    ],
    sources: &[
        IRC_GRADING,
        icpi_tolerances("least slope of the surface"),
        bia_14a("summary box"),
        BS_7533,
        as_nzs_3727("residential paving"),
        approved_document_h("H3, paved areas"),
        ncc("3.1.3.3, the first metre from a building"),
    ],
    breaks: "\
surface court
  fall         «1:150» away from north
",
    keeps: "\
surface court
  fall         2 % away from north
",
    mended: Some(
        "\
surface court
  fall         1:50 away from north
",
    ),
    check: Check::Surface(check),
};

/// The distance from the building, in metres, within which paving wants the
/// fall of the row `building`: 3 m, which is less than 10 ft.
const NEAR_BUILDING: f64 = 3.0;

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    if is_exempt(surface) || surface.used_for == Use::Ramp || surface.is_build_lost() {
        return;
    }
    let found_here = match surface.falls_to_drain() {
        // Of its facets the flattest counts.
        Some((_, least, _)) => Some((least, false, least)),
        None => slope::downhill(surface).and_then(|downhill| {
            let (figure, from_building) = measured(context, surface, downhill)?;
            Some((figure, from_building, downhill.length()))
        }),
    };
    let Some((figure, from_building, steepest)) = found_here else {
        return;
    };
    let Some((limit, severity, what)) = missed(context, surface, figure) else {
        return;
    };
    let shown = slope::beside(&limit, figure, context);
    let falls = match (from_building, figure > slope::SAME_SLOPE) {
        (_, false) => "dead level".to_owned(),
        (true, true) => format!("too flat: {shown} away from the building"),
        (false, true) => format!("too flat: {shown}"),
    };
    let message = format!(
        "{falls}. {} is the least {what}. Steepen it",
        limit.shown(context.system())
    );
    let place = slope_place(surface);
    let mut finding = FALL_FLAT
        .finding(place, message)
        .severity(severity)
        .found(shown, slope::as_quantity(figure))
        .against(&limit, context);
    // A fall at an angle to the building is restated no steeper than needed.
    if figure > slope::SAME_SLOPE {
        let wanted = least_fall(context, surface) * steepest / figure;
        if let Some(fix) = slope::restated(context, &FALL_FLAT, surface, wanted, found) {
            finding = finding.fix(fix);
        }
    }
    found.add(finding);
}

/// The fall that counts and whether it is counted from the building: the
/// steepest away from any side near the building, else the steepest at all.
/// Nothing where water runs along or towards the building, which other rules
/// tell.
fn measured(context: &Context<'_>, surface: &Surface, downhill: Vector) -> Option<(f64, bool)> {
    let steepest = downhill.length();
    let own = slope::away_from_building(surface, downhill);
    if steepest > slope::SAME_SLOPE && own.iter().any(|away| *away < -slope::SAME_SLOPE) {
        return None;
    }
    let away = match own.into_iter().reduce(f64::max) {
        Some(away) => Some(away),
        None if context.region() == Region::Us => away_from_near(context, surface, downhill),
        None => None,
    };
    match away {
        Some(away) if steepest > slope::SAME_SLOPE && away <= slope::SAME_SLOPE => None,
        Some(away) => Some((away, true)),
        None => Some((steepest, false)),
    }
}

/// The fall away from the building where it stands against another surface
/// near this one.
fn away_from_near(context: &Context<'_>, surface: &Surface, downhill: Vector) -> Option<f64> {
    slope::building_edges_within(context, surface, NEAR_BUILDING)
        .map(|(edge, _)| edge.inward_share(downhill).1)
        .reduce(f64::max)
        .filter(|away| *away > slope::SAME_SLOPE)
}

/// The limit that a fall misses, how much that matters and what it is for: the
/// most specific row, a rough face only where the fall is enough for a smooth
/// one.
fn missed(
    context: &Context<'_>,
    surface: &Surface,
    figure: f64,
) -> Option<(InForce, Severity, &'static str)> {
    let row = row(context, surface);
    let firm = context.limit(&FALL_FLAT, row)?;
    if !firm.allows_si(figure) {
        let what = match row {
            "pavers" => "for concrete pavers",
            "brick" => "for brick",
            "building" => "beside a building",
            "drive" => "for a drive",
            "walk" => "for a walk or landing",
            _ => "for paving",
        };
        return Some((firm, Severity::Warning, what));
    }
    let rough = context.limit(&FALL_FLAT, "rough")?;
    (is_rough(context, surface) && !rough.allows_si(figure)).then_some((
        rough,
        Severity::Advisory,
        "for riven stone",
    ))
}

/// The row for a narrow walk, for what a surface is made of, else for where it
/// lies and what it is for.
fn row(context: &Context<'_>, surface: &Surface) -> &'static str {
    let units = surface
        .build
        .as_ref()
        .and_then(|build| construction::unit_kind(&build.value));
    let is_near = || is_near_building(context, surface);
    let is_driven_on = matches!(surface.used_for, Use::Drive | Use::Street);
    // In Australia foot traffic alone may have less than the bodies of other
    // countries ask of pavers and brick.
    let is_eased = context.region() == Region::Au && !is_driven_on;
    match units {
        _ if surface.used_for == Use::Landing => "walk",
        _ if is_narrow_walk(surface) && !is_near() => "walk",
        _ if is_eased && !is_near() => "plain",
        _ if is_eased => "building",
        Some(kind) if kind.is_brick() => "brick",
        Some(kind) if kind.is_paver() => "pavers",
        _ if is_near() => "building",
        _ if is_driven_on => "drive",
        _ => "plain",
    }
}

/// A walk is narrower than this on average, in metres.
const WALK: f64 = 1.5;

/// Whether a surface is a narrow walk, off which water is soon gone.
fn is_narrow_walk(surface: &Surface) -> bool {
    let width = surface
        .outline
        .as_ref()
        .map(|outline| 2.0 * outline.area() / outline.perimeter());
    let is_walked = surface.used_for == Use::Foot && surface.seating.is_none();
    is_walked && width.is_some_and(|width| width < WALK)
}

/// Whether a surface meets the building or, where distance counts, lies near
/// it.
fn is_near_building(context: &Context<'_>, surface: &Surface) -> bool {
    let near = || slope::building_edges_within(context, surface, NEAR_BUILDING).next();
    slope::building_edges(surface).next().is_some()
        || (context.region() == Region::Us && near().is_some())
}

fn is_rough(context: &Context<'_>, surface: &Surface) -> bool {
    construction::is_irregular(surface) && row(context, surface) != "walk"
}

/// The least fall that keeps every row that a surface comes under, in metres
/// per metre.
pub(crate) fn least_fall(context: &Context<'_>, surface: &Surface) -> f64 {
    let rough = is_rough(context, surface).then_some("rough");
    [Some(row(context, surface)), rough]
        .into_iter()
        .flatten()
        .filter_map(|row| context.limit(&FALL_FLAT, row))
        .map(|limit| limit.value.si())
        .fold(0.0, f64::max)
}

/// Where the slope of a surface is stated: its fall, else its first level.
pub(super) fn slope_place(surface: &Surface) -> crate::findings::Place {
    if let Some(fall) = &surface.fall_to {
        return fall.least.place;
    }
    match (&surface.fall, surface.levels.first()) {
        (Some(fall), _) => fall.slope.place,
        (None, Some(level)) => level.place,
        (None, None) => surface.name.place,
    }
}
