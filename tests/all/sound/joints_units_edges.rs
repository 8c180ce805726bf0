//! Mistakes of joints, units and edges, each with all that it draws.

use super::{Mistaken, check_mistakes};

const MISTAKES: &[Mistaken] = &[
    (
        "two-surfaces",
        "concrete-paver, 60 mm",
        "concrete-paver, 40 mm",
        &["error unit-thin"],
    ),
    (
        "overlaid-slab",
        "  movement-joints every 3 m\n",
        "",
        &["advisory movement-missing"],
    ),
];

#[test]
fn mistakes_of_joints_units_and_edges_draw_what_they_declare() {
    check_mistakes(MISTAKES);
}
