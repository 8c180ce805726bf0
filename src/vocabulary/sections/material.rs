//! `material`: what is bought.

use super::{NameSpace, SectionKind, clause, once, usual};

pub(crate) static MATERIAL: SectionKind = SectionKind {
    word: "material",
    heading: "NAME:name",
    clauses: &[],
    defines: Some(NameSpace::Substances),
    keys: &[
        once(
            "like",
            "NAME:material",
            "Starts from another material and changes what is said here.",
            "like crushed-stone",
        ),
        once(
            "kind",
            "KIND:material-kind",
            "What the rules take it for.",
            "kind concrete-paver",
        ),
        once(
            "called",
            "NAME:text",
            "What the supplier calls it.",
            "called \"#57 stone\"",
        ),
        once(
            "from",
            "WHO:text",
            "Who supplies it: the orders are listed by supplier too.",
            "from \"the yard\"",
        ),
        once(
            "density",
            "DENSITY:density [ STATE:state ]",
            "Its density, or one loose and one compacted.",
            "density 95 lb/cu ft loose, 125 lb/cu ft compacted",
        )
        .twin("density 1.5 t/m3 loose, 2 t/m3 compacted")
        .usual(&[usual::between("DENSITY", 30.0, 9000.0)])
        .clauses(&[clause(
            "DENSITY:density [ STATE:state ]",
            "The density in the other state.",
        )]),
        once(
            "particle-density",
            "DENSITY:density",
            "The density of its grains.",
            "particle-density 2650 kg/m3",
        )
        .twin("particle-density 165 lb/cu ft")
        .usual(&[usual::between("DENSITY", 300.0, 9000.0)]),
        once(
            "bulking",
            "SHARE:share",
            "How much it bulks when damp; 25 % for sand if left out.",
            "bulking 25 %",
        )
        .usual(&[usual::between("SHARE", 0.001, 1.0)]),
        once(
            "unit",
            "LENGTH:length by WIDTH:length [ by THICKNESS:length ]",
            "The size of one unit; of a kerb all three sides, in any order.",
            "unit 12 in by 24 in",
        )
        .twin("unit 300 mm by 600 mm")
        .usual(&[
            usual::between("LENGTH", 0.02, 6.0),
            usual::between("WIDTH", 0.02, 6.0),
            usual::between("THICKNESS", 0.005, 6.0),
        ]),
        once(
            "roll",
            "LENGTH:length by WIDTH:length",
            "The size of a roll of fabric or membrane: its laps are counted by it.",
            "roll 4.5 m by 100 m",
        )
        .twin("roll 12.5' by 360'")
        .usual(&[
            usual::between("LENGTH", 0.1, 500.0),
            usual::between("WIDTH", 0.1, 500.0),
        ]),
        once(
            "sheet",
            "LENGTH:length by WIDTH:length",
            "The size of a sheet of mesh: its laps are counted by it.",
            "sheet 2.4 m by 4.8 m",
        )
        .twin("sheet 5' by 10'")
        .usual(&[
            usual::between("LENGTH", 0.1, 20.0),
            usual::between("WIDTH", 0.1, 20.0),
        ]),
        once(
            "mass",
            "MASS:quantity",
            "What it weighs: a square foot or metre of it, or one piece.",
            "mass 27 lb/sq ft",
        )
        .twin("mass 130 kg/m2")
        .usual(&[usual::open(
            "MASS",
            "it may be of one piece, or of so much area or length",
        )]),
        once(
            "class",
            "CLASS:brick-class",
            "The class of a clay brick: paving for foot and light traffic, heavy-paving for streets; facing and building brick are for walls.",
            "class paving",
        ),
        once(
            "durability",
            "CLASS:durability",
            "How a brick is classed for wet and frost: SX, SW, F2, FP100 and EXP stand both.",
            "durability F2",
        ),
        once(
            "absorption",
            "SHARE:share",
            "How much water it absorbs, by mass.",
            "absorption 3 %",
        )
        .usual(&[usual::between("SHARE", 0.0001, 0.5)]),
        once(
            "strength",
            "STRENGTH:strength",
            "The compressive strength of a unit, or of concrete as it is delivered.",
            "strength 55 MPa",
        )
        .twin("strength 8000 psi")
        .usual(&[usual::between("STRENGTH", 0.5e6, 400e6)]),
        once(
            "sold",
            "( PIECE:piece | by ( PACK:word of CONTENT:quantity | UNIT:unit ) )",
            "What it is sold by: a unit of measure, each, or a pack.",
            "sold by bag of 94 lb",
        )
        .twin("sold by bag of 25 kg")
        .usual(&[
            usual::open("CONTENT", "a pack may hold anything"),
            usual::between("VOLUME", 1e-4, 5.0),
            usual::open("STEP", "a step may be of anything"),
        ])
        .clauses(&[
            clause("makes VOLUME:volume", "What one pack makes when mixed."),
            clause("in steps of STEP:quantity", "The step that orders go in."),
        ]),
        once(
            "covers",
            "COVERAGE:coverage",
            "How far it goes, as the supplier says.",
            "covers 120 sq ft/ton",
        )
        .twin("covers 12 m2/t")
        .usual(&[usual::between("COVERAGE", 1e-4, 100.0)]),
        once(
            "price",
            "PRICE:price [ ( PIECE:piece | per PACK:word ) ]",
            "Its price: for one sold unit if nothing else is said.",
            "price $42/ton",
        )
        .twin("price $42/t")
        .usual(&[usual::price("PRICE")]),
        once(
            "delivery",
            "PRICE:price per load of LOAD:quantity",
            "What each load begun costs to bring.",
            "delivery $95 per load of 10 ton",
        )
        .twin("delivery $95 per load of 10 t")
        .usual(&[
            usual::price("PRICE"),
            usual::open("LOAD", "a load may be of anything"),
        ]),
        once(
            "minimum",
            "LEAST:quantity",
            "The least that is sold.",
            "minimum 3 ton",
        )
        .twin("minimum 3 t")
        .usual(&[usual::open(
            "LEAST",
            "the least that is sold may be of anything",
        )]),
        once(
            "waste",
            "SHARE:share",
            "What is ordered beyond what lies in place, unless the layer says.",
            "waste 8 %",
        )
        .usual(&[usual::WASTE]),
        super::ACCEPT_ENTRY,
    ],
    help: "A material: its density, how it is sold, what it costs.",
    example: "material road-stone\n  like         crushed-stone\n  sold         by ton\n  price        $38/ton\n",
};
