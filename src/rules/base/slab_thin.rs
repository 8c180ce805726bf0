//! `slab-thin`: too thin a slab under mortared paving.

use crate::findings::{Fix, Severity};
use crate::model::{Build, Layer, Surface};
use crate::rules::construction::{Construction, is_in_checked_file};
use crate::rules::documents::masonry_handbook;
use crate::rules::wording::{limit_as_written, limit_in_words};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::vocabulary::Role;

/// Too thin a slab under mortared paving.
pub static SLAB_THIN: Rule = Rule {
    name: "slab-thin",
    family: Family::Base,
    severity: Severity::Warning,
    looks_at: "The thickness of a concrete slab under paving in mortar.",
    reason: "The slab is what keeps mortared paving from bending; a thin one cracks, and the crack runs up through the stone.",
    remedy: "Thicken the slab.",
    limits: &[Limit {
        row: "plain",
        of: "a slab under mortared paving",
        bound: Bound::Least,
        general: Value {
            written: &["100 mm", "4 in"],
            source: masonry_handbook("fig. 8-31, a 4 in concrete base"),
        },
        regions: &[],
    }],
    sources: &[masonry_handbook("fig. 8-31, a 4 in concrete base")],
    breaks: "surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        mortar-set
  laid         running-bond, units 300 mm by 600 mm
  joint        10 mm, filled with joint-mix
  isolation-joint 12 mm
  movement-joints every 2 m
  water        to \"planting bed\"

build mortar-set
  paving       sandstone, 40 mm, waste 10 %
  bond         thin-set, 3 mm
  bed          bed-mix, 40 mm
  slab         slab-mix, «75 mm»
  base         crushed-stone, 100 mm compacted, beyond 150 mm
",
    keeps: "surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        mortar-set
  laid         running-bond, units 300 mm by 600 mm
  joint        10 mm, filled with joint-mix
  isolation-joint 12 mm
  movement-joints every 2 m
  water        to \"planting bed\"
",
    mended: Some(
        "surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        mortar-set
  laid         running-bond, units 300 mm by 600 mm
  joint        10 mm, filled with joint-mix
  isolation-joint 12 mm
  movement-joints every 2 m
  water        to \"planting bed\"

build mortar-set
  paving       sandstone, 40 mm, waste 10 %
  bond         thin-set, 3 mm
  bed          bed-mix, 40 mm
  slab         slab-mix, 100 mm
  base         crushed-stone, 100 mm compacted, beyond 150 mm
",
    ),
    check: Check::Layer(check),
};

fn check(
    context: &Context<'_>,
    _surface: &Surface,
    build: &Build,
    layer: &Layer,
    found: &mut Found,
) {
    let (Role::Slab, Some(thickness)) = (layer.role.value, &layer.thickness) else {
        return;
    };
    let Some(limit) = context.limit(&SLAB_THIN, "plain") else {
        return;
    };
    if Construction::of(build) != Construction::MortarSet || limit.allows(&thickness.value) {
        return;
    }
    let shown = context.show(&thickness.value);
    let message = format!(
        "the slab is {shown} thick; under mortared paving it wants {}: thicken it",
        limit_in_words(&limit, context),
    );
    let finding = SLAB_THIN
        .finding(thickness.place, message)
        .found(shown, Some(thickness.value))
        .against(&limit, context);
    let can_be_changed = layer.existing.is_none() && is_in_checked_file(thickness.place);
    found.add(if can_be_changed {
        let text = limit_as_written(&limit, context);
        let title = format!("Raise the slab to {text}");
        finding.fix(Fix::judged(title, thickness.place, text))
    } else {
        finding
    });
}
