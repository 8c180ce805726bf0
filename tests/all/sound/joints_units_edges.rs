//! Mistakes of joints, units and edges, each with all that it draws.

use super::{Mistaken, check_mistakes};

/// An American limit in Britain.
const JOINT_WIDE_UK: &[&str] = &["warning joint-wide"];

const MISTAKES: &[Mistaken] = &[
    // Stone that does not run into the joints.
    (
        "block-drive",
        "3 mm, filled with kiln-dried-sand",
        "3 mm, filled with pea-gravel",
        &["warning joint-narrow"],
    ),
    (
        "block-drive",
        "3 mm, filled with kiln-dried-sand",
        "5 mm, filled with chip-stone",
        &[],
    ),
    // Straight kerbs round a small circle.
    (
        "flags-on-sand",
        "material granite-kerb\n",
        "material granite-kerb\n  unit 125 mm by 255 mm by 915 mm\n",
        &["advisory kerb-straight"],
    ),
    // Gravel that nothing holds, and units that push one another up.
    (
        "gravel-drive",
        "  edging       timber-edge, along free\n",
        "",
        &["advisory edge-loose", "advisory overdig-short"],
    ),
    (
        "gravel-drive",
        "fall         1:60",
        "fall         1:8",
        &["advisory drive-steep"],
    ),
    (
        "overlaid-slab",
        "joint        10 mm, filled with pointing",
        "joint        0",
        &["warning joint-narrow", "advisory name-unused"],
    ),
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
    (
        "thin-blocks",
        "block-paver, 50 mm",
        "block-paver, 40 mm",
        &["warning unit-thin"],
    ),
    (
        "thin-blocks",
        "  edging       in place, along west\n",
        "",
        &["error edge-loose"],
    ),
    (
        "thin-blocks",
        "joint        3 mm",
        "joint        8 mm",
        JOINT_WIDE_UK,
    ),
    (
        "thin-blocks",
        "herringbone, units 100 mm by 200 mm",
        "basket-weave, units 120 mm by 200 mm",
        &["warning weave-odd"],
    ),
    (
        "travertine-on-sand",
        "travertine, 1 1/4 in",
        "travertine, 1 in",
        &["warning flag-thin"],
    ),
    (
        "travertine-on-sand",
        "travertine, 1 1/4 in",
        "porcelain, 20 mm",
        &["warning flag-thin"],
    ),
    (
        "travertine-on-sand",
        "travertine, 1 1/4 in",
        "sandstone, 1 1/4 in",
        &["warning flag-thin"],
    ),
    (
        "riven-york-stone",
        "absorption   3.2 %",
        "absorption   9 %",
        &["warning absorption-high"],
    ),
    (
        "riven-york-stone",
        "isolation-joint 10 mm",
        "isolation-joint 5 mm",
        &["warning isolation-narrow"],
    ),
    (
        "riven-york-stone",
        "every 4 m",
        "every 4 mm",
        &["warning spacing-odd"],
    ),
    (
        "riven-york-stone",
        "every 600 mm",
        "every 60 mm",
        &["warning spacing-odd"],
    ),
    (
        "riven-york-stone",
        "450 mm by 300 mm",
        "700 mm by 600 mm",
        &["advisory lift-heavy"],
    ),
    (
        "riven-york-stone",
        "45 mm to 65 mm",
        "45 mm to 650 mm",
        &["advisory lift-heavy", "warning size-odd"],
    ),
    (
        "flags-drive",
        "every 3 m\n  weeps",
        "every 2 m\n  weeps",
        &["warning movement-offset"],
    ),
    (
        "flags-drive",
        "  bond         priming-slurry, 2 mm\n",
        "",
        &["warning bond-missing"],
    ),
    (
        "clay-drive-au",
        "herringbone, units 115 mm by 230 mm, angle 45°",
        "stack-bond, units 115 mm by 230 mm",
        &["warning pattern-weak"],
    ),
    (
        "clay-drive-au",
        "herringbone, units 115 mm by 230 mm, angle 45°",
        "running-bond, units 115 mm by 230 mm, along west",
        &["warning pattern-weak"],
    ),
    (
        "clay-drive-au",
        "concrete-kerb",
        "timber-edge",
        &["warning edging-weak"],
    ),
    (
        "block-drive",
        "concrete-kerb",
        "plastic-edge",
        &["warning edging-weak"],
    ),
    (
        "basket-weave-court",
        "class        paving",
        "class        facing",
        &["warning brick-class"],
    ),
    (
        "basket-weave-court",
        "class        paving",
        "class        paving\n  unit         3 5/8 in by 7 1/2 in",
        &[],
    ),
    (
        "basket-weave-court",
        "class        paving",
        "class        paving\n  unit         6 in by 6 in",
        &["error unit-disagrees"],
    ),
    (
        "weighed-flagstone",
        "covers       105 sq ft/ton",
        "covers       150 sq ft/ton",
        &["advisory coverage-odd"],
    ),
    // Where nothing says how the joints run, the plan has them along the house.
    (
        "drive-to-soakaway",
        "herringbone, units 100 mm by 200 mm, angle 45°",
        "running-bond, units 100 mm by 200 mm",
        &[],
    ),
    (
        "one-lift-drive",
        "herringbone, units 100 mm by 200 mm, angle 45°",
        "running-bond, units 100 mm by 200 mm",
        &["advisory pattern-weak"],
    ),
    (
        "one-lift-drive",
        "herringbone, units 100 mm by 200 mm, angle 45°",
        "running-bond, units 100 mm by 200 mm, along north",
        &[],
    ),
    // A slip of a unit in slabs that nobody lays so thick.
    (
        "uncoupled-porcelain",
        "porcelain, 20 mm",
        "porcelain, 20 cm",
        &["advisory lift-heavy", "warning size-odd"],
    ),
    // Jointing sand over what is bonded to a slab.
    (
        "uncoupled-porcelain",
        "jointing-compound",
        "polymeric-sand",
        &["warning bed-joint-clash"],
    ),
    // Stepping stones farther apart than a stride, and pads of their own.
    (
        "stepping-stone",
        "shape        stone\n",
        "shape        stone, 5 in all, every 750 mm between centres, toward east\n",
        &[],
    ),
    (
        "stepping-stone",
        "shape        stone\n",
        "shape        stone, 5 in all, every 1.3 m between centres, toward east\n",
        &["advisory joint-wide"],
    ),
    (
        "stepping-stone",
        "shape        stone\n",
        "shape        stone, 5 in all, every 2.5 m between centres, toward east\n",
        &[],
    ),
    // Cars may not run along the joints, however their way is stated.
    (
        "drive-to-soakaway",
        "herringbone, units 100 mm by 200 mm, angle 45°",
        "running-bond, units 100 mm by 200 mm, along north, angle 90°",
        &["warning pattern-weak"],
    ),
    (
        "drive-to-soakaway",
        "herringbone, units 100 mm by 200 mm, angle 45°",
        "running-bond, units 100 mm by 200 mm, along east, angle 90°",
        &[],
    ),
    // On mortar they lie across the wheels, and so across the fall.
    (
        "setts-drive",
        "stack-bond, units 100 mm by 100 mm",
        "running-bond, units 200 mm by 100 mm, along north",
        &[],
    ),
    // What fills the joints is ordered only where it is stated.
    (
        "two-surfaces",
        ", filled with joint-sand",
        "",
        &["advisory joint-unfilled"],
    ),
    // Dry on pedestals nothing creeps.
    (
        "pedestal-deck",
        "  edging       aluminium-edge, along free\n",
        "",
        &[],
    ),
    // A kerb that stands in nothing, and one on a metre of concrete.
    (
        "drive-to-soakaway",
        "concrete-kerb, along free\n  water        to gate-channel\n",
        "kerb, along free, on haunch-mix 100 mm, haunched 100 mm wide to 50 mm below the top, 600 mm above\n  water        to gate-channel\n\nmaterial kerb\n  like         concrete-kerb\n  unit         125 mm by 255 mm by 915 mm\n",
        &["error value-range"],
    ),
    (
        "drive-to-soakaway",
        "concrete-kerb, along free\n  water        to gate-channel\n",
        "kerb, along free, on haunch-mix 1000 mm, haunched 100 mm wide to 50 mm below the top\n  water        to gate-channel\n\nmaterial kerb\n  like         concrete-kerb\n  unit         125 mm by 255 mm by 915 mm\n",
        &["warning value-odd"],
    ),
    (
        "short-terrace",
        "  isolation-joint 10 mm\n",
        "",
        &["warning isolation-missing"],
    ),
    // A brick on its edge is one brick; flat it shows another side.
    (
        "brick-on-edge",
        "path-brick, 102.5 mm",
        "path-brick, 65 mm",
        &["error unit-disagrees"],
    ),
    (
        "brick-on-edge",
        "running-bond, units 215 mm by 65 mm",
        "running-bond, units 215 mm by 102.5 mm",
        &["error unit-disagrees"],
    ),
    (
        "brick-on-edge",
        "running-bond, units 215 mm by 65 mm, along west",
        "running-bond, along west",
        &[],
    ),
    // No compound and no mortar goes into a gap.
    (
        "sandstone-on-mortar",
        "joint        10 mm",
        "joint        2 mm",
        &["warning joint-narrow"],
    ),
    (
        "sandstone-on-mortar",
        "joint        10 mm",
        "joint        3 mm",
        &[],
    ),
    (
        "setts-drive",
        "joint        10 mm",
        "joint        2 mm",
        &["warning joint-narrow"],
    ),
    // Sand that sets caps what is left open below it.
    (
        "flags-on-sand",
        "joint        8 mm, filled",
        "joint        8 mm, depth 20 mm, filled",
        &["advisory joint-shallow"],
    ),
    // What carries a foot over the gaps between pedestals.
    (
        "pedestal-deck",
        "porcelain, 20 mm",
        "porcelain, 10 mm",
        &["warning flag-thin"],
    ),
    (
        "pedestal-deck",
        "joint        4 mm",
        "joint        5 mm, filled with bagged-mortar",
        &["warning bed-missing", "error fall-missing"],
    ),
    // A kerb with next to nothing to hold it.
    (
        "kerbed-blocks",
        "on kerb-mix 100 mm",
        "on kerb-mix 30 mm",
        &["warning edging-weak"],
    ),
    (
        "kerbed-blocks",
        "haunched 100 mm wide",
        "haunched 30 mm wide",
        &["warning edging-weak"],
    ),
    (
        "kerbed-blocks",
        "to 50 mm below the top",
        "to 120 mm below the top",
        &["warning edging-weak"],
    ),
    (
        "kerbed-blocks",
        "on kerb-mix 100 mm, haunched 100 mm wide to 50 mm",
        "on kerb-mix 75 mm, haunched 75 mm wide to 100 mm",
        &[],
    ),
    // A kerb whose foot hangs in the air, and a metre of concrete under one.
    (
        "kerbed-blocks",
        "below the top\n",
        "below the top, 1250 mm above\n",
        &["error value-range", "error low-point"],
    ),
    (
        "kerbed-blocks",
        "below the top\n",
        "below the top, 100 mm above\n",
        &["error low-point"],
    ),
    (
        "kerbed-blocks",
        "on kerb-mix 100 mm",
        "on kerb-mix 1000 mm",
        &["warning value-odd"],
    ),
    // A long kerb, its sides in any order.
    (
        "kerbed-blocks",
        "unit         50 mm by 150 mm by 915 mm",
        "unit         50 mm by 150 mm by 1.5 m",
        &[],
    ),
];

#[test]
fn mistakes_of_joints_units_and_edges_draw_what_they_declare() {
    check_mistakes(MISTAKES);
}
