//! Natural stone in slabs, flags and setts.

use super::material::{CatalogueMaterial, Sold, given};
use crate::materials::documents::{COMMON, RECALLED, quarry_weights};
use crate::materials::kind::Kind;
use crate::sources::Source;

const STONE: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::NaturalStone,
    ..CatalogueMaterial::sold(Sold::BY_AREA)
};

const GRANITE: CatalogueMaterial = CatalogueMaterial {
    density: given("168 lb/cu ft", quarry_weights("granite, 4,536 lb")),
    absorption: given(
        "0.4 %",
        Source::second_hand("ASTM C615, Granite Dimension Stone", "greatest absorption"),
    ),
    note: "ASTM C615 asks for at least 160 lb/cu ft.",
    ..STONE
};

const YORK_STONE: Source = Source::second_hand(
    "A quarry's test report on York stone",
    "2,371 kg/m³ and 3.2 % by weight, frost test passed, on a supplier's page",
);

const TRAVERTINE: Source = Source::second_hand(
    "ASTM C1527, Travertine Dimension Stone",
    "absorption of 2.5 % at most; a Denizli stone of 150 lb/cu ft in a merchant's data",
);

pub(super) static STONES: &[CatalogueMaterial] = &[
    CatalogueMaterial {
        name: "sandstone",
        called: "Sandstone flags, sawn or split",
        density: given("149 lb/cu ft", quarry_weights("sandstone, 4,023 lb")),
        note: "Sandstones run from 125 to 165 lb/cu ft and differ widely in the water they \
               absorb: ask the supplier before using one where it freezes.",
        ..STONE
    },
    CatalogueMaterial {
        name: "york-stone",
        called: "York stone flags, a hard British sandstone",
        density: given("2.4 t/m3", YORK_STONE),
        absorption: given("3.2 %", YORK_STONE),
        ..STONE
    },
    CatalogueMaterial {
        name: "bluestone",
        called: "Bluestone flags, a dense sandstone of the eastern United States",
        density: given("165 lb/cu ft", RECALLED),
        note: "Recalled figures run from 160 to 168 lb/cu ft. In Australia bluestone is a basalt: use basalt.",
        ..STONE
    },
    CatalogueMaterial {
        name: "limestone",
        called: "Limestone flags of the dense class",
        density: given(
            "160 lb/cu ft",
            Source::second_hand(
                "ASTM C568, Limestone Dimension Stone",
                "high-density class, least density",
            ),
        ),
        note: "Softer classes begin at 110 and 135 lb/cu ft and absorb more water.",
        ..STONE
    },
    CatalogueMaterial {
        name: "travertine",
        called: "Travertine slabs, a porous limestone",
        density: given("150 lb/cu ft", TRAVERTINE),
        absorption: given("2.5 %", TRAVERTINE),
        note: "ASTM C1527 asks for at least 144 lb/cu ft.",
        ..STONE
    },
    CatalogueMaterial {
        name: "granite",
        called: "Granite slabs",
        ..GRANITE
    },
    CatalogueMaterial {
        name: "granite-sett",
        called: "Granite setts of 100 mm",
        in_us: "Granite cobblestones of 4 in",
        kind: Kind::Sett,
        unit: given("100 mm by 100 mm", COMMON),
        sold: Sold::EACH,
        ..GRANITE
    },
    CatalogueMaterial {
        name: "basalt",
        called: "Basalt slabs",
        density: given("181 lb/cu ft", quarry_weights("basalt rock, 4,887 lb")),
        ..STONE
    },
    CatalogueMaterial {
        name: "slate",
        called: "Slate flags",
        density: given("175 lb/cu ft", quarry_weights("slate, 4,725 lb")),
        absorption: given(
            "0.25 %",
            Source::second_hand(
                "ASTM C629, Slate Dimension Stone",
                "exterior use, greatest absorption",
            ),
        ),
        ..STONE
    },
    CatalogueMaterial {
        name: "quartzite",
        called: "Quartzite flags",
        density: given(
            "160 lb/cu ft",
            Source::second_hand(
                "ASTM C616, Quartz-Based Dimension Stone",
                "quartzite, least density",
            ),
        ),
        absorption: given(
            "1 %",
            Source::second_hand(
                "ASTM C616, Quartz-Based Dimension Stone",
                "quartzite, greatest absorption",
            ),
        ),
        ..STONE
    },
    CatalogueMaterial {
        name: "marble",
        called: "Marble slabs",
        density: given("165 lb/cu ft", quarry_weights("marble, solid, 4,455 lb")),
        absorption: given(
            "0.2 %",
            Source::second_hand("ASTM C503, Marble Dimension Stone", "greatest absorption"),
        ),
        ..STONE
    },
];
