//! A real Neovim as the client.

use std::path::{Path, PathBuf};
use std::process::Command;

/// The Neovim that `tests/set-up` installs.
fn neovim() -> Option<PathBuf> {
    let installed = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/test-env/bin/nvim");
    installed.exists().then_some(installed)
}

#[test]
fn neovim_shows_findings_hints_and_hovers() {
    let Some(neovim) = neovim() else {
        let how = "Neovim is not there: run tests/set-up to install it";
        assert!(
            std::env::var_os("DRYLAY_REQUIRE_ALL").is_none_or(|all| all != "1"),
            "{how}"
        );
        println!("NOT RUN: the editor test. {how}");
        return;
    };
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let home = tempfile::tempdir().expect("a folder for the editor's own files");
    let program = Path::new(env!("CARGO_BIN_EXE_drylay"));
    let folder = program.parent().expect("the program lies in a folder");
    let paths = std::env::var_os("PATH").unwrap_or_default();
    let paths = std::iter::once(folder.to_path_buf()).chain(std::env::split_paths(&paths));
    crate::trees::parser(home.path());
    let output = Command::new(neovim)
        .current_dir(root)
        .args([
            "--headless",
            "-n",
            "-i",
            "NONE",
            "-u",
            "editors/neovim/drylay.lua",
        ])
        .arg("specs/bakehouse-yard.patio")
        .args(["-c", "luafile tests/editors/neovim.lua"])
        .env(
            "PATH",
            std::env::join_paths(paths).expect("a path of folders"),
        )
        .env("HOME", home.path())
        .env("XDG_DATA_HOME", home.path().join("data"))
        .envs(
            ["XDG_CONFIG_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME"].map(|name| (name, home.path())),
        )
        .output()
        .expect("Neovim starts");
    let said = String::from_utf8_lossy(&output.stdout);
    let complained = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}\n{complained}");
    assert!(
        said.matches("ok ").count() > 25,
        "it checked little:\n{said}\n{complained}"
    );
}
