//! `unit-disagrees`: units laid in another size than their material has.

use crate::findings::Severity;
use crate::model::{Build, Origin, Surface};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

const OWN_FIGURES: Source =
    Source::computed("the two sizes; nominal and actual sizes differ by a joint");

/// Units laid in another size than their material has.
pub(crate) static UNIT_DISAGREES: Rule = Rule {
    name: "unit-disagrees",
    family: Family::Units,
    severity: Severity::Error,
    looks_at: "The size of the units as they are laid, against the size that their material states; of three sides against the two that are not the thickness of the layer.",
    reason: "The count goes by the one and the order may go by the other.",
    remedy: "Keep the size that is on the delivery note.",
    limits: &[Limit {
        row: "plain",
        of: "a side of the unit as laid, off its material's",
        bound: Bound::Most,
        general: Value {
            written: &["13 mm", "1/2 in"],
            source: OWN_FIGURES,
        },
        regions: &[],
    }],
    sources: &[OWN_FIGURES],
    breaks: "surface court
  laid         running-bond, units «100 mm by 200 mm»

material concrete-paver
  unit         200 mm by 200 mm
",
    keeps: "surface court
  laid         running-bond, units 100 mm by 200 mm

material concrete-paver
  unit         200 mm by 100 mm
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let laid = surface.laid.as_ref().and_then(|laid| laid.units.as_ref());
    let paving = build.layer(Role::Paving);
    let (Some((one, other)), Some(paving), Some(limit)) =
        (laid, paving, context.limit(&UNIT_DISAGREES, "plain"))
    else {
        return;
    };
    let Some((length, width)) = paving.face() else {
        return;
    };
    // What the catalogue has is usual, and what is laid is meant.
    let (Origin::Line(from), Origin::Line(to)) = (&length.origin, &width.origin) else {
        return;
    };
    let sorted = |a: f64, b: f64| (a.max(b), a.min(b));
    let (long, short) = sorted(one.value.si(), other.value.si());
    let (own_long, own_short) = sorted(length.value.si(), width.value.si());
    let off = (long - own_long).abs().max((short - own_short).abs());
    if limit.allows_si(off) {
        return;
    }
    let shown = limit.beside_si(off, context.system());
    let message = format!(
        "laid as {} by {}, but {} is {} by {}: one of the two is wrong, and with it the count",
        context.show(&one.value),
        context.show(&other.value),
        paving.of.value.name(),
        context.show(&length.value),
        context.show(&width.value),
    );
    found.add(
        UNIT_DISAGREES
            .finding(one.place.to(other.place), message)
            .found(shown, Quantity::near(off, Dimension::LENGTH))
            .against(&limit, context)
            .related(from.to(*to), "the size of the unit"),
    );
}
