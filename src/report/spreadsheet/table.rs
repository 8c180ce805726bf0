//! Tables on the sheets of a workbook: how they look, how they are printed, and
//! what their cells may be.

use rust_xlsxwriter::{
    Color, Format, FormatAlign, FormatBorder, Formula, Workbook, Worksheet, XlsxError,
};

use crate::report::trade::UNKNOWN;
use crate::report::words::counted;
use crate::units::{Currency, System};

/// The height of a line of a heading, and how much wider its letters are than
/// those by which columns are measured.
const LINE: f64 = 15.0;
const BOLD: f64 = 1.15;

/// The row of the headings; what is told of the job stands over it.
const HEAD: u32 = 4;

/// A workbook as it is written.
pub(crate) struct Book {
    /// The workbook.
    pub workbook: Workbook,
    /// The job's title.
    pub title: String,
    /// From which text it was made, and when.
    pub about: String,
    /// The job's units.
    pub system: System,
    /// The job's money.
    pub currency: Currency,
    /// How many errors stand against it.
    pub errors: usize,
}

/// A column: its heading, unit included, how wide it is, and how its numbers
/// are shown.
pub(crate) struct Column {
    /// The heading.
    pub heading: String,
    /// How many letters wide.
    pub width: f64,
    /// How numbers in it are shown: `#,##0.00`; text where it is empty.
    pub shown: &'static str,
}

/// A cell.
pub(crate) enum Cell {
    /// Nothing.
    Empty,
    /// Text, whatever it begins with.
    Text(String),
    /// A number; a dash where it is not known.
    Number(Option<f64>),
    /// A formula and what it comes to; a dash where that is not known.
    Formula(String, Option<f64>),
}

/// A sheet as it fills up.
pub(crate) struct Table<'b> {
    sheet: &'b mut Worksheet,
    columns: Vec<Column>,
    row: u32,
}

impl Book {
    /// A new sheet with its headings.
    pub(crate) fn table(
        &mut self,
        name: &str,
        columns: Vec<Column>,
    ) -> Result<Table<'_>, XlsxError> {
        let warning = (self.errors > 0).then(|| {
            let errors = counted(self.errors, "error", "errors");
            format!("Do not order or build from this: {errors}")
        });
        let (title, about) = (self.title.clone(), self.about.clone());
        let paper = match self.system {
            System::Imperial => 1,
            System::Metric => 9,
        };
        let sheet = self.workbook.add_worksheet();
        sheet.set_name(name)?;
        let bold = Format::new().set_bold();
        sheet.write_string_with_format(0, 0, title, &bold.clone().set_font_size(14))?;
        sheet.write_string(1, 0, about)?;
        if let Some(warning) = warning {
            sheet.write_string_with_format(2, 0, warning, &bold)?;
        }
        let head = Format::new()
            .set_bold()
            .set_text_wrap()
            .set_align(FormatAlign::Top)
            .set_border_bottom(FormatBorder::Medium);
        for (at, column) in (0..).zip(&columns) {
            let head = match column.shown.is_empty() {
                true => head.clone().set_indent(u8::from(at > 0)),
                false => head.clone().set_align(FormatAlign::Right),
            };
            sheet.write_string_with_format(HEAD, at, &column.heading, &head)?;
            sheet.set_column_width(at, column.width)?;
        }
        let lines = columns.iter().map(Column::heading_lines).max();
        sheet.set_row_height(HEAD, LINE * f64::from(lines.unwrap_or(1)))?;
        sheet.set_freeze_panes(HEAD + 1, 1)?;
        sheet.set_repeat_rows(HEAD, HEAD)?;
        sheet.set_paper_size(paper).set_landscape();
        sheet.set_print_fit_to_pages(1, 0);
        sheet.set_footer("&L&A&RPage &P of &N");
        Ok(Table {
            sheet,
            columns,
            row: HEAD + 1,
        })
    }

    /// Gives a cell of a sheet a name, by which formulas call it.
    pub(crate) fn name(&mut self, name: &str, cell: &str) -> Result<(), XlsxError> {
        self.workbook.define_name(name, &format!("={cell}"))?;
        Ok(())
    }
}

impl Column {
    /// How many lines its heading takes, broken between words.
    fn heading_lines(&self) -> u32 {
        let room = self.width / BOLD;
        let (mut lines, mut taken) = (1, 0.0);
        for word in self.heading.split_whitespace() {
            let letters = word.chars().count() as f64;
            if taken > 0.0 && taken + 1.0 + letters > room {
                (lines, taken) = (lines + 1, letters);
            } else {
                taken += letters + if taken > 0.0 { 1.0 } else { 0.0 };
            }
        }
        lines
    }
}

impl Table<'_> {
    /// The number of the next row as formulas count it, from 1.
    pub(crate) fn next(&self) -> u32 {
        self.row + 1
    }

    /// Adds a row.
    pub(crate) fn row(&mut self, cells: Vec<Cell>) -> Result<(), XlsxError> {
        self.styled(cells, &Format::new())
    }

    /// Adds a row that sums up.
    pub(crate) fn total(&mut self, cells: Vec<Cell>) -> Result<(), XlsxError> {
        let format = Format::new().set_bold().set_border_top(FormatBorder::Thin);
        self.styled(cells, &format)
    }

    /// Leaves a row free.
    pub(crate) fn gap(&mut self) {
        self.row += 1;
    }

    /// Adds lines of text under a heading; nothing where there are none.
    pub(crate) fn list(&mut self, heading: &str, lines: &[String]) -> Result<(), XlsxError> {
        if lines.is_empty() {
            return Ok(());
        }
        self.gap();
        let bold = Format::new().set_bold();
        self.sheet
            .write_string_with_format(self.row, 0, heading, &bold)?;
        self.row += 1;
        for line in lines {
            self.sheet.write_string(self.row, 0, super::text(line))?;
            self.row += 1;
        }
        Ok(())
    }

    fn styled(&mut self, cells: Vec<Cell>, style: &Format) -> Result<(), XlsxError> {
        let dash = style
            .clone()
            .set_align(FormatAlign::Right)
            .set_font_color(Color::RGB(0x0046_524F));
        for (at, (cell, column)) in (0..).zip(cells.into_iter().zip(&self.columns)) {
            let style = match column.shown {
                // Words stand off the figures before them.
                "" => style.clone().set_indent(u8::from(at > 0)),
                shown => style.clone().set_num_format(shown),
            };
            let row = self.row;
            match cell {
                Cell::Empty => self.sheet.write_blank(row, at, &style)?,
                // A string is written as one, even where it begins as a formula does.
                Cell::Text(text) => self.sheet.write_string_with_format(row, at, text, &style)?,
                Cell::Number(Some(number)) if number.is_finite() => self
                    .sheet
                    .write_number_with_format(row, at, number, &style)?,
                Cell::Number(_) => self
                    .sheet
                    .write_string_with_format(row, at, UNKNOWN, &dash)?,
                Cell::Formula(formula, result) => {
                    let (result, style) = match result {
                        Some(number) => (number.to_string(), style),
                        None => (UNKNOWN.to_owned(), dash.clone()),
                    };
                    let formula = Formula::new(formula).set_result(result);
                    self.sheet
                        .write_formula_with_format(row, at, formula, &style)?
                }
            };
        }
        self.row += 1;
        Ok(())
    }

    /// Sets what is printed: all that was written.
    pub(crate) fn finish(self) -> Result<(), XlsxError> {
        let last = (self.columns.len() as u16).saturating_sub(1);
        self.sheet
            .set_print_area(0, 0, self.row.max(HEAD + 1), last)?;
        Ok(())
    }
}

/// Text as a cell.
pub(crate) fn said(text: &str) -> Cell {
    Cell::Text(super::text(text))
}

/// A column of text.
pub(crate) fn words(heading: &str, width: f64) -> Column {
    Column {
        heading: heading.to_owned(),
        width,
        shown: "",
    }
}

/// A column of numbers.
pub(crate) fn numbers(heading: String, width: f64, shown: &'static str) -> Column {
    Column {
        heading,
        width,
        shown,
    }
}

/// A sum of cells, each of which must be known: else a dash.
pub(crate) fn sum_of_all(cells: &[String]) -> String {
    let all = cells.join(",");
    format!("=IF(COUNT({all})={},SUM({all}),\"{UNKNOWN}\")", cells.len())
}

/// A name that formulas can call a cell by: what is no letter of theirs is a
/// stroke.
pub(crate) fn named(kind: &str, name: &str, number: usize) -> String {
    let plain = |letter: char| match letter.is_ascii_alphanumeric() {
        true => letter.to_ascii_lowercase(),
        false => '_',
    };
    // A name may have 255 letters.
    let name: String = name.chars().take(60).map(plain).collect();
    format!("{kind}_{number}_{name}")
}

/// A formula rounded to the cent, half up. A half cent that a reader's
/// arithmetic falls short of by a hair is one all the same, so it is rounded to
/// a ten-thousandth of a cent first.
pub(crate) fn to_the_cent(of: &str) -> String {
    format!("ROUND(ROUND(({of})*100,4),0)/100")
}
