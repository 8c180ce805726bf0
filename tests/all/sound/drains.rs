//! Mistakes of drains, each with all that it draws.

use super::{Mistaken, check_mistakes};

const MISTAKES: &[Mistaken] = &[
    // Too flat, too shallow, the wrong way up.
    (
        "drive-to-soakaway",
        "fall         1:80\n",
        "fall         1:120\n",
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
        &["advisory drain-unled", "warning drain-unled"],
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
