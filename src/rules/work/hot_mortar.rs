//! `hot-mortar`: mortar or concrete in air that dries it out.

use super::documents::MASONRY_HOT;
use super::weather::{air, sets, tell, what_sets};
use crate::findings::Severity;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};

/// Mortar or concrete in air that dries it out.
pub(crate) static HOT_MORTAR: Rule = Rule {
    name: "hot-mortar",
    family: Family::Work,
    severity: Severity::Warning,
    looks_at: "The temperature of the air, where mortar or concrete is laid, that of edgings, steps and drains too.",
    reason: "In the heat the water is gone before the cement has set: beds lose their bond and slabs craze.",
    remedy: "Work in the cool of the morning, keep sand and stone in the shade and damp, mix with cool water, and mist the work for three days.",
    limits: &[Limit {
        row: "plain",
        of: "air for work in mortar without measures against the heat",
        bound: Bound::Most,
        general: Value {
            written: &["37.8 °C", "100 °F"],
            source: MASONRY_HOT,
        },
        regions: &[],
    }],
    sources: &[MASONRY_HOT],
    breaks: "surface court
  build        mortar-set

work
  crew         4
  temperature  «40 °C»
",
    keeps: "surface court
  build        mortar-set

work
  crew         4
  temperature  30 °C
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    // What the job is built with is asked of every surface at every edit.
    if air(context).is_some() && sets(context) {
        let what = what_sets(context);
        let says = |air: &str, most: &str| {
            format!(
                "too hot for {what} at {air}: it dries before it sets. {most} is the most: work early, in the shade, and mist it"
            )
        };
        tell((&HOT_MORTAR, "plain"), says, context, found);
    }
}
