//! `mix-odd`: water or air that no mix has.

use crate::findings::Severity;
use crate::model::{Mix, MixUse, Stated};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::Quantity;

/// Water or air that no mix has.
pub(crate) static MIX_ODD: Rule = Rule {
    name: "mix-odd",
    family: Family::Mixes,
    severity: Severity::Warning,
    looks_at: "The water to cement and the voids that a mix states.",
    reason: "Water and air set what the mix makes, and so every order for it. 6 for 0.6 makes ten times the water.",
    remedy: "Check the figure: 0.4 to 0.6 is common for concrete, 0.6 to 1.2 for mortar, and under 20 % of air.",
    limits: &[
        Limit::practice(
            "water-most",
            "water to cement by mass",
            Bound::Most,
            &["1.5"],
        ),
        Limit::practice(
            "water-least",
            "water to cement by mass",
            Bound::Least,
            &["0.25"],
        ),
        Limit::practice(
            "slab-water-most",
            "water to cement by mass in concrete",
            Bound::Most,
            &["0.8"],
        ),
        Limit::practice("voids", "air in a mix", Bound::Most, &["30 %"]),
    ],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "mix bed-mix
  water        «6»
",
    keeps: "mix bed-mix
  water        0.6
",
    mended: None,
    check: Check::Mix(check),
};

fn check(context: &Context<'_>, mix: &Mix, found: &mut Found) {
    let rows = match mix.is_for(MixUse::Slab) {
        true => ["slab-water-most", "water-least"],
        false => ["water-most", "water-least"],
    };
    for row in rows {
        tell(context, mix.water.as_ref(), row, found);
    }
    tell(context, mix.voids.as_ref(), "voids", found);
}

/// Tells of a figure that misses the limit of a row.
fn tell(
    context: &Context<'_>,
    stated: Option<&Stated<Quantity>>,
    row: &'static str,
    found: &mut Found,
) {
    let (Some(stated), Some(limit)) = (stated, context.limit(&MIX_ODD, row)) else {
        return;
    };
    if limit.allows_si(stated.value.si()) {
        return;
    }
    let side = match limit.bound {
        Bound::Least => "least",
        Bound::Most => "most",
    };
    let shown = limit.beside(&stated.value, context.system());
    let limit_shown = limit.shown(context.system());
    let message = if row == "voids" {
        format!("no mix is {shown} air; {limit_shown} is about the most: check it")
    } else {
        let much = match limit.bound {
            Bound::Least => "so little",
            Bound::Most => "so much",
        };
        format!(
            "no mix takes {much} water: {shown} to 1 of cement, and {limit_shown} is about the {side}. Check it"
        )
    };
    found.add(
        MIX_ODD
            .finding(stated.place, message)
            .found(shown, Some(stated.value))
            .against(&limit, context),
    );
}
