//! Rules of work and its cost: hire, the budget, quotes.

mod contingency_missing;
mod delivery_large;
mod hire_idle;
mod quote_odd;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub static RULES: &[&Rule] = &[
    &contingency_missing::CONTINGENCY_MISSING,
    &delivery_large::DELIVERY_LARGE,
    &hire_idle::HIRE_IDLE,
    &quote_odd::QUOTE_ODD,
];
