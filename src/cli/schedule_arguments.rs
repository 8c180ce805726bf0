//! The arguments of `drylay schedule`.

use clap::{Args, ValueEnum};

use super::arguments::{OutputArguments, SpecArguments};
use super::sheet_arguments::SheetSize;

/// Schedules the work of a spec: tasks, waits, crew, and the days
///
/// The tasks come from what is built, their hours from rates that the `work`
/// section states or that are usual. What is assumed is listed with its source.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  \
    drylay schedule jobs/court.patio             the sheet for the crew\n  \
    drylay schedule --working jobs/court.patio   with the working of each time\n  \
    drylay schedule --output court.ics jobs/court.patio\n                                               \
    events for a calendar\n  \
    drylay schedule --output court.pdf jobs/court.patio\n                                               \
    a bar chart to print")]
pub(crate) struct ScheduleArguments {
    #[command(flatten)]
    pub spec: SpecArguments,

    /// How the schedule is written; by the ending of --output, else text
    #[arg(long, value_enum, value_name = "FORMAT")]
    pub format: Option<ScheduleFormat>,

    /// The sheet of paper of a bar chart; the smallest that holds it if left out
    #[arg(long, value_enum, value_name = "SIZE")]
    pub sheet: Option<SheetSize>,

    /// One sheet alone of a bar chart that goes over several; a PDF has all of
    /// them if left out, another format the first
    #[arg(long, value_name = "NUMBER")]
    pub page: Option<usize>,

    /// Follow the tasks with how the time of each was worked out (text only)
    #[arg(long)]
    pub working: bool,

    #[command(flatten)]
    pub output: OutputArguments,
}

/// The formats of the schedule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ScheduleFormat {
    /// A sheet for reading
    Text,
    /// For a spreadsheet, one task a line
    Csv,
    /// For programs, in hours
    Json,
    /// Events for a calendar
    Ics,
    /// A bar chart for a browser or a letter
    Svg,
    /// A bar chart for printing
    Pdf,
    /// A picture of the bar chart, of 200 dots to the inch
    Png,
}
