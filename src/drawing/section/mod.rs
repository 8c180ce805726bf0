//! The section through each build: both its ends to scale, the layers named
//! beside them with their thickness and the level of their top.

mod cut;
mod ends;
mod filling;
mod layout;
mod rows;

use cut::{Cut, cuts};
use ends::Ends;
use layout::{Block, Layout};

use super::bearings;
use super::beside::{self, Columns, sheet_item};
use super::display_list::{Drawing, Ink, Item};
use super::font::Face;
use super::legend::Legend;
use super::lettering::{self, HEADING};
use super::sheet::Sheet;
use super::surround::{self, About, errors, job_title};
use crate::analysis::Analysis;
use crate::geometry::Point;
use crate::units::System;

/// How many sheets the sections of a job take.
pub fn count(analysis: &Analysis, sheet: &Sheet) -> usize {
    let cuts = cuts(analysis);
    Layout::of(&cuts, analysis, sheet).pages.len()
}

/// The sections of a job on sheets like the plan's; none where nothing is
/// built.
pub fn sections(analysis: &Analysis, source: &str, sheet: &Sheet) -> Vec<Drawing> {
    let cuts = cuts(analysis);
    let layout = Layout::of(&cuts, analysis, sheet);
    let pages = layout.pages.iter().enumerate();
    pages
        .map(|(index, blocks)| page(analysis, source, sheet, &layout, index, blocks))
        .collect()
}

/// What is gathered while a sheet of sections is drawn.
struct Drawn {
    system: System,
    items: Vec<Item>,
    legend: Legend,
    notes: Vec<String>,
}

impl Drawn {
    fn note(&mut self, note: String) {
        if !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }
}

fn page(
    analysis: &Analysis,
    source: &str,
    sheet: &Sheet,
    layout: &Layout<'_>,
    index: usize,
    blocks: &[Block<'_>],
) -> Drawing {
    let system = analysis.job.heading.system();
    let mut drawn = Drawn {
        system,
        items: surround::frame(sheet).to_vec(),
        legend: Legend::default(),
        notes: vec!["The ends are drawn, the middle is left out.".to_owned()],
    };
    drawn
        .items
        .extend(surround::warning(sheet, errors(analysis)));
    for block in blocks {
        section(&mut drawn, layout, block);
    }
    let mut items = drawn.items;
    items.extend(bearings::scale_bar(&sheet.foot, &layout.scale, system));
    let mut columns = Columns::new(sheet);
    columns.legend(&drawn.legend.entries);
    columns.notes(&drawn.notes);
    columns.finish();
    items.append(&mut columns.items);
    let has_levels = blocks.iter().any(|block| block.cut.low_m.is_some());
    let about = About {
        source,
        drawing: "Section through the build",
        scale: &layout.scale,
        sheet,
        number: (index + 2, layout.pages.len() + 1),
        has_levels,
    };
    let title = surround::title(analysis, &about);
    items.extend(beside::title_block(&sheet.title, &title));
    Drawing {
        title: format!("{}: section", job_title(analysis)),
        size: sheet.paper,
        scale: layout.scale.ratio,
        origin: Point::ORIGIN,
        is_imperial: system == System::Imperial,
        items,
    }
}

/// One section: its heading, its two ends, the rows beside them.
fn section(drawn: &mut Drawn, layout: &Layout<'_>, block: &Block<'_>) {
    let cut = block.cut;
    let words = lettering::cut(&heading(cut), HEADING, Face::Medium, layout.width);
    let at = Point::new(layout.left, block.top - HEADING);
    let setting = lettering::set(&words, HEADING, Face::Medium);
    let item = sheet_item(Some(cut.place()), beside::text(at, setting, Ink::Black));
    drawn.items.push(item);
    let ends = Ends::of(cut, layout, block);
    ends.draw(drawn);
    rows::draw(drawn, &ends, layout, block);
}

fn heading(cut: &Cut<'_>) -> String {
    let names: Vec<&str> = cut
        .surfaces
        .iter()
        .map(|surface| surface.name.value.as_str())
        .collect();
    format!("{}: {}", names.join(", "), cut.build.name.value)
}
