//! Figures in columns.

/// To which side a column is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    /// Words.
    Left,
    /// Figures.
    Right,
}

/// A table of words and figures, laid out with blanks only.
#[derive(Debug)]
pub(super) struct Columns {
    sides: Vec<Side>,
    widest_words: usize,
    rows: Vec<Vec<String>>,
}

/// Blanks before a table and between its columns.
const INDENT: usize = 2;
const GAP: usize = 3;

/// Words wider than this stand on a line of their own, above their figures,
/// unless a table sets more.
const WIDEST_WORDS: usize = 24;

impl Columns {
    /// A table with the heads of its columns and the side of each.
    pub(crate) fn new(heads: &[(&str, Side)]) -> Columns {
        Columns {
            sides: heads.iter().map(|(_, side)| *side).collect(),
            widest_words: WIDEST_WORDS,
            rows: vec![heads.iter().map(|(head, _)| (*head).to_owned()).collect()],
        }
    }

    /// The table with room for wider words.
    pub(crate) fn with_words_up_to(mut self, width: usize) -> Columns {
        self.widest_words = width;
        self
    }

    /// Adds a row.
    pub(crate) fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        self.rows.push(cells.into_iter().collect());
    }

    /// The table, each row a line that ends in a line end.
    pub(crate) fn text(&self) -> String {
        self.within(usize::MAX)
    }

    /// The table for lines of a width: where its columns stand wider, as many
    /// as fit beside the first, and the others under them in the same way.
    pub(crate) fn within(&self, width: usize) -> String {
        let bands = self.bands(width);
        let bands = bands.iter().map(|columns| self.of_columns(columns).whole());
        bands.collect::<Vec<String>>().join("\n")
    }

    /// The columns that stand beside one another, the first always there.
    fn bands(&self, width: usize) -> Vec<Vec<usize>> {
        let mut widths = self.widths().into_iter().enumerate();
        let first = widths.next().map_or(0, |(_, first)| first);
        let (mut bands, mut used) = (vec![vec![0]], INDENT + first);
        for (column, own) in widths {
            if let Some(last) = bands.last_mut() {
                if last.len() == 1 || used + GAP + own <= width {
                    last.push(column);
                    used += GAP + own;
                } else {
                    bands.push(vec![0, column]);
                    used = INDENT + first + GAP + own;
                }
            }
        }
        bands
    }

    /// Some columns of the table, and the rows that say something in them.
    fn of_columns(&self, columns: &[usize]) -> Columns {
        let of = |row: &Vec<String>| -> Vec<String> {
            let cells = columns.iter().filter_map(|column| row.get(*column));
            cells.cloned().collect()
        };
        let sides = columns.iter().filter_map(|column| self.sides.get(*column));
        let is_whole = columns.len() == self.sides.len();
        let says = |row: &Vec<String>| row.iter().skip(1).any(|cell| !cell.is_empty());
        Columns {
            sides: sides.copied().collect(),
            widest_words: self.widest_words,
            rows: self
                .rows
                .iter()
                .map(of)
                .filter(|row| is_whole || says(row))
                .collect(),
        }
    }

    fn whole(&self) -> String {
        let widths = self.widths();
        let mut text = String::new();
        for row in &self.rows {
            if self.has_wide_words(row) {
                text.push_str(&self.line(&self.only(row, Side::Left), &[]));
                text.push_str(&self.line(&self.only(row, Side::Right), &widths));
            } else {
                text.push_str(&self.line(row, &widths));
            }
        }
        text
    }

    fn has_wide_words(&self, row: &[String]) -> bool {
        let mut cells = row.iter().zip(&self.sides);
        cells.any(|(cell, side)| *side == Side::Left && length(cell) > self.widest_words)
    }

    /// The row with the cells of the other side left empty.
    fn only(&self, row: &[String], kept: Side) -> Vec<String> {
        let cells = row.iter().zip(&self.sides);
        cells
            .map(|(cell, side)| {
                if *side == kept {
                    cell.clone()
                } else {
                    String::new()
                }
            })
            .collect()
    }

    fn widths(&self) -> Vec<usize> {
        let width_of = |(column, side): (usize, &Side)| {
            let cells = self.rows.iter().filter_map(|row| row.get(column));
            let fitting = cells
                .map(|cell| length(cell))
                .filter(|width| *side == Side::Right || *width <= self.widest_words);
            fitting.max().unwrap_or(0)
        };
        self.sides.iter().enumerate().map(width_of).collect()
    }

    fn line(&self, cells: &[String], widths: &[usize]) -> String {
        let mut line = " ".repeat(INDENT);
        for (column, cell) in cells.iter().enumerate() {
            let width = widths.get(column).copied().unwrap_or(0);
            let blanks = " ".repeat(width.saturating_sub(length(cell)));
            let gap = " ".repeat(if column > 0 { GAP } else { 0 });
            let (before, after) = match self.sides.get(column) {
                Some(Side::Right) => (blanks.as_str(), ""),
                _ => ("", blanks.as_str()),
            };
            line.extend([&gap, before, cell, after]);
        }
        let mut line = line.trim_end().to_owned();
        line.push('\n');
        line
    }
}

fn length(cell: &str) -> usize {
    cell.chars().count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_stand_under_one_another() {
        let mut columns = Columns::new(&[("layer", Side::Left), ("area", Side::Right)]);
        columns.row(["base".to_owned(), "1,312.5 sq ft".to_owned()]);
        columns.row(["bed".to_owned(), "40 m²".to_owned()]);
        columns.row([
            "a name that is far too long for it".to_owned(),
            "1 m²".to_owned(),
        ]);
        let lines = [
            "  layer            area",
            "  base    1,312.5 sq ft",
            "  bed             40 m²",
            "  a name that is far too long for it",
            "                   1 m²",
            "",
        ];
        assert_eq!(columns.text(), lines.join("\n"));
    }

    #[test]
    fn columns_that_do_not_fit_stand_under_the_others() {
        let heads = [
            ("of", Side::Left),
            ("needed", Side::Right),
            ("cost", Side::Right),
        ];
        let mut columns = Columns::new(&heads);
        let row = |cells: [&str; 3]| cells.map(str::to_owned);
        columns.row(row(["sand", "1.5 t", "$40"]));
        columns.row(row(["delivery", "", "$9"]));
        let beside =
            "  of         needed   cost\n  sand        1.5 t    $40\n  delivery              $9\n";
        let under = "  of     needed\n  sand    1.5 t\n\n  of         cost\n  sand        $40\n  delivery     $9\n";
        for (width, laid_out) in [(26, beside), (25, under), (1, under)] {
            assert_eq!(columns.within(width), laid_out, "{width}");
        }
    }
}
