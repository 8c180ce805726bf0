//! `lap-short`: sheets that overlap too little.

use crate::findings::Severity;
use crate::model::{Build, Layer, Surface};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Sheets that overlap too little.
pub(crate) static LAP_SHORT: Rule = Rule {
    name: "lap-short",
    family: Family::Ground,
    severity: Severity::Advisory,
    looks_at: "How far one sheet of fabric or mesh is stated to overlap the next.",
    reason: "Stone pushes short laps of fabric apart and the ground comes up between; mesh that laps less than a square hands no pull on.",
    remedy: "Lap the sheets farther.",
    limits: &[
        Limit::practice(
            "fabric",
            "the lap of a fabric",
            Bound::Least,
            &["300 mm", "12 in"],
        ),
        Limit::practice("mesh", "the lap of mesh", Bound::Least, &["150 mm", "6 in"]),
    ],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
build sand-set
  fabric       geotextile, beyond 150 mm, lap «25 mm»
",
    keeps: "\
build sand-set
  fabric       geotextile, beyond 150 mm, lap 300 mm
",
    mended: None,
    check: Check::Layer(check),
};

fn check(context: &Context<'_>, surface: &Surface, _: &Build, layer: &Layer, found: &mut Found) {
    let (row, what) = match layer.role.value {
        Role::Fabric => ("fabric", "fabric"),
        Role::Mesh => ("mesh", "mesh"),
        _ => return,
    };
    let (Some(lap), Some(limit)) = (&layer.lap, context.limit(&LAP_SHORT, row)) else {
        return;
    };
    if layer.existing.is_some() || limit.allows(&lap.value) {
        return;
    }
    let shown = limit.beside(&lap.value, context.system());
    let message = format!(
        "a lap of {shown} is too short for {what}: {} is the least",
        limit.shown(context.system())
    );
    found.add(
        LAP_SHORT
            .finding(context.at(surface, lap.place), message)
            .found(shown, Some(lap.value))
            .against(&limit, context),
    );
}
