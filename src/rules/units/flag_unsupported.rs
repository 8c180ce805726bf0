//! `flag-unsupported`: flags under cars with no slab.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Surface, Use};
use crate::rules::construction::{slab, unit_kind};
use crate::rules::documents::FLAGS_UNDER_CARS;
use crate::rules::wording::large_units;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

/// Flags under cars with no slab.
pub(crate) static FLAG_UNSUPPORTED: Rule = Rule {
    name: "flag-unsupported",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "Flags, slabs and porcelain that cars drive on with no concrete slab under them, by their thickness.",
    reason: "A wheel at the edge of a thin flag tips or breaks it; a bed on stone gives enough for that.",
    remedy: "Put a concrete slab under them, or lay pavers or thick small flags.",
    limits: &[
        Limit {
            row: "plain",
            of: "a flag that carries cars with no slab",
            bound: Bound::Least,
            general: Value {
                written: &["65 mm", "2 1/2 in"],
                source: FLAGS_UNDER_CARS,
            },
            regions: &[],
        },
        Limit {
            row: "street",
            of: "a flag in a street with no slab",
            bound: Bound::Least,
            general: Value {
                written: &["80 mm", "3 1/8 in"],
                source: FLAGS_UNDER_CARS,
            },
            regions: &[],
        },
    ],
    sources: &[FLAGS_UNDER_CARS],
    breaks: "surface court
  for          drive
  laid         running-bond, units 300 mm by 450 mm
  joint        6 mm, filled with joint-sand
  edging       concrete-kerb, along free

build sand-set
  paving       sandstone, «50 mm», waste 10 %
  bed          sharp-sand, 40 mm
  base         crushed-stone, 200 mm compacted, lifts 2, beyond 200 mm
",
    keeps: "surface court
  for          drive
  laid         running-bond, units 300 mm by 300 mm
  joint        6 mm, filled with joint-sand
  edging       concrete-kerb, along free

build sand-set
  paving       granite, 65 mm, waste 10 %
  bed          sharp-sand, 40 mm
  base         crushed-stone, 200 mm compacted, lifts 2, beyond 200 mm
",
    mended: None,
    check: Check::Units(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(paving) = build.layer(Role::Paving) else {
        return;
    };
    let (row, traffic) = match surface.used_for {
        Use::Drive => ("plain", "cars"),
        Use::Street => ("street", "street traffic"),
        _ => return,
    };
    let is_flag = unit_kind(build).is_some_and(Kind::is_flag);
    let (Some(thickness), Some(limit)) = (&paving.thickness, context.limit(&FLAG_UNSUPPORTED, row))
    else {
        return;
    };
    let thin = paving.thinnest_m();
    if !is_flag
        || slab(build).is_some()
        || paving.existing.is_some()
        || limit.allows_si(thin)
        || context.is_misread(build.section)
    {
        return;
    }
    let shown = limit.beside_si(thin, context.system());
    let message = format!(
        "{} of {shown} will break under {traffic}; with no slab {} is the least: put a concrete slab under them",
        large_units(unit_kind(build), context),
        limit.shown(context.system()),
    );
    let finding = FLAG_UNSUPPORTED
        .finding(thickness.place, message)
        .found(shown, Quantity::near(thin, Dimension::LENGTH))
        .against(&limit, context);
    found.add(match surface.used_for_place {
        Some(place) => finding.related(place, "cars drive here"),
        None => finding,
    });
}
