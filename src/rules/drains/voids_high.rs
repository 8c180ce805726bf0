//! `voids-high`: more room for water in stone than stone has.

use super::readable;
use crate::findings::Severity;
use crate::materials::Kind;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;

/// More room for water in stone than stone has.
pub(crate) static VOIDS_HIGH: Rule = Rule {
    name: "voids-high",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "The voids stated of the stone that a trench or a soakaway is filled with.",
    reason: "Clean stone is 30 to 40 % voids; only crates are nearly empty. Counted with more, a soakaway holds less than the sheet says and floods.",
    remedy: "State what the quarry gives for the stone, or fill with crates.",
    limits: &[Limit::practice(
        "stone",
        "voids of stone in a drain",
        Bound::Most,
        &["45 %"],
    )],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
drain side-drain
  trench       300 mm wide, 450 mm deep, along court.south
  pipe         perforated-pipe, 110 mm
  filled       open-stone, voids «95 %»
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
    let Some(limit) = context.limit(&VOIDS_HIGH, "stone") else {
        return;
    };
    for (drain, _) in readable(context.job, context.figures) {
        let Some(filling) = &drain.filled else {
            continue;
        };
        let is_stone = filling.of.value.kind().is_some_and(Kind::is_aggregate);
        let voids = filling.voids.as_ref().filter(|_| is_stone);
        let Some(voids) = voids.filter(|voids| !limit.allows(&voids.value)) else {
            continue;
        };
        let shown = limit.beside(&voids.value, context.system());
        let message = format!(
            "no stone has {shown} voids; {} is about the most. State what the quarry gives, or fill with crates",
            limit.shown(context.system()),
        );
        found.add(
            VOIDS_HIGH
                .finding(voids.place, message)
                .found(shown, Some(voids.value))
                .against(&limit, context),
        );
    }
}
