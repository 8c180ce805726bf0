//! What goes round every drawing: the frame, the strip that says not to build
//! from it, and what the title block says.

use super::beside::{Title, sheet_item, text};
use super::display_list::{Ink, Item, Mark, Path, Pen, Weight};
use super::font::Face;
use super::lettering::{self, HEADING};
use super::scale::Scale;
use super::sheet::Sheet;
use crate::analysis::Analysis;
use crate::findings::Severity;
use crate::geometry::{Point, Vector};
use crate::model::Stated;
use crate::units::{System, show};

/// The strip that says not to build from it.
pub(crate) const WARNING: f64 = 9.0;

/// What goes with every sheet.
pub(crate) const CAUTION: &str = "Local codes and licensed practice govern.";

/// How many errors stand against a job.
pub(crate) fn errors(analysis: &Analysis) -> usize {
    let standing = analysis
        .findings
        .iter()
        .filter(|found| found.accepted.is_none() && found.severity == Some(Severity::Error));
    standing.count()
}

/// The frame of a sheet, and the line between what is drawn and what stands
/// beside it.
pub(crate) fn frame(sheet: &Sheet) -> [Item; 2] {
    let around = Path::rectangle(sheet.frame.low, sheet.frame.high);
    let foot = &sheet.foot;
    let line = match sheet.is_upright {
        true => Path::line(foot.low, Point::new(sheet.frame.high.x, foot.low.y)),
        false => Path::line(
            Point::new(foot.high.x, foot.low.y),
            Point::new(foot.high.x, sheet.frame.high.y),
        ),
    };
    [(around, Weight::Heavy), (line, Weight::Mid)]
        .map(|(path, weight)| sheet_item(None, Mark::Stroke(vec![path], Pen::of(weight))))
}

/// The strip on top of a sheet, with what nobody is to do from it; nothing
/// where there is no error.
pub(crate) fn warning(sheet: &Sheet, what: &str, errors: usize) -> Vec<Item> {
    let plan = &sheet.plan;
    let low = Point::new(plan.low.x, plan.high.y - WARNING);
    let strip = Path::rectangle(low, plan.high);
    let counted = match errors {
        0 => return Vec::new(),
        1 => "1 error".to_owned(),
        more => format!("{more} errors"),
    };
    let words = format!("Do not {what} from this: {counted}");
    let setting = lettering::set(&words, HEADING, Face::Medium);
    let at = low + Vector::new(5.0, (WARNING - HEADING) / 2.0);
    vec![
        sheet_item(None, Mark::Fill(vec![strip], Ink::Black)),
        sheet_item(None, text(at, setting, Ink::Paper)),
    ]
}

/// A wind in words reaches so far to each side, in degrees: where the needle is
/// turned by less, the words are true of the ground too.
const HALF_A_WIND: f64 = 22.5;

/// What north means in words, where the needle points elsewhere than up.
pub fn plan_north(analysis: &Analysis) -> Option<String> {
    let north = analysis.job.site.north.as_ref()?.value.si();
    let off = (north + 180.0).rem_euclid(360.0) - 180.0;
    (off.abs() >= HALF_A_WIND).then(|| {
        format!(
            "North, east, south and west in words are the plan's: up, right, down and left. True \
             north lies {}, as the needle points.",
            match off {
                off if off.abs() > 179.95 => "straight down".to_owned(),
                off if off < 0.0 => format!("{} to the left of up", show::angle(-off)),
                off => format!("{} to the right of up", show::angle(off)),
            }
        )
    })
}

/// The job's title.
pub(crate) fn job_title(analysis: &Analysis) -> String {
    let title = analysis.job.heading.title.as_ref();
    title
        .map_or("Untitled job", |title| &title.value)
        .to_owned()
}

/// Which sheet of a job it is, and what is on it.
pub(crate) struct About<'a> {
    /// Its file as it is shown.
    pub source: &'a str,
    /// What is drawn: `Plan: laying and levels`.
    pub drawing: &'a str,
    /// The scale.
    pub scale: &'a Scale,
    /// The paper.
    pub sheet: &'a Sheet,
    /// Which of how many sheets.
    pub number: (usize, usize),
    /// Whether levels are told.
    pub has_levels: bool,
}

/// What the title block says.
pub(crate) fn title(analysis: &Analysis, about: &About<'_>) -> Title {
    let heading = &analysis.job.heading;
    let stated = |text: &Option<Stated<String>>| {
        text.as_ref().map_or("–", |stated| &stated.value).to_owned()
    };
    let (number, count) = about.number;
    let fields = vec![
        ("Reference".to_owned(), stated(&heading.reference)),
        ("Date".to_owned(), stated(&heading.date)),
        (
            format!("Scale at {}", about.sheet.size.name()),
            about.scale.set(),
        ),
        ("Sheet".to_owned(), format!("{number} of {count}")),
    ];
    let (lengths, levels) = match heading.system() {
        System::Metric => ("millimetres", "metres"),
        System::Imperial => ("feet and inches", "inches"),
    };
    let datum = analysis.job.site.datum.as_ref();
    let mut lines = vec![match about.has_levels {
        true => format!("Lengths in {lengths}, levels in {levels}."),
        false => format!("Lengths in {lengths}."),
    }];
    if about.has_levels {
        lines.push(match datum {
            Some(datum) => format!("Level 0: {}.", datum.value),
            None => "What level 0 is, is not stated.".to_owned(),
        });
    }
    if let Some(by) = &heading.prepared_by {
        lines.push(format!("Prepared by {}.", by.value));
    }
    lines.push(format!("Drawn from {}. Do not scale.", about.source));
    Title {
        job: job_title(analysis),
        drawing: about.drawing.to_owned(),
        fields,
        lines,
        caution: CAUTION.to_owned(),
    }
}
