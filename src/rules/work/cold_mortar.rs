//! `cold-mortar`: mortar or concrete in air that is too cold for it.

use super::documents::{LIME_COLD, MASONRY_COLD, UK_MASONRY_COLD};
use super::weather::{air, sets, setting, tell, what_sets};
use crate::findings::Severity;
use crate::model::{Region, Substance};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};

/// Mortar or concrete in air that is too cold for it.
pub(crate) static COLD_MORTAR: Rule = Rule {
    name: "cold-mortar",
    family: Family::Work,
    severity: Severity::Warning,
    looks_at: "The temperature of the air, where mortar or concrete is laid, that of edgings, steps and drains too.",
    reason: "Cement hardly sets in the cold, and mortar that freezes before it has set crumbles.",
    remedy: "Wait for warmer weather, or warm the materials and keep the work covered and above freezing until it has set.",
    limits: &[
        Limit {
            row: "plain",
            of: "air for work in mortar without protection",
            bound: Bound::Least,
            general: Value {
                written: &["4.4 °C", "40 °F"],
                source: MASONRY_COLD,
            },
            regions: &[(
                Region::Uk,
                Value {
                    written: &["3 °C"],
                    source: UK_MASONRY_COLD,
                },
            )],
        },
        Limit {
            row: "lime",
            of: "air for work in mortar of hydraulic lime",
            bound: Bound::Least,
            general: Value {
                written: &["5 °C", "41 °F"],
                source: LIME_COLD,
            },
            regions: &[],
        },
    ],
    sources: &[MASONRY_COLD, UK_MASONRY_COLD, LIME_COLD],
    breaks: "surface court
  build        mortar-set

work
  crew         4
  temperature  «2 °C»
",
    keeps: "surface court
  build        mortar-set

work
  crew         4
  temperature  8 °C
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    // What the job is built with is asked of every surface at every edit.
    if air(context).is_none() {
        return;
    }
    if setting(context).into_iter().any(Substance::sets_with_lime) {
        let says = |air: &str, least: &str| {
            format!(
                "too cold for lime mortar at {air}: it hardly sets, and stays open to frost for weeks. {least} and rising is the least: wait for spring"
            )
        };
        tell((&COLD_MORTAR, "lime"), says, context, found);
    } else if sets(context) {
        let what = what_sets(context);
        let says = |air: &str, least: &str| {
            format!(
                "too cold for {what} at {air}: it may freeze before it sets. {least} is the least: wait, or warm and cover the work"
            )
        };
        tell((&COLD_MORTAR, "plain"), says, context, found);
    }
}
