//! Crushed stone, gravel, recycled material, topsoil.

use super::material::{CatalogueMaterial, Sold, Sourced, given};
use crate::materials::documents::{
    COMMON, RECALLED, WSDOT_COMPACTED, WSDOT_GRAVITY, WSDOT_LOOSE, quarry_weights, truck_weights,
};
use crate::materials::kind::Kind;
use crate::sources::Source;

const GRAINS: Option<Sourced> = given("2650 kg/m3", WSDOT_GRAVITY);

const AGGREGATE: CatalogueMaterial = CatalogueMaterial {
    particle_density: GRAINS,
    ..CatalogueMaterial::sold(Sold::BY_WEIGHT)
};

const DENSE_BASE: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::DenseAggregate,
    density: given("109.3 lb/cu ft", WSDOT_LOOSE),
    compacted: given("137.0 lb/cu ft", WSDOT_COMPACTED),
    note: "Sources disagree: 126 lb/cu ft in the truck (a quarry's chart) and 147 lb/cu ft \
           compacted (a contractor's rule) are printed too. Order by weight, or give the \
           supplier's figures.",
    ..AGGREGATE
};

const OPEN_GRADED: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::OpenAggregate,
    density: given(
        "100 lb/cu ft",
        truck_weights("crushed stone 3/8 to 1-1/2 in, 1.35 tons"),
    ),
    compacted: given("110 lb/cu ft", COMMON),
    note: "Single-size stone hardly compacts: 5 to 10 % is common practice, no document says so.",
    ..AGGREGATE
};

const ROUNDED: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::RoundedGravel,
    ..AGGREGATE
};

pub(super) static AGGREGATES: &[CatalogueMaterial] = &[
    CatalogueMaterial {
        name: "crushed-stone",
        called: "Crushed stone graded down to fines, for a dense base",
        ..DENSE_BASE
    },
    CatalogueMaterial {
        name: "crusher-run",
        called: "Crusher run, stone as it leaves the crusher, for a dense base",
        ..DENSE_BASE
    },
    CatalogueMaterial {
        name: "crushed-top-course",
        called: "Crushed stone, 16 mm and less, to top a base",
        in_us: "Crushed stone, 5/8 in and less, to top a base",
        kind: Kind::DenseAggregate,
        density: given("105.6 lb/cu ft", WSDOT_LOOSE),
        compacted: given("137.0 lb/cu ft", WSDOT_COMPACTED),
        ..AGGREGATE
    },
    CatalogueMaterial {
        name: "ballast",
        called: "Coarse crushed stone with fines, for the bottom of a deep base",
        kind: Kind::DenseAggregate,
        density: given("114.8 lb/cu ft", WSDOT_LOOSE),
        compacted: given("144.4 lb/cu ft", WSDOT_COMPACTED),
        ..AGGREGATE
    },
    CatalogueMaterial {
        name: "type-1",
        called: "Type 1 sub-base, crushed stone of 40 mm or so graded down to dust",
        in_us: "Type 1 subbase, crushed stone of 1 1/2 in or so graded down to dust",
        kind: Kind::DenseAggregate,
        density: given("1.75 t/m3", COMMON),
        compacted: given("2.2 t/m3", RECALLED),
        note: "Compacted it is 2.1 to 2.3 t/m3, as recalled; no document was found. Merchants' figures of 1.5 to 1.7 t/m3 are loose ones.",
        ..AGGREGATE
    },
    CatalogueMaterial {
        name: "type-3",
        called: "Type 3 sub-base, crushed stone with few fines, which drains",
        kind: Kind::OpenAggregate,
        density: given("1.6 t/m3", COMMON),
        compacted: given("1.75 t/m3", COMMON),
        ..AGGREGATE
    },
    CatalogueMaterial {
        name: "gravel-base",
        called: "Sandy gravel graded for a base",
        kind: Kind::DenseAggregate,
        density: given("110 lb/cu ft", quarry_weights("gravel, dry, 2,970 lb")),
        compacted: given("137.0 lb/cu ft", WSDOT_COMPACTED),
        note: "The exhibit gives 3,400 to 3,800 lb/cu yd and advises 3,700; nearer 3,400 where \
               it is mostly sand.",
        ..AGGREGATE
    },
    CatalogueMaterial {
        name: "recycled-concrete",
        called: "Crushed concrete graded down to fines, for a dense base",
        kind: Kind::DenseAggregate,
        density: given(
            "114.8 lb/cu ft",
            truck_weights("crushed concrete 1-1/2 in, 1.55 tons"),
        ),
        compacted: given("130 lb/cu ft", COMMON),
        particle_density: None,
        ..AGGREGATE
    },
    CatalogueMaterial {
        name: "recycled-asphalt",
        called: "Crushed asphalt paving, for a dense base or a drive's surface",
        kind: Kind::DenseAggregate,
        density: given(
            "103.7 lb/cu ft",
            truck_weights("recycled asphalt 1 in, 1.40 tons"),
        ),
        compacted: given("125 lb/cu ft", COMMON),
        particle_density: None,
        ..AGGREGATE
    },
    CatalogueMaterial {
        name: "open-stone",
        called: "Clean crushed stone, about 20 mm, without fines",
        in_us: "Clean crushed stone, about 3/4 in, without fines",
        grain_mm: Some(20),
        ..OPEN_GRADED
    },
    CatalogueMaterial {
        name: "chip-stone",
        called: "Clean stone chips, about 6 to 10 mm, for beds and joints that drain",
        in_us: "Clean stone chips, about 1/4 to 3/8 in, for beds and joints that drain",
        grain_mm: Some(10),
        ..OPEN_GRADED
    },
    CatalogueMaterial {
        name: "permeable-ballast",
        called: "Coarse clean crushed stone, for a base that stores water",
        kind: Kind::OpenAggregate,
        density: given("103.7 lb/cu ft", WSDOT_LOOSE),
        compacted: given("112 lb/cu ft", COMMON),
        grain_mm: Some(60),
        ..AGGREGATE
    },
    CatalogueMaterial {
        name: "concrete-stone",
        called: "Stone for concrete, crushed or rounded, washed",
        kind: Kind::OpenAggregate,
        density: given("95 lb/cu ft", COMMON),
        grain_mm: Some(20),
        ..AGGREGATE
    },
    CatalogueMaterial {
        name: "all-in-ballast",
        called: "All-in ballast, washed sand and gravel together, for concrete",
        density: given(
            "1.76 t/m3",
            Source::read(
                "A UK builders' page of loose densities",
                "ballast, 1.76 t/m³",
            ),
        ),
        ..ROUNDED
    },
    CatalogueMaterial {
        name: "gravel",
        called: "Gravel, rounded, of mixed size",
        density: given("110 lb/cu ft", quarry_weights("gravel, dry, 2,970 lb")),
        compacted: given("125 lb/cu ft", COMMON),
        note: "Printed figures run from 95 to 120 lb/cu ft loose, by the sand in it.",
        ..ROUNDED
    },
    CatalogueMaterial {
        name: "pea-gravel",
        called: "Pea gravel, rounded, about 10 mm",
        in_us: "Pea gravel, rounded, about 3/8 in",
        density: given("100 lb/cu ft", COMMON),
        grain_mm: Some(10),
        ..ROUNDED
    },
    CatalogueMaterial {
        name: "shingle",
        called: "Shingle, rounded, 10 to 20 mm",
        in_us: "Shingle, rounded, 3/8 to 3/4 in",
        density: given("1.6 t/m3", COMMON),
        grain_mm: Some(20),
        ..ROUNDED
    },
    CatalogueMaterial {
        name: "stone-dust",
        called: "Stone dust, screenings of 6 mm and less with all their fines",
        in_us: "Stone dust, screenings of 1/4 in and less with all their fines",
        kind: Kind::StoneDust,
        density: given(
            "103.7 lb/cu ft",
            truck_weights("stone screenings, 1.40 tons"),
        ),
        compacted: given("125 lb/cu ft", COMMON),
        ..AGGREGATE
    },
    CatalogueMaterial {
        name: "decomposed-granite",
        called: "Decomposed granite, fine and gritty, for a walked-on surface",
        kind: Kind::StoneDust,
        density: given("100 lb/cu ft", COMMON),
        compacted: given("125 lb/cu ft", COMMON),
        ..AGGREGATE
    },
    CatalogueMaterial {
        name: "topsoil",
        called: "Topsoil, screened",
        kind: Kind::Soil,
        density: given("81.5 lb/cu ft", truck_weights("screened loam, 1.10 tons")),
        ..CatalogueMaterial::sold(Sold::BY_VOLUME)
    },
    CatalogueMaterial {
        name: "hardcore",
        called: "Hardcore, broken brick and concrete of no fixed grading",
        in_us: "Rubble fill, broken brick and concrete of no fixed grading",
        kind: Kind::Fill,
        density: given("1.5 t/m3", COMMON),
        compacted: given("1.9 t/m3", COMMON),
        ..CatalogueMaterial::sold(Sold::BY_WEIGHT)
    },
];
