//! The shapes of a job.

use super::sheet::Sheet;
use crate::quantities::FigureRef;
use crate::report::columns::{Columns, Side};
use crate::report::trade::{UNKNOWN, area, length};

/// The area and the perimeter of each shape; empty if there is none.
pub(super) fn text(sheet: &Sheet<'_>) -> String {
    let shapes = &sheet.analysis.figures.shapes;
    if shapes.is_empty() {
        return String::new();
    }
    let heads = [
        ("", Side::Left),
        ("area", Side::Right),
        ("perimeter", Side::Right),
    ];
    let mut columns = Columns::new(&heads);
    for shape in shapes.iter() {
        let unknown = || UNKNOWN.to_owned();
        columns.row([
            shape.name.clone(),
            shape
                .area_m2
                .map_or_else(unknown, |value| area(value, sheet.system)),
            shape
                .perimeter_m
                .map_or_else(unknown, |value| length(value, sheet.system)),
        ]);
    }
    let workings = sheet.workings((0..shapes.len()).map(FigureRef::Shape));
    format!("SHAPES\n{}{workings}", columns.within(sheet.layout.width))
}
