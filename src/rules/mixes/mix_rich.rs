//! `mix-rich`: so much binder that the mortar shrinks and cracks.

use super::proportion::proportion_finding;
use crate::findings::Severity;
use crate::model::Mix;
use crate::rules::documents::{FLOOR_MORTAR, JOINT_MORTAR};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

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

/// So much binder that the mortar shrinks and cracks.
pub static MIX_RICH: Rule = Rule {
    name: "mix-rich",
    family: Family::Mixes,
    severity: Severity::Advisory,
    looks_at: "The sand of a mix to its cement and lime together, by volume, where it is less than its use wants. Bond coats and slurries may be neat cement.",
    reason: "A rich mortar shrinks as it sets: it cracks, lets go of the stone, and costs more.",
    remedy: "Add sand.",
    limits: &[
        least("bed", "sand to binder of a bed", &["3"], FLOOR_MORTAR),
        least(
            "dry-bed",
            "sand to binder of a bed laid dry",
            &["3"],
            FLOOR_MORTAR,
        ),
        least("joint", "sand to binder of joints", &["2"], JOINT_MORTAR),
    ],
    sources: &[FLOOR_MORTAR, JOINT_MORTAR],
    breaks: "mix bed-mix
  for          bed
  «parts        1 portland-cement : 2 sharp-sand»
  consistency  stiff
",
    keeps: "mix bed-mix
  for          bed
  parts        1 portland-cement : 3 sharp-sand
  consistency  stiff
",
    mended: None,
    check: Check::Mix(check),
};

fn check(context: &Context<'_>, mix: &Mix, found: &mut Found) {
    if let Some(finding) = proportion_finding(&MIX_RICH, "add sand", context, mix) {
        found.add(finding);
    }
}
