//! `premix-sand`: sand added to a bag that holds its sand already.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Mix, MixPart};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Sand added to a bag that holds its sand already.
pub(crate) static PREMIX_SAND: Rule = Rule {
    name: "premix-sand",
    family: Family::Mixes,
    severity: Severity::Warning,
    looks_at: "Sand mixed with mortar or concrete that comes blended in the bag.",
    reason: "The bag has its sand; more makes the mix lean and weak.",
    remedy: "Leave the sand out, or mix from cement and sand.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "mix bed-mix
  parts        1 bagged-mortar : 2 «sharp-sand»
",
    keeps: "mix bed-mix
  parts        1 portland-cement : 4 sharp-sand
",
    mended: None,
    check: Check::Mix(check),
};

fn check(_context: &Context<'_>, mix: &Mix, found: &mut Found) {
    let part_of = |which: fn(Kind) -> bool| {
        mix.parts.iter().find(|part: &&MixPart| {
            let material = part.material.as_ref();
            material
                .and_then(|material| material.kind)
                .is_some_and(which)
        })
    };
    let (Some(bag), Some(sand)) = (part_of(Kind::is_premix), part_of(Kind::is_sand)) else {
        return;
    };
    let message = format!(
        "{} comes with its sand; more makes it too lean: leave the {} out",
        bag.name.value, sand.name.value
    );
    found.add(
        PREMIX_SAND
            .finding(sand.name.place, message)
            .related(bag.name.place, "blended in the bag"),
    );
}
