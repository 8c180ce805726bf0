//! What may stand on the command line, with the help for each word of it.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

use crate::findings::Severity;

/// Checks patio specifications and takes off their quantities.
#[derive(Debug, Parser)]
#[command(
    name = "drylay",
    version,
    disable_help_subcommand = true,
    long_about = "Checks patio specifications and takes off their quantities.\n\n\
        A specification is a plain text file that ends in .patio. It says what is\n\
        built where: outlines, levels and falls, layers, mixes and materials.",
    after_help = "Examples:\n  \
        drylay check                      every spec in this folder and below\n  \
        drylay check jobs/court.patio     one spec\n  \
        drylay takeoff jobs/court.patio   its quantities, orders and costs"
)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,

    /// When text is coloured
    #[arg(
        long,
        global = true,
        value_enum,
        value_name = "WHEN",
        default_value = "auto"
    )]
    pub color: When,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    Check(CheckArguments),
    Takeoff(TakeoffArguments),
    /// Serves an editor on standard input and output
    Serve,
    Completions(CompletionsArguments),
    Manual(ManualArguments),
}

/// Reads specs and says what is wrong with them
///
/// Each finding names its rule, the line, the figure found, the limit and whose
/// limit it is, and what would put it right. Nothing is changed.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  \
    drylay check jobs                     every spec in the folder jobs and below\n  \
    drylay check --deny warning jobs      fail on warnings too\n  \
    drylay check --date 2027-06-01 jobs   as if it were that day\n\n\
    It ends with 0 if nothing was found that is denied, with 1 if something was,\n\
    and with 2 if it could not do its work, as when a file cannot be read.")]
pub struct CheckArguments {
    /// Specs, or folders that are searched for them; - reads standard input
    #[arg(value_name = "PATH", default_value = ".")]
    pub paths: Vec<PathBuf>,

    #[command(flatten)]
    pub stdin: StdinArguments,

    /// How the findings are written
    #[arg(long, value_enum, default_value = "text", value_name = "FORMAT")]
    pub format: FindingsFormat,

    #[command(flatten)]
    pub output: OutputArguments,

    /// Fail on findings of this kind and graver ones
    #[arg(long, value_enum, default_value = "error", value_name = "LEVEL")]
    pub deny: Level,

    /// The day on which acceptances may have run out; today if left out
    #[arg(long, value_name = "YYYY-MM-DD", value_parser = super::today::day)]
    pub date: Option<String>,

    /// Use this standard for every spec, and none that lies above it
    #[arg(long, value_name = "FILE")]
    pub standard: Option<PathBuf>,

    /// Draw with plain characters only
    #[arg(long)]
    pub ascii: bool,
}

/// Takes off a spec: quantities, mixes, orders and, when priced, costs
///
/// Figures are in the units of the job, rounded as the trade does. What cannot
/// be known is shown as a dash, and the foot of the sheet says why.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  \
    drylay takeoff jobs/court.patio             the sheet\n  \
    drylay takeoff --working jobs/court.patio   with the working of each figure\n  \
    drylay takeoff --format csv --output court.csv jobs/court.patio\n                                              \
    a table for a spreadsheet")]
pub struct TakeoffArguments {
    /// The spec; - reads standard input
    #[arg(value_name = "SPEC", required_unless_present = "stdin_path")]
    pub spec: Option<PathBuf>,

    #[command(flatten)]
    pub stdin: StdinArguments,

    /// How the take-off is written
    #[arg(long, value_enum, default_value = "text", value_name = "FORMAT")]
    pub format: TakeoffFormat,

    /// Follow each figure with how it was worked out (text only)
    #[arg(long)]
    pub working: bool,

    #[command(flatten)]
    pub output: OutputArguments,
}

/// Writes what a shell needs to complete the words of this program
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  \
    drylay completions bash > ~/.local/share/bash-completion/completions/drylay")]
pub struct CompletionsArguments {
    /// The shell
    #[arg(value_enum, value_name = "SHELL")]
    pub shell: clap_complete::Shell,

    #[command(flatten)]
    pub output: OutputArguments,
}

/// Writes the manual page
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  \
    drylay manual --output drylay.1 && man ./drylay.1")]
pub struct ManualArguments {
    #[command(flatten)]
    pub output: OutputArguments,
}

/// How standard input is named.
#[derive(Debug, Args)]
pub struct StdinArguments {
    /// Read the spec from standard input, as if it lay at this path
    #[arg(long, value_name = "FILE")]
    pub stdin_path: Option<PathBuf>,
}

/// Where the result goes.
#[derive(Debug, Args)]
pub struct OutputArguments {
    /// Write the result to this file, all of it or nothing
    #[arg(long, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

/// When text is coloured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum When {
    /// On a screen, unless NO_COLOR is set
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// The formats of the findings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum FindingsFormat {
    /// For reading, each finding with its line
    Text,
    /// For programs
    Json,
}

/// The formats of the take-off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum TakeoffFormat {
    /// A sheet for reading, in the units of the job
    Text,
    /// For programs, in metres and kilograms
    Json,
    /// For a spreadsheet, one figure a line
    Csv,
}

/// How grave a finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Level {
    /// It will fail, hurt someone, or the text means nothing
    Error,
    /// Against accepted practice
    Warning,
    /// Worth a thought
    Advice,
}

impl From<Level> for Severity {
    fn from(level: Level) -> Severity {
        match level {
            Level::Error => Severity::Error,
            Level::Warning => Severity::Warning,
            Level::Advice => Severity::Advice,
        }
    }
}
