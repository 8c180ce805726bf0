//! Rules of mixes.

mod mix_lean;
mod mix_rich;
mod mix_unlabelled;
mod proportion;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub static RULES: &[&Rule] = &[
    &mix_unlabelled::MIX_UNLABELLED,
    &mix_lean::MIX_LEAN,
    &mix_rich::MIX_RICH,
];
