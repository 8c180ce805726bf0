//! Rules of work and its cost: order, crew and weather, hire, the budget,
//! quotes.

mod cold_mortar;
mod contingency_missing;
mod crew_short;
mod delivery_large;
mod dig_deep;
mod disposal_missing;
mod documents;
mod frozen_ground;
mod hire_away;
mod hire_idle;
mod hot_mortar;
mod off_outside;
mod order_wrong;
mod output_odd;
mod quote_odd;
mod services_unlocated;
mod slab_young;
mod wait_short;
mod weather;

pub(crate) use services_unlocated::first_dig;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &services_unlocated::SERVICES_UNLOCATED,
    &dig_deep::DIG_DEEP,
    &order_wrong::ORDER_WRONG,
    &off_outside::OFF_OUTSIDE,
    &crew_short::CREW_SHORT,
    &output_odd::OUTPUT_ODD,
    &cold_mortar::COLD_MORTAR,
    &hot_mortar::HOT_MORTAR,
    &frozen_ground::FROZEN_GROUND,
    &wait_short::WAIT_SHORT,
    &slab_young::SLAB_YOUNG,
    &contingency_missing::CONTINGENCY_MISSING,
    &disposal_missing::DISPOSAL_MISSING,
    &delivery_large::DELIVERY_LARGE,
    &hire_idle::HIRE_IDLE,
    &hire_away::HIRE_AWAY,
    &quote_odd::QUOTE_ODD,
];
