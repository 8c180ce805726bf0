//! Prices in another currency than the job's: each told where it stands, or,
//! where all of them are in the same other one, told once at the job's own.

use super::super::job::{Job, Stated};
use crate::findings::{Finding, Fix, Place};
use crate::units::{Currency, Quantity};

/// The rule that tells of them.
const RULE: &str = "currency-mixed";

/// So many of the prices are pointed at.
const MOST_SHOWN: usize = 3;

/// Tells that a price is in another currency than the job.
pub(super) fn in_another(
    price: Quantity,
    currency: Currency,
    own: Currency,
    place: Place,
) -> Finding {
    let (theirs, own) = (currency.code(), own.code());
    let message =
        format!("this is in {theirs} and the job is in {own}; write one of them throughout");
    Finding::new(RULE, place, message).found(theirs, Some(price))
}

/// The findings with one in place of those on prices that are all in the same
/// other currency than that which the job states: it is that statement which
/// is most likely wrong.
pub(super) fn told_once(job: &Job, findings: Vec<Finding>) -> Vec<Finding> {
    let prices: Vec<Place> = findings
        .iter()
        .filter(|finding| finding.rule == RULE)
        .map(|finding| finding.place)
        .collect();
    let (Some(stated), [_, _, ..]) = (&job.heading.currency, prices.as_slice()) else {
        return findings;
    };
    let foreign = findings.iter().filter(|finding| finding.rule == RULE);
    let mut foreign = foreign.filter_map(|finding| finding.measured().figure?.currency);
    let Some(theirs) = foreign.next() else {
        return findings;
    };
    if !foreign.all(|other| other == theirs) || has_price_in(job, stated.value) {
        return findings;
    }
    let mut told: Vec<Finding> = findings;
    told.retain(|finding| finding.rule != RULE);
    told.push(which_is_meant(stated, theirs, &prices));
    told
}

fn has_price_in(job: &Job, currency: Currency) -> bool {
    let materials = job.materials.values();
    let mut of_materials = materials.filter_map(|material| material.price.as_ref());
    let is_own = |price: &Quantity| price.currency == Some(currency);
    of_materials.any(|price| is_own(&price.value))
        || job.money_stated().any(|price| is_own(&price.value))
}

fn which_is_meant(stated: &Stated<Currency>, theirs: Currency, prices: &[Place]) -> Finding {
    let count = prices.len();
    let (own, code) = (stated.value.code(), theirs.code());
    let message =
        format!("all {count} prices are in {code}, and the job is in {own}: which is meant?");
    let shown = prices.iter().take(MOST_SHOWN);
    let finding = shown.fold(
        Finding::new(RULE, stated.place, message),
        |finding, place| finding.related(*place, "a price"),
    );
    let meant: &[Currency] = match theirs {
        Currency::Dollar => &[Currency::Usd, Currency::Aud, Currency::Cad, Currency::Nzd],
        Currency::Usd => &[Currency::Usd],
        Currency::Aud => &[Currency::Aud],
        Currency::Cad => &[Currency::Cad],
        Currency::Nzd => &[Currency::Nzd],
        Currency::Gbp => &[Currency::Gbp],
        Currency::Eur => &[Currency::Eur],
    };
    meant.iter().fold(finding, |finding, currency| {
        let code = currency.code();
        finding.fix(Fix::judged(format!("Write `{code}`"), stated.place, code))
    })
}
