//! `path-narrow`: steps too narrow to walk with something in both hands.

use super::IRC_WIDTH;
use crate::findings::Severity;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};

/// Steps too narrow to walk with something in both hands.
pub(crate) static PATH_NARROW: Rule = Rule {
    name: "path-narrow",
    family: Family::Steps,
    severity: Severity::Advisory,
    looks_at: "The width of a flight of steps.",
    reason: "Two people cannot pass, and there is no room for a barrow, a pram or a helping hand.",
    remedy: "Make the flight wider.",
    limits: &[Limit {
        row: "plain",
        of: "the width of steps",
        bound: Bound::Least,
        general: Value {
            written: &["914 mm", "36 in"],
            source: IRC_WIDTH,
        },
        regions: &[],
    }],
    sources: &[IRC_WIDTH],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        «700 mm»
  going        350 mm
  handrail     both sides
",
    keeps: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  handrail     both sides
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&PATH_NARROW, "plain") else {
        return;
    };
    for own in context.job.steps.iter() {
        let Some(width) = own
            .width
            .as_ref()
            .filter(|width| !limit.allows(&width.value))
        else {
            continue;
        };
        let shown = context.show(&width.value);
        let message = format!(
            "{shown} is narrow for steps: {} is the least. Make them wider",
            limit.shown(context.system())
        );
        found.add(
            PATH_NARROW
                .finding(width.place, message)
                .found(shown, Some(width.value))
                .against(&limit, context),
        );
    }
}
