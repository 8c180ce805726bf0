//! `mix-lean`: too little binder to hold.

use super::proportion::proportion_finding;
use crate::findings::Severity;
use crate::model::{Mix, Region};
use crate::rules::documents::{FLOOR_MORTAR, JOINT_MORTAR, NHL_MORTAR};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

const fn most(
    row: &'static str,
    of: &'static str,
    written: &'static [&'static str],
    source: Source,
) -> Limit {
    Limit {
        row,
        of,
        bound: Bound::Most,
        general: Value { written, source },
        regions: &[],
    }
}

/// Too little binder to hold.
pub(crate) static MIX_LEAN: Rule = Rule {
    name: "mix-lean",
    family: Family::Mixes,
    severity: Severity::Warning,
    looks_at: "The sand in a mix to its cement and lime together, by volume, by use; in a slab, and in what an edging or a drain stands in, the sand and the stone. Mortar of hydraulic lime has a row of its own.",
    reason: "A lean mortar is crumbly and absorbs water: frost opens it in a few winters, and units come loose.",
    remedy: "Use more cement, or less sand and stone.",
    limits: &[
        Limit {
            row: "bed",
            of: "sand to binder of a bed",
            bound: Bound::Most,
            general: Value {
                written: &["5"],
                source: FLOOR_MORTAR,
            },
            regions: &[(Region::Uk, Value::practice(&["6"]))],
        },
        most(
            "kerb",
            "sand and stone to the cement that an edging or a drain stands in",
            &["10"],
            Source::COMMON_PRACTICE,
        ),
        most(
            "dry-bed",
            "sand to binder of a bed laid semi-dry",
            &["6"],
            FLOOR_MORTAR,
        ),
        most("joint", "sand to binder of joints", &["4"], JOINT_MORTAR),
        most(
            "bond",
            "sand to binder of a bond coat",
            &["2"],
            Source::COMMON_PRACTICE,
        ),
        most("lime", "sand to hydraulic lime", &["3"], NHL_MORTAR),
        most(
            "slurry",
            "sand to binder of a slurry",
            &["2"],
            Source::COMMON_PRACTICE,
        ),
        most(
            "slab",
            "sand and stone to the cement of a slab",
            &["7"],
            Source::COMMON_PRACTICE,
        ),
    ],
    sources: &[
        FLOOR_MORTAR,
        JOINT_MORTAR,
        NHL_MORTAR,
        Source::COMMON_PRACTICE,
    ],
    breaks: "mix bed-mix
  «parts        1 portland-cement : 7 sharp-sand»
",
    keeps: "mix bed-mix
  parts        1 portland-cement : 5 sharp-sand
",
    mended: None,
    check: Check::Mix(check),
};

fn check(context: &Context<'_>, mix: &Mix, found: &mut Found) {
    if let Some(finding) = proportion_finding(&MIX_LEAN, context, mix) {
        found.add(finding);
    }
}
