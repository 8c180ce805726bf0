//! `movement-far`: movement joints too far apart.

use super::extent::length_m;
use super::movement_missing::{self, MOVEMENT_MISSING, movement_row};
use crate::findings::{Fix, Severity};
use crate::model::{Build, Surface};
use crate::rules::documents::{TCNA_EJ171, bia_14c};
use crate::rules::{Check, Context, Family, Found, Rule};

/// Movement joints too far apart.
pub(crate) static MOVEMENT_FAR: Rule = Rule {
    name: "movement-far",
    family: Family::Joints,
    severity: Severity::Warning,
    looks_at: "The stated spacing of movement joints in mortared paving that is long enough to need them, against the limits of movement-missing.",
    reason: "Between joints too far apart rigid paving expands more than a joint takes up, and cracks or lifts.",
    remedy: "Put the movement joints closer together.",
    limits: &[],
    sources: &[
        TCNA_EJ171,
        bia_14c("expansion joints, 16 ft (4.9 m) apart at most outside"),
    ],
    breaks: "surface court
  build        mortar-set
  movement-joints every «5 m»
",
    keeps: "surface court
  build        mortar-set
  movement-joints every 3.6 m
",
    mended: Some(
        "surface court
  build        mortar-set
  movement-joints every 3.7 m
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let (Some(row), Some(spacing)) = (movement_row(build), &surface.movement_joints) else {
        return;
    };
    let Some(limit) = context.limit(&MOVEMENT_MISSING, row) else {
        return;
    };
    // Paving shorter than the limit needs none, wherever they are shown.
    let length = surface.outline.as_ref().and_then(length_m);
    let needs_none = length.is_none_or(|length| limit.allows_si(length));
    if needs_none || limit.allows(&spacing.value) {
        return;
    }
    let shown = limit.beside(&spacing.value, context.system());
    let message = format!(
        "movement joints {shown} apart are too far for {}; {} is the most: put them closer",
        movement_missing::paved_with(build),
        limit.shown(context.system()),
    );
    let mut finding = MOVEMENT_FAR
        .finding(spacing.place, message)
        .found(shown, Some(spacing.value))
        .against(&limit, context);
    let closer = movement_missing::spacing(context, surface, build, &limit);
    finding.fixes.extend(
        closer.map(|every| Fix::judged(format!("Put them every {every}"), spacing.place, every)),
    );
    found.add(finding);
}
