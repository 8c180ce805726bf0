//! `density-odd`: a density that the stone named does not have.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Layer, Origin, Surface};
use crate::rules::documents::STONE_DENSITIES;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};

const fn band(
    row: &'static str,
    of: &'static str,
    bound: Bound,
    written: &'static [&'static str],
) -> Limit {
    Limit {
        row,
        of,
        bound,
        general: Value {
            written,
            source: STONE_DENSITIES,
        },
        regions: &[],
    }
}

/// A density that the stone named does not have.
pub(crate) static DENSITY_ODD: Rule = Rule {
    name: "density-odd",
    family: Family::Units,
    severity: Severity::Advisory,
    looks_at: "The stated density of natural stone that is laid, against what stone of its sort weighs.",
    reason: "A slip in the density, or in its unit, goes into every load and every order.",
    remedy: "Check figure and unit with the supplier.",
    limits: &[
        band(
            "stone-least",
            "density of any other natural stone, at least",
            Bound::Least,
            &["1760 kg/m3", "110 lb/cu ft"],
        ),
        band(
            "stone-most",
            "density of any other natural stone, at most",
            Bound::Most,
            &["3040 kg/m3", "190 lb/cu ft"],
        ),
        band(
            "sandstone-least",
            "density of sandstone, at least",
            Bound::Least,
            &["1760 kg/m3", "110 lb/cu ft"],
        ),
        band(
            "sandstone-most",
            "density of sandstone, at most",
            Bound::Most,
            &["2640 kg/m3", "165 lb/cu ft"],
        ),
        band(
            "limestone-least",
            "density of limestone, at least",
            Bound::Least,
            &["1760 kg/m3", "110 lb/cu ft"],
        ),
        band(
            "limestone-most",
            "density of limestone, at most",
            Bound::Most,
            &["2800 kg/m3", "175 lb/cu ft"],
        ),
        band(
            "granite-least",
            "density of granite, at least",
            Bound::Least,
            &["2480 kg/m3", "155 lb/cu ft"],
        ),
        band(
            "granite-most",
            "density of granite, at most",
            Bound::Most,
            &["2800 kg/m3", "175 lb/cu ft"],
        ),
        band(
            "slate-least",
            "density of slate, at least",
            Bound::Least,
            &["2640 kg/m3", "165 lb/cu ft"],
        ),
        band(
            "slate-most",
            "density of slate, at most",
            Bound::Most,
            &["2880 kg/m3", "180 lb/cu ft"],
        ),
    ],
    sources: &[STONE_DENSITIES],
    breaks: "surface court
  build        mortar-set

material sandstone
  density      «1400 kg/m3»
",
    keeps: "surface court
  build        mortar-set

material sandstone
  density      2300 kg/m3
",
    mended: None,
    check: Check::Layer(check),
};

/// The rows of a stone by its sort.
fn rows(stock: &str) -> [&'static str; 2] {
    match stock {
        "sandstone" | "york-stone" => ["sandstone-least", "sandstone-most"],
        "limestone" => ["limestone-least", "limestone-most"],
        "granite" => ["granite-least", "granite-most"],
        "slate" => ["slate-least", "slate-most"],
        _ => ["stone-least", "stone-most"],
    }
}

fn check(
    context: &Context<'_>,
    _surface: &Surface,
    _build: &Build,
    layer: &Layer,
    found: &mut Found,
) {
    let Some(material) = layer.of.value.material() else {
        return;
    };
    let Some(density) = &material.density else {
        return;
    };
    let Origin::Line(place) = density.origin else {
        return;
    };
    if !material.kind.is_some_and(Kind::is_natural_stone) {
        return;
    }
    let limit = rows(material.stock.unwrap_or_default())
        .into_iter()
        .filter_map(|row| context.limit(&DENSITY_ODD, row))
        .find(|limit| !limit.allows(&density.value));
    let Some(limit) = limit else { return };
    let shown = limit.beside(&density.value, context.system());
    let bound = match limit.bound {
        Bound::Least => "least",
        Bound::Most => "most",
    };
    let message = format!(
        "{shown} is odd for {}; {} is about the {bound}: check the figure and its unit",
        material.name,
        limit.shown(context.system()),
    );
    found.add(
        DENSITY_ODD
            .finding(place, message)
            .found(shown, Some(density.value))
            .against(&limit, context),
    );
}
