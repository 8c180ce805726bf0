//! Edges and overlaps: what holds the paving, and that no ground is paved
//! twice.

mod border_wide;
mod edge_loose;
mod edging_bed;
mod edging_weak;
mod kerb_straight;
mod mitre_idle;
mod surfaces_overlap;

use super::Rule;

/// The rules of this family, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &edge_loose::EDGE_LOOSE,
    &edging_bed::EDGING_BED,
    &edging_weak::EDGING_WEAK,
    &kerb_straight::KERB_STRAIGHT,
    &border_wide::BORDER_WIDE,
    &mitre_idle::MITRE_IDLE,
    &surfaces_overlap::SURFACES_OVERLAP,
];
