//! The program as it is run: what it writes where, and how it ends.

use std::fs;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;
use tempfile::TempDir;

/// A spec in which nothing is found.
const SOUND: &str = "job \"Gate court\"\n  units metric\n  region general\n  currency GBP\n";
/// A spec with an error in it.
const FAULTY: &str = "job \"Gate court\"\n  units metric\n  region general\n  colour blue\n";
/// A spec with a piece of advice only.
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

fn golden(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/golden")
        .join(name)
}

/// Compares a text with the file that holds what is expected; with
/// `DRYLAY_REFRESH=1` in the environment the file is written instead.
fn assert_golden(name: &str, found: &str) {
    if std::env::var_os("DRYLAY_REFRESH").is_some() {
        fs::write(golden(name), found).unwrap();
    }
    let expected = fs::read_to_string(golden(name)).unwrap_or_default();
    assert_eq!(
        found, expected,
        "tests/golden/{name} differs: DRYLAY_REFRESH=1 writes it anew"
    );
}

/// What a command writes about the specs beside the golden files.
fn of_golden(arguments: &[&str]) -> String {
    let output = run_in(&golden(""), arguments);
    assert_eq!(text(&output.stderr), "", "{arguments:?}");
    text(&output.stdout)
}

#[test]
fn sheets_look_as_they_should() {
    for (name, arguments) in [
        ("courtyard-takeoff.txt", &["takeoff", "courtyard.patio"][..]),
        (
            "courtyard-working.txt",
            &["takeoff", "--working", "courtyard.patio"],
        ),
        ("landing-takeoff.txt", &["takeoff", "landing.patio"]),
        (
            "landing-takeoff.csv",
            &["takeoff", "--format", "csv", "landing.patio"],
        ),
    ] {
        assert_golden(name, &of_golden(arguments));
    }
}

#[test]
fn findings_look_as_they_should() {
    let day = ["check", "--date", "2027-03-20"];
    for (name, more) in [
        ("check.txt", &["courtyard.patio", "landing.patio"][..]),
        ("check-ascii.txt", &["--ascii", "landing.patio"]),
        ("check-colour.txt", &["--color", "always", "landing.patio"]),
        ("check.json", &["--format", "json", "landing.patio"]),
    ] {
        assert_golden(name, &of_golden(&[&day, more].concat()));
    }
}

#[test]
fn help_looks_as_it_should() {
    let help: String = [
        &["--help"][..],
        &["check", "--help"],
        &["takeoff", "--help"],
    ]
    .iter()
    .map(|arguments| of_golden(arguments) + "\n")
    .collect();
    assert_golden("help.txt", &help);
}

#[test]
fn no_line_of_a_sheet_is_too_wide() {
    for spec in ["courtyard.patio", "landing.patio"] {
        for arguments in [
            &["takeoff", spec][..],
            &["takeoff", "--working", spec],
            &["check", spec],
        ] {
            for line in of_golden(arguments).lines() {
                assert!(line.chars().count() <= 100, "{line}");
            }
        }
    }
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
        (&["check", "--deny", "advice", "advised.patio"], 1),
        (&["check", "missing.patio"], 2),
        (&["check", "--standard", "missing.patio", "sound.patio"], 2),
        (&["check", "--date", "1 March", "sound.patio"], 2),
        (&["check", "--unheard-of"], 2),
        (&["takeoff", "sound.patio"], 0),
        (&["takeoff", "missing.patio"], 2),
        (&["takeoff"], 2),
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

#[test]
fn one_unreadable_file_does_not_stop_the_others() {
    let folder = folder(&[("b.patio", FAULTY)]);
    fs::write(folder.path().join("a.patio"), b"job \"\xff\"\n").unwrap();
    let output = run_in(
        folder.path(),
        &["check", "--format", "json", ".", "none.patio"],
    );
    assert_eq!(output.status.code(), Some(2));
    let document = json(&output);
    assert_eq!(
        document["unread"],
        serde_json::json!(["a.patio", "none.patio"])
    );
    assert_eq!(document["files"][0]["path"], "b.patio");
    assert_eq!(document["summary"]["errors"], 1);
    let told = text(&output.stderr);
    assert!(
        told.contains("a.patio: it is not UTF-8 text: see line 1"),
        "{told}"
    );
    assert!(told.contains("none.patio: there is no such file"), "{told}");
}

#[test]
fn folders_are_searched_and_ignore_files_heard() {
    let folder = folder(&[
        (".gitignore", "old/\n"),
        ("jobs/b.patio", SOUND),
        ("jobs/a.PATIO", SOUND),
        ("jobs/notes.txt", FAULTY),
        ("plans/north.txt", ""),
        ("old/c.patio", FAULTY),
        ("standard.patio", "standard \"House\"\n"),
    ]);
    let document = json(&run_in(folder.path(), &["check", "--format", "json"]));
    let files = document["files"].as_array().unwrap();
    let paths: Vec<_> = files
        .iter()
        .map(|file| file["path"].as_str().unwrap())
        .collect();
    assert_eq!(paths, ["jobs/a.PATIO", "jobs/b.patio", "standard.patio"]);
    // A file that is named is checked whatever leaves it out.
    let named = run_in(folder.path(), &["check", "old/c.patio"]);
    assert_eq!(named.status.code(), Some(1));
    let empty = run_in(folder.path(), &["check", "--format", "json", "plans"]);
    assert_eq!(json(&empty)["summary"]["files"], 0);
    assert!(text(&empty.stderr).contains("there is no .patio file in it"));
}

#[test]
fn a_folder_in_which_specs_lie_in_any_order_is_told_in_one() {
    let names: Vec<String> = (0..40)
        .map(|number| format!("{number}/{}.patio", 97 * number % 40))
        .collect();
    let files: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), FAULTY)).collect();
    let folder = folder(&files);
    let first = run_in(folder.path(), &["check", "--format", "json"]).stdout;
    for _ in 0..3 {
        assert_eq!(
            run_in(folder.path(), &["check", "--format", "json"]).stdout,
            first
        );
    }
}

#[test]
fn standard_input_is_a_spec() {
    let folder = folder(&[("lib/mixes.patio", "let margin = 6 in\n")]);
    for (arguments, path) in [
        (&["check", "-", "--format", "json"][..], "-"),
        (
            &["check", "--stdin-path", "lib/new.patio", "--format", "json"],
            "lib/new.patio",
        ),
    ] {
        let output = run_with_input(folder.path(), arguments, FAULTY.as_bytes());
        assert_eq!(output.status.code(), Some(1));
        assert_eq!(json(&output)["files"][0]["path"], path);
        assert_eq!(json(&output)["summary"]["files"], 1);
    }
    // What it uses is looked for beside the path that it is said to have.
    let spec = format!("{SOUND}\nuse \"mixes.patio\"\n");
    for (path, found) in [("lib/new.patio", 0), ("new.patio", 1)] {
        let output = run_with_input(
            folder.path(),
            &["check", "--stdin-path", path],
            spec.as_bytes(),
        );
        assert_eq!(output.status.code(), Some(found), "{path}: {output:?}");
    }
    let sheet = run_with_input(folder.path(), &["takeoff", "-"], SOUND.as_bytes());
    assert!(text(&sheet.stdout).starts_with("Gate court\n"));
    let broken = run_with_input(folder.path(), &["check", "-"], b"\xff");
    assert_eq!(broken.status.code(), Some(2));
}

#[test]
fn a_result_file_is_whole_or_not_there() {
    let folder = folder(&[("sound.patio", SOUND), ("sheet.txt", "an older sheet\n")]);
    let written = run_in(
        folder.path(),
        &["takeoff", "sound.patio", "--output", "sheet.txt"],
    );
    assert_eq!((written.status.code(), written.stdout.len()), (Some(0), 0));
    let sheet = fs::read_to_string(folder.path().join("sheet.txt")).unwrap();
    assert!(sheet.starts_with("Gate court\n"));
    let missing = run_in(
        folder.path(),
        &["takeoff", "missing.patio", "--output", "sheet.txt"],
    );
    assert_eq!(missing.status.code(), Some(2));
    assert_eq!(
        fs::read_to_string(folder.path().join("sheet.txt")).unwrap(),
        sheet
    );
    let nowhere = run_in(
        folder.path(),
        &["takeoff", "sound.patio", "--output", "none/sheet.txt"],
    );
    assert_eq!(nowhere.status.code(), Some(2));
    let mut left: Vec<_> = fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    left.sort();
    assert_eq!(left, ["sheet.txt", "sound.patio"]);
}

#[cfg(unix)]
#[test]
fn a_result_file_stays_what_it_is() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = folder(&[("sound.patio", SOUND), ("kept.txt", "")]);
    let at = |name: &str| folder.path().join(name);
    fs::set_permissions(at("kept.txt"), fs::Permissions::from_mode(0o640)).unwrap();
    symlink("kept.txt", at("link.txt")).unwrap();
    for target in ["link.txt", "/dev/null"] {
        let written = run_in(
            folder.path(),
            &["takeoff", "sound.patio", "--output", target],
        );
        assert_eq!(written.status.code(), Some(0), "{target}");
    }
    assert!(fs::symlink_metadata(at("link.txt")).unwrap().is_symlink());
    let about = fs::metadata(at("kept.txt")).unwrap();
    assert_eq!(
        (about.permissions().mode() & 0o777, about.len() > 0),
        (0o640, true)
    );
    assert!(!fs::metadata("/dev/null").unwrap().is_file());
}

#[test]
fn a_reader_that_goes_away_is_no_failure() {
    let long: String = (0..4000).map(|number| format!("word-{number}\n")).collect();
    let folder = folder(&[("long.patio", &long)]);
    let mut child = drylay()
        .current_dir(folder.path())
        .args(["check", "long.patio"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut first = [0; 16];
    let mut out = child.stdout.take().unwrap();
    out.read_exact(&mut first).unwrap();
    drop(out);
    let ended = child.wait_with_output().unwrap();
    assert_eq!(
        (ended.status.code(), text(&ended.stderr)),
        (Some(1), String::new())
    );
}

#[test]
fn colour_is_where_it_is_wanted() {
    let folder = folder(&[("faulty.patio", FAULTY)]);
    for (arguments, no_colour, is_coloured) in [
        (&["check"][..], "", false),
        (&["check", "--color", "always"], "", true),
        (&["check", "--color", "always"], "1", true),
        (&["check", "--color", "never"], "", false),
        (&["check", "--color", "auto"], "1", false),
    ] {
        let output = drylay()
            .current_dir(folder.path())
            .args(arguments)
            .env("NO_COLOR", no_colour)
            .output()
            .unwrap();
        let found = output.stdout.contains(&0x1b);
        assert_eq!(found, is_coloured, "{arguments:?} {no_colour}");
    }
}

#[test]
fn the_take_off_is_json_in_si() {
    let found: Value = serde_json::from_str(&of_golden(&[
        "takeoff",
        "--format",
        "json",
        "landing.patio",
    ]))
    .unwrap();
    assert_eq!(found["version"], 1);
    assert_eq!(found["job"]["units"], "metric");
    let area = 6.0 * 3.5 - std::f64::consts::PI * 0.3 * 0.3;
    let shown = found["shapes"][0]["area_m2"].as_f64().unwrap();
    assert!((shown - area).abs() < 1e-9);
    let base = &found["surfaces"][0]["layers"][2];
    assert_eq!(
        (&base["role"], &base["material"]),
        (&"base".into(), &"local-stone".into())
    );
    assert_eq!(base["mass_kg"], Value::Null, "it has no density");
    let unknown = found["unknown"].to_string();
    assert!(
        unknown.contains("no density of local-stone is known"),
        "{unknown}"
    );
}

#[test]
fn a_named_standard_is_the_one_that_counts() {
    let sheet = fs::read_to_string(golden("landing.patio")).unwrap();
    let strict = "standard \"Strict\"\n  limit fall-flat brick 1:20\n";
    let folder = folder(&[
        ("jobs/landing.patio", sheet.as_str()),
        ("strict.patio", strict),
    ]);
    let arguments = [
        "check",
        "--format",
        "json",
        "--standard",
        "strict.patio",
        "jobs/landing.patio",
    ];
    let document = json(&run_in(folder.path(), &arguments));
    assert_eq!(document["standard"], "strict.patio");
    let findings = document["files"][0]["findings"].as_array().unwrap();
    let flat = findings
        .iter()
        .find(|found| found["rule"] == "fall-flat")
        .unwrap();
    assert_eq!(flat["limit_from"]["path"], "strict.patio");
    assert_eq!(flat["limit_from"]["line"], 2);
}

#[test]
fn a_standard_has_nothing_to_take_off() {
    let folder = folder(&[("standard.patio", "standard \"House\"\n")]);
    let output = run_in(folder.path(), &["takeoff", "standard.patio"]);
    assert_eq!((output.status.code(), output.stdout.len()), (Some(2), 0));
}

#[test]
fn manual_and_completions_are_written() {
    let folder = folder(&[]);
    let manual = run_in(folder.path(), &["manual"]);
    assert!(text(&manual.stdout).contains(".TH drylay 1"));
    assert!(text(&manual.stdout).contains("DRYLAY TAKEOFF"));
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let script = run_in(folder.path(), &["completions", shell]);
        assert_eq!(script.status.code(), Some(0));
        assert!(text(&script.stdout).contains("takeoff"), "{shell}");
    }
}
