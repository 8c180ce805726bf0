//! `overdig-short`: a base that stops too near the edge of the paving.

use crate::findings::{Fix, Severity};
use crate::geometry::Tag;
use crate::materials::Kind;
use crate::model::{Build, Contact, Layer, Region, Surface};
use crate::rules::beds::is_bed_of_flags_missing;
use crate::rules::construction::{self, Construction, is_pad};
use crate::rules::documents::{icpi_edges, icpi_tolerances};
use crate::rules::wording::{as_written, limit_as_written};
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::sources::Source;
use crate::text::capital;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

/// What stands in where no figure of the region's own is known.
const BORROWED: Value = Value {
    written: &["150 mm", "6 in"],
    source: icpi_tolerances("base past the edge: 6 in, or its thickness if that is more"),
};

/// The thickest base, in metres, that a fix still carries on by as much.
const THICKEST: f64 = 1.0;

/// A dense base that goes too little past the free edges.
pub(crate) static OVERDIG_SHORT: Rule = Rule {
    name: "overdig-short",
    family: Family::Ground,
    severity: Severity::Warning,
    looks_at: "How far a dense base under sand-set paving goes past the free edges: as far as it is thick, and no less than the limit. Under gravel, asphalt and the like that cars drive on, past the edges that nothing holds. Not where a kerb on concrete, or what is there already, ends the base.",
    reason: "A base spreads its load at a slope; where it stops with the paving, the edge and its restraint sink and turn out.",
    remedy: "Carry the base on past the free edges, with beyond.",
    limits: &[
        Limit {
            row: "plain",
            of: "the base past the free edges, where it is not thicker than this",
            bound: Bound::Least,
            general: Value {
                written: &["150 mm", "6 in"],
                source: icpi_tolerances(
                    "base past the edge: 6 in, or its thickness if that is more",
                ),
            },
            regions: &[(Region::Uk, BORROWED), (Region::Au, BORROWED)],
        },
        Limit::practice(
            "surfacing",
            "the base of a drive of gravel or asphalt past edges that nothing holds",
            Bound::Least,
            &["150 mm", "6 in"],
        ),
    ],
    sources: &[
        icpi_tolerances("base past the edge"),
        icpi_edges("base past the edge restraint by at least its thickness"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "\
build sand-set
  base         crushed-stone, 150 mm compacted, lifts 2, beyond «50 mm»
  fabric       geotextile, beyond 50 mm
",
    keeps: "\
build sand-set
  base         crushed-stone, 100 mm compacted, beyond 150 mm
",
    mended: Some(
        "\
build sand-set
  base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm
  fabric       geotextile, beyond 50 mm
",
    ),
    check: Check::Layer(check),
};

fn check(
    context: &Context<'_>,
    surface: &Surface,
    build: &Build,
    layer: &Layer,
    found: &mut Found,
) {
    let is_dense = layer.of.value.kind().is_some_and(Kind::is_dense_aggregate);
    if layer.role.value != Role::Base
        || !is_dense
        || layer.existing.is_some()
        || construction::slab(build).is_some()
    {
        return;
    }
    let (row, is_paved) = match Construction::of(build) {
        Construction::SandSet => ("plain", true),
        Construction::Surfacing if construction::is_driven(surface) => ("surfacing", false),
        _ => return,
    };
    let Some(limit) = context.limit(&OVERDIG_SHORT, row) else {
        return;
    };
    let is_pad = construction::is_stepping_stone(surface, build) || is_of_pads(surface);
    let is_told = is_bed_of_flags_missing(context, surface, build);
    if !has_free_edge(surface, is_paved) || is_pad || is_told {
        return;
    }
    let is_lost = layer.may_say("beyond") || context.is_misread(build.section);
    // What could not be read of the surface may hold the edge or end the base.
    let may_end = context.is_misread(surface.section)
        && (layer.beyond.is_none() || surface.entry("edging").is_some());
    if layer.beyond.is_none() && is_lost || may_end {
        return;
    }
    let beyond = layer.beyond_m();
    // Edges that nothing presses on need no more than the limit.
    let thickness = match is_paved {
        true => construction::compacted_m(layer),
        false => 0.0,
    };
    if limit.allows_si(beyond) && (beyond >= thickness - 1e-9 || is_within_twins(thickness, &limit))
    {
        return;
    }
    let is_thick = !is_within_twins(thickness, &limit);
    let least = match is_thick {
        true => format!(
            "as far as it is thick, {}, is the least",
            context.show_length(thickness)
        ),
        false => format!("{} is the least", limit.shown(context.system())),
    };
    let shown = limit.beside_si(beyond, context.system());
    let goes = match beyond {
        beyond if beyond > 0.0 => format!("goes only {shown} past"),
        _ => "stops at".to_owned(),
    };
    let message = format!(
        "the base {goes} the free edges: they will sink. {}. Carry it on",
        capital(&least)
    );
    let place = layer
        .beyond
        .as_ref()
        .map_or(layer.place, |beyond| beyond.place);
    let finding = OVERDIG_SHORT
        .finding(place, message)
        .severity(match is_paved {
            true => Severity::Warning,
            false => Severity::Advisory,
        })
        .found(shown, Quantity::near(beyond, Dimension::LENGTH))
        .against(&limit, context);
    let thick = layer.thickness.as_ref().filter(|_| is_thick);
    let text = match thick {
        // A base so thick is a slip of its own; no fix carries it on.
        Some(thickness) if thickness.value.si() > THICKEST => None,
        Some(thickness) => as_written(&thickness.value, context),
        None => Some(limit_as_written(&limit, context)),
    };
    let fix = text.map(|text| {
        let title = format!("Carry the base {text} beyond");
        match &layer.beyond {
            Some(stated) => Fix::judged(title, stated.place, text),
            None => Fix::judged(title, layer.place.end(), format!(", beyond {text}")),
        }
    });
    found.add(match fix {
        Some(fix) => finding.fix(fix),
        None => finding,
    });
}

/// Whether a surface is several pads that lie apart: the base of each stands in
/// the ground like a post's.
fn is_of_pads(surface: &Surface) -> bool {
    surface.outlines().count() > 1 && surface.outlines().all(is_pad)
}

/// Whether an edge is free that nothing ends the base at: a kerb stands on
/// concrete of its own, a border may on a build of its own, and the base stops
/// against them; gravel and asphalt end at any edging.
fn has_free_edge(surface: &Surface, is_paved: bool) -> bool {
    let ends_base = |tag: Tag| {
        let edgings = surface.edgings.iter();
        let mut along = edgings.filter(|edging| edging.along.contains(&tag));
        along.any(|edging| !is_paved || edging.stands_in_concrete())
            || surface.is_held(tag)
            || (surface.borders.iter())
                .any(|border| border.on.is_some() && border.along.contains(&tag))
    };
    (0..)
        .zip(&surface.sides)
        .any(|(tag, side)| side.contact == Contact::Free && !ends_base(tag))
}

/// Whether a base is no thicker than the limit's own figure, in whichever of
/// its twins is the greater: then the limit alone counts.
fn is_within_twins(thickness: f64, limit: &InForce) -> bool {
    let metric_imperial_pair = limit
        .written
        .iter()
        .filter_map(|text| crate::model::literal(text));
    let greatest = metric_imperial_pair
        .map(|own| own.si())
        .fold(limit.value.si(), f64::max);
    thickness <= greatest + 1e-9
}
