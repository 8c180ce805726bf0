//! The sheet of quantities: each layer, joint, edging and dig of each surface.

use rust_xlsxwriter::XlsxError;

use super::table::{Book, Cell, numbers, said, words};
use crate::analysis::Analysis;
use crate::quantities::SurfaceFigures;
use crate::units::System;
use crate::units::unit::{
    CUBIC_METRE, CUBIC_YARD, FOOT, INCH, KILOGRAM, METRE, MILLIMETRE, POUND, SQUARE_FOOT,
    SQUARE_METRE, Unit,
};

/// The units of the sheets.
pub(crate) struct Units {
    /// Of areas.
    pub area: &'static Unit,
    /// Of thicknesses.
    pub thickness: &'static Unit,
    /// Of volumes.
    pub volume: &'static Unit,
    /// Of masses.
    pub mass: &'static Unit,
    /// Of lengths.
    pub length: &'static Unit,
}

impl Units {
    /// Those of a job.
    pub(crate) const fn of(system: System) -> Units {
        match system {
            System::Metric => Units {
                area: &SQUARE_METRE,
                thickness: &MILLIMETRE,
                volume: &CUBIC_METRE,
                mass: &KILOGRAM,
                length: &METRE,
            },
            System::Imperial => Units {
                area: &SQUARE_FOOT,
                thickness: &INCH,
                volume: &CUBIC_YARD,
                mass: &POUND,
                length: &FOOT,
            },
        }
    }
}

/// A heading with its unit.
pub(crate) fn heading(words: &str, unit: &Unit) -> String {
    let symbol = match unit.symbol {
        "m2" => "m²",
        "m3" => "m³",
        symbol => symbol,
    };
    format!("{words} ({symbol})")
}

/// A figure in SI as a cell in a unit.
pub(crate) fn measured(value: Option<f64>, unit: &'static Unit) -> Cell {
    Cell::Number(value.map(|value| unit.from_base(value)))
}

/// Adds the sheet.
pub(crate) fn add(book: &mut Book, analysis: &Analysis) -> Result<(), XlsxError> {
    let units = Units::of(book.system);
    let columns = vec![
        words("Surface", 20.0),
        words("Part", 16.0),
        words("Of", 26.0),
        numbers(heading("Area", units.area), 12.0, "#,##0.00"),
        numbers(heading("Thickness", units.thickness), 12.0, "#,##0.###"),
        numbers(heading("Volume in place", units.volume), 12.0, "#,##0.000"),
        numbers(heading("Loose volume", units.volume), 12.0, "#,##0.000"),
        numbers(heading("Mass", units.mass), 12.0, "#,##0"),
        numbers(heading("Length", units.length), 12.0, "#,##0.00"),
    ];
    let mut table = book.table("Quantities", columns)?;
    for surface in analysis.figures.surfaces.iter() {
        for cells in rows(surface, &units) {
            table.row(cells)?;
        }
    }
    table.finish()
}

fn rows(surface: &SurfaceFigures, units: &Units) -> Vec<Vec<Cell>> {
    let of = |part: &str, material: &str| vec![said(&surface.name), said(part), said(material)];
    let mut rows = Vec::new();
    let mut whole = of("surface", surface.shape.as_deref().unwrap_or_default());
    whole.push(measured(surface.area_m2, units.area));
    whole.push(measured(surface.depth_m, units.thickness));
    whole.extend([Cell::Empty, Cell::Empty, Cell::Empty]);
    whole.push(measured(surface.perimeter_m, units.length));
    rows.push(whole);
    for layer in &surface.layers {
        let mut cells = of(layer.role.word(), &layer.material);
        cells.push(measured(layer.sheet_m2.or(layer.area_m2), units.area));
        if !layer.role.is_sheet() {
            cells.push(measured(layer.thickness_m, units.thickness));
            cells.push(measured(layer.volume_m3, units.volume));
            cells.push(measured(layer.loose_volume_m3, units.volume));
            cells.push(measured(layer.mass_kg, units.mass));
        }
        rows.push(cells);
    }
    for border in &surface.borders {
        let mut cells = of("border", &border.material);
        cells.push(measured(border.area_m2, units.area));
        cells.push(Cell::Empty);
        cells.push(measured(border.volume_m3, units.volume));
        cells.push(Cell::Empty);
        cells.push(measured(border.mass_kg, units.mass));
        cells.push(measured(border.length_m, units.length));
        rows.push(cells);
    }
    if let Some(joints) = &surface.joints {
        let mut cells = of("joints", joints.material.as_deref().unwrap_or_default());
        cells.extend([Cell::Empty, Cell::Empty]);
        cells.push(measured(joints.volume_m3, units.volume));
        cells.push(Cell::Empty);
        cells.push(measured(joints.mass_kg, units.mass));
        cells.push(measured(joints.length_m, units.length));
        rows.push(cells);
    }
    for edging in &surface.edgings {
        let mut cells = of("edging", &edging.material);
        cells.extend((0..5).map(|_| Cell::Empty));
        cells.push(measured(edging.length_m, units.length));
        rows.push(cells);
        if let Some(footing) = &edging.footing {
            let mut cells = of("under the edging", &footing.material);
            cells.extend([Cell::Empty, Cell::Empty]);
            cells.push(measured(footing.volume_m3, units.volume));
            cells.push(Cell::Empty);
            cells.push(measured(footing.mass_kg, units.mass));
            rows.push(cells);
            let mut cells = of("dig under the edging", "");
            cells.extend([Cell::Empty, Cell::Empty]);
            cells.push(measured(footing.bank_m3, units.volume));
            cells.push(measured(footing.loose_m3, units.volume));
            rows.push(cells);
        }
    }
    if surface.dug.is_some() {
        let dig = surface.dig.as_ref();
        let mut cells = of("dig", "");
        cells.push(measured(dig.map(|dig| dig.area_m2), units.area));
        cells.push(Cell::Empty);
        cells.push(measured(dig.map(|dig| dig.bank_m3), units.volume));
        cells.push(measured(dig.and_then(|dig| dig.loose_m3), units.volume));
        rows.push(cells);
    }
    rows
}
