//! What may stand on the command line for what is drawn and handed out:
//! drawings, the page in a browser, the report.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::arguments::{OutputArguments, SpecArguments};
use crate::drawing::{Scale, Size};

/// Draws the plan of a spec, the sections, the steps and the drains, to scale
///
/// The plan has outlines with their dimensions, levels, falls, the laying
/// pattern and joints; the sections have each layer with its thickness and the
/// level of its top at the building and at the low edge; steps are cut along
/// their climb, drains drawn along their length with inverts, depth and cover.
/// What is not known is not drawn; what is assumed is said. Scale and sheet are
/// the best fit where they are left out. A PDF holds every sheet, a page each; a file of another
/// format holds one, the plan unless --page names another.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  \
    drylay drawing --output court.pdf jobs/court.patio            every sheet\n  \
    drylay drawing --page 2 --output section.svg jobs/court.patio\n  \
    drylay drawing --sheet a3 --scale 1:50 --output court.svg jobs/court.patio\n  \
    drylay drawing --scale 1:20 --parts --output court.pdf jobs/court.patio  over several\n  \
    drylay drawing --scale '1/4 in = 1 ft' --sheet letter jobs/terrace.patio")]
pub(crate) struct DrawingArguments {
    #[command(flatten)]
    pub spec: SpecArguments,

    /// The scale of the plan, as 1:50 or 1/4 in = 1 ft
    #[arg(long, value_name = "SCALE", value_parser = Scale::read)]
    pub scale: Option<Scale>,

    /// The sheet of paper
    #[arg(long, value_enum, value_name = "SIZE")]
    pub sheet: Option<SheetSize>,

    /// Stand the sheet upright
    #[arg(long)]
    pub upright: bool,

    /// Part a plan that is too big for its sheet at --scale over several, after
    /// a key plan
    #[arg(long, requires = "scale")]
    pub parts: bool,

    /// Draw contours, as far apart as suits the fall and the scale
    #[arg(long)]
    pub contours: bool,
    /// Draw the pegs of the setting out, with their numbers
    #[arg(long)]
    pub pegs: bool,

    /// One sheet alone: 1 is the plan, the sections, steps and drains follow
    #[arg(long, value_name = "NUMBER")]
    pub page: Option<usize>,

    /// How the drawing is written; by the ending of --output, else svg
    #[arg(long, value_enum, value_name = "FORMAT")]
    pub format: Option<DrawingFormat>,

    #[command(flatten)]
    pub output: OutputArguments,
}

/// Shows a spec in a browser, and follows it while it is written
///
/// The page has the plan, what the check finds, the figures and the shopping
/// list, each new as soon as the file is saved. It is on this machine's own
/// address, for nobody else, and asks nothing of a network.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  \
    drylay preview jobs/court.patio\n  \
    drylay preview --port 8042 jobs/court.patio   at the same address each time")]
pub(crate) struct PreviewArguments {
    /// The spec
    #[arg(value_name = "SPEC")]
    pub spec: PathBuf,

    /// The port to listen at; 0 takes a free one
    #[arg(long, value_name = "PORT", default_value_t = 0)]
    pub port: u16,
}

/// Writes all of a job as one document, for whoever it is handed to
///
/// What is to be built in words, the plan and the sections, the shopping list,
/// cards for the mixer and for the site, the cost, what was accepted and why,
/// cautions, what is assumed and what is not known. A client is told the price
/// and no cost, the crew no money, a supplier what is ordered and no more.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  \
    drylay report --output court.html jobs/court.patio\n  \
    drylay report --for crew --output crew.pdf jobs/court.patio")]
pub(crate) struct ReportArguments {
    #[command(flatten)]
    pub spec: SpecArguments,

    /// Whom it is for; the office, which sees all of it, if left out
    #[arg(long = "for", value_enum, value_name = "WHOM")]
    pub whom: Option<Whom>,

    /// How it is written; by the ending of --output, else html
    #[arg(long, value_enum, value_name = "FORMAT")]
    pub format: Option<ReportFormat>,

    #[command(flatten)]
    pub output: OutputArguments,
}

/// Whom a report is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Whom {
    /// What is built and the price
    Client,
    /// What is built and how, without money
    Crew,
    /// What is ordered
    Supplier,
}

/// How a report is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ReportFormat {
    /// One page for a browser and its printer
    Html,
    /// Numbered pages
    Pdf,
}

/// The formats of a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum DrawingFormat {
    /// For a browser, a letter or a web page
    Svg,
    /// For printing, to the scale that it says
    Pdf,
    /// A picture of 200 dots to the inch
    Png,
    /// For drawing programs, in millimetres or inches of the ground
    Dxf,
}

/// The sheets that drawings are made for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SheetSize {
    /// 297 by 210 mm
    A4,
    /// 420 by 297 mm
    A3,
    /// 11 by 8 1/2 in
    Letter,
    /// 17 by 11 in
    Tabloid,
}

impl From<SheetSize> for Size {
    fn from(size: SheetSize) -> Size {
        match size {
            SheetSize::A4 => Size::A4,
            SheetSize::A3 => Size::A3,
            SheetSize::Letter => Size::Letter,
            SheetSize::Tabloid => Size::Tabloid,
        }
    }
}
