//! The sheet of mixes: how much of each, in how many batches, of what.

use rust_xlsxwriter::XlsxError;

use super::quantities::{Units, heading, measured};
use super::table::{Book, Cell, numbers, said, words};
use crate::analysis::Analysis;

/// Adds the sheet.
pub(crate) fn add(book: &mut Book, analysis: &Analysis) -> Result<(), XlsxError> {
    let units = Units::of(book.system);
    let columns = vec![
        words("Mix", 20.0),
        words("Of", 26.0),
        numbers(heading("In place", units.volume), 12.0, "#,##0.000"),
        numbers(heading("To be mixed", units.volume), 12.0, "#,##0.000"),
        numbers("Batches".to_owned(), 10.0, "#,##0"),
        numbers(heading("Mass", units.mass), 12.0, "#,##0"),
        numbers(heading("Loose volume", units.volume), 12.0, "#,##0.000"),
        numbers("Packs".to_owned(), 10.0, "#,##0.00"),
        words("A pack is a", 12.0),
    ];
    let mut table = book.table("Mixes", columns)?;
    for mix in analysis.figures.mixes.iter() {
        table.total(vec![
            said(&mix.name),
            said("all of it"),
            measured(mix.volume_m3, units.volume),
            measured(mix.mixed_m3, units.volume),
            Cell::Number(mix.batches),
        ])?;
        let blank = || [Cell::Empty, Cell::Empty, Cell::Empty];
        for part in &mix.ingredients {
            let mut cells = vec![said(&mix.name), said(&part.material)];
            cells.extend(blank());
            cells.push(measured(part.mass_kg, units.mass));
            cells.push(measured(part.loose_volume_m3, units.volume));
            if let Some(pack) = &part.pack {
                cells.extend([Cell::Number(part.packs), said(pack)]);
            }
            table.row(cells)?;
        }
        let mut water = vec![said(&mix.name), said("water")];
        water.extend(blank());
        water.push(measured(mix.water_kg, units.mass));
        table.row(water)?;
    }
    table.finish()
}
