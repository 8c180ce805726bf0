//! Real editors, driven by the scripts in `tests/editors` with the files that
//! a user copies.

use std::path::Path;
use std::process::Command;

use crate::folder::repository;
use crate::tools::{command, tool};

/// Runs what drives an editor and holds it to having checked something, all
/// of which came out.
pub fn driven(mut command: Command, at_least: usize) {
    let output = command.output().expect("the editor starts");
    let said = String::from_utf8_lossy(&output.stdout);
    let complained = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}\n{complained}");
    assert!(
        said.matches("ok ").count() >= at_least,
        "it checked little:\n{said}\n{complained}"
    );
}

/// An editor of the terminal, driven by a script in Python; not run where the
/// editor, the terminal or Python is missing.
pub fn in_a_terminal(editor: &str, program: &str, at_least: usize) {
    let (Some(python), Some(program), Some(_)) = (tool("python"), tool(program), tool("tmux"))
    else {
        return;
    };
    let home = tempfile::tempdir().expect("a folder for the editor's own files");
    let mut command = command(python, home.path());
    let script = format!("tests/editors/{editor}.py");
    command.arg(repository().join(script));
    add_to_path(&mut command, program.parent().expect("it lies in a folder"));
    driven(command, at_least);
}

/// Has programs looked for in a folder, after this build's own.
pub fn add_to_path(command: &mut Command, folder: &Path) {
    let paths = command
        .get_envs()
        .find_map(|(name, value)| value.filter(|_| name == "PATH"))
        .map(std::ffi::OsStr::to_owned)
        .unwrap_or_default();
    let paths = std::env::split_paths(&paths).collect::<Vec<_>>();
    let (own, rest) = paths.split_at(1.min(paths.len()));
    let paths = own
        .iter()
        .cloned()
        .chain([folder.to_owned()])
        .chain(rest.iter().cloned());
    command.env(
        "PATH",
        std::env::join_paths(paths).expect("a path of folders"),
    );
}
