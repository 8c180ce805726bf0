//! Tools that are not Rust's, as `tests/set-up` brings them.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::folder::repository;

/// A program of the tests' own environment. Where it is not there, that a
/// test could not run is said, and is a failure if all must run.
pub fn tool(name: &str) -> Option<PathBuf> {
    let installed = repository().join("target/test-env/bin").join(name);
    if installed.exists() {
        return Some(installed);
    }
    missing(name);
    None
}

/// The Python of the tests' own environment, if it has some libraries too.
pub fn python_with(libraries: &[&str]) -> Option<PathBuf> {
    let python = tool("python")?;
    let mut libraries = libraries.iter();
    let Some(lacking) = libraries.find(|library| !has_library(&python, library)) else {
        return Some(python);
    };
    missing(&format!("Python's {lacking}"));
    None
}

fn has_library(python: &Path, library: &str) -> bool {
    let mut asked = Command::new(python);
    asked.args(["-c", &format!("import {library}")]);
    let asked = asked.stderr(Stdio::null()).status();
    asked.is_ok_and(|status| status.success())
}

#[test]
fn a_library_is_there_or_not() {
    let Some(python) = tool("python") else {
        return;
    };
    assert!(has_library(&python, "json"));
    assert!(!has_library(&python, "no_such_library"));
}

/// Says that a test could not run for want of a tool, and fails if all must.
pub fn missing(name: &str) {
    let how = format!("{name} is not there: run tests/set-up to install it");
    let must_run = std::env::var_os("DRYLAY_REQUIRE_ALL").is_some_and(|all| all == "1");
    assert!(!must_run, "{how}");
    println!("NOT RUN: {how}");
}

/// A command in a folder that finds this build of the program on its path,
/// and no settings of whoever runs the tests.
pub fn command(program: impl AsRef<Path>, folder: &Path) -> Command {
    let own = Path::new(env!("CARGO_BIN_EXE_drylay")).parent();
    let paths = std::env::var_os("PATH").unwrap_or_default();
    let paths = own
        .map(Path::to_owned)
        .into_iter()
        .chain(std::env::split_paths(&paths));
    let mut command = Command::new(program.as_ref());
    command
        .current_dir(folder)
        .env("PATH", std::env::join_paths(paths).unwrap())
        .env("HOME", folder)
        .env("GIT_CONFIG_GLOBAL", "/dev/null")
        .env("GIT_CONFIG_NOSYSTEM", "1");
    // A hook that runs the tests says where its own repository is.
    for name in ["GIT_DIR", "GIT_INDEX_FILE", "GIT_WORK_TREE", "GIT_PREFIX"] {
        command.env_remove(name);
    }
    for role in ["AUTHOR", "COMMITTER"] {
        command
            .env(format!("GIT_{role}_NAME"), "A. Tester")
            .env(format!("GIT_{role}_EMAIL"), "tester@example.invalid");
    }
    command
}
