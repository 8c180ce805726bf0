//! The sheet of what was measured: each reading beside its design.

use rust_xlsxwriter::XlsxError;

use super::quantities::{Units, heading, measured};
use super::table::{Book, Cell, numbers, said, words};
use crate::analysis::Analysis;
use crate::quantities::MeasuredFigures;
use crate::report::takeoff_text::{fall_as_built, next_layer, top_measured, water_as_built};
use crate::units::System;
use crate::vocabulary::Top;

/// Adds the sheet; none where nothing was measured.
pub(crate) fn add(book: &mut Book, analysis: &Analysis) -> Result<(), XlsxError> {
    let all = &analysis.figures.measured;
    if all.is_empty() {
        return Ok(());
    }
    let system = book.system;
    let units = Units::of(system);
    let length = |what: &str| heading(what, units.length);
    let level = |what: &str| heading(what, units.thickness);
    let columns = vec![
        words("Measured", 24.0),
        words("Of", 30.0),
        numbers(length("East"), 10.0, "#,##0.000"),
        numbers(length("North"), 10.0, "#,##0.000"),
        numbers(level("Level"), 12.0, "#,##0.0##"),
        numbers(level("Design"), 12.0, "#,##0.0##"),
        numbers(level("Too high"), 12.0, "#,##0.0##"),
        words("As built", 60.0),
    ];
    let mut table = book.table("As built", columns)?;
    for own in all.iter() {
        let of = top_measured(own);
        for point in &own.points {
            let remark = match point.is_outside {
                true => said("off the surface: left out of the rest"),
                false => Cell::Empty,
            };
            table.row(vec![
                said(&own.what),
                said(&of),
                measured(Some(point.at.x), units.length),
                measured(Some(point.at.y), units.length),
                measured(point.level_m, units.thickness),
                measured(point.design_m, units.thickness),
                measured(point.off_m, units.thickness),
                remark,
            ])?;
        }
        let mut cells = vec![said(&own.what), said("on average")];
        cells.extend((0..4).map(|_| Cell::Empty));
        cells.push(measured(own.mean_m, units.thickness));
        cells.push(said(&whole(own, system)));
        table.total(cells)?;
    }
    table.finish()
}

/// What holds of all the readings together.
fn whole(own: &MeasuredFigures, system: System) -> String {
    let mut parts = vec![format!("falls {}", fall_as_built(own))];
    if own.top == Top::Finish {
        parts.push(format!("water {}", water_as_built(&own.water, system)));
    }
    if let Some(takes) = &own.takes {
        parts.push(next_layer(takes, system));
    }
    parts.join("; ")
}
