//! Edgings and joint fillers: sold by length.

use super::material::{CatalogueMaterial, Sold};
use crate::materials::kind::Kind;

const EDGING: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::Edging,
    ..CatalogueMaterial::sold(Sold::BY_LENGTH)
};

const FILLER: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::JointFiller,
    ..EDGING
};

pub(super) static EDGINGS: &[CatalogueMaterial] = &[
    CatalogueMaterial {
        name: "steel-edge",
        called: "Steel edging, spiked to the base",
        ..EDGING
    },
    CatalogueMaterial {
        name: "aluminium-edge",
        called: "Aluminium edging, spiked to the base",
        ..EDGING
    },
    CatalogueMaterial {
        name: "plastic-edge",
        called: "Plastic edging, spiked to the base",
        ..EDGING
    },
    CatalogueMaterial {
        name: "timber-edge",
        called: "Timber edging on pegs",
        ..EDGING
    },
    CatalogueMaterial {
        name: "concrete-kerb",
        called: "Concrete kerb or edging, bedded and haunched in concrete",
        ..EDGING
    },
    CatalogueMaterial {
        name: "stone-kerb",
        called: "Stone kerb or edging, bedded and haunched in concrete",
        ..EDGING
    },
    CatalogueMaterial {
        name: "brick-edge",
        called: "Row of brick on edge, bedded and haunched in mortar",
        ..EDGING
    },
    CatalogueMaterial {
        name: "foam-strip",
        called: "Foam strip for movement and isolation joints",
        ..FILLER
    },
    CatalogueMaterial {
        name: "backer-rod",
        called: "Foam rod behind the sealant of a movement joint",
        ..FILLER
    },
];
