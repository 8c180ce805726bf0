//! Mixes out of a bag, bond coats, jointing compounds, concrete, asphalt.

use super::material::{CatalogueMaterial, Sold, given};
use crate::materials::documents::{COMMON, CONCRETE_BAG, MORTAR_BAG, NAVY_WASTE, quarry_weights};
use crate::materials::kind::Kind;

const MORTAR: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::BaggedMortar,
    density: given("123 lb/cu ft", MORTAR_BAG),
    note: "Printed yields run from 0.60 to 0.70 cu ft for 80 lb; this is the middle.",
    ..CatalogueMaterial::sold(Sold::plain("by bag of 80 lb", "by bag of 25 kg").making(
        "0.65 cu ft",
        "12.7 L",
        MORTAR_BAG,
    ))
};

const THIN_SET: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::BondCoat,
    density: given("100 lb/cu ft", COMMON),
    note: "Printed areas per bag assume a leaned trowel and flat tile: for stone, count by \
           thickness.",
    ..CatalogueMaterial::sold(Sold::plain("by bag of 50 lb", "by bag of 20 kg").making(
        "0.5 cu ft",
        "12.5 L",
        COMMON,
    ))
};

pub(super) static BAGGED: &[CatalogueMaterial] = &[
    CatalogueMaterial {
        name: "bagged-mortar",
        called: "Mortar, cement and sand blended dry in the bag",
        ..MORTAR
    },
    CatalogueMaterial {
        name: "pointing-mortar",
        called: "Pointing mortar, blended dry in the bag, for joints",
        ..MORTAR
    },
    CatalogueMaterial {
        name: "bagged-concrete",
        called: "Concrete, blended dry in the bag",
        kind: Kind::BaggedConcrete,
        density: given("133 lb/cu ft", CONCRETE_BAG),
        ..CatalogueMaterial::sold(Sold::plain("by bag of 80 lb", "by bag of 25 kg").making(
            "0.6 cu ft",
            "11.7 L",
            CONCRETE_BAG,
        ))
    },
    CatalogueMaterial {
        name: "thin-set",
        called: "Tile adhesive in a thin coat, a bond coat for stone and tile",
        in_us: "Thin-set mortar, a bond coat for stone and tile",
        ..THIN_SET
    },
    CatalogueMaterial {
        name: "medium-bed-mortar",
        called: "Medium-bed mortar, a bond coat for heavy stone and large tile, to about 20 mm",
        in_us: "Medium-bed mortar, a bond coat for heavy stone and large tile, to about 3/4 in",
        kind: Kind::MediumBed,
        ..THIN_SET
    },
    CatalogueMaterial {
        name: "priming-slurry",
        called: "Priming slurry, brushed on the back of slabs before they are bedded",
        ..THIN_SET
    },
    CatalogueMaterial {
        name: "jointing-compound",
        called: "Jointing compound, resin-bound, brushed or washed in",
        kind: Kind::JointingCompound,
        density: given("1.6 t/m3", COMMON),
        ..CatalogueMaterial::sold(Sold::plain("by tub of 33 lb", "by tub of 15 kg"))
    },
    CatalogueMaterial {
        name: "concrete",
        called: "Concrete, ready mixed",
        kind: Kind::Concrete,
        density: given(
            "150 lb/cu ft",
            quarry_weights("concrete, limestone, 4,050 lb"),
        ),
        waste: given("10 %", NAVY_WASTE),
        ..CatalogueMaterial::sold(Sold::BY_VOLUME)
    },
    CatalogueMaterial {
        name: "asphalt",
        called: "Asphalt paving",
        kind: Kind::Asphalt,
        density: given("145 lb/cu ft", COMMON),
        ..CatalogueMaterial::sold(Sold::BY_WEIGHT)
    },
];
