//! Stone and soil of the wrong size or sort, and what is made in a way that
//! keeps its rules from being asked: each with all that it draws.

use super::{Mistaken, check_mistakes};

const MISTAKES: &[Mistaken] = &[
    // Pavers on round stones; flags lie on them.
    (
        "block-drive",
        "bed          sharp-sand, 40 mm",
        "bed          pea-gravel, 40 mm",
        &["warning bed-rounded"],
    ),
    (
        "permeable-drive",
        "bed          chip-stone, 50 mm",
        "bed          pea-gravel, 50 mm",
        &["warning bed-rounded"],
    ),
    (
        "flags-on-sand",
        "bed          sharp-sand",
        "bed          pea-gravel",
        &[],
    ),
    // Chips on stone that they fall between.
    (
        "permeable-drive",
        "base         type-3, 250 mm, lifts 3",
        "base         permeable-ballast, 250 mm, lifts 3",
        &["warning choke-missing"],
    ),
    (
        "permeable-drive",
        "base         type-3, 250 mm, lifts 3, beyond 250 mm",
        "base         open-stone, 100 mm, beyond 250 mm\n  subbase      permeable-ballast, 200 mm, lifts 2, beyond 250 mm",
        &[],
    ),
    // Stones as large as the joint, or larger.
    (
        "permeable-drive",
        "6 mm, filled with chip-stone",
        "10 mm, filled with open-stone",
        &["warning joint-narrow"],
    ),
    (
        "permeable-drive",
        "6 mm, filled with chip-stone",
        "10 mm, filled with permeable-ballast",
        &["warning joint-narrow"],
    ),
    (
        "permeable-drive",
        "6 mm, filled with chip-stone",
        "10 mm, filled with chip-stone",
        &[],
    ),
    (
        "sandstone-on-mortar",
        "1 portland-cement : 5 sharp-sand",
        "1 portland-cement : 5 permeable-ballast",
        &["warning aggregate-coarse"],
    ),
    (
        "sandstone-on-mortar",
        "1 portland-cement : 5 sharp-sand",
        "1 portland-cement : 5 chip-stone",
        &[],
    ),
    (
        "riven-york-stone",
        "1 portland-cement : 3 sharp-sand",
        "1 portland-cement : 3 concrete-stone",
        &["warning aggregate-coarse"],
    ),
    // Soil under a slab.
    (
        "plain-slab",
        "crushed-stone, 100 mm compacted",
        "topsoil, 100 mm",
        &["warning base-unsuitable"],
    ),
    (
        "plain-slab",
        "crushed-stone, 100 mm compacted",
        "sharp-sand, 100 mm",
        &[],
    ),
    (
        "gravel-walk",
        "surfacing    pea-gravel, 40 mm",
        "surfacing    topsoil, 40 mm",
        &["advisory base-unsuitable"],
    ),
    // Permeable in all but name.
    (
        "permeable-drive",
        "  permeable, voids 30 %\n",
        "",
        &[
            "advisory outfall-missing",
            "advisory permeable-unstated",
            "warning front-garden",
        ],
    ),
    // A pool that its deck runs into, and a deck of ashlar without its base.
    (
        "pool-deck",
        "  channel      along pool.north\n",
        "",
        &["warning pool-fed"],
    ),
    (
        "pool-deck",
        "  base         crushed-stone, 6 in compacted, lifts 2, beyond 6 in\n",
        "",
        &["error base-missing"],
    ),
    (
        "pool-deck",
        "  edging       steel-edge, along free except pool\n",
        "",
        &["advisory edge-loose"],
    ),
    (
        "pool-deck",
        "  fall         1/4 in per ft away from north\n",
        "",
        &["error fall-missing", "warning ground-filled"],
    ),
    (
        "pool-deck",
        "ashlar, units 24 in by 16 in of 70 % and 16 in by 16 in of 30 %",
        "courses, units 16 in wide",
        &[],
    ),
    // The foot of plaster on a frame too near the paving.
    (
        "stucco-house-terrace",
        "weep-holes   -5 in",
        "weep-holes   -5 1/2 in",
        &["warning vents-covered"],
    ),
    (
        "stucco-house-terrace",
        "walls        framed\n  weep-holes   -5 in",
        "walls        masonry\n  weep-holes   -5 1/2 in",
        &[],
    ),
    // A walk that wheels do not get up, and a pipe that fills its trench.
    (
        "walk-with-french-drain",
        "  fall         1:20 toward south, cross",
        "  fall         1:18 toward south, cross",
        &["warning fall-steep"],
    ),
    (
        "walk-with-french-drain",
        "14 in deep",
        "5 in deep",
        &["warning cover-thin"],
    ),
    ("walk-with-french-drain", "14 in deep", "6 in deep", &[]),
    // A core that ends above its base.
    (
        "garden-steps",
        "slab-mix, down to base",
        "slab-mix, to foot",
        &["warning flight-unsupported"],
    ),
    (
        "garden-steps",
        "slab-mix, down to base\n  base         type-1, 100 mm compacted, beyond 150 mm, top 200 mm below the foot",
        "slab-mix, to foot\n  base         type-1, 100 mm compacted, beyond 150 mm, top 0 mm below the foot",
        &[],
    ),
];

#[test]
fn stone_and_soil_of_the_wrong_sort_draw_what_they_declare() {
    check_mistakes(MISTAKES);
}
