//! `build`: layers from the top down.

use super::{Clause, Key, NameSpace, SectionKind, Usual, clause, once, usual};

/// The layers that are sheets.
const SHEETS: &[&str] = &["membrane", "mesh", "fabric"];

const LAYER_CLAUSES: &[Clause] = &[
    clause(
        "THICKNESS:length [ to MOST:length ] [ STATE:state ]",
        "How thick it is, as compacted or as spread loose; of stone of uneven thickness the least and the greatest.",
    ),
    clause("compacted", "The thickness is as compacted."),
    clause("loose", "The thickness is as spread."),
    clause("lifts COUNT:count", "In how many lifts it is compacted.").beside(&["base", "subbase"]),
    clause(
        "joints every SPACING:length",
        "How far apart the joints of a slab are.",
    )
    .beside(&["slab"]),
    clause(
        "corners jointed",
        "A joint runs out from every re-entrant corner of the slab.",
    )
    .beside(&["slab"]),
    clause(
        "beyond MARGIN:length",
        "How far it goes past the free edges, but for those that something in place holds.",
    ),
    clause(
        "waste SHARE:share",
        "What is ordered beyond what lies in place.",
    ),
    clause(
        "existing",
        "It lies there already: not dug for, not ordered.",
    ),
    clause("lap LENGTH:length", "How far the sheets overlap.").beside(SHEETS),
    clause(
        "turned-up HEIGHT:length",
        "How far it is turned up at the edges.",
    )
    .beside(SHEETS),
];

/// How large the figures of a layer are that is so thick, in metres.
macro_rules! usual {
    ($thickness:expr, $most:expr) => {
        &[
            $thickness,
            $most,
            usual::between("COUNT", 1.0, 50.0),
            usual::between("SPACING", 0.0, 50.0),
            usual::between("MARGIN", 0.002, 0.9),
            usual::between("LENGTH", 0.02, 1.25),
            usual::between("HEIGHT", 0.01, 3.0),
            usual::WASTE,
        ]
    };
    ($least:literal to $most:literal) => {
        usual!(
            usual::between("THICKNESS", $least, $most),
            usual::between("MOST", $least, $most)
        )
    };
}

const fn layer(
    word: &'static str,
    usual: &'static [Usual],
    help: &'static str,
    example: &'static str,
) -> Key {
    once(word, "MATERIAL:substance", help, example)
        .repeats()
        .clauses(LAYER_CLAUSES)
        .usual(usual)
}

pub(crate) static BUILD: SectionKind = SectionKind {
    word: "build",
    heading: "NAME:name",
    clauses: &[],
    defines: Some(NameSpace::Builds),
    keys: &[
        layer(
            "paving",
            usual!(
                usual::unit_thickness("THICKNESS"),
                usual::unit_thickness("MOST")
            ),
            "Slabs, flags, pavers or bricks.",
            "paving sandstone, 1 1/2 in, waste 12 %",
        ).twin("paving sandstone, 40 mm, waste 12 %"),
        layer(
            "surfacing",
            usual!(0.002 to 0.6),
            "Gravel and the like, walked on.",
            "surfacing pea-gravel, 50 mm",
        ).twin("surfacing pea-gravel, 2 in"),
        layer(
            "bond",
            usual!(0.0005 to 0.05),
            "A coat on the back of the stone: thin-set or priming slurry.",
            "bond thin-set, 1/8 in",
        ).twin("bond thin-set, 3 mm"),
        layer(
            "bed",
            usual!(0.001 to 0.5),
            "The setting bed.",
            "bed sharp-sand, 1 in",
        ).twin("bed sharp-sand, 30 mm"),
        layer(
            "slurry",
            usual!(0.0005 to 0.05),
            "A slurry coat on the slab or base, under the bed; a coat on the back of the stone is a bond.",
            "slurry slurry-mix, 2 mm",
        ).twin("slurry slurry-mix, 1/16 in"),
        layer(
            "membrane",
            usual!(0.0001 to 0.05),
            "A sheet that separates two layers.",
            "membrane crack-membrane",
        ),
        layer(
            "slab",
            usual!(0.01 to 0.6),
            "A concrete slab.",
            "slab slab-mix, 4 in, joints every 10'",
        ).twin("slab slab-mix, 100 mm, joints every 3 m"),
        layer(
            "base",
            usual!(0.01 to 0.92),
            "The compacted base.",
            "base crushed-stone, 6 in compacted, lifts 2, beyond 6 in",
        ).twin("base crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm"),
        layer(
            "subbase",
            usual!(0.01 to 1.4),
            "What lies under the base.",
            "subbase ballast, 6 in compacted",
        ).twin("subbase ballast, 150 mm compacted"),
        layer(
            "mesh",
            usual!(0.001 to 0.05),
            "Reinforcement in a slab.",
            "mesh welded-mesh, lap 8 in",
        ).twin("mesh welded-mesh, lap 200 mm"),
        layer(
            "fabric",
            usual!(0.0001 to 0.05),
            "A geotextile between ground and base.",
            "fabric geotextile, beyond 6 in, lap 12 in",
        ).twin("fabric geotextile, beyond 150 mm, lap 300 mm"),
        once(
            "permeable",
            "",
            "Water soaks through it and is held in its base.",
            "permeable, voids 40 %",
        )
        .clauses(&[clause(
            "voids SHARE:share",
            "The share of the base that can hold water.",
        )])
        .usual(&[usual::between("SHARE", 0.1, 0.95)]),
        super::ACCEPT_ENTRY,
    ],
    help: "Layers from the top down, a line each.",
    example: "build sand-set\n  paving       concrete-paver, 60 mm\n  bed          sharp-sand, 30 mm\n  base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm\n",
};
