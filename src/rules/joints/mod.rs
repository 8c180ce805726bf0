//! Rules of joints and movement.

mod extent;
mod isolation_missing;
mod isolation_narrow;
mod joint_narrow;
mod joint_open;
mod joint_row;
mod joint_shallow;
mod joint_unfilled;
mod joint_wide;
mod movement_far;
mod movement_missing;
mod movement_offset;
mod re_entrant;
mod slab_panel;
mod spacing_odd;
mod taper_wide;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &joint_narrow::JOINT_NARROW,
    &joint_wide::JOINT_WIDE,
    &joint_shallow::JOINT_SHALLOW,
    &joint_open::JOINT_OPEN,
    &joint_unfilled::JOINT_UNFILLED,
    &movement_missing::MOVEMENT_MISSING,
    &movement_far::MOVEMENT_FAR,
    &movement_offset::MOVEMENT_OFFSET,
    &isolation_missing::ISOLATION_MISSING,
    &isolation_narrow::ISOLATION_NARROW,
    &slab_panel::SLAB_PANEL,
    &re_entrant::RE_ENTRANT,
    &spacing_odd::SPACING_ODD,
    &taper_wide::TAPER_WIDE,
];
