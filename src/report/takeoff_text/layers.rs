//! The layers of a surface, from the top down.

use super::sheet::Sheet;
use crate::model::Surface;
use crate::quantities::{LayerFigures, SurfaceFigures, is_granular};
use crate::report::columns::{Columns, Side};
use crate::report::trade::{UNKNOWN, area, length, mass, volume};
use crate::units::System;

/// The layers of a surface as a table; empty if there are none.
pub(super) fn layers(sheet: &Sheet<'_>, own: &Surface, figures: &SurfaceFigures) -> String {
    if figures.layers.is_empty() {
        return String::new();
    }
    let mut columns = Columns::new(&[
        ("layer", Side::Left),
        ("of", Side::Left),
        ("area", Side::Right),
        ("thickness", Side::Right),
        ("in place", Side::Right),
        ("loose", Side::Right),
        ("mass", Side::Right),
    ]);
    let entries = own.build.iter().flat_map(|build| &build.value.layers);
    for (entry, layer) in entries.zip(&figures.layers) {
        let material = entry.of.value.material();
        let is_granular = material.is_some_and(|material| is_granular(material));
        columns.row(layer_cells(sheet, layer, is_granular));
    }
    let existing = figures.layers.iter().any(|layer| layer.is_existing);
    let note = if existing {
        "  (there) lies there already: not dug for, not ordered.\n"
    } else {
        ""
    };
    format!("\n{}{note}", columns.within(sheet.layout.width))
}

fn layer_cells(sheet: &Sheet<'_>, layer: &LayerFigures, is_granular: bool) -> [String; 7] {
    let system = sheet.system;
    let known = |value: Option<f64>, shown: fn(f64, System) -> String| {
        value.map_or_else(|| UNKNOWN.to_owned(), |value| shown(value, system))
    };
    let if_thick = |cell: String| {
        if layer.role.is_sheet() {
            String::new()
        } else {
            cell
        }
    };
    let there = if layer.is_existing { " (there)" } else { "" };
    [
        format!("{}{there}", layer.role.word()),
        sheet.marked(&layer.material),
        known(layer.needed_m2(), area),
        if_thick(known(layer.thickness_m, length)),
        if_thick(known(layer.volume_m3, volume)),
        match is_granular {
            true => if_thick(known(layer.loose_volume_m3, volume)),
            false => String::new(),
        },
        if_thick(known(layer.mass_kg, mass)),
    ]
}
