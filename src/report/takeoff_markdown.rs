//! The take-off as Markdown, for a note or a letter: the figures of the sheet
//! in tables, in the job's units.

use super::figure_list::{Figure, figure_list};
use super::shown_path;
use super::{Summary, cautions, unknown};
use crate::analysis::Analysis;
use crate::text::{Shown, clean};
use crate::units::System;

/// The take-off of a job as Markdown; paths as seen from a folder.
pub fn takeoff_markdown(analysis: &Analysis, folder: &str) -> String {
    let heading = &analysis.job.heading;
    let title = heading.title.as_ref().map(|title| title.value.as_str());
    let mut text = format!(
        "# {}\n\nTaken off from {}, limits of region {}.\n",
        plain(title.unwrap_or("Untitled job")),
        plain(&shown_path(&analysis.path, folder)),
        heading.region().word(),
    );
    for note in &heading.notes {
        text += &format!("\n> {}\n", plain(&note.value));
    }
    let figures = figure_list(analysis);
    for part in figures.chunk_by(|one, next| head(one) == head(next)) {
        text += &format!("\n## {}\n", part.first().map(head).unwrap_or_default());
        let tables = part.chunk_by(|one, next| label(one) == label(next));
        for table in alike(tables.collect()) {
            text += &("\n".to_owned() + &drawn(&table, heading.system()));
        }
    }
    text += &list("Not known", unknown(analysis));
    text += &list("Take care", cautions(analysis));
    let kinds = Summary::standing(analysis).kinds();
    if !kinds.is_empty() {
        text += &format!("\nBefore ordering, see what the check of this spec finds: {kinds}.\n");
    }
    text
}

/// The heading that a figure stands under.
fn head(figure: &Figure) -> String {
    match figure.part {
        "shape" => "Shapes".to_owned(),
        "order" => "Orders".to_owned(),
        "total" => "Total of what is priced".to_owned(),
        "hire" => "Hire".to_owned(),
        "cost" => "Cost".to_owned(),
        "quote" => "Quotes".to_owned(),
        "surface" => format!("Surface {}", plain(&figure.name)),
        _ => format!("Mix {}", plain(&figure.name)),
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
    plain(&parts.join(" "))
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

/// Rows of figures as a table, each kind of figure in a column of its own; the
/// one row of a whole part one figure under the other.
fn drawn(rows: &[&[Figure]], system: System) -> String {
    let mut columns: Vec<&str> = Vec::new();
    for figure in rows.iter().copied().flatten() {
        if !columns.contains(&figure.what) {
            columns.push(figure.what);
        }
    }
    let line = |cells: Vec<String>| format!("| {} |\n", cells.join(" | "));
    if let [row] = rows
        && row.first().is_some_and(|figure| label(figure).is_empty())
    {
        let figures = row.iter();
        let lines =
            figures.map(|figure| line(vec![figure.what.to_owned(), figure.value.shown(system)]));
        return "|  |  |\n| --- | ---: |\n".to_owned() + &lines.collect::<String>();
    }
    let heads = columns.iter().map(|column| (*column).to_owned());
    let mut text = line(std::iter::once(String::new()).chain(heads).collect());
    text += &format!("| --- |{}\n", " ---: |".repeat(columns.len()));
    for row in rows {
        let name = row.first().map(label).unwrap_or_default();
        let cells = columns.iter().map(|column| {
            let mut figures = row.iter();
            let figure = figures.find(|figure| figure.what == *column);
            figure.map_or(String::new(), |figure| figure.value.shown(system))
        });
        text += &line(std::iter::once(name).chain(cells).collect());
    }
    text
}

fn list(heading: &str, items: Vec<String>) -> String {
    let lines: String = items
        .iter()
        .map(|item| format!("- {}\n", plain(item)))
        .collect();
    match lines.is_empty() {
        true => lines,
        false => format!("\n## {heading}\n\n{lines}"),
    }
}

/// Text that means nothing to Markdown.
fn plain(text: &str) -> String {
    clean(text, Shown::Markdown).into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{Analyser, NoFiles};
    use crate::text::Text;

    fn markdown(text: &str) -> String {
        let path = "/jobs/a.patio";
        let analysis = Analyser::new().analyse(path, Text::from(text), &NoFiles, "2027-01-12");
        takeoff_markdown(&analysis, "/jobs")
    }

    #[test]
    fn figures_stand_in_tables() {
        let text = markdown(
            "job \"A | B\"\n  units metric\n\nshape yard\n  rectangle 6 m by 4 m\n\n\
             surface yard\n  shape yard\n  build gravel-set\n\n\
             build gravel-set\n  paving concrete-paver, 60 mm\n  base crushed-stone, 150 mm compacted\n  fabric geotextile\n",
        );
        for line in [
            "# A \\| B\n\nTaken off from a.patio, limits of region general.\n",
            "\n## Shapes\n\n|  | area | perimeter |\n| --- | ---: | ---: |\n| yard | 24.00 m² | 20 m |\n",
            "\n## Surface yard\n\n|  |  |\n| --- | ---: |\n| area | 24.00 m² |\n| fall | – |\n",
            "|  | area | thickness | volume in place | loose volume | mass |\n",
            "| paving concrete-paver | 24.00 m² | 60 mm |",
            "| fabric geotextile | 24.00 m² |  |  |  |  |\n",
            "\n## Orders\n",
            "\n## Not known\n\n- ",
        ] {
            assert!(text.contains(line), "{line}\n{text}");
        }
    }

    #[test]
    fn an_empty_spec_has_a_title_only() {
        let text = markdown("");
        assert!(text.starts_with("# Untitled job\n"), "{text}");
        assert!(!text.contains("##"), "{text}");
    }
}
