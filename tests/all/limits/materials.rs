//! What materials stand and how long they take, just under and just over, in
//! each region that differs.

use super::falls_levels_ground::{Case, wrong};
use super::{A, SILENT, W};

const CASES: &[Case] = &[
    // Lime sets more slowly than cement, in the bed and in the joints.
    (
        "wait-short",
        "surface court\n  build mortar-set\n\nmix bed-mix\n  for bed\n  parts 1 hydraulic-lime : 2 1/2 sharp-sand\n\nwork\n  crew 4\n  wait {} from laying to jointing\n",
        &[
            ("general", &[("72 h", SILENT), ("71 h", W)]),
            ("uk", &[("3 days", SILENT), ("overnight", W)]),
        ],
    ),
    (
        "wait-short",
        "surface court\n  build mortar-set\n\nmix joint-mix\n  for joint\n  parts 1 hydraulic-lime : 2 sharp-sand\n\nwork\n  crew 4\n  wait {} from jointing to cleaning\n",
        &[("uk", &[("72 h", SILENT), ("71 h", W)])],
    ),
    (
        "wait-short",
        "surface court\n  build mortar-set\n\nmix bed-mix\n  for bed\n  parts 1 portland-cement : 1 hydraulic-lime : 6 sharp-sand\n\nwork\n  crew 4\n  wait {} from laying to jointing\n",
        &[("general", &[("24 h", SILENT), ("23 h", W)])],
    ),
    (
        "mix-life",
        "surface court\n  build mortar-set\n\nmix bed-mix\n  for bed\n  parts 1 hydraulic-lime : 2 1/2 sharp-sand\n  batch 50 L, laid in {}\n",
        &[("uk", &[("24 h", SILENT), ("25 h", W)])],
    ),
    (
        "bond-missing",
        "surface court\n  build mortar-set\n\nbuild mortar-set\n  paving {}, waste 10 %\n  # no bond\n\nmix bed-mix\n  for bed\n  parts 1 hydraulic-lime : 2 1/2 sharp-sand\n",
        &[(
            "uk",
            &[("sandstone, 40 mm", SILENT), ("porcelain, 20 mm", W)],
        )],
    ),
    (
        "bed-joint-clash",
        "surface court\n  build mortar-set\n\nmix bed-mix\n  for bed\n  parts 1 hydraulic-lime : 2 1/2 sharp-sand\n\nmix joint-mix\n  for joint\n  parts 1 {} : 2 sharp-sand\n",
        &[("uk", &[("hydraulic-lime", SILENT), ("portland-cement", A)])],
    ),
    // Paving and concrete that are dear, whatever the money.
    (
        "price-odd",
        "material concrete-paver\n  price {}\n",
        &[(
            "us",
            &[
                ("£4.85/sq ft", SILENT),
                ("£92/sq ft", SILENT),
                ("£93/sq ft", A),
                ("£485/sq ft", A),
            ],
        )],
    ),
    (
        "price-odd",
        "surface court\n  build bare-slab\n\nbuild bare-slab\n  slab ready-mix, 100 mm\n  base crushed-stone, 100 mm compacted\n\nmaterial ready-mix\n  like concrete\n  price {}\n",
        &[
            ("us", &[("£195/cu yd", SILENT), ("£1950/cu yd", A)]),
            ("uk", &[("£700/m3", SILENT), ("£701/m3", A)]),
        ],
    ),
    (
        "price-odd",
        "material concrete-paver\n  unit 200 mm by 100 mm\n  sold each\n  price {}\n",
        &[(
            "uk",
            &[("£0.88", SILENT), ("£20", SILENT), ("£21", A), ("£88", A)],
        )],
    ),
    // Slabs by what they are of.
    (
        "size-odd",
        "build sand-set\n  paving {}, waste 10 %\n",
        &[
            (
                "general",
                &[
                    ("porcelain, 50 mm", SILENT),
                    ("porcelain, 51 mm", W),
                    ("sandstone, 152 mm", SILENT),
                    ("sandstone, 153 mm", W),
                    ("granite-sett, 200 mm", SILENT),
                ],
            ),
            (
                "us",
                &[("porcelain, 2 in", SILENT), ("bluestone, 6 1/2 in", W)],
            ),
        ],
    ),
    (
        "fabric-light",
        "site\n  soil clay, firm\n\ndrain side-drain\n  trench 300 mm wide, 450 mm deep, along court.south\n  pipe perforated-pipe, 110 mm\n  fall 1:100 toward east\n  to \"ditch\"\n  filled open-stone, voids 40 %\n  wrapped {}\n",
        &[("us", &[("geotextile", SILENT), ("weed-fabric", W)])],
    ),
    (
        "bed-joint-clash",
        "surface court\n  build mortar-set\n  joint 10 mm, filled with {}\n",
        &[
            ("us", &[("joint-mix", SILENT), ("polymeric-sand", W)]),
            ("uk", &[("jointing-compound", SILENT), ("joint-sand", W)]),
        ],
    ),
    // Brick by the durability that it is classed for.
    (
        "brick-class",
        "site\n  frost 300 mm\n\nbuild sand-set\n  paving garden-brick, 65 mm, waste 5 %\n\nmaterial garden-brick\n  like clay-paver\n  durability {}\n",
        &[
            (
                "us",
                &[
                    ("SX", SILENT),
                    ("MX", W),
                    ("NX", W),
                    ("SW", SILENT),
                    ("MW", W),
                ],
            ),
            (
                "uk",
                &[
                    ("F2", SILENT),
                    ("F1", W),
                    ("F0", W),
                    ("FP100", SILENT),
                    ("FP0", W),
                ],
            ),
            ("au", &[("EXP", SILENT), ("GP", W), ("PRO", W)]),
        ],
    ),
    (
        "brick-class",
        "site\n  frost 0 mm\n\nbuild sand-set\n  paving garden-brick, 65 mm, waste 5 %\n\nmaterial garden-brick\n  like clay-paver\n  durability {}\n",
        &[
            ("us", &[("MX", SILENT), ("NX", W)]),
            ("uk", &[("F1", SILENT), ("F0", W)]),
            ("au", &[("GP", SILENT), ("PRO", W)]),
        ],
    ),
    // Where nothing is said of frost, it freezes in Britain alone.
    (
        "brick-class",
        "build sand-set\n  paving garden-brick, 65 mm, waste 5 %\n\nmaterial garden-brick\n  like clay-paver\n  durability {}\n",
        &[
            ("uk", &[("F1", W), ("F2", SILENT)]),
            ("au", &[("GP", SILENT)]),
        ],
    ),
    // Wall brick may face a riser, but not where frost breaks it.
    (
        "brick-class",
        "steps climb\n  from ground\n  to court\n  at (3 m, 0 m), climbing north\n  width 1.2 m\n  going 300 mm\n  risers 2\n  riser wall-brick, flat\n\nsurface court\n  level 100 mm at north\n\nmaterial wall-brick\n  like clay-paver\n  {}\n",
        &[(
            "uk",
            &[
                ("class facing", SILENT),
                ("durability F1", W),
                ("durability F2", SILENT),
            ],
        )],
    ),
    (
        "brick-class",
        "surface court\n  edging garden-brick, along free\n\nmaterial garden-brick\n  like clay-paver\n  class {}\n",
        &[("uk", &[("paving", SILENT), ("facing", W)])],
    ),
    // A tread of bricks is lifted brick by brick.
    (
        "tread-heavy",
        "steps garden-steps\n  from -700 mm\n  to court\n  at (3 m, 0 m), climbing north\n  width 1.2 m\n  going 350 mm\n  tread {}, 65 mm\n  fall 1:60\n",
        &[("uk", &[("clay-paver", SILENT), ("sandstone", A)])],
    ),
    // Flags and edging under heavier wheels.
    (
        "flag-unsupported",
        "surface court\n  for drive\n  laid running-bond, units 300 mm by 300 mm\n\nbuild sand-set\n  paving granite, {}, waste 10 %\n",
        &[(
            "general",
            &[("65 mm", SILENT), ("2 1/2 in", SILENT), ("63 mm", W)],
        )],
    ),
    (
        "flag-unsupported",
        "surface court\n  for street\n  laid running-bond, units 300 mm by 300 mm\n\nbuild sand-set\n  paving granite, {}, waste 10 %\n",
        &[
            (
                "general",
                &[("80 mm", SILENT), ("3 1/8 in", SILENT), ("79 mm", W)],
            ),
            ("us", &[("3 1/8 in", SILENT), ("3 in", W)]),
        ],
    ),
    (
        "edging-weak",
        "surface court\n  for street\n  laid herringbone, units 100 mm by 200 mm\n  edging {}, along free\n",
        &[(
            "general",
            &[
                ("concrete-kerb", SILENT),
                ("steel-edge", W),
                ("aluminium-edge", W),
                ("plastic-edge", W),
            ],
        )],
    ),
    (
        "edging-weak",
        "surface court\n  for drive\n  laid herringbone, units 100 mm by 200 mm\n  edging {}, along free\n",
        &[(
            "general",
            &[
                ("steel-edge", SILENT),
                ("timber-edge", W),
                ("clay-paver", W),
                ("clay-paver, on slab-mix 100 mm", W),
                (
                    "clay-paver, on slab-mix 100 mm, haunched 100 mm wide to 50 mm below the top",
                    SILENT,
                ),
                ("brick-edge", SILENT),
            ],
        )],
    ),
    (
        "overdig-short",
        "surface court\n  for drive\n  # no laid\n  # no joint\n  # no edging\n  build gravelled\n\nbuild gravelled\n  surfacing pea-gravel, 50 mm\n  base crushed-stone, 150 mm compacted, lifts 2, beyond {}\n",
        &[(
            "general",
            &[("150 mm", SILENT), ("6 in", SILENT), ("149 mm", A)],
        )],
    ),
    (
        "overdig-short",
        "surface court\n  for {}\n  # no laid\n  # no joint\n  edging timber-edge, along free\n  build gravelled\n\nbuild gravelled\n  surfacing pea-gravel, 50 mm\n  base crushed-stone, 150 mm compacted, lifts 2\n",
        &[("general", &[("drive", SILENT), ("foot", SILENT)])],
    ),
    // Water soaks in from the base, which goes past the paving.
    (
        "soak-near",
        "shape walk\n  rectangle 2 m by 4 m, at ({}, 0 m)\n\nsurface walk\n  shape walk\n  level -160 mm at north\n  fall 1:50 toward south\n  build open-set\n\nbuild open-set\n  paving concrete-paver, 80 mm\n  bed open-stone, 50 mm\n  base open-stone, 200 mm, beyond 250 mm\n  permeable\n\nsurface court\n  meets north\n",
        &[
            ("general", &[("9.25 m", SILENT), ("9.24 m", W)]),
            ("uk", &[("11.25 m", SILENT), ("11.24 m", A)]),
        ],
    ),
    // A kerb with little concrete under it or behind it.
    (
        "edging-weak",
        "surface court\n  for drive\n  laid herringbone, units 100 mm by 200 mm\n  edging kerb, along free, on slab-mix {} below the top\n\nmaterial kerb\n  like concrete-kerb\n  unit 50 mm by 150 mm by 915 mm\n",
        &[(
            "general",
            &[
                ("75 mm, haunched 75 mm wide to 110 mm", SILENT),
                ("3 in, haunched 3 in wide to 2 in", SILENT),
                ("74 mm, haunched 75 mm wide to 100 mm", W),
                ("75 mm, haunched 74 mm wide to 100 mm", W),
                ("75 mm, haunched 75 mm wide to 113 mm", W),
            ],
        )],
    ),
    // Asphalt under wheels and under feet, and what is kicked aside.
    (
        "surfacing-thin",
        "surface court\n  for drive\n  # no laid\n  # no joint\n  build tarmac\n\nbuild tarmac\n  surfacing asphalt, {}\n  base crushed-stone, 200 mm compacted\n",
        &[(
            "general",
            &[("50 mm", SILENT), ("2 in", SILENT), ("49 mm", W)],
        )],
    ),
    (
        "surfacing-thin",
        "surface court\n  # no laid\n  # no joint\n  build tarmac\n\nbuild tarmac\n  surfacing asphalt, {}\n  base crushed-stone, 200 mm compacted\n",
        &[(
            "general",
            &[("25 mm", SILENT), ("1 in", SILENT), ("24 mm", A)],
        )],
    ),
    (
        "surfacing-thin",
        "surface court\n  # no laid\n  # no joint\n  build gravelled\n\nbuild gravelled\n  surfacing pea-gravel, {}\n  base crushed-stone, 100 mm compacted\n",
        &[(
            "general",
            &[("20 mm", SILENT), ("3/4 in", SILENT), ("18 mm", A)],
        )],
    ),
    // Dry over the gaps between pedestals.
    (
        "flag-thin",
        "surface court\n  build dry\n  laid running-bond, units 600 mm by 600 mm\n  joint 4 mm\n\nbuild dry\n  paving porcelain, {}\n  slab concrete, 150 mm, existing\n",
        &[(
            "general",
            &[("18 mm", SILENT), ("11/16 in", SILENT), ("17 mm", W)],
        )],
    ),
    (
        "flag-thin",
        "surface court\n  build wet\n  laid running-bond, units 600 mm by 600 mm\n  joint 8 mm, filled with bed-mix\n\nbuild wet\n  paving concrete-flag, {}\n  bed bed-mix, 40 mm\n  base crushed-stone, 100 mm compacted\n",
        &[(
            "general",
            &[("30 mm", SILENT), ("1 3/16 in", SILENT), ("29 mm", W)],
        )],
    ),
    // What goes into a gap, and what falls out of a joint.
    (
        "joint-narrow",
        "surface court\n  build mortar-set\n  joint {}, filled with jointing-compound\n",
        &[(
            "general",
            &[("3 mm", SILENT), ("1/8 in", SILENT), ("2.9 mm", W)],
        )],
    ),
    (
        "joint-narrow",
        "surface court\n  build mortar-set\n  laid stack-bond, units 100 mm by 100 mm\n  joint {}, filled with joint-mix\n\nbuild mortar-set\n  paving granite-sett, 80 mm, waste 5 %\n",
        &[(
            "general",
            &[("5 mm", SILENT), ("3/16 in", SILENT), ("4.7 mm", W)],
        )],
    ),
    (
        "joint-wide",
        "surface court\n  build mortar-set\n  laid running-bond, units 100 mm by 200 mm\n  joint {}, filled with joint-sand\n\nbuild mortar-set\n  paving clay-paver, 60 mm, waste 5 %\n",
        &[(
            "general",
            &[("13 mm", SILENT), ("1/2 in", SILENT), ("14 mm", W)],
        )],
    ),
    // Lean concrete under paving, and next to none.
    (
        "strength-low",
        "surface court\n  build mortar-set\n\nbuild mortar-set\n  slab lean, 100 mm\n\nmaterial lean\n  like concrete\n  strength {}\n",
        &[(
            "general",
            &[("5 MPa", SILENT), ("725 psi", SILENT), ("4.9 MPa", W)],
        )],
    ),
    // What an edging or a drain stands in.
    (
        "mix-rich",
        "surface court\n  edging clay-paver, along free, on kerb-mix 100 mm\n\nmix kerb-mix\n  parts 1 portland-cement : {} gravel\n",
        &[(
            "general",
            &[
                ("1 sharp-sand : 2", SILENT),
                ("1 sharp-sand : 1.9", A),
                ("0.4 sharp-sand : 0.5", W),
            ],
        )],
    ),
    (
        "mix-rich",
        "surface court\n  water to pipe-run\n\ndrain pipe-run\n  pipe plastic-pipe, 110 mm, from (0, 0) to (6 m, 0)\n  fall 1:80\n  invert -900 mm at (0, 0)\n  bedded in {}, 100 mm round\n  to \"ditch\"\n\nmix pipe-mix\n  parts 4 portland-cement : 2 sharp-sand : 1 gravel\n",
        &[("general", &[("concrete", SILENT), ("pipe-mix", W)])],
    ),
    // Asphalt counts with its base, and the base alone has a least.
    (
        "base-thin",
        "surface court\n  for drive\n  # no laid\n  # no joint\n  build tarmac\n\nbuild tarmac\n  surfacing asphalt, {} compacted\n",
        &[(
            "general",
            &[
                ("60 mm\n  base crushed-stone, 100 mm", SILENT),
                ("2 in\n  base crushed-stone, 4 in", SILENT),
                ("60 mm\n  base crushed-stone, 99 mm", W),
                ("40 mm\n  base crushed-stone, 109 mm", W),
            ],
        )],
    ),
    (
        "base-thin",
        "site\n  soil clay, firm\n\nsurface court\n  for drive\n  # no laid\n  # no joint\n  build tarmac\n\nbuild tarmac\n  surfacing asphalt, 60 mm\n  base crushed-stone, {} compacted\n",
        &[(
            "general",
            &[("140 mm", SILENT), ("139 mm", A), ("99 mm", W)],
        )],
    ),
];

#[test]
fn materials_keep_to_what_they_stand() {
    let wrong = wrong(CASES);
    assert!(wrong.is_empty(), "\n{wrong}");
}
