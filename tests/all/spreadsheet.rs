//! The take-off as a workbook: other libraries read it, work its formulas out
//! anew and come to what the program says, whatever its texts are.

use std::path::Path;
use std::process::Command;

use crate::folder::repository;
use crate::tools::{command, python_with, tool};

/// A job whose names would be formulas, and which has every heading of a cost.
const HOSTILE: &str = "job \"=1+1\"\n  units metric\n  region uk\n  reference \"@SUM(A1)\"\n\
    shape a\n  rectangle 5 m by 4 m\nsurface a\n  shape a\n  build b\n\
    build b\n  paving york-stone, 50 mm\n  base crushed-stone, 150 mm\n\
    material york-stone\n  called \"=HYPERLINK(\\\"x\\\")\"\n  sold by m2, price 62.35 GBP\n\
    material crushed-stone\n  sold by 1 t, price 31.10 GBP\n\
    budget\n  labour 31.50 GBP/h, 42 h\n  item \"+cmd|' /C calc'!A0\", 120 GBP\n  \
    contingency 7.5 %\n  margin 18 %\n  tax 20 %, on everything\n";

#[test]
fn a_workbook_comes_to_what_the_program_says() {
    let Some(python) = python_with(&["openpyxl", "formulas"]) else {
        return;
    };
    let (folder, count) = workbooks();
    worked_out("workbook.py", command(python, folder.path()), count, &[]);
}

#[test]
fn an_office_program_comes_to_the_same() {
    let (Some(python), Some(office)) = (python_with(&["openpyxl", "formulas"]), tool("soffice"))
    else {
        return;
    };
    let (folder, count) = workbooks();
    worked_out(
        "office.py",
        command(python, folder.path()),
        count,
        &[&office],
    );
}

/// The workbooks of all specs and of the hostile one, each with its take-off
/// as JSON, and how many there are.
fn workbooks() -> (tempfile::TempDir, usize) {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("hostile.patio"), HOSTILE).expect("a spec");
    let mut specs = vec![folder.path().join("hostile.patio")];
    for entry in std::fs::read_dir(repository().join("specs")).expect("the specs") {
        let path = entry.expect("the specs").path();
        if path.extension().is_some_and(|ending| ending == "patio") {
            specs.push(path);
        }
    }
    for spec in &specs {
        let name = spec.file_stem().expect("a name").to_string_lossy();
        for ending in ["xlsx", "json"] {
            write(folder.path(), spec, &format!("{name}.{ending}"), ending);
        }
    }
    (folder, specs.len())
}

/// Has a program of `tests/outside` look at the workbooks of the folder that
/// its command runs in.
fn worked_out(program: &str, mut python: Command, count: usize, more: &[&Path]) {
    let folder = python.get_current_dir().expect("a folder").to_owned();
    let read = python
        .arg("-B")
        .arg(repository().join("tests/outside").join(program))
        .arg(folder)
        .args(more)
        .output()
        .expect("Python runs");
    let said = String::from_utf8_lossy(&read.stdout);
    assert!(
        read.status.success(),
        "{said}{}",
        String::from_utf8_lossy(&read.stderr)
    );
    assert_eq!(said.matches("ok ").count(), count, "{said}");
}

fn write(folder: &Path, spec: &Path, name: &str, format: &str) {
    let written = command(env!("CARGO_BIN_EXE_drylay"), folder)
        .args(["takeoff", "--format", format, "--output", name])
        .arg(spec)
        .output()
        .expect("the program runs");
    assert!(written.status.success(), "{written:?}");
}
