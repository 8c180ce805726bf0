//! The sheet of steps: each flight, and what it is built of.

use rust_xlsxwriter::XlsxError;

use super::quantities::{Units, heading, measured};
use super::table::{Book, Cell, numbers, said, words};
use crate::analysis::Analysis;
use crate::quantities::StepsFigures;

/// Adds the sheet; none where there are no steps.
pub(crate) fn add(book: &mut Book, analysis: &Analysis) -> Result<(), XlsxError> {
    let steps = &analysis.figures.steps;
    if steps.is_empty() {
        return Ok(());
    }
    let units = Units::of(book.system);
    let columns = vec![
        words("Flight", 20.0),
        words("Part", 12.0),
        words("Of", 26.0),
        numbers("Risers or pieces".to_owned(), 10.0, "#,##0"),
        numbers(
            heading("Riser or thickness", units.thickness),
            12.0,
            "#,##0.###",
        ),
        numbers(heading("Going", units.thickness), 12.0, "#,##0.###"),
        numbers(heading("Width", units.length), 12.0, "#,##0.00"),
        numbers(heading("Area", units.area), 12.0, "#,##0.00"),
        numbers(heading("Volume in place", units.volume), 12.0, "#,##0.000"),
        numbers(heading("Loose volume", units.volume), 12.0, "#,##0.000"),
        numbers(heading("Mass", units.mass), 12.0, "#,##0"),
    ];
    let mut table = book.table("Steps", columns)?;
    for flight in steps.iter() {
        table.total(whole(flight, &units))?;
        for (word, part) in flight.parts() {
            table.row(vec![
                said(&flight.name),
                said(word),
                said(&part.material),
                match part.pieces {
                    Some(pieces) => Cell::Number(Some(pieces)),
                    None => Cell::Empty,
                },
                measured(part.thickness_m, units.thickness),
                Cell::Empty,
                Cell::Empty,
                measured(part.area_m2, units.area),
                measured(part.volume_m3, units.volume),
                measured(part.loose_volume_m3, units.volume),
                measured(part.mass_kg, units.mass),
            ])?;
        }
        if let Some(dig) = &flight.dig {
            let mut cells = vec![said(&flight.name), said("dig")];
            cells.extend((0..5).map(|_| Cell::Empty));
            cells.push(measured(Some(dig.area_m2), units.area));
            cells.push(measured(Some(dig.bank_m3), units.volume));
            cells.push(measured(dig.loose_m3, units.volume));
            table.row(cells)?;
        }
    }
    table.finish()
}

/// The flight as a whole.
fn whole(figures: &StepsFigures, units: &Units) -> Vec<Cell> {
    let flight = figures.flight.as_ref();
    vec![
        said(&figures.name),
        said("flight"),
        said(figures.unknown.unwrap_or_default()),
        Cell::Number(flight.map(|own| f64::from(own.risers))),
        measured(flight.map(|own| own.riser_m), units.thickness),
        measured(flight.map(|own| own.going_m), units.thickness),
        measured(flight.map(|own| own.width_m), units.length),
        measured(flight.map(|own| own.plan_m2), units.area),
    ]
}
