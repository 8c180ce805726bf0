//! Running a command.

use std::process::ExitCode;

use clap::Parser;

use super::arguments::{Arguments, Command};
use super::check::check;
use super::compare::compare;
use super::drawing::drawing;
use super::explain::explain;
use super::layout::fmt;
use super::manual::{completions, manual};
use super::output::tell;
use super::preview::preview;
use super::problem::Problem;
use super::report::report;
use super::schedule::schedule;
use super::setout::setout;
use super::standard::standard;
use super::status::{COULD_NOT, Status};
use super::takeoff::takeoff;

/// Room for the deepest text that is read.
const STACK: usize = 16 * 1024 * 1024;

/// Reads the command line and does what it says.
pub fn run() -> ExitCode {
    let arguments = Arguments::parse();
    // Every thread that works anything out is one of these, the server's too.
    let workers = rayon::ThreadPoolBuilder::new().stack_size(STACK);
    let done = match workers.build_global() {
        Err(error) => Err(Problem(error.to_string())),
        // It waits for what its own threads do, and must keep none of these.
        Ok(()) if matches!(arguments.command, Command::Serve) => done(&arguments),
        Ok(()) => rayon::scope(|_| done(&arguments)),
    };
    ExitCode::from(done.unwrap_or_else(|problem| {
        tell(&problem.to_string());
        COULD_NOT
    }))
}

fn done(arguments: &Arguments) -> Result<Status, Problem> {
    match &arguments.command {
        Command::Check(own) => check(own, arguments.color),
        Command::Takeoff(own) => takeoff(own),
        Command::Drawing(own) => drawing(own),
        Command::Preview(own) => preview(own),
        Command::Setout(own) => setout(own),
        Command::Report(own) => report(own),
        Command::Schedule(own) => schedule(own),
        Command::Fmt(own) => fmt(own),
        Command::Compare(own) => compare(own),
        Command::Explain(own) => explain(own),
        Command::Standard(own) => standard(own),
        Command::Serve => Ok(Status::try_from(crate::server::serve()).unwrap_or(COULD_NOT)),
        Command::Completions(own) => completions(own),
        Command::Manual(own) => manual(own),
    }
}
