//! `bond-thick`: a bond coat used as a bed.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Layer, Surface};
use crate::rules::documents::ANSI_THIN_SET;
use crate::rules::wording::limit_in_words;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::vocabulary::Role;

/// A bond coat used as a bed.
pub static BOND_THICK: Rule = Rule {
    name: "bond-thick",
    family: Family::Beds,
    severity: Severity::Advisory,
    looks_at: "The thickness of thin-set and other bond coats.",
    reason: "A thin-set mortar laid thick shrinks as it dries and lets go of stone and slab.",
    remedy: "Level with a bed of mortar and bond in a thin coat.",
    limits: &[Limit {
        row: "plain",
        of: "a bond coat, those for large and heavy units too",
        bound: Bound::Most,
        general: Value {
            written: &["13 mm", "1/2 in"],
            source: ANSI_THIN_SET,
        },
        regions: &[],
    }],
    sources: &[ANSI_THIN_SET],
    breaks: "surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        mortar-set
  laid         running-bond, units 300 mm by 600 mm
  joint        10 mm, filled with joint-mix
  isolation-joint 12 mm
  movement-joints every 3 m
  water        to \"planting bed\"

build mortar-set
  paving       sandstone, 40 mm, waste 10 %
  bond         thin-set, «20 mm»
  bed          bed-mix, 40 mm
  slab         slab-mix, 100 mm
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
  movement-joints every 3 m
  water        to \"planting bed\"

build mortar-set
  paving       sandstone, 40 mm, waste 10 %
  bond         thin-set, 12 mm
  bed          bed-mix, 40 mm
  slab         slab-mix, 100 mm
  base         crushed-stone, 100 mm compacted, beyond 150 mm
",
    mended: None,
    check: Check::Layer(check),
};

fn check(
    context: &Context<'_>,
    _surface: &Surface,
    _build: &Build,
    layer: &Layer,
    found: &mut Found,
) {
    let is_coat = layer.of.value.kind().is_some_and(Kind::is_bond_coat)
        && matches!(layer.role.value, Role::Bond | Role::Bed | Role::Slurry);
    let (true, Some(thickness)) = (is_coat, &layer.thickness) else {
        return;
    };
    let Some(limit) = context.limit(&BOND_THICK, "plain") else {
        return;
    };
    if limit.allows(&thickness.value) {
        return;
    }
    let shown = context.show(&thickness.value);
    let message = format!(
        "the coat of {} is {shown} thick; it is to be {}: level with a bed of mortar under it",
        layer.of.value.name(),
        limit_in_words(&limit, context),
    );
    found.add(
        BOND_THICK
            .finding(thickness.place, message)
            .found(shown, Some(thickness.value))
            .against(&limit, context),
    );
}
