//! `frozen-ground`: building on ground that is frozen.

use super::documents::MASONRY_FROZEN;
use super::weather::{has_work, tell};
use crate::findings::Severity;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::vocabulary::Task;

/// Building on ground that is frozen.
pub(crate) static FROZEN_GROUND: Rule = Rule {
    name: "frozen-ground",
    family: Family::Work,
    severity: Severity::Error,
    looks_at: "The mean temperature of the air, where base, bed or concrete goes down.",
    reason: "Frozen ground and frozen stone hold ice: it does not compact, and when it thaws what stands on it settles.",
    remedy: "Wait until the ground and the bed have thawed.",
    limits: &[Limit {
        row: "plain",
        of: "air for building on the ground",
        bound: Bound::Least,
        general: Value {
            written: &["0 °C", "32 °F"],
            source: MASONRY_FROZEN,
        },
        regions: &[],
    }],
    sources: &[MASONRY_FROZEN],
    breaks: "work
  temperature  «-4 °C»
",
    keeps: "work
  temperature  4 °C
",
    mended: None,
    check: Check::Job(check),
};

const ON_THE_GROUND: &[Task] = &[Task::Compacting, Task::Laying, Task::Pouring];

fn check(context: &Context<'_>, found: &mut Found) {
    if has_work(context, ON_THE_GROUND) {
        let says = |air: &str, least: &str| {
            format!(
                "frozen ground at {air}: it will not compact, and what stands on it settles in the thaw. {least} is the least: wait"
            )
        };
        tell((&FROZEN_GROUND, "plain"), says, context, found);
    }
}
