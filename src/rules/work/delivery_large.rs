//! `delivery-large`: a load that no truck brings.

use crate::findings::Severity;
use crate::model::{Material, Region};
use crate::rules::documents::TRUCKS;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::Dimension;
use crate::vocabulary::Term;

/// What the largest tippers of a region bring: articulated ones of 28 t in
/// Britain, a truck and dog of 32 t in Australia, a semi in America.
/// A load that no truck brings.
pub(crate) static DELIVERY_LARGE: Rule = Rule {
    name: "delivery-large",
    family: Family::Work,
    severity: Severity::Advisory,
    looks_at: "What one load of a delivery holds, beside what a large tipper brings.",
    reason: "Deliveries are counted by the load; a load larger than the truck makes them too few and too cheap.",
    remedy: "Ask the supplier what one load holds, and state that.",
    limits: &[
        Limit {
            row: "volume",
            of: "a load by volume",
            bound: Bound::Most,
            general: Value {
                written: &["13.8 m3", "18 cu yd"],
                source: TRUCKS,
            },
            regions: &[
                (Region::Uk, Value::practice(&["18 m3"])),
                (Region::Au, Value::practice(&["21 m3"])),
            ],
        },
        Limit {
            row: "mass",
            of: "a load by weight",
            bound: Bound::Most,
            general: Value {
                written: &["18.2 t", "20 ton"],
                source: TRUCKS,
            },
            regions: &[
                (Region::Us, Value::practice(&["24 ton"])),
                (Region::Uk, Value::practice(&["29 t"])),
                (Region::Au, Value::practice(&["33 t"])),
            ],
        },
    ],
    sources: &[TRUCKS, Source::COMMON_PRACTICE],
    breaks: "material crushed-stone
  «delivery     £95 per load of 40 t»
",
    keeps: "material crushed-stone
  delivery     £95 per load of 10 t
",
    mended: None,
    check: Check::Material(check),
};

fn check(context: &Context<'_>, material: &Material, found: &mut Found) {
    let Some(stated) = &material.delivery else {
        return;
    };
    let load = stated.value.size;
    let row = match load.dimension {
        Dimension::VOLUME => "volume",
        Dimension::MASS => "mass",
        _ => return,
    };
    // What it is like may state it in another section, which tells of it.
    let is_own = material.section == Some(stated.place.section);
    let Some(limit) = context.limit(&DELIVERY_LARGE, row).filter(|_| is_own) else {
        return;
    };
    if limit.allows(&load) {
        return;
    }
    let shown = limit.beside(&load, context.system());
    let message = format!(
        "no {} brings {shown} in one load; {} is about the most. Ask what one load holds",
        context.word(Term::Tipper),
        limit.shown(context.system())
    );
    found.add(
        DELIVERY_LARGE
            .finding(stated.place, message)
            .found(shown, Some(load))
            .against(&limit, context),
    );
}
