//! The report: all of a job in one document, for whoever it is handed to. What
//! it says is gathered once; the formats only set it.

mod buckets;
mod cost;
mod cover;
mod figures;
mod foot;
mod html;
mod mixer;
mod orders;
mod schedule;
mod setting_out;
mod site;
mod there_by;
mod words;

use super::{Summary, counted, shown_path};
use crate::analysis::Analysis;
use crate::drawing::{Block, Choice, Document, Drawing, Size, figures as figures_of, sheets};
use crate::model::Stated;
use crate::text::{Shown, clean};
use crate::units::System;
use crate::vocabulary::Term;

/// Whom a report is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reader {
    /// The practice itself: everything.
    Office,
    /// The client: what is built and what it costs them; no cost price.
    Client,
    /// Those who build it: no money.
    Crew,
    /// A supplier: what is ordered, and nothing of the job.
    Supplier,
}

impl Reader {
    /// Whether they are told of money, and of all of it.
    const fn sees_costs(self) -> bool {
        matches!(self, Reader::Office)
    }

    /// Whether they are told how it is built, layer by layer.
    const fn builds(self) -> bool {
        matches!(self, Reader::Office | Reader::Crew)
    }
}

/// Whose report it is, and how it came about.
#[derive(Debug, Clone, Copy)]
pub struct Handing<'a> {
    /// Whom it is for.
    pub reader: Reader,
    /// The folder from which paths are shown.
    pub folder: &'a str,
    /// The day, as `2027-01-12`.
    pub today: &'a str,
}

/// The report as a page for a browser: one file, no script, nothing asked of a
/// network.
pub fn report_html(analysis: &Analysis, handing: &Handing<'_>) -> String {
    html::page(&document(analysis, handing))
}

/// The report as PDF.
pub fn report_pages(analysis: &Analysis, handing: &Handing<'_>) -> Vec<Drawing> {
    document(analysis, handing).pages()
}

/// Text that somebody wrote, without what would move or hide it.
fn said(text: &str) -> String {
    clean(text, Shown::Line).into_owned()
}

/// A name as it is read.
fn plain(name: &str) -> String {
    said(&name.replace('-', " "))
}

/// A cell of figures: a minus is no hyphen, and what is written in by hand is
/// left empty.
fn cell(text: &str) -> String {
    let text = said(text);
    if !text.is_empty() && text.chars().all(|letter| letter == '_') {
        return String::new();
    }
    match text.strip_prefix('-') {
        Some(rest) if rest.starts_with(|letter: char| letter.is_ascii_digit()) => {
            format!("−{rest}")
        }
        _ => text,
    }
}

fn document(analysis: &Analysis, handing: &Handing<'_>) -> Document {
    let size = paper(analysis);
    let path = said(&shown_path(&analysis.path, handing.folder));
    let path = file(&path);
    let mut blocks = head(analysis, handing, for_whom(handing.reader), path);
    match handing.reader {
        Reader::Supplier => blocks = orders::for_supplier(analysis, &blocks),
        reader => {
            blocks.extend(cover::blocks(analysis, reader));
            blocks.extend(plan(analysis, path, size));
            blocks.extend(words::what_is_built(analysis));
            if reader.builds() {
                blocks.extend(sections(analysis, size));
                blocks.extend(orders::shopping(analysis, reader));
                blocks.extend(mixer::cards(analysis));
                blocks.extend(site::cards(analysis, size));
                blocks.extend(setting_out::tables(analysis));
                blocks.extend(figures::tables(analysis, "steps", "Steps"));
                blocks.extend(figures::tables(analysis, "drain", "Drains"));
                blocks.extend(figures::tables(analysis, "measured", "As built"));
                blocks.extend(schedule::blocks(analysis, path, size));
            }

            if reader.sees_costs() {
                blocks.extend(cost::whole(analysis));
                blocks.extend(figures::tables(analysis, "quote", "Quotes"));
            }
            blocks.extend(foot::blocks(analysis, reader));
            if reader == Reader::Client {
                blocks.extend(cost::price(analysis));
            }
        }
    }
    handed(analysis, (path, handing.today), blocks)
}

/// The pages of the setting out alone; paths as seen from a folder.
pub fn setout_pages(analysis: &Analysis, folder: &str, today: &str) -> Vec<Drawing> {
    let handing = Handing {
        reader: Reader::Crew,
        folder,
        today,
    };
    let path = said(&shown_path(&analysis.path, folder));
    let path = file(&path);
    let mut blocks = head(analysis, &handing, "Setting out", path);
    blocks.extend(setting_out::tables(analysis));
    handed(analysis, (path, today), blocks).pages()
}

/// The paper that a job is printed on.
fn paper(analysis: &Analysis) -> Size {
    match analysis.job.heading.system() {
        System::Imperial => Size::Letter,
        System::Metric => Size::A4,
    }
}

fn title(analysis: &Analysis) -> String {
    let title = analysis.job.heading.title.as_ref();
    title.map_or_else(|| "Untitled job".to_owned(), |title| said(&title.value))
}

/// A document of a job; every page says if it is not to be built from.
fn handed(analysis: &Analysis, (path, today): (&str, &str), blocks: Vec<Block>) -> Document {
    let title = title(analysis);
    let errors = Summary::standing(analysis).errors;
    let errors = (errors > 0).then(|| counted(errors, "error", "errors"));
    Document {
        warning: errors.map(|errors| format!("Do not build or order from this: {errors}")),
        foot: format!("{title} · from {path} · {today}"),
        title,
        size: paper(analysis),
        blocks,
    }
}

const fn for_whom(reader: Reader) -> &'static str {
    match reader {
        Reader::Office => "Report for the office",
        Reader::Client => "For the client",
        Reader::Crew => "For the crew",
        Reader::Supplier => "For the supplier",
    }
}

/// The head: which job, for whom, from which text.
fn head(analysis: &Analysis, handing: &Handing<'_>, what: &str, path: &str) -> Vec<Block> {
    let heading = &analysis.job.heading;
    let stated = |label: &str, own: &Option<Stated<String>>| {
        own.as_ref()
            .map(|own| format!("{label} {}", said(&own.value)))
    };
    let units = match heading.system() {
        System::Imperial => "feet and inches",
        System::Metric => Term::Metres.word(heading.region()),
    };
    let about: Vec<String> = [
        stated("Reference", &heading.reference),
        stated("Date", &heading.date),
        stated("Prepared by", &heading.prepared_by),
    ]
    .into_iter()
    .flatten()
    .collect();
    let mut blocks = vec![Block::Title(title(analysis))];
    if !about.is_empty() {
        blocks.push(Block::Text(about.join(" · ")));
    }
    blocks.push(Block::Quiet(format!(
        "{what}. Made from {path} on {}; measured in {units}.",
        handing.today
    )));
    blocks
}

/// The name of the file at a path.
fn file(path: &str) -> &str {
    path.rsplit('/').next().unwrap_or(path)
}

/// The plan on its sheet, to the scale that suits it: upright like the other
/// pages, unless it is larger lying; several where it is parted.
fn plan(analysis: &Analysis, path: &str, size: Size) -> Vec<Block> {
    let drawn = |is_upright: bool| {
        let choice = Choice {
            sheet: Some(size),
            is_upright,
            is_alone: true,
            ..Choice::default()
        };
        // Without a scale that was asked for, some scale fits.
        sheets(analysis, path, &choice).unwrap_or_default()
    };
    let ratio = |sheets: &[Drawing]| sheets.first().map(|sheet| sheet.scale);
    let (upright, lying) = (drawn(true), drawn(false));
    let drawn = match ratio(&lying) < ratio(&upright) {
        true => lying,
        false => upright,
    };
    let drawn = drawn.into_iter();
    drawn.map(|sheet| Block::Sheet(Box::new(sheet))).collect()
}

/// How many of them a page holds, those tried first that take less paper.
const PARTS: [f64; 3] = [2.0, 1.4, 1.0];
/// What is kept on a page for what is said of a section.
const NOTES: f64 = 12.0;

/// The sections, the steps from the side and the drains along their length, one
/// under the other, two on a page where they can be made out; what is said of several is said once.
fn sections(analysis: &Analysis, size: Size) -> Vec<Block> {
    let (wide, high) = Document::room(size);
    let rooms = PARTS.map(|parts| (wide - 4.0, high / parts - NOTES));
    let mut blocks = Vec::new();
    let mut noted: Vec<String> = Vec::new();
    for drawing in figures_of(analysis, &rooms) {
        if blocks.is_empty() {
            blocks.push(Block::Heading("Sections".to_owned()));
        }
        let notes: Vec<String> = drawing.notes.iter().map(|note| said(note)).collect();
        let fresh: Vec<String> = notes
            .into_iter()
            .filter(|note| !noted.contains(note))
            .collect();
        blocks.push(Block::Figure(Box::new(drawing)));
        if !fresh.is_empty() {
            blocks.push(Block::Quiet(fresh.join(" ")));
        }
        noted.extend(fresh);
    }
    blocks
}
