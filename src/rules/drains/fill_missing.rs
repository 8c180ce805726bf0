//! `fill-missing`: a soakaway or a trench that nothing fills.

use super::readable;
use crate::findings::Severity;
use crate::model::DrainKind;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// A soakaway or a trench that nothing fills.
pub(crate) static FILL_MISSING: Rule = Rule {
    name: "fill-missing",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "Soakaways and trenches that are dug and of which nothing says what they are filled with.",
    reason: "An open hole falls in; and how much a soakaway holds depends on what fills it, so that its size is not judged.",
    remedy: "State what fills it: clean stone, or crates.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
drain «side-drain»
  trench       300 mm wide, 450 mm deep, along court.south
  pipe         perforated-pipe, 110 mm
  fall         1:100 toward east
  to           \"ditch\"
",
    keeps: "\
drain side-drain
  trench       300 mm wide, 450 mm deep, along court.south
  pipe         perforated-pipe, 110 mm
  filled       open-stone, voids 40 %
  fall         1:100 toward east
  to           \"ditch\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for (drain, _) in readable(context.job, context.figures) {
        let is_filled = drain.filled.is_some() || drain.entry("filled").is_some();
        let what = match drain.kind() {
            Some(DrainKind::Soakaway) => "how much it holds is not known",
            Some(DrainKind::Trench) => "none is ordered",
            _ => continue,
        };
        if is_filled || drain.existing.is_some() || context.is_misread(drain.section) {
            continue;
        }
        let message = format!(
            "nothing says what fills {}, and {what}. State it, as in filled open-stone",
            drain.name.value
        );
        found.add(FILL_MISSING.finding(drain.name.place, message));
    }
}
