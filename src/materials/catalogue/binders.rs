//! Cements and limes.

use super::material::{CatalogueMaterial, Sale, Sold, given};
use crate::materials::documents::{
    CEMENT_GRAINS, CEMENT_SACK, COMMON, LIME_WEIGHT, MASONRY_CEMENT_WEIGHT, NHL_SHEET,
};
use crate::materials::kind::Kind;

const PORTLAND: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::Cement,
    density: given("94 lb/cu ft", CEMENT_SACK),
    particle_density: given("3150 kg/m3", CEMENT_GRAINS),
    ..CatalogueMaterial::sold(Sold {
        imperial: Sale {
            by: "by bag of 94 lb",
            makes: None,
            source: CEMENT_SACK,
        },
        metric: Sale {
            by: "by bag of 25 kg",
            makes: None,
            source: COMMON,
        },
    })
};

const MASONRY: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::MasonryCement,
    particle_density: given("2900 kg/m3", COMMON),
    note: "One bag to three cubic feet of sand makes the mortar type the bag names.",
    ..CatalogueMaterial::sold(Sold::plain("by bag of 70 lb", "by bag of 25 kg"))
};

pub(super) static BINDERS: &[CatalogueMaterial] = &[
    CatalogueMaterial {
        name: "portland-cement",
        called: "Portland cement, grey",
        ..PORTLAND
    },
    CatalogueMaterial {
        name: "white-cement",
        called: "Portland cement, white, for pale joints",
        ..PORTLAND
    },
    CatalogueMaterial {
        name: "masonry-cement-n",
        called: "Masonry cement for type N mortar",
        density: given("70 lb/cu ft", MASONRY_CEMENT_WEIGHT),
        ..MASONRY
    },
    CatalogueMaterial {
        name: "masonry-cement-s",
        called: "Masonry cement for type S mortar",
        density: given("75 lb/cu ft", MASONRY_CEMENT_WEIGHT),
        sold: Sold::plain("by bag of 75 lb", "by bag of 25 kg"),
        ..MASONRY
    },
    CatalogueMaterial {
        name: "masonry-cement-m",
        called: "Masonry cement for type M mortar",
        density: given("80 lb/cu ft", MASONRY_CEMENT_WEIGHT),
        sold: Sold::plain("by bag of 80 lb", "by bag of 25 kg"),
        ..MASONRY
    },
    CatalogueMaterial {
        name: "hydrated-lime",
        called: "Hydrated lime for mortar",
        kind: Kind::Lime,
        density: given("40 lb/cu ft", LIME_WEIGHT),
        particle_density: given("2350 kg/m3", COMMON),
        ..CatalogueMaterial::sold(Sold::plain("by bag of 50 lb", "by bag of 25 kg"))
    },
    CatalogueMaterial {
        name: "hydraulic-lime",
        called: "Natural hydraulic lime, a binder by itself",
        kind: Kind::HydraulicLime,
        density: given("650 kg/m3", NHL_SHEET),
        particle_density: given("2700 kg/m3", COMMON),
        ..CatalogueMaterial::sold(Sold::plain("by bag of 55 lb", "by bag of 25 kg"))
    },
];
