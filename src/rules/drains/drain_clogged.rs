//! `drain-clogged`: a drain filled with what holds water up.

use super::readable;
use crate::findings::Severity;
use crate::model::DrainKind;
use crate::rules::base::is_tight;
use crate::rules::documents::FILTER_LAYERS;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Term;

/// A drain filled with what holds water up.
pub(crate) static DRAIN_CLOGGED: Rule = Rule {
    name: "drain-clogged",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "What trenches and soakaways are filled with: sand, dust and stone graded to fines let little water through.",
    reason: "Water goes round such a drain, and what gets in has no room to stand.",
    remedy: "Fill it with clean open-graded stone, gravel or crates.",
    limits: &[],
    sources: &[FILTER_LAYERS, Source::COMMON_PRACTICE],
    breaks: "\
drain side-drain
  trench       300 mm wide, 450 mm deep, along court.south
  pipe         perforated-pipe, 110 mm
  filled       «type-1»
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
        let takes_water = matches!(drain.kind(), Some(DrainKind::Trench | DrainKind::Soakaway));
        let filled = drain.filled.as_ref();
        let filled = filled.filter(|filled| takes_water && is_tight(&filled.of.value));
        let Some(filled) = filled.filter(|_| drain.existing.is_none()) else {
            continue;
        };
        let message = format!(
            "{} lets hardly any water into {}: fill it with clean {}",
            filled.of.value.name(),
            drain.name.value,
            context.word(Term::OpenStone)
        );
        found.add(DRAIN_CLOGGED.finding(filled.of.place, message));
    }
}
