//! `movement-missing`: long rigid paving with no joints to move in.

use super::extent::{length_m, sides_m};
use super::slab_panel::SLAB_PANEL;
use crate::findings::{Fix, Severity};
use crate::materials::Kind;
use crate::model::{Build, Layer, Region, Substance, Surface};
use crate::rules::construction::{Construction, unit_kind};
use crate::rules::documents::{TCNA_EJ171, bia_14c};
use crate::rules::wording::{entry_before, limit_as_written};
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, System};
use crate::vocabulary::Role;

/// What stands in where no figure of the region's own is known.
const STONE_BORROWED: Value = Value {
    written: &["3.7 m", "12 ft"],
    source: Source::second_hand(
        "TCNA EJ171, Movement Joint Guidelines",
        "an American figure, quoted in TileLetter, August 2018; none of this region is known",
    ),
};
const BRICK_BORROWED: Value = Value {
    written: &["4.9 m", "16 ft"],
    source: bia_14c(
        "expansion joints, 16 ft (4.9 m), an American figure; none of this region is known",
    ),
};

/// Long rigid paving with no joints to move in.
pub(crate) static MOVEMENT_MISSING: Rule = Rule {
    name: "movement-missing",
    family: Family::Joints,
    severity: Severity::Warning,
    looks_at: "Mortared paving longer than the greatest spacing of movement joints, with none shown.",
    reason: "Rigid paving expands in the sun and contracts in the cold; with nowhere to move it cracks across or lifts off its bed.",
    remedy: "Divide it by movement joints, and carry the slab's joints up through the paving.",
    limits: &[
        Limit {
            row: "stone",
            of: "stone, slabs and tile in mortar",
            bound: Bound::Most,
            general: Value {
                written: &["3.7 m", "12 ft"],
                source: TCNA_EJ171,
            },
            regions: &[(Region::Uk, STONE_BORROWED), (Region::Au, STONE_BORROWED)],
        },
        Limit {
            row: "brick",
            of: "brick in mortar",
            bound: Bound::Most,
            general: Value {
                written: &["4.9 m", "16 ft"],
                source: bia_14c("expansion joints, 16 ft (4.9 m) apart at most outside"),
            },
            regions: &[(Region::Uk, BRICK_BORROWED), (Region::Au, BRICK_BORROWED)],
        },
    ],
    sources: &[
        TCNA_EJ171,
        bia_14c("expansion joints, 16 ft (4.9 m) apart at most outside"),
    ],
    breaks: "surface court
  «build        mortar-set»
  # no movement-joints
",
    keeps: "surface court
  build        mortar-set
",
    mended: Some(
        "surface court
  build        mortar-set
  movement-joints every 3.7 m
  joint        10 mm, filled with joint-mix
  isolation-joint 12 mm
",
    ),
    check: Check::Built(check),
};

/// The row of a build's units.
pub(super) fn movement_row(build: &Build) -> Option<&'static str> {
    if Construction::of(build) != Construction::MortarSet {
        return None;
    }
    Some(match unit_kind(build) {
        Some(Kind::ClayPaver) => "brick",
        _ => "stone",
    })
}

/// What a build is paved with, in words.
pub(super) fn paved_with(build: &Build) -> &'static str {
    match unit_kind(build) {
        Some(Kind::ClayPaver) => "mortared brick",
        Some(Kind::Porcelain) => "mortared porcelain",
        Some(Kind::NaturalStone | Kind::Sett) => "mortared stone",
        _ => "mortared slabs",
    }
}

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let (Some(row), Some(stated)) = (movement_row(build), &surface.build) else {
        return;
    };
    let Some(limit) = context.limit(&MOVEMENT_MISSING, row) else {
        return;
    };
    let Some(length) = surface.outline.as_ref().and_then(length_m) else {
        return;
    };
    // Lime gives as the paving moves.
    let gives = |bed: &Layer| bed.of.value.sets_with_lime();
    if build.layer(Role::Bed).is_some_and(gives) {
        return;
    }
    let paving = build.layer(Role::Paving).map(|paving| &paving.of.value);
    let is_stated = surface.movement_joints.is_some()
        || context.is_misread(surface.section)
        || matches!(paving, Some(Substance::Unknown(_)));
    if is_stated || limit.allows_si(length) {
        return;
    }
    let shown = limit.beside_si(length, context.system());
    let message = format!(
        "{shown} of {} and no movement joint; {} is the most: show where they go",
        paved_with(build),
        limit.shown(context.system()),
    );
    let finding = MOVEMENT_MISSING
        .finding(stated.place, message)
        .found(shown, Quantity::near(length, Dimension::LENGTH))
        .against(&limit, context);
    let before = surface
        .joint
        .as_ref()
        .map(|joint| joint.place)
        .or(surface.laid.as_ref().map(|laid| laid.place))
        .or(surface.fall.as_ref().map(|fall| fall.place));
    let every = spacing(context, surface, build, &limit);
    found.add(match before.zip(every) {
        Some((place, every)) => finding.fix(Fix::judged(
            format!("Put movement joints every {every}"),
            place.start(),
            entry_before("movement-joints", &format!("every {every}")),
        )),
        None => finding,
    });
}

/// The spacing of movement joints that keeps a limit: over the joints of a
/// slab that has them; where they part one that has none, so close that its
/// panels are nearly square.
pub(super) fn spacing(
    context: &Context<'_>,
    surface: &Surface,
    build: &Build,
    limit: &InForce,
) -> Option<String> {
    let written = Some(limit_as_written(limit, context));
    let beneath = build
        .layer(Role::Slab)
        .and_then(|slab| slab.joints.as_ref());
    if let Some(beneath) = beneath.map(|joints| joints.value.si()) {
        let parts = (beneath / limit.value.si() - 1e-9).ceil().max(1.0);
        return Some(context.show_length(beneath / parts));
    }
    let is_parted =
        |slab: &Layer| slab.existing.is_none() && slab.joints.is_none() && !slab.may_say("joints");
    if !build.layer(Role::Slab).is_some_and(is_parted) {
        return written;
    }
    let width = surface.outline.as_ref().and_then(sides_m)?.1;
    let longest = width * context.limit(&SLAB_PANEL, "ratio")?.value.si();
    if limit.value.si() <= longest {
        return written;
    }
    let step = match context.system() {
        System::Metric => 0.1,
        System::Imperial => 6.0 * 0.0254,
    };
    let steps = (longest / step + 1e-9).floor();
    (steps >= 1.0).then(|| context.show_length(steps * step))
}
