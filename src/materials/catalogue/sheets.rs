//! Fabrics, mesh and membranes: sold by area, without a thickness. Each has
//! the size of a usual roll or sheet, by which laps are counted.

use super::material::{CatalogueMaterial, Sold, given};
use crate::materials::kind::Kind;
use crate::sources::Source;

const FABRIC: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::Fabric,
    unit: given("4.5 m by 100 m", Source::COMMON_PRACTICE),
    ..CatalogueMaterial::sold(Sold::BY_AREA)
};

const MESH: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::Mesh,
    unit: given("2.4 m by 4.8 m", Source::COMMON_PRACTICE),
    ..FABRIC
};

const MEMBRANE: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::Membrane,
    unit: given("4 m by 25 m", Source::COMMON_PRACTICE),
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
        unit: given("4 m by 50 m", Source::COMMON_PRACTICE),
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
        unit: given("1 m by 30 m", Source::COMMON_PRACTICE),
        ..MEMBRANE
    },
    CatalogueMaterial {
        name: "drainage-mat",
        called: "Drainage mat under a mortar bed, to lead its water away",
        unit: given("1 m by 20 m", Source::COMMON_PRACTICE),
        ..MEMBRANE
    },
    CatalogueMaterial {
        name: "impermeable-liner",
        called: "Liner that keeps water in the base off the ground and the building",
        ..MEMBRANE
    },
];
