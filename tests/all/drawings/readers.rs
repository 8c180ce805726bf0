//! Drawings read by readers that are not ours: a browser, Poppler, ezdxf.

use std::fs;
use std::path::PathBuf;

use crate::folder::repository;
use crate::tools::{command, missing, python_with, tool};

/// A job whose texts would be markup, commands or escapes in some format.
const HOSTILE: &str = "job \"<script>alert(1)</script> & %%c \\\\U+0041 ]]> (a) \u{202e}odd\"\n  \
    units metric\n  region uk\n  reference \"\\\" onload=\\\"x\"\n\
    shape a\n  rectangle 5 m by 4 m\nsurface a\n  shape a\n  meets north\n  \
    level -150 mm at north\n  fall 1:60 away from north\n  build b\n  \
    laid running-bond, units 600 mm by 300 mm\n  joint 10 mm\n  \
    water to \"</text><script>x</script>\"\n\
    build b\n  paving york-stone, 50 mm\n";

/// Where the browser of the tests lies, with what drives it.
fn browser() -> Option<PathBuf> {
    let place = repository().join("target/test-env/vscode");
    if !place.join("browser/chromium").exists() {
        missing("the browser");
        return None;
    }
    Some(place)
}

#[test]
fn other_readers_see_one_drawing_in_every_format() {
    let (Some(python), Some(browser)) = (python_with(&["ezdxf", "PIL", "numpy"]), browser()) else {
        return;
    };
    if tool("pdftoppm").is_none() || tool("pdftotext").is_none() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let specs = repository().join("specs");
    let hostile = folder.path().join("hostile.patio");
    fs::write(&hostile, HOSTILE).expect("the spec is written");
    let drawn = [
        ("hostile", hostile, "a4"),
        ("ferry", specs.join("ferry-cottage.patio"), "a3"),
        ("weir", specs.join("weir-lane.patio"), "letter"),
    ];
    for (name, spec, sheet) in drawn {
        for format in ["svg", "pdf", "png", "dxf"] {
            let written = command(env!("CARGO_BIN_EXE_drylay"), folder.path())
                .args(["drawing", "--page", "1", "--sheet", sheet, "--output"])
                .arg(format!("{name}.{format}"))
                .arg(&spec)
                .output()
                .expect("the program runs");
            assert!(written.status.success(), "{written:?}");
        }
    }
    let tools = repository().join("target/test-env/bin");
    let read = command(python, folder.path())
        .arg("-B")
        .arg(repository().join("tests/outside/drawings.py"))
        .args([folder.path(), &tools, &browser])
        .output()
        .expect("Python runs");
    let said = String::from_utf8_lossy(&read.stdout);
    let complained = String::from_utf8_lossy(&read.stderr);
    assert!(read.status.success(), "{said}\n{complained}");
    assert!(said.contains("3 drawings agree"), "{said}");
}
