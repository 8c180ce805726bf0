//! Mistakes of falls, levels and ground, each with all that it draws.

use super::{Mistaken, check_mistakes};

const MISTAKES: &[Mistaken] = &[
    // An Australian sewer takes no rain.
    (
        "clay-drive-au",
        "\"grass verge\"",
        "\"the sewer\"",
        &["warning outfall-neighbour"],
    ),
    (
        "clay-drive-au",
        "\"grass verge\"",
        "\"the stormwater drain\"",
        &[],
    ),
    (
        "clay-drive-au",
        "\"grass verge\"",
        "\"the next property\"",
        &["warning outfall-neighbour"],
    ),
    // A datum that is the floor by another name, 20 mm above the paving.
    ("plain-slab", "workshop floor", "garage slab", &[]),
    (
        "sandstone-on-mortar",
        "  datum        \"kitchen floor\"\n  damp-course  -20 mm",
        "  datum        \"cover in the road\"",
        &["warning floor-unknown"],
    ),
    (
        "sandstone-on-mortar",
        "  meets        north\n",
        "",
        &["advisory meets-missing"],
    ),
    // An escape door may swing over a shallow step only.
    (
        "slider-patio",
        "at (8', 0'), slides",
        "at (8', 0'), swings out",
        &["error door-step", "advisory door-conflict"],
    ),
    // The foundation is for the damp; a door wants the floor.
    (
        "slider-patio",
        "family-room floor",
        "top of the stake",
        &["warning floor-unknown"],
    ),
    (
        "slider-patio",
        "  datum        \"family-room floor\"",
        "  datum        \"top of the stake\"\n  floor        0",
        &[],
    ),
    // A door on the free edge: no step down from it can be judged.
    (
        "slider-patio",
        "at (8', 0'), slides",
        "at (8', -10'), slides",
        &["warning door-misplaced"],
    ),
    (
        "frosty-silt",
        "at (7', 0'), swings in\n  level        -6 in",
        "at (7', -12'), swings in\n  level        -8 in",
        &["warning door-misplaced"],
    ),
    (
        "slider-patio",
        "foundation   0 in",
        "foundation   -2 in",
        &["warning level-high", "advisory door-conflict"],
    ),
    (
        "slider-patio",
        "vents        -4 in",
        "vents        -8 in",
        &["warning vents-covered"],
    ),
    (
        "slider-patio",
        "(10', -30')",
        "(10', -15')",
        &["warning roots-near"],
    ),
    // A minus is missing.
    (
        "slider-patio",
        "ground       -10 in",
        "ground       10 in",
        &["warning level-unclear", "warning outfall-high"],
    ),
    (
        "slider-patio",
        "ground       -10 in",
        "ground       -1 in",
        &["warning outfall-high"],
    ),
    (
        "verandah-paving",
        "weep-holes   -30 mm",
        "weep-holes   -60 mm",
        &["error vents-covered"],
    ),
    (
        "verandah-paving",
        "damp-course  0 mm",
        "damp-course  -10 mm",
        &["warning level-high"],
    ),
    (
        "step-free-path",
        "fall         1:40",
        "fall         1:35",
        &["warning fall-accessible"],
    ),
    (
        "step-free-path",
        "broad border behind the front wall",
        "road gully",
        &["warning front-garden"],
    ),
    (
        "step-free-path",
        "broad border behind the front wall",
        "the footway",
        &["warning front-garden", "warning outfall-neighbour"],
    ),
    (
        "brick-walk",
        "1/8 in per ft",
        "1:150",
        &["warning fall-flat"],
    ),
    (
        "brick-walk",
        "to \"lawn\"",
        "to \"the neighbor's yard\"",
        &["warning outfall-neighbour"],
    ),
    (
        "terrace-with-landing",
        "1:60 away",
        "1:40 away",
        &["warning landing-steep"],
    ),
    (
        "terrace-with-landing",
        "2 m by 1.2 m, at (2 m, 2.8 m)",
        "2 m by 800 mm, at (2 m, 3.2 m)",
        &["warning landing-short"],
    ),
    // Too near the floor, and so too high above the terrace for one step.
    (
        "terrace-with-landing",
        "-180 mm at north",
        "-60 mm at north",
        &["warning level-high", "warning lip", "warning ground-filled"],
    ),
    (
        "raised-terrace",
        "  guard        along free\n",
        "",
        &["warning guard-missing"],
    ),
    (
        "raised-terrace",
        "located 2027-04-02",
        "located 2026-11-02",
        &["warning locate-stale"],
    ),
    (
        "raised-terrace",
        "-180 mm at north",
        "180 mm at north",
        &["error level-above-floor"],
    ),
    // Above the damp course, and so off the fill as well.
    (
        "raised-terrace",
        "-180 mm at north",
        "-10 mm at north",
        &["error level-high", "warning ground-filled"],
    ),
    (
        "frosty-silt",
        "silt, tilled, compacted",
        "silt, tilled",
        &["warning soil-loose"],
    ),
    // A note on the plant says nothing of the ground.
    (
        "frosty-silt",
        "silt, tilled, compacted",
        "silt, tilled\n  note         \"keep the compactor off the septic line\"",
        &["warning soil-loose"],
    ),
    (
        "frosty-silt",
        "geotextile, beyond 12 in",
        "weed-fabric, beyond 12 in",
        &["warning fabric-light"],
    ),
    (
        "garden-ramp",
        "fall         1:15",
        "fall         1:11",
        &["warning ramp-steep", "warning ramp-long"],
    ),
    (
        "garden-ramp",
        "1.5 m by 4.5 m",
        "1.5 m by 5.5 m",
        &["warning ramp-long"],
    ),
    (
        "tested-soakaway",
        "  infiltration 15 mm/h\n",
        "",
        &["advisory soakaway-slow"],
    ),
    (
        "tested-soakaway",
        "infiltration 15 mm/h",
        "infiltration 2 mm/h",
        &["warning soakaway-slow"],
    ),
    (
        "tested-soakaway",
        "(2.5 m, -6 m)",
        "(2.5 m, 2 m)",
        &["warning soak-near"],
    ),
    (
        "tested-soakaway",
        "  water        to \"soakaway at the foot of the drive\"\n",
        "",
        &["warning outfall-missing"],
    ),
    (
        "tested-soakaway",
        "fall         1:40",
        "fall         1:5",
        &["warning drive-steep"],
    ),
    // Ramps: across, and what one holds on to.
    (
        "ramp",
        "  level        -1 in at west\n  fall         1:12 toward east\n",
        "  level        -1 in at (0', 0')\n  fall         1:12 toward east, cross 1:64 toward south\n",
        &[],
    ),
    (
        "ramp",
        "  level        -1 in at west\n  fall         1:12 toward east\n",
        "  level        -1 in at (0', 0')\n  fall         1:12 toward east, cross 1:40 toward south\n",
        &["error crossfall-steep"],
    ),
    (
        "ramp",
        "  handrail     both sides\n",
        "",
        &["warning handrail-missing"],
    ),
    (
        "step-free-path",
        "rectangle    1.8 m by 12 m",
        "rectangle    850 mm by 12 m",
        &["warning path-narrow"],
    ),
    (
        "gravel-walk",
        "  level        -100 mm",
        "  for          foot, accessible\n  level        -100 mm",
        &["warning surface-loose"],
    ),
];

#[test]
fn mistakes_of_falls_levels_and_ground_draw_what_they_declare() {
    check_mistakes(MISTAKES);
}
