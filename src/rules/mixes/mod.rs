//! Rules of mixes.

mod aggregate_coarse;
mod aggregate_unwashed;
mod bag_mass;
mod binder_missing;
mod lime_alone;
mod mix_lean;
mod mix_life;
mod mix_odd;
mod mix_rich;
mod mix_type;
mod mix_unlabelled;
mod premix_sand;
mod proportion;
mod uses;

pub(super) use uses::each_use;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &mix_unlabelled::MIX_UNLABELLED,
    &mix_lean::MIX_LEAN,
    &mix_rich::MIX_RICH,
    &mix_type::MIX_TYPE,
    &mix_odd::MIX_ODD,
    &lime_alone::LIME_ALONE,
    &binder_missing::BINDER_MISSING,
    &aggregate_unwashed::AGGREGATE_UNWASHED,
    &aggregate_coarse::AGGREGATE_COARSE,
    &mix_life::MIX_LIFE,
    &premix_sand::PREMIX_SAND,
    &bag_mass::BAG_MASS,
];
