//! `flag-thin`: natural flags too thin for a bed of sand.

use super::flag_unsupported::FLAG_UNSUPPORTED;
use crate::findings::{Fix, Severity};
use crate::materials::Kind;
use crate::model::{Build, Surface};
use crate::rules::beds::is_bed_of_flags_missing;
use crate::rules::construction::{self, Construction, is_in_checked_file, unit_kind};
use crate::rules::documents::TRAVERTINE_ON_SAND;
use crate::rules::wording::{large_units, limit_as_written};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

const fn least(
    row: &'static str,
    of: &'static str,
    written: &'static [&'static str],
    source: Source,
) -> Limit {
    Limit {
        row,
        of,
        bound: Bound::Least,
        general: Value { written, source },
        regions: &[],
    }
}

/// The row of a build's flags, and what they are in words.
fn row(build: &Build) -> Option<(&'static str, &'static str)> {
    let paving = build.layer(Role::Paving)?;
    let stock = paving.of.value.material().and_then(|own| own.stock);
    match unit_kind(build)? {
        Kind::NaturalStone if stock == Some("travertine") => Some(("travertine", "travertine")),
        Kind::NaturalStone => Some(("plain", "natural stone")),
        Kind::Porcelain => Some(("porcelain", "porcelain")),
        Kind::ConcreteFlag => Some(("concrete", "concrete slabs")),
        _ => None,
    }
}

/// Flags too thin for a bed of sand.
pub(crate) static FLAG_THIN: Rule = Rule {
    name: "flag-thin",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "The thickness of stone, slabs and porcelain set on sand, or in mortar, with no slab under them, or laid dry on one, as on pedestals; not where cars drive, of which flag-unsupported tells.",
    reason: "On a bed that gives, a thin flag spans between high spots and breaks underfoot.",
    remedy: "Use thicker flags, or set these in mortar on a slab.",
    limits: &[
        least(
            "plain",
            "natural stone on sand",
            &["38 mm", "1 1/2 in"],
            Source::COMMON_PRACTICE,
        ),
        least(
            "travertine",
            "travertine on sand",
            &["30 mm", "1 1/4 in"],
            TRAVERTINE_ON_SAND,
        ),
        least(
            "porcelain",
            "porcelain on sand",
            &["30 mm", "1 1/4 in"],
            Source::COMMON_PRACTICE,
        ),
        least(
            "mortar",
            "flags in mortar with no slab under them",
            &["18 mm", "11/16 in"],
            Source::COMMON_PRACTICE,
        ),
        least(
            "concrete-mortar",
            "concrete slabs in mortar with no slab under them",
            &["30 mm", "1 3/16 in"],
            Source::COMMON_PRACTICE,
        ),
        least(
            "dry",
            "flags laid dry on a slab, as on pedestals",
            &["18 mm", "11/16 in"],
            Source::COMMON_PRACTICE,
        ),
        least(
            "concrete",
            "concrete slabs on sand",
            &["38 mm", "1 1/2 in"],
            Source::COMMON_PRACTICE,
        ),
    ],
    sources: &[TRAVERTINE_ON_SAND, Source::COMMON_PRACTICE],
    breaks: "build sand-set
  paving       sandstone, «25 mm», waste 10 %
  bed          sharp-sand, 40 mm

surface court
  laid         running-bond, units 300 mm by 450 mm
  joint        6 mm, filled with joint-sand
",
    keeps: "build sand-set
  paving       sandstone, 38 mm, waste 10 %
  bed          sharp-sand, 40 mm

surface court
  laid         running-bond, units 300 mm by 450 mm
  joint        6 mm, filled with joint-sand
",
    mended: Some(
        "build sand-set
  paving       sandstone, 38 mm, waste 10 %
  bed          sharp-sand, 40 mm

surface court
  laid         running-bond, units 300 mm by 450 mm
  joint        6 mm, filled with joint-sand
",
    ),
    check: Check::Units(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(paving) = build.layer(Role::Paving) else {
        return;
    };
    let is_dry = construction::lies_on_slab(build) && !construction::is_jointed_fast(surface);
    let is_laid = (construction::slab(build).is_none() || is_dry) && paving.existing.is_none();
    let Some((row, what)) = row(build).filter(|_| is_laid) else {
        return;
    };
    // What breaks under cars has a finding of its own.
    let is_driven = construction::is_driven(surface);
    if is_driven && context.is_in_force(&FLAG_UNSUPPORTED, FLAG_UNSUPPORTED.severity) {
        return;
    }
    if build.has_lost_line || is_bed_of_flags_missing(context, surface, build) {
        return;
    }
    let row = match Construction::of(build) {
        _ if is_dry => "dry",
        Construction::SandSet => row,
        Construction::MortarSet if row == "concrete" => "concrete-mortar",
        Construction::MortarSet => "mortar",
        _ => return,
    };
    let (Some(thickness), Some(limit)) = (&paving.thickness, context.limit(&FLAG_THIN, row)) else {
        return;
    };
    let thin = paving.thinnest_m();
    if limit.allows_si(thin) {
        return;
    }
    let shown = limit.beside_si(thin, context.system());
    let (bed, remedy) = match row {
        "mortar" | "concrete-mortar" => ("mortar with no slab under it", "set it on a slab"),
        "dry" => ("pedestals or pads", "bond it to the slab"),
        _ => ("a sand bed", "set it in mortar on a slab"),
    };
    let message = format!(
        "{what} of {shown} {} too thin for {bed}; {} is the least: use thicker, or {remedy}",
        if what.ends_with('s') { "are" } else { "is" },
        limit.shown(context.system()),
    );
    let finding = FLAG_THIN
        .finding(thickness.place, message)
        .found(shown, Quantity::near(thin, Dimension::LENGTH))
        .against(&limit, context);
    found.add(if is_in_checked_file(thickness.place) {
        let text = limit_as_written(&limit, context);
        let title = format!("Use {} of {text}", large_units(unit_kind(build), context));
        finding.fix(Fix::judged(title, thickness.place, text))
    } else {
        finding
    });
}
