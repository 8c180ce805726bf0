//! The program `drylay`.

use std::process::ExitCode;

fn main() -> ExitCode {
    drylay::cli::run()
}
