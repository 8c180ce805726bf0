//! `mix-rich`: so much binder that the mortar shrinks and cracks.

use super::mix_type;
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
pub(crate) static MIX_RICH: Rule = Rule {
    name: "mix-rich",
    family: Family::Mixes,
    severity: Severity::Advisory,
    looks_at: "Too little sand to the cement and lime in a mix, by volume, by use; in a slab, and in what an edging or a drain stands in, the sand and the stone. A warning where there is more cement than sand. Not bond coats and slurries, which may be neat, nor mortar of hydraulic lime, nor of a stated type, whose sand mix-type judges.",
    reason: "A rich mortar shrinks as it sets: it cracks, lets go of the stone, and costs more.",
    remedy: "Use more sand.",
    limits: &[
        least("bed", "sand to binder of a bed", &["3"], FLOOR_MORTAR),
        least(
            "dry-bed",
            "sand to binder of a bed laid semi-dry",
            &["3"],
            FLOOR_MORTAR,
        ),
        least("joint", "sand to binder of joints", &["2"], JOINT_MORTAR),
        least(
            "kerb",
            "sand and stone to the cement that an edging or a drain stands in",
            &["3"],
            Source::COMMON_PRACTICE,
        ),
        least(
            "slab",
            "sand and stone to the cement of a slab",
            &["3"],
            Source::COMMON_PRACTICE,
        ),
    ],
    sources: &[FLOOR_MORTAR, JOINT_MORTAR, Source::COMMON_PRACTICE],
    breaks: "mix bed-mix
  «parts        1 portland-cement : 2 sharp-sand»
",
    keeps: "mix bed-mix
  parts        1 portland-cement : 3 sharp-sand
",
    mended: None,
    check: Check::Mix(check),
};

fn check(context: &Context<'_>, mix: &Mix, found: &mut Found) {
    if mix_type::judges_sand(mix) {
        return;
    }
    if let Some(finding) = proportion_finding(&MIX_RICH, context, mix) {
        found.add(finding);
    }
}
