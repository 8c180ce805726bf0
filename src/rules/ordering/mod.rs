//! Rules of ordering and cost.

mod build_missing;
mod density_unknown;
mod kind_unknown;
mod material_unsuited;
mod price_odd;
mod price_unit;
mod quantity_unknown;
mod region_unstated;
mod sold_unclear;
mod ton_unclear;
mod troubles;
mod uses;
mod waste_odd;
mod waste_short;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &build_missing::BUILD_MISSING,
    &waste_odd::WASTE_ODD,
    &waste_short::WASTE_SHORT,
    &ton_unclear::TON_UNCLEAR,
    &price_unit::PRICE_UNIT,
    &kind_unknown::KIND_UNKNOWN,
    &material_unsuited::MATERIAL_UNSUITED,
    &price_odd::PRICE_ODD,
    &density_unknown::DENSITY_UNKNOWN,
    &quantity_unknown::QUANTITY_UNKNOWN,
    &sold_unclear::SOLD_UNCLEAR,
    &region_unstated::REGION_UNSTATED,
];
