//! The sheet of drains: each drain, what is dug for it, and what it lies in.

use rust_xlsxwriter::XlsxError;

use super::quantities::{Units, heading, measured};
use super::table::{Book, Cell, numbers, said, words};
use crate::analysis::Analysis;
use crate::model::DrainKind;
use crate::quantities::{DrainDig, DrainFigures, StuffFigures};

/// Adds the sheet; none where there are no drains.
pub(crate) fn add(book: &mut Book, analysis: &Analysis) -> Result<(), XlsxError> {
    let drains = &analysis.figures.drains;
    if drains.is_empty() {
        return Ok(());
    }
    let units = Units::of(book.system);
    let length = |what: &str| heading(what, units.length);
    let volume = |what: &str| heading(what, units.volume);
    let columns = vec![
        words("Drain", 20.0),
        words("Part", 12.0),
        words("Of", 26.0),
        numbers(length("Length"), 11.0, "#,##0.00"),
        numbers(length("To buy"), 11.0, "#,##0.00"),
        numbers("Fall".to_owned(), 9.0, "0.00%"),
        numbers(length("Invert at its head"), 12.0, "#,##0.000"),
        numbers(length("Invert at its outlet"), 12.0, "#,##0.000"),
        numbers(length("Width of the dig"), 12.0, "#,##0.000"),
        numbers(length("Deepest"), 11.0, "#,##0.000"),
        numbers(heading("Area", units.area), 11.0, "#,##0.00"),
        numbers(volume("Volume in place"), 12.0, "#,##0.000"),
        numbers(volume("Loose volume"), 12.0, "#,##0.000"),
        numbers(heading("Mass", units.mass), 12.0, "#,##0"),
    ];
    let mut table = book.table("Drains", columns)?;
    for (own, stated) in drains.iter().zip(analysis.job.drains.iter()) {
        let to = stated.to.as_ref().map(|to| to.value.shown());
        table.total(whole(own, to, &units))?;
        if let Some(dig) = &own.dig {
            table.row(dug(own, dig, &units))?;
        }
        for (word, stuff) in [("bedding", &own.bedding), ("fill", &own.fill)] {
            if let Some(stuff) = stuff {
                table.row(filled(own, word, stuff, &units))?;
            }
        }
        if own.fabric_m2.is_some() {
            let mut cells = vec![said(&own.name), said("fabric")];
            cells.extend((0..8).map(|_| Cell::Empty));
            cells.push(measured(own.fabric_m2, units.area));
            table.row(cells)?;
        }
    }
    table.finish()
}

/// What is known or nothing: of what stands at a point there is no length.
fn if_any(value: Option<f64>, unit: &'static crate::units::unit::Unit) -> Cell {
    match value {
        Some(_) => measured(value, unit),
        None => Cell::Empty,
    }
}

/// A drain as a whole, and where it leads.
fn whole(own: &DrainFigures, to: Option<&str>, units: &Units) -> Vec<Cell> {
    let is_run = own.kind.is_some_and(DrainKind::is_run);
    let of_a_run = |value: Option<f64>| match is_run {
        true => measured(value, units.length),
        false => if_any(value, units.length),
    };
    let kind = own.kind.map_or("", DrainKind::word);
    let kind = match own.is_existing {
        true => format!("existing {kind}"),
        false => kind.to_owned(),
    };
    vec![
        said(&own.name),
        said(&kind),
        to.map_or(Cell::Empty, |to| said(&format!("to {to}"))),
        of_a_run(own.length_m),
        if_any(own.bought_m, units.length),
        match (is_run, own.fall) {
            (false, None) => Cell::Empty,
            (_, fall) => Cell::Number(fall),
        },
        measured(own.head_m, units.length),
        of_a_run(own.outlet_m),
    ]
}

fn dug(own: &DrainFigures, dig: &DrainDig, units: &Units) -> Vec<Cell> {
    let mut cells = vec![said(&own.name), said("dig")];
    cells.extend((0..6).map(|_| Cell::Empty));
    cells.extend([
        if_any(dig.width_m, units.length),
        measured(Some(dig.deepest_m), units.length),
        Cell::Empty,
        measured(Some(dig.bank_m3), units.volume),
        measured(dig.loose_m3, units.volume),
    ]);
    cells
}

fn filled(own: &DrainFigures, word: &str, stuff: &StuffFigures, units: &Units) -> Vec<Cell> {
    let mut cells = vec![said(&own.name), said(word), said(&stuff.material)];
    cells.extend((0..8).map(|_| Cell::Empty));
    cells.extend([
        measured(stuff.volume_m3, units.volume),
        if_any(stuff.loose_volume_m3, units.volume),
        measured(stuff.mass_kg, units.mass),
    ]);
    cells
}
