//! A real Emacs as the client, by eglot.

use crate::driving::driven;
use crate::folder::repository;
use crate::tools::{command, tool};

#[test]
fn emacs_shows_findings_hints_and_hovers_and_changes_the_text() {
    let Some(emacs) = tool("emacs") else {
        return;
    };
    let home = tempfile::tempdir().expect("a folder for the editor's own files");
    let spec = home.path().join("bakehouse-yard.patio");
    std::fs::copy(repository().join("specs/bakehouse-yard.patio"), &spec).expect("a spec");
    let mut command = command(emacs, home.path());
    command
        .args(["-Q", "--batch", "-L"])
        .arg(repository().join("editors/emacs"))
        .arg("-l")
        .arg(repository().join("tests/editors/emacs.el"))
        .arg(spec);
    driven(command, 25);
}
