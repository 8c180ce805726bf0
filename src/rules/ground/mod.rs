//! Dig and ground: what lies under the base and how far the base goes.

mod fabric_missing;
mod frost_base;
mod ground_filled;
mod lap_short;
mod locate_stale;
mod overdig_short;
mod roots_near;
mod soil_expansive;
mod soil_loose;
mod soil_organic;

use super::{Context, Rule};

pub(crate) use ground_filled::is_filled_when_thinner;

/// The rules of this family, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &soil_loose::SOIL_LOOSE,
    &soil_organic::SOIL_ORGANIC,
    &soil_expansive::SOIL_EXPANSIVE,
    &ground_filled::GROUND_FILLED,
    &overdig_short::OVERDIG_SHORT,
    &fabric_missing::FABRIC_MISSING,
    &frost_base::FROST_BASE,
    &roots_near::ROOTS_NEAR,
    &locate_stale::LOCATE_STALE,
    &lap_short::LAP_SHORT,
];

/// Whether anything is built on the ground at all.
fn builds_anything(context: &Context<'_>) -> bool {
    let mut surfaces = context.job.surfaces.iter();
    surfaces.any(|surface| surface.build.is_some())
}
