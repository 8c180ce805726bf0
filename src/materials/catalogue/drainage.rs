//! Pipes, channels, gullies and crates. Their sizes are makers' own and are
//! stated in the spec.

use super::material::{CatalogueMaterial, Sold};
use crate::materials::kind::Kind;

const PIPE: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::Pipe,
    ..CatalogueMaterial::sold(Sold::BY_LENGTH)
};

const CHANNEL: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::DrainChannel,
    ..PIPE
};

const GULLY: CatalogueMaterial = CatalogueMaterial {
    kind: Kind::Gully,
    ..CatalogueMaterial::sold(Sold::EACH)
};

pub(super) static DRAINAGE: &[CatalogueMaterial] = &[
    CatalogueMaterial {
        name: "plastic-pipe",
        called: "Smooth plastic drain pipe",
        ..PIPE
    },
    CatalogueMaterial {
        name: "perforated-pipe",
        called: "Perforated plastic pipe, smooth inside, laid with the holes down",
        ..PIPE
    },
    CatalogueMaterial {
        name: "coiled-pipe",
        called: "Corrugated perforated pipe off the coil, for land drains",
        ..PIPE
    },
    CatalogueMaterial {
        name: "clay-pipe",
        called: "Fired clay drain pipe",
        ..PIPE
    },
    CatalogueMaterial {
        name: "concrete-pipe",
        called: "Concrete drain pipe",
        ..PIPE
    },
    CatalogueMaterial {
        name: "polymer-channel",
        called: "Drain channel of polymer concrete, with its grating",
        in_us: "Trench drain of polymer concrete, with its grate",
        ..CHANNEL
    },
    CatalogueMaterial {
        name: "plastic-channel",
        called: "Plastic drain channel, with its grating",
        in_us: "Plastic trench drain, with its grate",
        ..CHANNEL
    },
    CatalogueMaterial {
        name: "concrete-channel",
        called: "Concrete drain channel, with its grating, or a dished concrete channel",
        in_us: "Concrete trench drain with its grate, or a dished concrete channel",
        ..CHANNEL
    },
    CatalogueMaterial {
        name: "brick-channel",
        called: "Channel of brick laid in mortar",
        ..CHANNEL
    },
    CatalogueMaterial {
        name: "clay-gully",
        called: "Fired clay gully with its grating",
        in_us: "Fired clay catch basin with its grate",
        ..GULLY
    },
    CatalogueMaterial {
        name: "plastic-gully",
        called: "Plastic gully with its grating",
        in_us: "Plastic catch basin with its grate",
        ..GULLY
    },
    CatalogueMaterial {
        name: "crate",
        called: "Plastic crates for a soakaway, counted by what they fill",
        in_us: "Plastic crates for a dry well, counted by what they fill",
        kind: Kind::Crate,
        ..CatalogueMaterial::sold(Sold::BY_VOLUME)
    },
];
