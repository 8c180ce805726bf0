//! `edge-loose`: sand-set paving or gravel with nothing to hold its edge.

use std::sync::Arc;

use crate::findings::{Fix, Severity};
use crate::model::{Build, Surface};
use crate::rules::beds::is_bed_of_flags_missing;
use crate::rules::construction::{self, Construction};
use crate::rules::documents::icpi_edges;
use crate::rules::wording::entry_before;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

/// A free edge of sand-set paving or gravel without a restraint.
pub(crate) static EDGE_LOOSE: Rule = Rule {
    name: "edge-loose",
    family: Family::Edges,
    severity: Severity::Error,
    looks_at: "The free edges of paving set on sand and whether an edging, or something in place, runs along each; loose gravel that has none at all. An advisory for gravel, and for large flags, which hold by their weight; not of flags that lie dry on a slab, as on pedestals.",
    reason: "Nothing but its edging keeps sand-set paving from creeping outward; joints open, the bed washes out and the edge drops.",
    remedy: "Put an edging along the free edges, or say what stands there already: edging in place, along the edge.",
    limits: &[],
    sources: &[
        icpi_edges("restraint along every edge that nothing else holds"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "\
surface «court»
  # no edging
",
    keeps: "\
surface court
  edging       steel-edge, along east and south and west
",
    mended: Some(
        "\
surface court
  edging       steel-edge, along free
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    // A path of gravel is left open where it comes to something.
    let is_bare = surface.edgings.is_empty() && surface.held.is_empty();
    let is_gravel = is_bare && construction::loose_surfacing(build).is_some();
    let is_sand_set = Construction::of(build) == Construction::SandSet;
    // A lost line may be the mortar that it lies in, or the wall that it meets.
    let is_unclear = context.is_misread(surface.section)
        || build.has_lost_line
        || surface.entry("meets").is_some() && surface.meets.is_empty();
    if !(is_sand_set || is_gravel) || is_unclear {
        return;
    }
    // What lies there already has been held by something till now.
    let paving = build.layer(Role::Paving);
    let is_there = paving.is_some_and(|paving| paving.existing.is_some());
    let is_told = is_bed_of_flags_missing(context, surface, build);
    if surface.outline.is_none() || is_there || is_told || lies_on_slab(build) {
        return;
    }
    let is_loose = |tag| {
        let edgings = surface.edgings.iter().map(|edging| &edging.along);
        // A border in mortar or on a slab of its own stays where it is.
        let borders = surface.borders.iter();
        let rigid = borders.filter(|border| {
            let on = border.on.as_ref().map(|on| Construction::of(&on.value));
            on == Some(Construction::MortarSet)
        });
        let mut holding = edgings.chain(rigid.map(|border| &border.along));
        surface.is_free(tag) && !surface.is_held(tag) && !holding.any(|along| along.contains(&tag))
    };
    let loose: f64 = surface
        .edges()
        .filter(|edge| is_loose(edge.tag))
        .map(|edge| edge.length())
        .sum();
    // Beside a surface whose shape cannot be read, nobody knows what is free.
    let has_no_outline =
        |other: &Arc<Surface>| other.outline.is_none() && other.entry("shape").is_some();
    let is_held = loose < 0.001 || construction::is_stepping_stone(surface, build);
    if is_held || context.all_surfaces().iter().any(has_no_outline) {
        return;
    }
    let is_flag = construction::unit_kind(build).is_none_or(|kind| kind.is_flag());
    let severity = if is_flag || is_gravel {
        Severity::Advisory
    } else {
        Severity::Error
    };
    let shown = context.show_length(loose);
    let follows = match is_gravel {
        true => "the gravel will spread",
        false => "the paving will creep",
    };
    let message =
        format!("nothing holds {shown} of free edge, and {follows}: put an edging along it");
    let place = surface
        .edgings
        .first()
        .map_or(surface.name.place, |edging| edging.place);
    let mut finding = EDGE_LOOSE
        .finding(place, message)
        .severity(severity)
        .found(shown, Quantity::near(loose, Dimension::LENGTH));
    // The new entry goes before a level, whose whole line is known.
    // On a bed that goes on past the edges it would stand on sand.
    let stands_on_sand = build.layers_for(Role::Bed).any(|bed| bed.beyond_m() > 0.0);
    if let (true, Some(level)) = (is_bare && !stands_on_sand, surface.levels.first()) {
        let entry = entry_before("edging", "steel-edge, along free");
        let title = "Put a steel edging along the free edges";
        finding = finding.fix(Fix::judged(title, level.place.start(), entry));
    }
    found.add(finding);
}

/// Whether flags lie dry on a slab, on pedestals or pads: there is no bed for
/// them to creep on.
fn lies_on_slab(build: &Build) -> bool {
    let is_flag = construction::unit_kind(build).is_some_and(|kind| kind.is_flag());
    is_flag && build.layer(Role::Bed).is_none() && construction::slab(build).is_some()
}
