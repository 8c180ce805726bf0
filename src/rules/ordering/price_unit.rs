//! `price-unit`: a price per something that is not what is bought.

use super::troubles::findings;
use crate::findings::Severity;
use crate::quantities::{Trouble, TroubleKind};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// A price per something that is not what is bought.
pub(crate) static PRICE_UNIT: Rule = Rule {
    name: "price-unit",
    family: Family::Ordering,
    severity: Severity::Error,
    looks_at: "A price per something that the material is not sold by, with nothing known to turn one into the other; a price in another currency than the job's.",
    reason: "The order is in what is sold; with no way from one to the other there is no cost.",
    remedy: "Price it by what it is sold by.",
    limits: &[],
    sources: &[Source::computed(
        "the dimensions of the price and of what is sold",
    )],
    breaks: "material concrete-paver
  sold         by m2
  price        «£31/m»
",
    keeps: "material concrete-paver
  sold         by m2
  price        £31/m2
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for (_, finding) in findings(&PRICE_UNIT, context, message) {
        found.add(finding);
    }
}

fn message(trouble: &Trouble) -> Option<String> {
    let name = &trouble.name;
    Some(match &trouble.kind {
        TroubleKind::PriceUnit { priced, sold } => format!(
            "{name} is priced by {priced} but sold by {sold}, and nothing turns one into the other: price it per {sold}"
        ),
        TroubleKind::PricePack { priced, sold } => {
            format!("{name} is priced per {priced} but sold by {sold}: price it per {sold}")
        }
        TroubleKind::Currency { priced, job } => format!(
            "{name} is priced in {priced}, the job in {job}: its cost is left out. Price it in {job}"
        ),
        _ => return None,
    })
}
