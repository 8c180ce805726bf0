//! `unit-slender`: interlocking pavers too long for their thickness.

use super::unit_thin::{LONGEST_PAVER, UNIT_THIN, is_interlocking};
use crate::findings::Severity;
use crate::model::{Build, Surface, Use};
use crate::rules::construction::unit_size;
use crate::rules::documents::icpi_tolerances;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::units::{Number, Quantity};
use crate::vocabulary::Role;

/// Interlocking pavers too long for their thickness.
pub(crate) static UNIT_SLENDER: Rule = Rule {
    name: "unit-slender",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "The length of concrete pavers over their thickness, up to 12 in (305 mm) long; longer units are slabs. Pavers that are too thin anyway are told by unit-thin.",
    reason: "A long thin paver breaks across as a beam before it can pass its load to its neighbours.",
    remedy: "Use thicker or shorter pavers, or a rigid bed.",
    limits: &[
        Limit {
            row: "plain",
            of: "length over thickness, foot traffic and drives",
            bound: Bound::Most,
            general: Value {
                written: &["4"],
                source: icpi_tolerances("aspect ratio, 4:1 at most for pedestrians and drives"),
            },
            regions: &[],
        },
        Limit {
            row: "street",
            of: "length over thickness, streets",
            bound: Bound::Most,
            general: Value {
                written: &["3"],
                source: icpi_tolerances("aspect ratio, 3:1 at most for streets"),
            },
            regions: &[],
        },
    ],
    sources: &[icpi_tolerances("aspect ratio")],
    breaks: "surface court
  laid         running-bond, units 100 mm by «300 mm»
",
    keeps: "surface court
  laid         running-bond, units 100 mm by 240 mm
",
    mended: None,
    check: Check::Units(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let (Some(paving), Some((length, _))) = (build.layer(Role::Paving), unit_size(surface, build))
    else {
        return;
    };
    let row = match surface.used_for {
        Use::Street => "street",
        Use::Drive | Use::Foot | Use::Ramp | Use::Landing => "plain",
    };
    let (Some(limit), Some(least)) = (
        context.limit(&UNIT_SLENDER, row),
        context.limit(&UNIT_THIN, row),
    ) else {
        return;
    };
    let thickness = paving.thickness_m();
    let is_judged = is_interlocking(build)
        && paving.existing.is_none()
        && length <= LONGEST_PAVER + 1e-9
        && thickness > 0.0
        && least.allows_si(thickness);
    let ratio = length / thickness;
    if !is_judged || limit.allows_si(ratio) {
        return;
    }
    let shown = limit.beside_ratio(ratio, 1);
    let message = format!(
        "pavers {} long and {} thick snap like beams: {shown} times as long as thick, and {} is the most. Use shorter or thicker ones",
        context.show_length(length),
        context.show_length(thickness),
        limit.shown(context.system()),
    );
    let units = surface.laid.as_ref().and_then(|laid| laid.units.as_ref());
    let place = units.map_or(paving.of.place, |(one, other)| {
        if one.value.si() < other.value.si() {
            other.place
        } else {
            one.place
        }
    });
    found.add(
        UNIT_SLENDER
            .finding(place, message)
            .found(shown, Number::near(ratio).map(Quantity::plain))
            .against(&limit, context)
            .related(paving.place, "the thickness"),
    );
}
