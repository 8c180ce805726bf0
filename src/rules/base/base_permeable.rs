//! `base-permeable`: too little open base under permeable paving.

use super::base_thin::is_weak;
use crate::findings::{Fix, Severity};
use crate::materials::Kind;
use crate::model::{Build, Layer, Surface, Use};
use crate::rules::construction::{bases, compacted_m, is_in_checked_file, unit_kind};
use crate::rules::documents::{ICPI_PERMEABLE_BASE, ICPI_WEAK_SOIL};
use crate::rules::wording::limit_as_written;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::text::with_article;
use crate::units::{Dimension, Quantity};

/// Too little open base under permeable paving.
pub(crate) static BASE_PERMEABLE: Rule = Rule {
    name: "base-permeable",
    family: Family::Base,
    severity: Severity::Error,
    looks_at: "The base and subbase together under units of a permeable build, in place of base-thin, and the voids stated for it.",
    reason: "The base carries the paving and stores the rain until the ground takes it; too thin, it does neither. Clean crushed stone is 30 to 40 % voids.",
    remedy: "Thicken the open-graded base; what rain it has to store may ask for more.",
    limits: &[
        Limit {
            row: "foot",
            of: "permeable paving for foot traffic",
            bound: Bound::Least,
            general: Value {
                written: &["150 mm", "6 in"],
                source: ICPI_PERMEABLE_BASE,
            },
            regions: &[],
        },
        Limit {
            row: "drive",
            of: "permeable drives and streets",
            bound: Bound::Least,
            general: Value {
                written: &["200 mm", "8 in"],
                source: ICPI_PERMEABLE_BASE,
            },
            regions: &[],
        },
        Limit {
            row: "drive-weak",
            of: "permeable drives and streets on clay or peat, or where the ground freezes",
            bound: Bound::Least,
            general: Value {
                written: &["250 mm", "10 in"],
                source: ICPI_WEAK_SOIL,
            },
            regions: &[],
        },
        Limit::practice("voids", "voids of a base of stone", Bound::Most, &["45 %"]),
    ],
    sources: &[ICPI_PERMEABLE_BASE, ICPI_WEAK_SOIL, Source::COMMON_PRACTICE],
    breaks: "build sand-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          open-stone, 40 mm
  base         open-stone, «100 mm», beyond 150 mm
  permeable, voids 40 %

surface court
  joint        8 mm, filled with chip-stone
",
    keeps: "build sand-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          open-stone, 40 mm
  base         open-stone, 150 mm, beyond 150 mm
  permeable, voids 40 %

surface court
  joint        8 mm, filled with chip-stone
",
    mended: Some(
        "build sand-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          open-stone, 40 mm
  base         open-stone, 150 mm, beyond 150 mm
  permeable, voids 40 %

surface court
  joint        8 mm, filled with chip-stone
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    too_many_voids(context, build, found);
    let Some(permeable) = build.permeable.filter(|_| unit_kind(build).is_some()) else {
        return;
    };
    let layers: Vec<&Layer> = bases(build).collect();
    let Some(thickness) = layers.first().and_then(|base| base.thickness.as_ref()) else {
        return;
    };
    if layers.iter().any(|base| base.thickness.is_none()) {
        return;
    }
    let total: f64 = layers.iter().map(|base| compacted_m(base)).sum();
    let (row, used) = match surface.used_for {
        Use::Foot | Use::Ramp | Use::Landing => ("foot", "for foot traffic"),
        Use::Drive | Use::Street if is_weak(&context.job.site) => {
            ("drive-weak", "for cars on such ground")
        }
        Use::Drive | Use::Street => ("drive", "for cars"),
    };
    let Some(limit) = context.limit(&BASE_PERMEABLE, row) else {
        return;
    };
    if limit.allows_si(total) {
        return;
    }
    let shown = limit.beside_si(total, context.system());
    let message = format!(
        "{} permeable base is too thin {used}; {} is the least: thicken it",
        with_article(&shown),
        limit.shown(context.system()),
    );
    let by_use = context.limit(&BASE_PERMEABLE, "drive");
    let is_short_of_use = row != "drive-weak" || by_use.is_none_or(|least| !least.allows_si(total));
    let finding = BASE_PERMEABLE
        .finding(thickness.place, message)
        .severity(match is_short_of_use {
            true => Severity::Error,
            false => Severity::Warning,
        })
        .found(shown, Quantity::near(total, Dimension::LENGTH))
        .against(&limit, context)
        .related(permeable, "permeable");
    let is_enough_beyond =
        |base: &Layer| base.beyond.is_none() || base.beyond_m() > limit.value.si() - 1e-9;
    let fix = match layers.as_slice() {
        [base]
            if is_in_checked_file(thickness.place) && (is_enough_beyond(base) || row == "foot") =>
        {
            let text = limit_as_written(&limit, context);
            let title = format!("Raise the base to {text}");
            Some(Fix::judged(title, thickness.place, text))
        }
        _ => None,
    };
    found.add(match fix {
        Some(fix) => finding.fix(fix),
        None => finding,
    });
}

/// Voids that a base of stone does not have.
fn too_many_voids(context: &Context<'_>, build: &Build, found: &mut Found) {
    let is_stone = |layer: &Layer| {
        let kind = layer.of.value.kind();
        kind.is_some_and(Kind::is_aggregate)
    };
    let (Some(voids), Some(limit)) = (&build.voids, context.limit(&BASE_PERMEABLE, "voids")) else {
        return;
    };
    if !bases(build).any(is_stone) || limit.allows(&voids.value) {
        return;
    }
    let shown = limit.beside(&voids.value, context.system());
    let message = format!(
        "no stone is {shown} voids; {} is about the most: check it",
        limit.shown(context.system()),
    );
    found.add(
        BASE_PERMEABLE
            .finding(voids.place, message)
            .severity(Severity::Warning)
            .found(shown, Some(voids.value))
            .against(&limit, context),
    );
}
