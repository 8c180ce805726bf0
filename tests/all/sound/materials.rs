//! Materials where a thing of their kind cannot be, each with all that it
//! draws.

use super::{Mistaken, check_mistakes};

const MISTAKES: &[Mistaken] = &[
    // Layers under the wrong key, or made of what is no layer.
    (
        "gravel-walk",
        "  surfacing ",
        "  paving ",
        &[
            "warning material-unsuited",
            "advisory outfall-missing",
            "advisory waste-odd",
        ],
    ),
    (
        "flags-on-sand",
        "  paving ",
        "  surfacing ",
        &["warning material-unsuited"],
    ),
    (
        "block-drive",
        "fabric       geotextile",
        "membrane     geotextile",
        &["warning material-unsuited"],
    ),
    (
        "flags-unprimed",
        "slab         concrete",
        "slab         type-1",
        &["warning material-unsuited"],
    ),
    // Joints, edging and drains.
    (
        "block-drive",
        "filled with kiln-dried-sand",
        "filled with geotextile",
        &["warning material-unsuited", "warning sold-unclear"],
    ),
    (
        "block-drive",
        "edging       concrete-kerb",
        "edging       geotextile",
        &["warning material-unsuited", "warning sold-unclear"],
    ),
    (
        "drive-to-soakaway",
        "pipe         plastic-pipe",
        "pipe         crate",
        &["warning material-unsuited", "warning sold-unclear"],
    ),
    (
        "drive-to-soakaway",
        "wrapped      geotextile",
        "wrapped      sharp-sand",
        &["warning material-unsuited", "warning sold-unclear"],
    ),
    // Steps.
    (
        "garden-steps",
        "riser        york-stone",
        "riser        sharp-sand",
        &["warning material-unsuited"],
    ),
    (
        "garden-steps",
        "core         slab-mix",
        "core         sharp-sand",
        &["warning material-unsuited", "advisory name-unused"],
    ),
    // What can be, but not on a drive without concrete under it.
    (
        "drive-to-soakaway",
        "edging       concrete-kerb",
        "edging       granite-sett",
        &["warning edging-weak"],
    ),
];

#[test]
fn mistakes_of_materials_draw_what_they_declare() {
    check_mistakes(MISTAKES);
}
