//! Rules of ordering and cost.

mod density_unknown;
mod price_unit;
mod quantity_unknown;
mod region_unstated;
mod sold_unclear;
mod ton_unclear;
mod troubles;
mod waste_odd;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub static RULES: &[&Rule] = &[
    &waste_odd::WASTE_ODD,
    &ton_unclear::TON_UNCLEAR,
    &price_unit::PRICE_UNIT,
    &density_unknown::DENSITY_UNKNOWN,
    &quantity_unknown::QUANTITY_UNKNOWN,
    &sold_unclear::SOLD_UNCLEAR,
    &region_unstated::REGION_UNSTATED,
];
