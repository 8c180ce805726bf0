//! `disposal-missing`: a budget in which nobody pays for the spoil.

use crate::findings::Severity;
use crate::quantities::loose_spoil_m3;
use crate::rules::wording::has_word;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Term;

/// A budget in which nobody pays for the spoil.
pub(crate) static DISPOSAL_MISSING: Rule = Rule {
    name: "disposal-missing",
    family: Family::Work,
    severity: Severity::Advisory,
    looks_at: "The loose spoil that a job takes away, where its budget states no disposal and no item or hire that is called after it.",
    reason: "Getting rid of the spoil is often dearer than the stone that takes its place, and is the item most often forgotten.",
    remedy: "State what it costs, as in disposal £38/m3 or per load; where it stays on site, an item of no price says so.",
    limits: &[Limit::practice(
        "plain",
        "spoil that nobody pays for",
        Bound::Most,
        &["0.5 m3", "0.65 cu yd"],
    )],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "«budget»
  contingency  10 %
",
    keeps: "budget
  contingency  10 %
  disposal     £38/m3
",
    mended: None,
    check: Check::Job(check),
};

/// Words of items and of hire that take spoil away.
const DISPOSAL: &[&str] = &[
    "skip", "skips", "spoil", "muck", "muckaway", "disposal", "dispose", "grab", "tip", "tipping",
    "dump", "dumpster", "landfill", "haul", "hauling", "hauled", "cart", "carting", "waste", "bin",
    "rubbish",
];

fn check(context: &Context<'_>, found: &mut Found) {
    let (job, system) = (context.job, context.system());
    let Some(budget) = &job.budget else {
        return;
    };
    let is_unclear = !budget.unread.is_empty() || context.is_misread(budget.place.section);
    let items = budget.items.iter().map(|item| item.what.as_str());
    let hires = job.hires.iter().map(|hire| hire.name.value.as_str());
    let is_paid_for =
        budget.disposal.is_some() || items.chain(hires).any(|name| has_word(name, DISPOSAL));
    let (Some(limit), Some(spoil)) = (
        context.limit(&DISPOSAL_MISSING, "plain"),
        loose_spoil_m3(context.figures),
    ) else {
        return;
    };
    if is_unclear || is_paid_for || limit.allows_si(spoil) {
        return;
    }
    let shown = limit.beside_si(spoil, system);
    let message = format!(
        "nothing is set aside to {} {shown} of loose spoil. State what that costs, as a disposal; where it stays on site, a disposal of 0 says so",
        context.word(Term::CartAway)
    );
    found.add(
        DISPOSAL_MISSING
            .finding(budget.place, message)
            .found(shown, Quantity::near(spoil, Dimension::VOLUME))
            .against(&limit, context),
    );
}
