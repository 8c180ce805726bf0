//! Pavers and slabs that are made: concrete, clay, porcelain.

use super::material::{CatalogueMaterial, Sold, given};
use crate::materials::documents::{COMMON, RECALLED, quarry_weights};
use crate::materials::kind::Kind;
use crate::sources::Source;

const CONCRETE: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::ConcretePaver,
    density: given("140 lb/cu ft", RECALLED),
    note: "Recalled figures run from 135 to 145 lb/cu ft.",
    ..CatalogueMaterial::sold(Sold::BY_AREA)
};

const CLAY: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::ClayPaver,
    density: given("137 lb/cu ft", quarry_weights("brick, paving, 3,694 lb")),
    ..CatalogueMaterial::sold(Sold::BY_AREA)
};

pub(super) static UNITS: &[CatalogueMaterial] = &[
    CatalogueMaterial {
        name: "concrete-paver",
        called: "Concrete pavers that interlock",
        ..CONCRETE
    },
    CatalogueMaterial {
        name: "block-paver",
        called: "Rectangular concrete blocks, 200 by 100 mm",
        in_us: "Rectangular concrete pavers, 4 by 8 in",
        unit: given("200 mm by 100 mm", COMMON),
        ..CONCRETE
    },
    CatalogueMaterial {
        name: "permeable-paver",
        called: "Concrete pavers with wide joints that let water through",
        ..CONCRETE
    },
    CatalogueMaterial {
        name: "concrete-flag",
        called: "Concrete paving slabs",
        kind: Kind::ConcreteFlag,
        ..CONCRETE
    },
    CatalogueMaterial {
        name: "clay-brick",
        called: "Clay paving brick",
        ..CLAY
    },
    CatalogueMaterial {
        name: "clay-paver",
        called: "Clay pavers, 100 by 200 mm, for narrow joints",
        in_us: "Clay pavers, 4 by 8 in, for narrow joints",
        unit: given("4 in by 8 in", COMMON),
        sold: Sold::EACH,
        ..CLAY
    },
    CatalogueMaterial {
        name: "porcelain",
        called: "Porcelain paving of 20 mm",
        in_us: "Porcelain paving of 3/4 in",
        kind: Kind::Porcelain,
        density: given("2.3 t/m3", COMMON),
        absorption: given(
            "0.5 %",
            Source::second_hand(
                "EN 14411, Ceramic tiles",
                "group BIa, greatest absorption, on a maker's data page",
            ),
        ),
        ..CatalogueMaterial::sold(Sold::BY_AREA)
    },
];
