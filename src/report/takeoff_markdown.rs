//! The take-off as Markdown, for a note or a letter: the figures of the sheet
//! in tables, in the job's units.

use super::figure_tables::{Table, figure_tables};
use super::markdown::{list, plain, row};
use super::shown_path;
use super::{Summary, cautions, unknown};
use crate::analysis::Analysis;

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
    for part in figure_tables(analysis) {
        let heading = format!("{} {}", part.heading, plain(&part.name));
        text += &format!("\n## {}\n", heading.trim_end());
        for table in &part.tables {
            text += &("\n".to_owned() + &drawn(table));
        }
    }
    text += &list("Not known", &unknown(analysis));
    text += &list("Take care", &cautions(analysis));
    let kinds = Summary::standing(analysis).kinds();
    if !kinds.is_empty() {
        text += &format!("\nBefore ordering, see what the check of this spec finds: {kinds}.\n");
    }
    text
}

/// A table; the first column has no heading.
fn drawn(table: &Table) -> String {
    match table {
        Table::Whole(figures) => {
            let figures = figures.iter();
            let lines = figures.map(|(what, shown)| row([(*what).to_owned(), shown.clone()]));
            "|  |  |\n| --- | ---: |\n".to_owned() + &lines.collect::<String>()
        }
        Table::Rows(columns, rows) => {
            let heads = columns.iter().map(|column| (*column).to_owned());
            let mut text = row(std::iter::once(String::new()).chain(heads));
            text += &format!("| --- |{}\n", " ---: |".repeat(columns.len()));
            for (name, cells) in rows {
                let cells = cells.iter().map(|cell| words(cell));
                text += &row(std::iter::once(plain(name)).chain(cells));
            }
            text
        }
    }
}

/// A cell: words that somebody wrote are no Markdown, and figures stay as they
/// are.
fn words(cell: &str) -> String {
    match cell.contains(['[', '<', '!', '|', '`', '*', '_']) {
        true => plain(cell),
        false => cell.to_owned(),
    }
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
