//! Mistakes of drains, each with all that it draws.

use super::{Mistaken, check_mistakes};

const MISTAKES: &[Mistaken] = &[
    // A channel and a trench above what is to drain into them, the minus lost
    // or not, and far below it.
    (
        "drive-to-soakaway",
        "  fall         1:200 toward east\n",
        "  fall         1:200 toward east\n  invert       300 mm at (0 m, 0 m)\n",
        &["warning cover-thin"],
    ),
    (
        "drive-to-soakaway",
        "  fall         1:200 toward east\n",
        "  fall         1:200 toward east\n  invert       -100 mm at (0 m, 0 m)\n",
        &["warning cover-thin"],
    ),
    (
        "drive-to-soakaway",
        "  fall         1:200 toward east\n",
        "  fall         1:200 toward east\n  invert       -3.2 m at (0 m, 0 m)\n",
        &["warning invert-high", "warning levels-disagree"],
    ),
    (
        "drive-to-soakaway",
        "  fall         1:200 toward east\n",
        "  fall         1:200 toward east\n  invert       -600 mm at (0 m, 0 m)\n",
        &["warning levels-disagree"],
    ),
    (
        "terrace-to-dry-well",
        "  fall         1 % toward east\n",
        "  fall         1 % toward east\n  invert       30 in at (0', 0')\n",
        &["warning cover-thin"],
    ),
    (
        "terrace-to-dry-well",
        "  fall         1 % toward east\n",
        "  fall         1 % toward east\n  invert       -30 in at (0', 0')\n",
        &[],
    ),
    // A channel in sand, and the stone of a base round a pipe.
    (
        "terrace-to-daylight",
        "  bedded        in concrete, 4 in round\n",
        "  bedded        in sharp-sand, 4 in round\n",
        &["advisory channel-light"],
    ),
    (
        "terrace-to-daylight",
        "  bedded        in concrete, 4 in round\n",
        "",
        &["advisory channel-light"],
    ),
    (
        "drive-to-soakaway",
        "in pea-gravel, 100 mm round",
        "in type-1, 100 mm round",
        &["warning bedding-unsuited"],
    ),
    (
        "terrace-to-daylight",
        "in open-stone, 4 in round",
        "in crushed-stone, 4 in round",
        &[],
    ),
    (
        "terrace-to-dry-well",
        "  bedded       in pea-gravel, 4 in round",
        "  bedded       in topsoil, 4 in round",
        &["warning bedding-unsuited"],
    ),
    // A crate's voids, in stone.
    (
        "terrace-to-dry-well",
        "  filled       open-stone\n  wrapped      geotextile\n  to           well-pipe",
        "  filled       open-stone, voids 95 %\n  wrapped      geotextile\n  to           well-pipe",
        &["warning voids-high"],
    ),
    // The trench's pipe and the gully lead into a narrower one.
    (
        "terrace-to-dry-well",
        "plastic-pipe, 4 in, from",
        "plastic-pipe, 3 in, from",
        &["warning pipe-narrow"],
    ),
    // The pipe is judged by the mean of an hour alone.
    (
        "drive-to-soakaway",
        "  infiltration 40 mm/h\n",
        "  infiltration 40 mm/h\n  storm 25 mm in 1 h\n  storm 30 mm in 24 h\n",
        &["advisory storm-long"],
    ),
    // No size: nothing of it is dug, filled or judged.
    (
        "drive-to-soakaway",
        "1.6 m by 1.2 m by 1 m, centre",
        "1.6 m by 1.2 m, centre",
        &["warning quantity-unknown"],
    ),
    (
        "terrace-to-dry-well",
        "across 4', 4' deep, centre",
        "across 4', centre",
        &["warning quantity-unknown"],
    ),
    (
        "drive-to-soakaway",
        "plastic-pipe, 110 mm, bore 103 mm, from",
        "plastic-pipe, from",
        &["warning quantity-unknown"],
    ),
    // Rain of hours written as of minutes, and less of it in six hours than in
    // one.
    (
        "drive-to-soakaway",
        "  infiltration 40 mm/h\n",
        "  infiltration 40 mm/h\n  storm 75 mm/h for 5 min\n  storm 25 mm in 1 h\n  storm 38 mm in 6 h\n  storm 44 mm in 24 h\n",
        &[],
    ),
    (
        "drive-to-soakaway",
        "  infiltration 40 mm/h\n",
        "  infiltration 40 mm/h\n  storm 75 mm/h for 5 min\n  storm 25 mm in 1 h\n  storm 20 mm in 6 h\n  storm 44 mm in 24 h\n",
        &["advisory value-odd"],
    ),
    (
        "plain-slab",
        "site\n",
        "site\n  storm 60 mm in 1 min\n",
        &["warning value-odd"],
    ),
    // The pipe does not go into it.
    (
        "terrace-to-dry-well",
        "12 in wide, 2' deep",
        "3 in wide, 2' deep",
        &["error value-range"],
    ),
    (
        "terrace-to-dry-well",
        "12 in wide, 2' deep",
        "12 in wide, 2 in deep",
        &["error value-range"],
    ),
    // Slips of a unit or a point that bury a pipe or a pit.
    (
        "drive-to-soakaway",
        "1.6 m by 1.2 m by 1 m, centre",
        "1.6 m by 1.2 m by 10 m, centre",
        &["warning value-odd"],
    ),
    (
        "drive-to-soakaway",
        "invert       -1040 mm",
        "invert       -10.04 m",
        &["warning value-odd"],
    ),
    (
        "drive-to-soakaway",
        "invert       -1040 mm",
        "invert       -9.04 m",
        &["warning value-odd"],
    ),
    (
        "drive-to-soakaway",
        "invert       -1040 mm",
        "invert       -2.04 m",
        &[],
    ),
    // Too flat, too shallow, the wrong way up.
    (
        "drive-to-soakaway",
        "fall         1:80\n",
        "fall         1:120\n",
        &["warning drain-flat"],
    ),
    // Its ends say one way, its fall the other.
    (
        "drive-to-soakaway",
        "fall         1:80\n",
        "fall         1:80 toward west\n",
        &["warning drain-flat"],
    ),
    (
        "drive-to-soakaway",
        "invert       -1040 mm",
        "invert       -640 mm",
        &["warning cover-thin"],
    ),
    (
        "drive-to-soakaway",
        "invert       -1040 mm at (5 m, 0 m)",
        "invert       -1040 mm at (5 m, 0 m)\n  invert       -1160 mm at (11 m, -1 m)",
        &["error levels-disagree"],
    ),
    (
        "drive-to-soakaway",
        "  fall         1:80\n  invert       -1040 mm at (5 m, 0 m)",
        "  invert       -1040 mm at (5 m, 0 m)\n  invert       -940 mm at (11 m, -1 m)",
        &["error drain-flat", "warning cover-thin"],
    ),
    (
        "drive-to-soakaway",
        "  invert       -1040 mm at (5 m, 0 m)\n",
        "",
        // It begins where the channel ends, just below the paving.
        &["warning cover-thin"],
    ),
    (
        "drive-to-soakaway",
        "  fall         1:80\n  invert       -1040 mm",
        "  invert       -1040 mm",
        &["warning invert-missing"],
    ),
    // The soakaway lies elsewhere, too near, or above what comes in.
    (
        "drive-to-soakaway",
        "centre (11 m, -1 m)",
        "centre (11 m, -3 m)",
        &["warning drain-unled"],
    ),
    (
        "drive-to-soakaway",
        "filled       crate",
        "invert       -1000 mm\n  filled       crate",
        &["warning invert-high"],
    ),
    (
        "drive-to-soakaway",
        "infiltration 40 mm/h",
        "infiltration 2 mm/h",
        &["warning soakaway-slow"],
    ),
    // The ground at the soakaway lies below its inlet.
    (
        "drive-to-soakaway",
        "filled       crate",
        "invert       -200 mm\n  filled       crate",
        &["warning cover-thin", "warning invert-high"],
    ),
    // It leads nowhere, round, or to words.
    (
        "drive-to-soakaway",
        "  to           lawn-soak\n",
        "",
        &["warning drain-unled"],
    ),
    (
        "drive-to-soakaway",
        "overflow     to \"lawn\"",
        "to           lawn-pipe",
        &["error drain-circular"],
    ),
    (
        "drive-to-soakaway",
        "to           lawn-soak",
        "to           \"lawn soak\"",
        &["warning name-quoted"],
    ),
    // An article does not make it another.
    (
        "drive-to-soakaway",
        "to           lawn-soak",
        "to           \"the lawn-soak\"",
        &["warning name-quoted"],
    ),
    (
        "drive-to-soakaway",
        "to           lawn-soak",
        "to           \"into the Lawnsoak\"",
        &["warning name-quoted"],
    ),
    // Nothing leads to the soakaway, or to the pipe that leads to it.
    (
        "drive-to-soakaway",
        "to           lawn-soak",
        "to           \"the ditch\"",
        &["advisory drain-idle"],
    ),
    (
        "drive-to-soakaway",
        "to           lawn-pipe",
        "to           \"the ditch\"",
        &["advisory drain-idle"],
    ),
    (
        "drive-to-soakaway",
        "to           lawn-soak\n\ndrain lawn-soak\n",
        "to           \"the ditch\"\n\ndrain lawn-soak\n  takes        \"garage roof\" 20 m2\n",
        &[],
    ),
    // Weed fabric round the stone, in ground that washes in little.
    (
        "terrace-to-dry-well",
        "wrapped      geotextile",
        "wrapped      weed-fabric",
        &["advisory fabric-light"],
    ),
    // No clay takes water so fast.
    (
        "tested-soakaway",
        "infiltration 15 mm/h",
        "infiltration 150 mm/h",
        &["warning value-odd"],
    ),
    (
        "tested-soakaway",
        "infiltration 15 mm/h",
        "infiltration 26 mm/h",
        &["advisory value-odd"],
    ),
    (
        "tested-soakaway",
        "infiltration 15 mm/h",
        "infiltration 25 mm/h",
        &[],
    ),
    ("tested-soakaway", "clay, firm", "silt, firm", &[]),
    (
        "drive-to-soakaway",
        "  infiltration 40 mm/h\n",
        "  infiltration 400 mm/h\n",
        &[],
    ),
    (
        "drive-to-soakaway",
        "to           lawn-soak",
        "to           lawn-soka",
        &["error name-unknown"],
    ),
    // The channel lies along the wrong edge, to which the drive is said to
    // drain all the same.
    (
        "drive-to-soakaway",
        "along drive.south",
        "along drive.north",
        &["warning drain-unled", "warning drain-unled"],
    ),
    // A minus is missing: it stands in the house.
    (
        "block-drive",
        "  channel      along south\n  water        to \"soakaway under the front lawn\"\n",
        "  water        to pot\n\ndrain pot\n  gully clay-gully, at (0.3 m, 5.7 m), 300 mm wide\n  to \"storm sewer\"\n",
        &["warning drain-unled", "warning front-garden"],
    ),
    // A gully at one corner takes what comes its way, and no more.
    (
        "block-drive",
        "  channel      along south\n  water        to \"soakaway under the front lawn\"\n",
        "  water        to pot\n\ndrain pot\n  gully clay-gully, at (0.3 m, -5.7 m), 300 mm wide\n  to \"storm sewer\"\n",
        &["warning drain-unled", "warning front-garden"],
    ),
    (
        "drive-to-soakaway",
        "to           lawn-soak\n\ndrain lawn-soak\n  soakaway     1.6 m by 1.2 m by 1 m, centre (11 m, -1 m)\n  filled       crate, voids 95 %\n  wrapped      geotextile\n  overflow     to \"lawn\"\n",
        "to           \"foul sewer\"\n",
        &["warning front-garden", "warning outfall-neighbour"],
    ),
    // The trench of a pipe is dug through roots as well as any.
    (
        "drive-to-soakaway",
        "  infiltration 40 mm/h\n",
        "  infiltration 40 mm/h\n  tree 300 mm at (8 m, 2.5 m)\n",
        &["warning roots-near", "warning roots-near"],
    ),
    // Water goes down through permeable paving to the pipe under it.
    (
        "permeable-lined",
        "  water        to \"underdrain to the swale\"\n",
        "  water        to under\n\ndrain under\n  pipe plastic-pipe, 4 in, from (7', -10') to (7', -20')\n  fall 1/8 in per ft\n  invert -32 in\n  bedded in pea-gravel, 4 in round\n  to \"swale\"\n",
        &[],
    ),
    // A pipe comes out of the ground where it ends in the open, and there only.
    (
        "terrace-to-daylight",
        "daylight at the bank",
        "the storm drain in the lane",
        &["warning cover-thin"],
    ),
    (
        "terrace-to-daylight",
        "-36 in at",
        "-20 in at",
        &["warning cover-thin"],
    ),
    // What runs over runs over to somebody.
    (
        "drive-to-soakaway",
        "overflow     to \"lawn\"",
        "overflow     to \"the neighbour's garden\"",
        &["warning outfall-neighbour"],
    ),
    (
        "drive-to-soakaway",
        "overflow     to \"lawn\"",
        "overflow     to \"foul sewer\"",
        &["warning outfall-neighbour"],
    ),
    (
        "drive-to-soakaway",
        "overflow     to \"lawn\"",
        "overflow     to \"swale\"",
        &[],
    ),
    (
        "terrace-to-dry-well",
        "centre (32', -8')",
        "centre (25', 5')",
        &["warning drain-unled", "warning soak-near"],
    ),
    (
        "terrace-to-dry-well",
        "fall         1/8 in per ft",
        "fall         1/16 in per ft",
        &["warning drain-flat"],
    ),
    (
        "terrace-to-dry-well",
        "along terrace.south",
        "along south",
        &["error name-unknown"],
    ),
];

#[test]
fn mistakes_of_drains_draw_what_they_should() {
    check_mistakes(MISTAKES);
}
