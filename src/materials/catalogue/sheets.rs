//! Fabrics, mesh and membranes: sold by area, without a thickness.

use super::material::{CatalogueMaterial, Sold};
use crate::materials::kind::Kind;

const FABRIC: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::Fabric,
    ..CatalogueMaterial::sold(Sold::BY_AREA)
};

const MESH: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::Mesh,
    ..FABRIC
};

const MEMBRANE: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::Membrane,
    ..FABRIC
};

pub(super) static SHEETS: &[CatalogueMaterial] = &[
    CatalogueMaterial {
        name: "geotextile",
        called: "Geotextile, to separate base and ground",
        ..FABRIC
    },
    CatalogueMaterial {
        name: "woven-geotextile",
        called: "Woven geotextile, to separate and to strengthen over soft ground",
        ..FABRIC
    },
    CatalogueMaterial {
        name: "weed-fabric",
        called: "Weed fabric under gravel; too light to separate a base from the ground",
        kind: Kind::WeedFabric,
        ..FABRIC
    },
    CatalogueMaterial {
        name: "geogrid",
        called: "Geogrid, to strengthen a base over soft ground",
        ..MESH
    },
    CatalogueMaterial {
        name: "welded-mesh",
        called: "Welded wire mesh, reinforcement of a slab",
        ..MESH
    },
    CatalogueMaterial {
        name: "polythene-sheet",
        called: "Polythene sheet, under a slab or as a bond break",
        ..MEMBRANE
    },
    CatalogueMaterial {
        name: "crack-membrane",
        called: "Crack-isolation or uncoupling membrane, bonded between paving and slab",
        kind: Kind::CrackMembrane,
        ..MEMBRANE
    },
    CatalogueMaterial {
        name: "drainage-mat",
        called: "Drainage mat under a mortar bed, to lead its water away",
        ..MEMBRANE
    },
    CatalogueMaterial {
        name: "impermeable-liner",
        called: "Liner that keeps water in the base off the ground and the building",
        ..MEMBRANE
    },
];
