//! `unit-thin`: pavers and setts too thin for their use.

use super::unit_slender::UNIT_SLENDER;
use crate::findings::{Fix, Severity};
use crate::materials::Kind;
use crate::model::{Build, Region, Surface, Use, literal};
use crate::rules::construction::{self, Construction, unit_size};
use crate::rules::documents::{UK_BLOCKS, icpi_tolerances};
use crate::rules::wording::limit_as_written;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Longer units than 12 in are slabs, which other rules judge.
pub(super) const LONGEST_PAVER: f64 = 0.3048;

/// Pavers and setts too thin for their use.
pub(crate) static UNIT_THIN: Rule = Rule {
    name: "unit-thin",
    family: Family::Units,
    severity: Severity::Error,
    looks_at: "The thickness of concrete and clay pavers and of setts set on sand over a base; not concrete units longer than 12 in, which are slabs, nor what lies over a concrete slab.",
    reason: "Pavers carry by locking into their neighbours over their whole depth; thin ones tip, break and let the bed through.",
    remedy: "Use thicker pavers, or set these in mortar on a slab.",
    limits: &[
        Limit {
            row: "plain",
            of: "pavers for foot traffic and private drives",
            bound: Bound::Least,
            general: Value {
                written: &["60 mm", "2 3/8 in"],
                source: icpi_tolerances("least thickness, pedestrian and driveway"),
            },
            regions: &[(
                Region::Uk,
                Value {
                    written: &["50 mm"],
                    source: UK_BLOCKS,
                },
            )],
        },
        Limit::practice(
            "foot-au",
            "pavers for foot traffic in Australia",
            Bound::Least,
            &["40 mm"],
        ),
        Limit {
            row: "street",
            of: "pavers for streets",
            bound: Bound::Least,
            general: Value {
                written: &["80 mm", "3 1/8 in"],
                source: icpi_tolerances("least thickness, street"),
            },
            regions: &[],
        },
        Limit {
            row: "clay",
            of: "clay pavers for foot traffic and private drives",
            bound: Bound::Least,
            general: Value::practice(&["50 mm", "2 in"]),
            regions: &[(
                Region::Us,
                Value {
                    written: &["57 mm", "2 1/4 in"],
                    source: CLAY_PAVERS,
                },
            )],
        },
        Limit::practice(
            "clay-street",
            "clay pavers for streets",
            Bound::Least,
            &["65 mm", "2 5/8 in"],
        ),
        Limit::practice(
            "sett",
            "setts for foot traffic",
            Bound::Least,
            &["50 mm", "2 in"],
        ),
        Limit::practice(
            "sett-drive",
            "setts that cars drive on",
            Bound::Least,
            &["75 mm", "3 in"],
        ),
    ],
    sources: &[
        icpi_tolerances("least paver thickness"),
        CLAY_PAVERS,
        Source::COMMON_PRACTICE,
        Source::read(
            "CMHA PAV-TEC-002-22, Construction of Interlocking Concrete Pavements",
            "paver thickness",
        ),
    ],
    breaks: "build sand-set
  paving       concrete-paver, «50 mm», waste 5 %
",
    keeps: "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
",
    mended: Some(
        "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
",
    ),
    check: Check::Units(check),
};

/// American clay pavers.
const CLAY_PAVERS: Source = Source::memory(
    "BIA Technical Note 14A (check the edition in force)",
    "clay pavers of 2 1/4 in where cars are light, 2 5/8 in where they are heavy",
);

/// Whether a build's units are concrete pavers that lock into each other.
pub(super) fn is_interlocking(build: &Build) -> bool {
    construction::unit_kind(build) == Some(Kind::ConcretePaver)
        && Construction::of(build) == Construction::SandSet
        && construction::slab(build).is_none()
}

/// The row of the units of a build set on sand, and what they are in words.
fn row(surface: &Surface, build: &Build) -> Option<(&'static str, &'static str)> {
    let is_slab =
        || unit_size(surface, build).is_some_and(|(length, _)| length > LONGEST_PAVER + 1e-9);
    let (kind, used) = (construction::unit_kind(build)?, surface.used_for);
    if Construction::of(build) != Construction::SandSet || construction::slab(build).is_some() {
        return None;
    }
    match (kind, used) {
        (Kind::ConcretePaver, _) if is_slab() => None,
        (Kind::ConcretePaver, Use::Street) => Some(("street", "pavers")),
        (Kind::ConcretePaver, _) => Some(("plain", "pavers")),
        (Kind::ClayPaver, Use::Street) => Some(("clay-street", "clay pavers")),
        (Kind::ClayPaver, _) => Some(("clay", "clay pavers")),
        (Kind::Sett, Use::Drive | Use::Street) => Some(("sett-drive", "setts")),
        (Kind::Sett, _) => Some(("sett", "setts")),
        _ => None,
    }
}

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some((row, what)) = row(surface, build) else {
        return;
    };
    let is_driven = matches!(surface.used_for, Use::Drive | Use::Street);
    let row = match (row, context.region()) {
        ("plain", Region::Au) if !is_driven => "foot-au",
        (row, _) => row,
    };
    let Some(paving) = build.layer(Role::Paving) else {
        return;
    };
    let Some(thickness) = &paving.thickness else {
        return;
    };
    let used = match surface.used_for {
        Use::Street => "for a street",
        Use::Drive => "for a drive",
        Use::Foot | Use::Ramp | Use::Landing => "for foot traffic",
    };
    let Some(limit) = context.limit(&UNIT_THIN, row) else {
        return;
    };
    if limit.allows(&thickness.value) || paving.existing.is_some() {
        return;
    }
    let shown = limit.beside(&thickness.value, context.system());
    let message = format!(
        "{what} of {shown} are too thin {used}; {} is the least: use thicker ones",
        limit.shown(context.system()),
    );
    let text = limit_as_written(&limit, context);
    let mut finding = UNIT_THIN
        .finding(thickness.place, message)
        .found(shown, Some(thickness.value))
        .against(&limit, context);
    // What a trade page, memory or practice says is no ground for an error.
    let is_trade_page = context.region() == Region::Uk && row == "plain";
    let is_weak = is_trade_page || !matches!(row, "plain" | "street");
    if is_weak && limit.line.is_none() {
        finding = finding.severity(Severity::Warning);
    }
    // No thickness at which they would be too slender.
    let is_stout = |thickness: f64| {
        let slender = context.limit(&UNIT_SLENDER, row);
        unit_size(surface, build)
            .zip(slender)
            .is_none_or(|((length, _), slender)| slender.allows_si(length / thickness))
    };
    if literal(&text).is_some_and(|thickness| is_stout(thickness.si())) {
        let title = format!("Use {what} of {text}");
        finding = finding.fix(Fix::judged(title, thickness.place, text));
    }
    let is_of_street = matches!(row, "street" | "clay-street");
    found.add(match surface.used_for_place {
        Some(place) if is_of_street => finding.related(place, "a street"),
        _ => finding,
    });
}
