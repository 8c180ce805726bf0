//! What is read and where results go.

use std::fs;
use std::io::Read;
use std::process::Stdio;

use super::{FAULTY, SOUND, drylay, folder, json, run_in, run_with_input, text};

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
    let reported = text(&output.stderr);
    assert!(
        reported.contains("a.patio: it is not UTF-8 text: see line 1"),
        "{reported}"
    );
    assert!(
        reported.contains("none.patio: there is no such file"),
        "{reported}"
    );
}

#[test]
fn a_file_in_which_nothing_is_written_is_told_how_to_begin() {
    let folder = folder(&[
        ("a.patio", ""),
        ("b.patio", "# later\n"),
        ("c.patio", SOUND),
    ]);
    let output = run_in(folder.path(), &["check"]);
    assert_eq!(output.status.code(), Some(0));
    let told = text(&output.stderr);
    for (path, is_told) in [("a.patio", true), ("b.patio", true), ("c.patio", false)] {
        let words = format!("{path}: nothing is written in it yet");
        assert_eq!(told.contains(&words), is_told, "{told}");
    }
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
fn a_result_is_written_as_the_ending_of_its_file_says() {
    let folder = folder(&[("sound.patio", SOUND)]);
    let head = |file: &str| {
        let bytes = fs::read(folder.path().join(file)).unwrap();
        String::from_utf8_lossy(&bytes[..4]).into_owned()
    };
    for (command, file, starts) in [
        ("takeoff", "a.xlsx", "PK\u{3}\u{4}"),
        ("takeoff", "a.json", "{\n  "),
        ("setout", "a.pdf", "%PDF"),
        ("setout", "a.md", "# Se"),
        ("setout", "a.csv", "poin"),
        ("setout", "a.txt", "Sett"),
        ("check", "b.json", "{\n  "),
        ("report", "c.pdf", "%PDF"),
    ] {
        let arguments = [command, "sound.patio", "--output", file];
        let output = run_in(folder.path(), &arguments);
        assert!(output.status.success(), "{command} {file}");
        assert_eq!(head(file), starts, "{command} {file}");
    }
    for (command, file) in [
        ("takeoff", "t.pdf"),
        ("setout", "t.xlsx"),
        ("drawing", "d.csv"),
    ] {
        let arguments = [command, "sound.patio", "--output", file];
        let output = run_in(folder.path(), &arguments);
        assert_eq!(output.status.code(), Some(2), "{command} {file}");
        let said = String::from_utf8_lossy(&output.stderr);
        let ending = file.rsplit('.').next().unwrap();
        assert!(said.contains(&format!("not written as {ending}")), "{said}");
        assert!(!folder.path().join(file).exists(), "{command} {file}");
    }
}
