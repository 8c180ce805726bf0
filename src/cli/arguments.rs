//! What may stand on the command line, with the help for each word of it.

use crate::units::Day;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use clap::{Args, Parser, Subcommand, ValueEnum};

use super::problem::Problem;
use super::schedule_arguments::ScheduleArguments;
use super::sheet_arguments::{DrawingArguments, PreviewArguments, ReportArguments};
use crate::findings::Severity;
use crate::rules::Family;

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
pub(crate) struct Arguments {
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
pub(crate) enum Command {
    Check(CheckArguments),
    Takeoff(TakeoffArguments),
    Drawing(DrawingArguments),
    Schedule(ScheduleArguments),
    Preview(PreviewArguments),
    Setout(SetoutArguments),
    Report(ReportArguments),
    Fmt(FmtArguments),
    Compare(CompareArguments),
    Explain(ExplainArguments),
    Standard(StandardArguments),
    /// Serves an editor on standard input and output
    Serve,
    Completions(CompletionsArguments),
    Manual(ManualArguments),
}

/// Reads specs and says what is wrong with them
///
/// Each finding names its rule, the line, the figure found, the limit and whose
/// limit it is, and what would put it right. Nothing is changed without --fix.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  \
    drylay check jobs                     every spec in the folder jobs and below\n  \
    drylay check --deny warning jobs      fail on warnings too\n  \
    drylay check --fix jobs               fix what can be fixed automatically\n  \
    drylay check --date 2027-06-01 jobs   as if it were that day\n\n\
    It ends with 0 if nothing was found that is denied, with 1 if something was,\n\
    and with 2 if it could not do its work, as when a file cannot be read.")]
pub(crate) struct CheckArguments {
    /// Specs, or folders that are searched for them; - reads standard input
    #[arg(value_name = "PATH", default_value = ".")]
    pub paths: Vec<PathBuf>,

    #[command(flatten)]
    pub stdin: StdinArguments,

    /// How the findings are written; by the ending of --output, else text
    #[arg(long, value_enum, value_name = "FORMAT")]
    pub format: Option<FindingsFormat>,

    #[command(flatten)]
    pub output: OutputArguments,

    /// Fail on findings of this severity or worse
    #[arg(long, value_enum, default_value = "error", value_name = "LEVEL")]
    pub deny: Level,

    /// The day on which acceptances may have run out; today if left out
    #[arg(long, value_name = "YYYY-MM-DD", value_parser = day)]
    pub date: Option<String>,

    /// Use this standard for every spec, and none that lies above it
    #[arg(long, value_name = "FILE")]
    pub standard: Option<PathBuf>,

    /// Only the findings of this rule; may be given again
    #[arg(long, value_name = "RULE", value_parser = super::rule_names::rule_name)]
    pub rule: Vec<String>,

    /// Only the findings of this family of rules; may be given again
    #[arg(long, value_name = "FAMILY", value_parser = super::rule_names::family)]
    pub family: Vec<Family>,

    /// Only the specs that these changed files concern; write it last, and --
    /// before names that you do not know: --affected-by -- FILE...
    #[arg(long, value_name = "FILE", num_args = 0..)]
    pub affected_by: Option<Vec<PathBuf>>,

    /// Leave out the findings that this baseline knows
    #[arg(long, value_name = "FILE")]
    pub baseline: Option<PathBuf>,

    /// Take out of the baseline what has been fixed since
    #[arg(long, requires = "baseline", conflicts_with_all = ["rule", "family", "diff"])]
    pub prune_baseline: bool,

    /// Write a baseline that knows every finding there is now
    #[arg(long, value_name = "FILE", conflicts_with_all = ["baseline", "output"])]
    pub write_baseline: Option<PathBuf>,

    /// Fix in the files what can be fixed automatically
    #[arg(long)]
    pub fix: bool,

    /// Show what --fix would change, and change nothing
    #[arg(long, conflicts_with_all = ["fix", "baseline", "write_baseline", "format"])]
    pub diff: bool,

    /// Count the findings of each rule instead (text only)
    #[arg(long)]
    pub statistics: bool,

    /// List the findings that are accepted, too (text only)
    #[arg(long)]
    pub accepted: bool,

    /// Tell on standard error what reading, figures and each rule cost
    #[arg(long, conflicts_with = "diff")]
    pub timings: bool,

    /// Write only the line that sums up (text only)
    #[arg(long, short)]
    pub quiet: bool,

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
pub(crate) struct TakeoffArguments {
    #[command(flatten)]
    pub spec: SpecArguments,

    /// How the take-off is written; by the ending of --output, else text
    #[arg(long, value_enum, value_name = "FORMAT")]
    pub format: Option<TakeoffFormat>,

    /// Follow each figure with how it was worked out (text only)
    #[arg(long)]
    pub working: bool,

    #[command(flatten)]
    pub output: OutputArguments,
}

/// Sets a spec out on the ground: pegs, tapes, levels, marks under a board
///
/// Every corner by its east and north and by two tapes from marks that stay, its
/// level, how far below the string each layer lies, arcs, and what proves it
/// square. It works without a `setting-out` section, from the building edge.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  \
    drylay setout jobs/court.patio             the sheet\n  \
    drylay setout --working jobs/court.patio   with the working of each figure\n  \
    drylay setout --format csv --output pegs.csv jobs/court.patio\n                                             \
    one point a line, for a spreadsheet or a total station")]
pub(crate) struct SetoutArguments {
    #[command(flatten)]
    pub spec: SpecArguments,

    /// How the setting out is written; by the ending of --output, else text
    #[arg(long, value_enum, value_name = "FORMAT")]
    pub format: Option<SetoutFormat>,

    /// End with how each figure was worked out (text only)
    #[arg(long)]
    pub working: bool,

    #[command(flatten)]
    pub output: OutputArguments,
}

/// Lays the text of specs out
///
/// Entries are indented by two spaces, values start in one column, sections are
/// separated by a blank line, and marks, units and fractions are written in their
/// plain form. What a spec says, its comments and its line ends stay.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  \
    drylay fmt jobs           lay out every spec in the folder jobs and below\n  \
    drylay fmt --check jobs   only say which ones are not laid out\n  \
    drylay fmt - < a.patio    write the text laid out to standard output\n\n\
    It ends with 0; with --check or --diff with 1 if a file would change; and\n\
    with 2 if it could not do its work, as when a file cannot be read.")]
pub(crate) struct FmtArguments {
    /// Specs, or folders that are searched for them; - reads standard input
    #[arg(value_name = "PATH", default_value = ".")]
    pub paths: Vec<PathBuf>,

    #[command(flatten)]
    pub stdin: StdinArguments,

    /// Only say which files would change
    #[arg(long)]
    pub check: bool,

    /// Show what would change, and change nothing
    #[arg(long, conflicts_with = "check")]
    pub diff: bool,
}

/// Shows which figures and findings change from one spec to another, and why
///
/// Each change is told with the lines that caused it. A whole part that is gone
/// or new is told once.
#[derive(Debug, Args)]
#[command(
    override_usage = "drylay compare [OPTIONS] <OLD> <NEW>\n       \
        drylay compare [OPTIONS] --git <REV> <SPEC>...",
    after_help = "Examples:\n  \
    drylay compare first/court.patio second/court.patio\n  \
    drylay compare --git HEAD jobs/court.patio   what changed since the last commit\n  \
    drylay compare --git main --format markdown jobs"
)]
pub(crate) struct CompareArguments {
    /// The older spec and the newer one; with --git, specs or folders of specs
    #[arg(value_name = "SPEC", required = true)]
    pub specs: Vec<PathBuf>,

    /// Compare each spec with itself as it was at this revision
    #[arg(long, value_name = "REV")]
    pub git: Option<String>,

    /// How the changes are written; by the ending of --output, else text
    #[arg(long, value_enum, value_name = "FORMAT")]
    pub format: Option<ComparisonFormat>,

    #[command(flatten)]
    pub output: OutputArguments,
}

/// Explains a rule, a word of the language or a built-in material
///
/// The limits are those in force here, or where PATH lies: each with the
/// document, or the line of a standard, that it comes from. Without a rule all
/// of them are listed.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  \
    drylay explain                              all rules, family by family\n  \
    drylay explain base-thin                    one rule, with its limits and examples\n  \
    drylay explain base-thin jobs/court.patio   with the limits that this spec is held to\n  \
    drylay explain edging                       a word of the language: how it is written\n  \
    drylay explain sharp-sand                   a built-in material: what is known of it\n  \
    drylay explain --search frost               the rules that speak of frost")]
pub(crate) struct ExplainArguments {
    /// A rule, or a word of the language: a section, a key, a material
    #[arg(value_name = "NAME", value_parser = super::rule_names::rule_or_word)]
    pub name: Option<String>,

    /// A spec or a folder, whose limits are shown; this folder if left out
    #[arg(value_name = "PATH")]
    pub path: Option<PathBuf>,

    /// List only the rules that speak of these words
    #[arg(long, value_name = "TEXT", conflicts_with = "name")]
    pub search: Option<String>,

    #[command(flatten)]
    pub output: OutputArguments,
}

/// Shows which standard applies, and every limit in force with where it is from
///
/// For a spec the limits of its region are shown, in its units; for a folder
/// those of every region.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  \
    drylay standard                    what applies in this folder\n  \
    drylay standard jobs/court.patio   what applies to this spec")]
pub(crate) struct StandardArguments {
    /// A spec, or a folder that specs may lie in
    #[arg(value_name = "PATH", default_value = ".")]
    pub path: PathBuf,

    #[command(flatten)]
    pub output: OutputArguments,
}

/// Writes what a shell needs to complete the words of this program
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  \
    drylay completions bash > ~/.local/share/bash-completion/completions/drylay")]
pub(crate) struct CompletionsArguments {
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
pub(crate) struct ManualArguments {
    #[command(flatten)]
    pub output: OutputArguments,
}

/// The one spec of a command.
#[derive(Debug, Args)]
pub(crate) struct SpecArguments {
    /// The spec; - reads standard input
    #[arg(value_name = "SPEC", required_unless_present = "stdin_path")]
    pub spec: Option<PathBuf>,

    #[command(flatten)]
    pub stdin: StdinArguments,
}

/// How standard input is named.
#[derive(Debug, Args)]
pub(crate) struct StdinArguments {
    /// Read the spec from standard input, as if it lay at this path
    #[arg(long, value_name = "FILE")]
    pub stdin_path: Option<PathBuf>,
}

/// Where the result goes.
#[derive(Debug, Args)]
pub(crate) struct OutputArguments {
    /// Write the result to this file, all of it or nothing
    #[arg(long, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

/// The endings of what no text is written under.
const NO_TEXT: &[&str] = &[
    "csv", "doc", "docx", "dwg", "dxf", "gif", "html", "ical", "ics", "jpeg", "jpg", "json", "ods",
    "odt", "pdf", "png", "rtf", "svg", "tif", "tiff", "xls", "xlsx", "zip",
];

impl OutputArguments {
    /// The format that is stated, or that the ending of the file names, or the
    /// usual one; nothing is written as text under the name of a picture.
    pub(crate) fn format<Format: ValueEnum>(
        &self,
        stated: Option<Format>,
        usual: Format,
    ) -> Result<Format, Problem> {
        let file = self.output.as_deref().unwrap_or(Path::new(""));
        let ending = file.extension().and_then(OsStr::to_str).unwrap_or_default();
        let named = stated.or_else(|| Format::from_str(ending, true).ok());
        match named {
            None if NO_TEXT.contains(&ending.to_lowercase().as_str()) => {
                let formats = Format::value_variants().iter();
                let formats = formats.filter_map(ValueEnum::to_possible_value);
                let formats: Vec<String> =
                    formats.map(|own| format!("`{}`", own.get_name())).collect();
                Err(Problem::with_file(
                    file.display(),
                    format!(
                        "this is not written as {ending}: name a file with another ending, or \
                         its format with --format: {}",
                        formats.join(", ")
                    ),
                ))
            }
            named => Ok(named.unwrap_or(usual)),
        }
    }
}

/// When text is coloured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum When {
    /// On a screen, unless NO_COLOR is set
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// The formats of the findings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum FindingsFormat {
    /// For reading, each finding with its line
    Text,
    /// For programs
    Json,
    /// SARIF 2.1.0, for code scanning
    Sarif,
    /// Annotations beside the lines of a change on GitHub
    Github,
    /// JUnit XML, a case for each finding
    Junit,
    /// Checkstyle XML
    Checkstyle,
}

/// The formats of the take-off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum TakeoffFormat {
    /// A sheet for reading, in the units of the job
    Text,
    /// For programs, in metres and kilograms
    Json,
    /// For a spreadsheet, one figure a line
    Csv,
    /// Tables for a note or a letter, in the units of the job
    #[value(alias = "md")]
    Markdown,
    /// A workbook with orders, quantities, mixes and cost, its sums as formulas
    Xlsx,
}

/// The formats of the setting out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum SetoutFormat {
    /// A sheet to print, in the units of the job
    Text,
    /// One point a line, in metres and as the tape reads
    Csv,
    /// For programs, in metres
    Json,
    /// Tables for a note, in the units of the job
    #[value(alias = "md")]
    Markdown,
    /// The sheet on numbered pages
    Pdf,
}

/// The formats of a comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ComparisonFormat {
    /// A sheet for reading
    Text,
    /// For a comment on a change
    #[value(alias = "md")]
    Markdown,
    /// For programs, in metres and kilograms
    Json,
}

/// How grave a finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Level {
    /// It will fail, hurt someone, or the text means nothing
    Error,
    /// Against accepted practice
    Warning,
    /// Worth a look
    Advisory,
    /// What an advisory was called once
    #[value(hide = true)]
    Advice,
}

impl From<Level> for Severity {
    fn from(level: Level) -> Severity {
        match level {
            Level::Error => Severity::Error,
            Level::Warning => Severity::Warning,
            Level::Advisory | Level::Advice => Severity::Advisory,
        }
    }
}

/// A day as the command line gives it, if there is such a day.
fn day(text: &str) -> Result<String, String> {
    match Day::read(text) {
        Some(_) => Ok(text.to_owned()),
        None => Err("write a day as 2027-06-01".to_owned()),
    }
}
