//! Borders, lay-outs and what edgings stand in, in the take-off as JSON: in SI,
//! the unit in the key.

use serde::Serialize;

use crate::quantities::{self, BorderFigures, FootingFigures, LayoutFigures};

/// A border.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Border<'a> {
    material: &'a str,
    courses: u32,
    /// Whether the long side lies across the edge.
    soldier: bool,
    /// Its units and joints, the one towards the field counted.
    width_m: Option<f64>,
    area_m2: Option<f64>,
    length_m: Option<f64>,
    units: Option<f64>,
    volume_m3: Option<f64>,
    mass_kg: Option<f64>,
    joints_m3: Option<f64>,
    /// How many corners are mitred; null where none is asked to be.
    mitred_corners: Option<usize>,
    /// The length of the cuts, of the units on both sides of each mitre.
    mitre_cuts_m: Option<f64>,
    /// Null where the edge is straight.
    tightest_joint_m: Option<f64>,
    widest_joint_m: Option<f64>,
}

/// How the units of a surface lie.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Layout {
    /// Units that are laid uncut.
    whole: usize,
    /// Pieces that are cut at edges.
    cut: usize,
    /// Units that lie over a valley, cut along it into pieces that are all laid;
    /// left out where there are none.
    #[serde(skip_serializing_if = "Option::is_none")]
    over_valleys: Option<usize>,
    /// Units that these are cut from, off-cuts used again.
    cut_from: usize,
    /// Units to lay and to cut.
    stock: usize,
    /// How long all cuts are.
    cuts_m: f64,
    /// The smallest piece at an edge; null where none is cut there.
    smallest: Option<SmallestPiece>,
}

/// The smallest piece that is cut at an edge.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct SmallestPiece {
    length_m: f64,
    width_m: f64,
    /// Of a unit's area.
    share: f64,
}

/// What an edging stands in.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Footing<'a> {
    material: &'a str,
    bed_m3: Option<f64>,
    haunch_m3: Option<f64>,
    volume_m3: Option<f64>,
    mass_kg: Option<f64>,
    /// What is dug for it, as it lies in the ground.
    bank_m3: Option<f64>,
    /// The same as carted away.
    loose_m3: Option<f64>,
}

pub(super) fn border(border: &BorderFigures) -> Border<'_> {
    Border {
        material: &border.material,
        courses: border.courses,
        soldier: border.is_soldier,
        width_m: border.width_m,
        area_m2: border.area_m2,
        length_m: border.length_m,
        units: border.units,
        volume_m3: border.volume_m3,
        mass_kg: border.mass_kg,
        joints_m3: border.joint_m3,
        mitred_corners: border.mitres.map(|mitres| mitres.corners),
        mitre_cuts_m: border.mitres.map(|mitres| mitres.cut_m),
        tightest_joint_m: border.taper.map(|taper| taper.tight_m),
        widest_joint_m: border.taper.map(|taper| taper.wide_m),
    }
}

pub(super) fn layout(layout: &LayoutFigures) -> Layout {
    Layout {
        whole: layout.whole,
        cut: layout.cut,
        over_valleys: Some(layout.over_valleys).filter(|count| *count > 0),
        cut_from: layout.cut_from,
        stock: layout.stock(),
        cuts_m: layout.cut_m,
        smallest: layout.least.map(|least| SmallestPiece {
            length_m: least.length_m,
            width_m: least.width_m,
            share: least.share,
        }),
    }
}

pub(super) fn footing(footing: &FootingFigures) -> Footing<'_> {
    Footing {
        material: &footing.material,
        bed_m3: footing.bed_m3,
        haunch_m3: footing.haunch_m3,
        volume_m3: footing.volume_m3,
        mass_kg: footing.mass_kg,
        bank_m3: footing.bank_m3,
        loose_m3: footing.loose_m3,
    }
}

/// What one piece of an order measures.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct PieceSize {
    /// Its two longest sides, the longer first; several pairs where sizes are mixed.
    sides_m: Vec<[f64; 2]>,
    /// The least and the greatest thickness.
    thickness_m: Option<[f64; 2]>,
    /// How wide a pipe or gully is.
    across_m: Option<f64>,
    /// The width and depth of a channel inside.
    clear_m: Option<[f64; 2]>,
}

/// What one piece of an order measures.
pub(super) fn piece_size(size: &quantities::Size) -> PieceSize {
    let none = PieceSize {
        sides_m: Vec::new(),
        thickness_m: None,
        across_m: None,
        clear_m: None,
    };
    match size {
        quantities::Size::Piece { faces, thickness } => PieceSize {
            sides_m: faces.iter().map(|(long, wide)| [*long, *wide]).collect(),
            thickness_m: thickness.map(|(least, most)| [least, most]),
            ..none
        },
        quantities::Size::Across(wide) => PieceSize {
            across_m: Some(*wide),
            ..none
        },
        quantities::Size::Clear(wide, deep) => PieceSize {
            clear_m: Some([*wide, *deep]),
            ..none
        },
    }
}
