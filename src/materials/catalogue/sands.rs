//! Sands for beds, mortar and joints.

use super::material::{CatalogueMaterial, Sold, Sourced, given};
use crate::materials::documents::{COMMON, DAMP_SAND, DRY_SAND, WSDOT_GRAVITY};
use crate::materials::kind::Kind;

const GRAINS: Option<Sourced> = given("2650 kg/m3", WSDOT_GRAVITY);

const SAND: CatalogueMaterial = CatalogueMaterial {
    density: given("100 lb/cu ft", DRY_SAND),
    compacted: given("120 lb/cu ft", COMMON),
    particle_density: GRAINS,
    bulking: given("25 %", DAMP_SAND),
    note: "The compacted figure is a rule of thumb: a fifth more than loose.",
    ..CatalogueMaterial::sold(Sold::BY_WEIGHT)
};

const DRY_BAGGED: CatalogueMaterial = CatalogueMaterial {
    density: given("100 lb/cu ft", DRY_SAND),
    particle_density: GRAINS,
    bulking: given("0 %", COMMON),
    ..CatalogueMaterial::sold(Sold::plain("by bag of 50 lb", "by bag of 20 kg"))
};

pub(super) static SANDS: &[CatalogueMaterial] = &[
    CatalogueMaterial {
        name: "sharp-sand",
        called: "Sharp sand, coarse and washed, for beds, mortar and concrete",
        in_us: "Concrete sand, coarse and washed, for beds, mortar and concrete",
        kind: Kind::BeddingSand,
        ..SAND
    },
    CatalogueMaterial {
        name: "concrete-sand",
        called: "Sharp sand, coarse and washed, for beds, mortar and concrete",
        in_us: "Concrete sand, coarse and washed, for beds, mortar and concrete",
        kind: Kind::BeddingSand,
        ..SAND
    },
    CatalogueMaterial {
        name: "mason-sand",
        called: "Building sand, soft and fine, for mortar",
        in_us: "Mason sand, fine, for mortar",
        kind: Kind::MasonSand,
        ..SAND
    },
    CatalogueMaterial {
        name: "building-sand",
        called: "Building sand, soft and fine, for mortar",
        in_us: "Mason sand, fine, for mortar",
        kind: Kind::MasonSand,
        ..SAND
    },
    CatalogueMaterial {
        name: "joint-sand",
        called: "Kiln-dried sand, to brush into joints",
        in_us: "Joint sand, fine and dry, to brush into joints",
        kind: Kind::JointSand,
        ..DRY_BAGGED
    },
    CatalogueMaterial {
        name: "kiln-dried-sand",
        called: "Kiln-dried sand, to brush into joints",
        in_us: "Joint sand, fine and dry, to brush into joints",
        kind: Kind::JointSand,
        ..DRY_BAGGED
    },
    CatalogueMaterial {
        name: "polymeric-sand",
        called: "Joint sand with a binder that sets when wetted",
        kind: Kind::PolymericSand,
        density: given("90 lb/cu ft", COMMON),
        note: "Makers' figures run from 80 to 95 lb/cu ft; many count area covered instead.",
        ..CatalogueMaterial::sold(Sold::plain("by bag of 50 lb", "by bag of 20 kg"))
    },
];
