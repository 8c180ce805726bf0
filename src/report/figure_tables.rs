//! The figures of a take-off in tables, for formats that have such.

use super::figure_list::{Figure, figure_list};
use crate::analysis::Analysis;
use crate::units::System;

/// A part of the take-off: a surface, a mix, the orders.
pub(super) struct Part {
    /// Shape, surface, mix, order, total, work, hire, cost or quote.
    pub kind: &'static str,
    /// Its heading: `Surface`, to be followed by its name.
    pub heading: &'static str,
    /// The name of the surface or mix; empty for lists of all.
    pub name: String,
    /// What is told of it.
    pub tables: Vec<Table>,
}

/// Rows of like figures.
pub(super) enum Table {
    /// Figures of the whole part, each beside what it is.
    Whole(Vec<(&'static str, String)>),
    /// What each column is, and the rows: a label and a cell a column.
    Rows(Vec<&'static str>, Vec<(String, Vec<String>)>),
}

/// The figures of a job, part by part.
pub(super) fn figure_tables(analysis: &Analysis) -> Vec<Part> {
    let system = analysis.job.heading.system();
    let figures = figure_list(analysis);
    let parts = figures.chunk_by(|one, next| head(one) == head(next));
    let parts = parts.filter_map(|part| {
        let first = part.first()?;
        let (heading, name) = head(first);
        let rows = part.chunk_by(|one, next| label(one) == label(next));
        let alike = alike(rows.collect());
        Some(Part {
            kind: first.part,
            heading,
            name: name.to_owned(),
            tables: alike.iter().map(|rows| table(rows, system)).collect(),
        })
    });
    parts.collect()
}

/// The heading that a figure stands under, and the name after it.
fn head(figure: &Figure) -> (&'static str, &str) {
    match figure.part {
        "shape" => ("Shapes", ""),
        "order" => ("Orders", ""),
        "total" => ("Total of what is priced", ""),
        "work" => ("Time", ""),
        "hire" => ("Hire", ""),
        "cost" => ("Cost", ""),
        "quote" => ("Quotes", ""),
        "measured" => ("As built", &figure.name),
        "surface" => ("Surface", &figure.name),
        "drain" => ("Drain", &figure.name),
        "steps" => ("Steps", &figure.name),
        _ => ("Mix", &figure.name),
    }
}

/// What the row of a figure is called: the shape, the layer and its material,
/// or the material alone.
fn label(figure: &Figure) -> String {
    let name = match figure.part {
        "shape" | "hire" | "cost" => figure.name.as_str(),
        "quote" if figure.name.is_empty() => "somebody",
        "quote" => figure.name.as_str(),
        _ => figure.material.as_str(),
    };
    let parts = [figure.item, name];
    let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join(" ")
}

/// The rows of a part, those that begin with the same kind of figure together;
/// what is of the whole part stands alone.
fn alike(rows: Vec<&[Figure]>) -> Vec<Vec<&[Figure]>> {
    let first = |row: &[Figure]| {
        row.first()
            .map(|figure| (figure.what, label(figure).is_empty()))
    };
    let mut tables: Vec<Vec<&[Figure]>> = Vec::new();
    for row in rows {
        match tables.last_mut() {
            Some(table) if table.last().is_some_and(|last| first(last) == first(row)) => {
                table.push(row);
            }
            _ => tables.push(vec![row]),
        }
    }
    tables
}

/// Rows of figures, each kind of figure in a column of its own; the one row of
/// a whole part one figure under the other.
fn table(rows: &[&[Figure]], system: System) -> Table {
    if let [row] = rows
        && row.first().is_some_and(|figure| label(figure).is_empty())
    {
        let figures = row.iter();
        return Table::Whole(
            figures
                .map(|figure| (figure.what, figure.value.shown(system)))
                .collect(),
        );
    }
    let mut columns: Vec<&'static str> = Vec::new();
    for figure in rows.iter().copied().flatten() {
        if !columns.contains(&figure.what) {
            columns.push(figure.what);
        }
    }
    let cells = |row: &&[Figure]| {
        let name = row.first().map(label).unwrap_or_default();
        let cells = columns.iter().map(|column| {
            let figure = row.iter().find(|figure| figure.what == *column);
            figure.map_or(String::new(), |figure| figure.value.shown(system))
        });
        (name, cells.collect())
    };
    let rows = rows.iter().map(cells).collect();
    Table::Rows(columns, rows)
}
