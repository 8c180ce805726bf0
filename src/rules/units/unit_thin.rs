//! `unit-thin`: interlocking pavers too thin for their use.

use super::unit_slender::UNIT_SLENDER;
use crate::findings::{Fix, Severity};
use crate::materials::Kind;
use crate::model::{Build, Region, Surface, Use, literal};
use crate::rules::construction::{self, Construction, unit_size};
use crate::rules::documents::{UK_BLOCKS, icpi_tolerances};
use crate::rules::wording::limit_as_written;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::vocabulary::Role;

/// Longer units than 12 in are slabs, which other rules judge.
pub(super) const LONGEST_PAVER: f64 = 0.3048;

/// Interlocking pavers too thin for their use.
pub(crate) static UNIT_THIN: Rule = Rule {
    name: "unit-thin",
    family: Family::Units,
    severity: Severity::Error,
    looks_at: "The thickness of concrete pavers set on sand over a base; not units longer than 12 in, which are slabs, nor pavers over a concrete slab.",
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
    ],
    sources: &[
        icpi_tolerances("least paver thickness"),
        crate::sources::Source::read(
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

/// Whether a build's units are concrete pavers that lock into each other.
pub(super) fn is_interlocking(build: &Build) -> bool {
    construction::unit_kind(build) == Some(Kind::ConcretePaver)
        && Construction::of(build) == Construction::SandSet
        && construction::slab(build).is_none()
}

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let is_slab =
        unit_size(surface, build).is_some_and(|(length, _)| length > LONGEST_PAVER + 1e-9);
    if !is_interlocking(build) || is_slab {
        return;
    }
    let Some(paving) = build.layer(Role::Paving) else {
        return;
    };
    let Some(thickness) = &paving.thickness else {
        return;
    };
    let (row, used) = match surface.used_for {
        Use::Street => ("street", "for a street"),
        Use::Drive => ("plain", "for a drive"),
        Use::Foot | Use::Ramp | Use::Landing => ("plain", "for foot traffic"),
    };
    let Some(limit) = context.limit(&UNIT_THIN, row) else {
        return;
    };
    if limit.allows(&thickness.value) || paving.existing.is_some() {
        return;
    }
    let shown = context.show(&thickness.value);
    let message = format!(
        "pavers of {shown} are too thin {used}; {} is the least: use thicker ones",
        limit.shown(context.system()),
    );
    let text = limit_as_written(&limit, context);
    let mut finding = UNIT_THIN
        .finding(thickness.place, message)
        .found(shown, Some(thickness.value))
        .against(&limit, context);
    // What a trade page says is no ground for an error.
    if context.region() == Region::Uk && limit.line.is_none() && row == "plain" {
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
        let title = format!("Use pavers of {text}");
        finding = finding.fix(Fix::judged(title, thickness.place, text));
    }
    found.add(match surface.used_for_place {
        Some(place) if row == "street" => finding.related(place, "a street"),
        _ => finding,
    });
}
