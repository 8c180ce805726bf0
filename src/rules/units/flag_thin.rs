//! `flag-thin`: natural flags too thin for a bed of sand.

use crate::findings::{Fix, Severity};
use crate::materials::Kind;
use crate::model::{Build, Surface};
use crate::rules::construction::{self, Construction, is_in_checked_file, unit_kind};
use crate::rules::wording::{limit_as_written, limit_in_words};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Natural flags too thin for a bed of sand.
pub static FLAG_THIN: Rule = Rule {
    name: "flag-thin",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "The thickness of natural stone set on sand over a base.",
    reason: "On a bed that gives, a thin flag spans between high spots and breaks underfoot.",
    remedy: "Use thicker flags, or set these in mortar on a slab.",
    limits: &[Limit {
        row: "plain",
        of: "natural stone on sand",
        bound: Bound::Least,
        general: Value {
            written: &["38 mm", "1 1/2 in"],
            source: Source::COMMON_PRACTICE,
        },
        regions: &[],
    }],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "build sand-set
  paving       sandstone, «25 mm», waste 10 %
  bed          sharp-sand, 40 mm
  base         crushed-stone, 150 mm compacted, beyond 150 mm

surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 300 mm by 450 mm
  joint        6 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    keeps: "build sand-set
  paving       sandstone, 38 mm, waste 10 %
  bed          sharp-sand, 40 mm
  base         crushed-stone, 150 mm compacted, beyond 150 mm

surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 300 mm by 450 mm
  joint        6 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    mended: Some(
        "build sand-set
  paving       sandstone, 38 mm, waste 10 %
  bed          sharp-sand, 40 mm
  base         crushed-stone, 150 mm compacted, beyond 150 mm

surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 300 mm by 450 mm
  joint        6 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, _surface: &Surface, build: &Build, found: &mut Found) {
    let Some(paving) = build.layer(Role::Paving) else {
        return;
    };
    let is_on_sand =
        Construction::of(build) == Construction::SandSet && construction::slab(build).is_none();
    if !is_on_sand || unit_kind(build) != Some(Kind::NaturalStone) || paving.existing.is_some() {
        return;
    }
    let (Some(thickness), Some(limit)) = (&paving.thickness, context.limit(&FLAG_THIN, "plain"))
    else {
        return;
    };
    if limit.allows(&thickness.value) {
        return;
    }
    let shown = context.show(&thickness.value);
    let message = format!(
        "the flags are {shown} thick; on sand they are to be {}: use thicker ones, or mortar on a slab",
        limit_in_words(&limit, context),
    );
    let finding = FLAG_THIN
        .finding(thickness.place, message)
        .found(shown, Some(thickness.value))
        .against(&limit, context);
    found.add(if is_in_checked_file(thickness.place) {
        let text = limit_as_written(&limit, context);
        let title = format!("Use flags of {text}");
        finding.fix(Fix::judged(title, thickness.place, text))
    } else {
        finding
    });
}
