//! Rules of joints and movement.

mod extent;
mod isolation_missing;
mod joint_narrow;
mod joint_row;
mod joint_shallow;
mod joint_wide;
mod movement_missing;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub static RULES: &[&Rule] = &[
    &joint_narrow::JOINT_NARROW,
    &joint_wide::JOINT_WIDE,
    &joint_shallow::JOINT_SHALLOW,
    &movement_missing::MOVEMENT_MISSING,
    &isolation_missing::ISOLATION_MISSING,
];
