//! `price-odd`: a price by weight or volume that no sand, stone or concrete
//! has.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::Material;
use crate::rules::construction::is_in_checked_file;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Number, Quantity, System};
use crate::vocabulary::{Term, spelled_in};

/// A price by weight or volume that no sand, stone or concrete has.
pub(crate) static PRICE_ODD: Rule = Rule {
    name: "price-odd",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "The price of sand and stone by weight or volume, and of concrete by volume, in whatever money.",
    reason: "£24 a kilogram instead of a ton is a thousand times the cost.",
    remedy: "Check what the price is for: a ton, a bag, a kilogram.",
    limits: &[
        Limit::practice(
            "plain",
            "what a kilogram of sand or stone costs",
            Bound::Most,
            &["3"],
        ),
        Limit::practice(
            "volume",
            "what a cubic metre of sand, stone or concrete costs",
            Bound::Most,
            &["3000"],
        ),
    ],
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
    let is_loose = |kind: Kind| {
        (kind.is_aggregate() || kind.is_sand()) || matches!(kind, Kind::Soil | Kind::Fill)
    };
    let (Some(price), Some(kind)) = (&material.price, material.kind) else {
        return;
    };
    let money = price.value;
    let (row, large) = match money.dimension {
        Dimension::MONEY_PER_MASS if is_loose(kind) => {
            ("plain", context.word(Term::Tonne).to_owned())
        }
        Dimension::MONEY_PER_VOLUME if is_loose(kind) || kind.is_concrete() => {
            let large = match context.system() {
                System::Metric => "cubic metre",
                System::Imperial => "cubic yard",
            };
            ("volume", spelled_in(context.region(), large).into_owned())
        }
        _ => return,
    };
    let Some(limit) = context.limit(&PRICE_ODD, row) else {
        return;
    };
    let is_own = money.currency.is_some() && is_in_checked_file(price.place);
    let each = money.si();
    if !is_own || limit.allows_si(each) {
        return;
    }
    let shown = limit.beside(&money, context.system());
    let message = format!(
        "{shown} is far too dear for {}: is it for a {large}, or for a bag?",
        material.name
    );
    found.add(
        PRICE_ODD
            .finding(price.place, message)
            .found(shown, Number::near(each).map(Quantity::plain))
            .against(&limit, context),
    );
}
