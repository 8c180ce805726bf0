//! `quote-odd`: a quote for less than the goods alone cost.

use crate::findings::Severity;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::Money;

/// A quote for less than the goods alone cost.
pub(crate) static QUOTE_ODD: Rule = Rule {
    name: "quote-odd",
    family: Family::Work,
    severity: Severity::Advisory,
    looks_at: "A quote beside what the orders and their deliveries cost, as far as they are priced.",
    reason: "Nobody builds for less than the materials cost: the quote leaves something out, or a price here is too high.",
    remedy: "Ask what the quote leaves out, and look at the prices again.",
    limits: &[],
    sources: &[Source::computed(
        "the quote less the orders that have a price",
    )],
    breaks: "material crushed-stone
  price        £36/t

budget
  contingency  10 %
  disposal     £38/m3
  quote        «£90»
",
    keeps: "material crushed-stone
  price        £36/t

budget
  contingency  10 %
  disposal     £38/m3
  quote        £4,900
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let (Some(budget), Some(total)) = (&context.job.budget, context.figures.total) else {
        return;
    };
    for quote in &budget.quotes {
        let price = quote.price.value.resolved(context.job.heading.currency());
        let asked = Money::round(&price).filter(|asked| asked.currency == total.currency);
        let Some(asked) = asked.filter(|asked| asked.cents < total.cents) else {
            continue;
        };
        let message = format!(
            "{asked} is less than the materials alone, {total}: ask what the quote leaves out"
        );
        found.add(
            QUOTE_ODD
                .finding(quote.price.place, message)
                .found(asked.to_string(), Some(price)),
        );
    }
}
