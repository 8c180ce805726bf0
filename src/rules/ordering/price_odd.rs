//! `price-odd`: a price by weight that no sand or stone has.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::Material;
use crate::rules::construction::is_in_checked_file;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Number, Quantity};
use crate::vocabulary::Term;

/// A price by weight that no sand or stone has.
pub(crate) static PRICE_ODD: Rule = Rule {
    name: "price-odd",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "The price of sand and stone by weight, in whatever money.",
    reason: "£24 a kilogram instead of a ton is a thousand times the cost.",
    remedy: "Check what the price is for: a ton, a bag, a kilogram.",
    limits: &[Limit::practice(
        "plain",
        "what a kilogram of sand or stone costs",
        Bound::Most,
        &["3"],
    )],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "material crushed-stone
  sold         by t
  price        «£24/kg»
",
    keeps: "material crushed-stone
  sold         by t
  price        £24/t
",
    mended: None,
    check: Check::Material(check),
};

fn check(context: &Context<'_>, material: &Material, found: &mut Found) {
    let is_cheap = |kind: Kind| {
        (kind.is_aggregate() || kind.is_sand()) || matches!(kind, Kind::Soil | Kind::Fill)
    };
    let (Some(price), Some(_)) = (
        &material.price,
        material.kind.filter(|kind| is_cheap(*kind)),
    ) else {
        return;
    };
    let Some(limit) = context.limit(&PRICE_ODD, "plain") else {
        return;
    };
    let money = price.value;
    let is_by_mass = money.currency.is_some()
        && money.dimension == Dimension::MONEY_PER_MASS
        && is_in_checked_file(price.place);
    let each = money.si();
    if !is_by_mass || limit.allows_si(each) {
        return;
    }
    let shown = limit.beside(&money, context.system());
    let message = format!(
        "{shown} is far too dear for {}: is it for a {}, or for a bag?",
        material.name,
        context.word(Term::Tonne)
    );
    found.add(
        PRICE_ODD
            .finding(price.place, message)
            .found(shown, Number::near(each).map(Quantity::plain))
            .against(&limit, context),
    );
}
