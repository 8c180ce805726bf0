//! Falls and water: which way the water runs, and how well.

mod crossfall_steep;
mod drive_steep;
mod fall_accessible;
mod fall_along;
mod fall_backward;
mod fall_band;
mod fall_flat;
mod fall_missing;
mod fall_permeable;
mod fall_steep;
mod front_garden;
mod guard_missing;
mod joints_across;
mod landing_missing;
mod landing_short;
mod landing_steep;
mod liner_undrained;
mod lip;
mod low_point;
mod outfall_high;
mod outfall_missing;
mod outfall_neighbour;
mod pool_fed;
mod ramp_long;
mod ramp_steep;
mod surface_loose;
mod weeps_missing;

pub(in crate::rules) use fall_missing::lacks_fall;
pub(in crate::rules) use guard_missing::DROP;
pub(in crate::rules) use outfall_high::is_piped;

use super::Rule;

/// The rules of this family, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &fall_missing::FALL_MISSING,
    &fall_flat::FALL_FLAT,
    &fall_along::FALL_ALONG,
    &fall_backward::FALL_BACKWARD,
    &fall_steep::FALL_STEEP,
    &fall_accessible::FALL_ACCESSIBLE,
    &fall_band::FALL_BAND,
    &fall_permeable::FALL_PERMEABLE,
    &drive_steep::DRIVE_STEEP,
    &ramp_steep::RAMP_STEEP,
    &ramp_long::RAMP_LONG,
    &crossfall_steep::CROSSFALL_STEEP,
    &landing_steep::LANDING_STEEP,
    &landing_short::LANDING_SHORT,
    &landing_missing::LANDING_MISSING,
    &surface_loose::SURFACE_LOOSE,
    &lip::LIP,
    &guard_missing::GUARD_MISSING,
    &low_point::LOW_POINT,
    &outfall_missing::OUTFALL_MISSING,
    &liner_undrained::LINER_UNDRAINED,
    &outfall_high::OUTFALL_HIGH,
    &outfall_neighbour::OUTFALL_NEIGHBOUR,
    &pool_fed::POOL_FED,
    &front_garden::FRONT_GARDEN,
    &weeps_missing::WEEPS_MISSING,
    &joints_across::JOINTS_ACROSS,
];
