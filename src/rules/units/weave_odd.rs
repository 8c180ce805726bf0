//! `weave-odd`: basket weave of units that do not fit each other.

use crate::findings::Severity;
use crate::model::{Build, Pattern, Surface};
use crate::rules::construction::unit_size;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

const GEOMETRY: Source = Source::computed(
    "length + joint = a whole number × (width + joint); what is left over is for the joints to take",
);

/// Basket weave of units that do not fit each other.
pub(crate) static WEAVE_ODD: Rule = Rule {
    name: "weave-odd",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "Basket weave: whether two or three units side by side, with their joints, are as wide as one is long.",
    reason: "Units that do not make a square leave a gap or an overlap in every block of the pattern.",
    remedy: "Change the units, the joint or the pattern.",
    limits: &[Limit {
        row: "plain",
        of: "how far a block of basket weave is out of square",
        bound: Bound::Most,
        general: Value {
            written: &["5 mm", "3/16 in"],
            source: GEOMETRY,
        },
        regions: &[],
    }],
    sources: &[GEOMETRY],
    breaks: "surface court
  laid         basket-weave, units «150 mm by 200 mm»
",
    keeps: "surface court
  laid         basket-weave, units 100 mm by 200 mm
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(laid) = &surface.laid else { return };
    if laid.pattern.value != Pattern::BasketWeave {
        return;
    }
    let (Some((length, width)), Some(limit)) = (
        unit_size(surface, build),
        context.limit(&WEAVE_ODD, "plain"),
    ) else {
        return;
    };
    let joint = surface
        .joint
        .as_ref()
        .map_or(0.0, |joint| joint.width.value.si());
    let off = |count: f64| (length + joint - count * (width + joint)).abs();
    let fits = [2.0, 3.0, 4.0].map(|count| (count, off(count)));
    let nearest = fits
        .into_iter()
        .reduce(|least, next| if next.1 < least.1 { next } else { least });
    let Some((count, off)) = nearest.filter(|(_, off)| !limit.allows_si(*off)) else {
        return;
    };
    let shown = limit.beside_si(off, context.system());
    let message = format!(
        "basket weave will not fit: {count:.0} units side by side are {shown} off the length of one. {} is the most that joints take up",
        limit.shown(context.system()),
    );
    let place = match &laid.units {
        Some((one, other)) => one.place.to(other.place),
        None => laid.pattern.place,
    };
    found.add(
        WEAVE_ODD
            .finding(place, message)
            .found(shown, Quantity::near(off, Dimension::LENGTH))
            .against(&limit, context),
    );
}
