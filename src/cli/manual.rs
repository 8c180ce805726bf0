//! `drylay manual` and `drylay completions`: made from the arguments.

use clap::{Command, CommandFactory};

use super::arguments::{Arguments, CompletionsArguments, ManualArguments};
use super::output::write_result;
use super::problem::Problem;
use super::status::{GOOD, Status};

/// Writes what a shell needs to complete the words of the program.
pub(crate) fn completions(arguments: &CompletionsArguments) -> Result<Status, Problem> {
    let mut script = Vec::new();
    let mut command = Arguments::command();
    clap_complete::generate(arguments.shell, &mut command, "drylay", &mut script);
    let script = String::from_utf8_lossy(&script);
    write_result(&script, arguments.output.output.as_deref())?;
    Ok(GOOD)
}

/// Writes the manual page: the program, then each command.
pub(crate) fn manual(arguments: &ManualArguments) -> Result<Status, Problem> {
    let mut command = Arguments::command();
    command.build();
    let page = page(&command).map_err(|error| Problem(error.to_string()))?;
    write_result(
        &String::from_utf8_lossy(&page),
        arguments.output.output.as_deref(),
    )?;
    Ok(GOOD)
}

fn page(command: &Command) -> std::io::Result<Vec<u8>> {
    let mut page = Vec::new();
    clap_mangen::Man::new(command.clone()).render(&mut page)?;
    for own in command.get_subcommands() {
        let name = own.get_name().to_uppercase();
        page.extend(format!(".SH \"DRYLAY {name}\"\n").bytes());
        let man = clap_mangen::Man::new(own.clone());
        let mut sections = Vec::new();
        man.render_synopsis_section(&mut sections)?;
        man.render_description_section(&mut sections)?;
        man.render_options_section(&mut sections)?;
        // The sections of a command stand a step below its own heading.
        page.extend(
            String::from_utf8_lossy(&sections)
                .replace(".SH ", ".SS ")
                .bytes(),
        );
    }
    Ok(page)
}
