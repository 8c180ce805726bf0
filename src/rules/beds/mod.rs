//! Rules of the setting bed.

mod bed_fines;
mod bed_joint_clash;
mod bed_missing;
mod bed_rounded;
mod bed_row;
mod bed_thick;
mod bed_thin;
mod bed_undrained;
mod bond_missing;
mod bond_thick;
mod choke_missing;
mod gravel_deep;
mod membrane_loose;
mod mortar_unsupported;
mod surfacing_thin;

pub(in crate::rules) use bed_missing::is_bed_of_flags_missing;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &bed_missing::BED_MISSING,
    &bed_thick::BED_THICK,
    &bed_thin::BED_THIN,
    &bed_fines::BED_FINES,
    &bed_rounded::BED_ROUNDED,
    &mortar_unsupported::MORTAR_UNSUPPORTED,
    &bed_joint_clash::BED_JOINT_CLASH,
    &bond_missing::BOND_MISSING,
    &bond_thick::BOND_THICK,
    &choke_missing::CHOKE_MISSING,
    &gravel_deep::GRAVEL_DEEP,
    &surfacing_thin::SURFACING_THIN,
    &membrane_loose::MEMBRANE_LOOSE,
    &bed_undrained::BED_UNDRAINED,
];
