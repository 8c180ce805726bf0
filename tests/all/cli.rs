//! The program as it is run: what it writes where, and how it ends.

mod choices;
mod explaining;
mod files;
mod formats;
mod hostile;
mod hostile_words;
mod layout;
mod looks;
mod standards;
mod variation;

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;
use tempfile::TempDir;

use crate::folder::repository;

/// A spec in which nothing is found.
const SOUND: &str = "job \"Gate court\"\n  units metric\n  region general\n  currency GBP\n";
/// A spec with an error in it.
const FAULTY: &str = "job \"Gate court\"\n  units metric\n  region general\n  colour blue\n";
/// A spec with an advisory only.
const ADVISED: &str = "job \"Gate court\"\n  units imperial\n";

fn drylay() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_drylay"));
    command.env_remove("NO_COLOR").env("LC_ALL", "C.UTF-8");
    command
}

/// A folder of files, gone when the test ends.
fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
    folder
}

fn run_in(folder: &Path, arguments: &[&str]) -> Output {
    drylay()
        .current_dir(folder)
        .args(arguments)
        .output()
        .unwrap()
}

fn run_with_input(folder: &Path, arguments: &[&str], input: &[u8]) -> Output {
    let mut child = drylay()
        .current_dir(folder)
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(input).unwrap();
    child.wait_with_output().unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

fn json(output: &Output) -> Value {
    serde_json::from_slice(&output.stdout).unwrap()
}

/// The folder of what is expected, and of the specs that it is about.
fn golden_folder() -> PathBuf {
    repository().join("tests/golden")
}

/// What a command writes about the specs beside the golden files.
fn of_golden(arguments: &[&str]) -> String {
    let output = run_in(&golden_folder(), arguments);
    assert_eq!(text(&output.stderr), "", "{arguments:?}");
    text(&output.stdout)
}

#[test]
fn the_status_says_how_it_went() {
    let folder = folder(&[
        ("sound.patio", SOUND),
        ("faulty.patio", FAULTY),
        ("advised.patio", ADVISED),
    ]);
    for (arguments, status) in [
        (&["check", "sound.patio"][..], 0),
        (&["check", "faulty.patio"], 1),
        (&["check"], 1),
        (&["check", "advised.patio"], 0),
        (&["check", "--deny", "warning", "advised.patio"], 0),
        (&["check", "--deny", "advisory", "advised.patio"], 1),
        (&["check", "--deny", "advice", "advised.patio"], 1),
        (&["check", "missing.patio"], 2),
        (&["check", "--standard", "missing.patio", "sound.patio"], 2),
        (&["check", "--date", "1 March", "sound.patio"], 2),
        (&["check", "--unheard-of"], 2),
        (&["takeoff", "sound.patio"], 0),
        (&["takeoff", "missing.patio"], 2),
        (&["takeoff"], 2),
        (&["setout", "sound.patio"], 0),
        (&["setout", "missing.patio"], 2),
        (&["--help"], 0),
        (&["--version"], 0),
        (&[], 2),
    ] {
        let output = run_in(folder.path(), arguments);
        assert_eq!(
            output.status.code(),
            Some(status),
            "{arguments:?}: {output:?}"
        );
    }
}
