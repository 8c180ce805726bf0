//! Files that are not what they are called, and names that are not what they
//! look like: nothing is overwritten, waited for or followed that was not
//! asked for.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;

use super::{FAULTY, SOUND, folder, json, run_in, text};

/// Everything in a folder, by name.
fn contents(folder: &Path) -> BTreeMap<String, String> {
    let entries = fs::read_dir(folder).unwrap().map(Result::unwrap);
    let files = entries.filter(|entry| entry.path().is_file());
    let read = |path| String::from_utf8_lossy(&fs::read(path).unwrap()).into_owned();
    files
        .map(|entry| (entry.file_name().into_string().unwrap(), read(entry.path())))
        .collect()
}

#[test]
fn a_result_overwrites_nothing_that_is_read() {
    let folder = folder(&[
        ("a.patio", SOUND),
        ("b.patio", SOUND),
        ("spec.txt", SOUND),
        ("notes.txt", "notes of the site\n"),
        ("known.json", ""),
    ]);
    let at = folder.path();
    let wrote = run_in(at, &["check", "--write-baseline", "known.json", "a.patio"]);
    assert_eq!(wrote.status.code(), Some(0), "{wrote:?}");
    fs::hard_link(at.join("spec.txt"), at.join("twin.txt")).unwrap();
    #[cfg(unix)]
    std::os::unix::fs::symlink("a.patio", at.join("link.txt")).unwrap();
    let before = contents(at);
    for arguments in [
        // As a shell gives `--write-baseline *.patio`.
        &["check", "--write-baseline", "a.patio", "b.patio"][..],
        &["check", "--output", "a.patio", "b.patio"],
        &["check", "--output", "new.patio", "b.patio"],
        &["check", "--diff", "--output", "a.patio", "b.patio"],
        &["check", "--write-baseline", "notes.txt", "a.patio"],
        &["check", "--write-baseline", "spec.txt", "spec.txt"],
        &["check", "--output", "twin.txt", "spec.txt"],
        &[
            "check",
            "--output",
            "known.json",
            "--baseline",
            "known.json",
            "a.patio",
        ],
        &["takeoff", "--output", "a.patio", "a.patio"],
        &["takeoff", "--output", "link.txt", "b.patio"],
        &["takeoff", "--output", "spec.txt", "spec.txt"],
        &["compare", "--output", "b.patio", "a.patio", "b.patio"],
        &["explain", "lip", "spec.txt", "--output", "spec.txt"],
        &["standard", "spec.txt", "--output", "twin.txt"],
        &["manual", "--output", "a.patio"],
    ] {
        let output = run_in(at, arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {output:?}");
        assert_eq!(contents(at), before, "{arguments:?}");
        let reported = text(&output.stderr);
        let why = ["overwrit", "a result is not a spec"];
        assert!(why.iter().any(|why| reported.contains(why)), "{reported}");
    }
    // A baseline is written anew, and a result over an older one.
    for arguments in [
        &["check", "--write-baseline", "known.json", "a.patio"][..],
        &["takeoff", "--output", "notes.txt", "a.patio"],
    ] {
        let output = run_in(at, arguments);
        assert_eq!(output.status.code(), Some(0), "{output:?}");
    }
}

#[test]
fn after_two_hyphens_a_changed_file_is_no_option() {
    let hostile = "--output=a.patio";
    let folder = folder(&[
        ("a.patio", SOUND),
        (hostile, FAULTY),
        ("other.patio", FAULTY),
    ]);
    let before = contents(folder.path());
    let affected = ["check", "--format", "json", "--affected-by", "--"];
    let output = run_in(folder.path(), &[&affected[..], &[hostile]].concat());
    assert_eq!(output.status.code(), Some(1), "{output:?}");
    let checked = json(&output)["files"].clone();
    assert_eq!(checked.as_array().map(Vec::len), Some(1), "{checked}");
    assert_eq!(checked[0]["path"], hostile);
    assert_eq!(contents(folder.path()), before);
}

#[cfg(unix)]
#[test]
fn what_is_no_file_is_told_and_not_waited_for() {
    use std::os::unix::fs::symlink;
    let folder = folder(&[
        ("sound.patio", SOUND),
        ("jobs/yard.patio", "use \"../pipe.patio\"\n"),
        ("odd/b.patio", SOUND),
    ]);
    let at = |name: &str| folder.path().join(name);
    for pipe in ["pipe.patio", "standard.patio"] {
        assert!(
            Command::new("mkfifo")
                .arg(at(pipe))
                .status()
                .unwrap()
                .success()
        );
    }
    symlink("/dev/zero", at("zero.patio")).unwrap();
    symlink("/dev/zero", at("odd/.gitignore")).unwrap();
    symlink("/dev/stdin", at("jobs/in.patio")).unwrap();
    let output = run_in(folder.path(), &["check", "--format", "json"]);
    assert_eq!(output.status.code(), Some(2));
    let document = json(&output);
    let unread = document["unread"].as_array().unwrap();
    let names: Vec<&str> = unread.iter().filter_map(|path| path.as_str()).collect();
    let odd = [
        "jobs/in.patio",
        "odd/.gitignore",
        "pipe.patio",
        "standard.patio",
        "zero.patio",
    ];
    assert_eq!(names, odd);
    // The others are checked, and told that their standard is none.
    let of = |path: &str| {
        let files = document["files"].as_array().unwrap();
        let file = files.iter().find(|file| file["path"] == path).unwrap();
        file["findings"].to_string()
    };
    for path in ["sound.patio", "jobs/yard.patio", "odd/b.patio"] {
        let found = of(path);
        assert!(
            found.contains("a standard.patio that applies here"),
            "{found}"
        );
        assert!(found.contains("it is a pipe or a device"), "{found}");
    }
    let found = of("jobs/yard.patio");
    assert!(
        found.contains("\\\"../pipe.patio\\\" cannot be read"),
        "{found}"
    );
    for arguments in [
        &["check", "zero.patio"][..],
        &["takeoff", "pipe.patio"],
        &["fmt", "zero.patio", "pipe.patio"],
        &["check", "--standard", "zero.patio", "sound.patio"],
        &["check", "--baseline", "zero.patio", "sound.patio"],
        &["compare", "sound.patio", "pipe.patio"],
        &["standard", "zero.patio"],
    ] {
        let output = run_in(folder.path(), arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {output:?}");
        let reported = text(&output.stderr);
        assert!(reported.contains("it is a pipe or a device"), "{reported}");
    }
}

#[cfg(unix)]
#[test]
fn links_lead_out_of_no_folder() {
    use std::os::unix::fs::symlink;
    let secret = "let secret = 7 in\n   let crooked=1 in\n";
    let folder = folder(&[
        ("secret.patio", secret),
        ("repository/.git/HEAD", ""),
        ("repository/standard.patio", "standard \"House\"\n"),
        (
            "repository/jobs/yard.patio",
            "use \"../lib.patio\"\nlet a = secret\n",
        ),
        ("repository/inner.patio", "let inner = 2 in\n"),
        (
            "repository/jobs/court.patio",
            "use \"../alias.patio\"\nlet a = inner\n",
        ),
        ("other/standard.patio", "standard \"Elsewhere\"\n"),
    ]);
    let repository = folder.path().join("repository");
    for (target, link) in [
        ("../secret.patio", "lib.patio"),
        ("inner.patio", "alias.patio"),
        ("../../other/standard.patio", "jobs/standard.patio"),
    ] {
        symlink(target, repository.join(link)).unwrap();
    }
    let output = run_in(&repository, &["check", "--format", "json"]);
    let document = json(&output);
    let unread = document["unread"].clone();
    assert_eq!(
        unread,
        serde_json::json!(["jobs/standard.patio", "lib.patio"])
    );
    let all = document.to_string();
    assert!(
        all.contains("\\\"../lib.patio\\\" is a link that leads out"),
        "{all}"
    );
    assert!(
        !all.contains("name-unknown"),
        "a link may stay inside: {all}"
    );
    let shown = run_in(&repository, &["standard", "jobs/yard.patio"]);
    assert!(!text(&shown.stdout).contains("Elsewhere"), "{shown:?}");
    // Nothing is written through them either, unless they are named.
    let before = contents(folder.path());
    run_in(&repository, &["fmt", "."]);
    run_in(&repository, &["check", "--fix"]);
    assert_eq!(contents(folder.path()), before);
    run_in(&repository, &["fmt", "lib.patio"]);
    assert_ne!(contents(folder.path()), before);
}

#[cfg(unix)]
#[test]
fn a_spec_that_is_laid_out_stays_what_it_was() {
    use std::os::unix::fs::PermissionsExt;
    let crooked = "let a  =  1 in\n";
    let folder = folder(&[("a.patio", crooked), ("read-only.patio", crooked)]);
    let at = |name: &str| folder.path().join(name);
    fs::set_permissions(at("read-only.patio"), fs::Permissions::from_mode(0o444)).unwrap();
    fs::set_permissions(at("a.patio"), fs::Permissions::from_mode(0o640)).unwrap();
    fs::hard_link(at("a.patio"), at("twin")).unwrap();
    let output = run_in(folder.path(), &["fmt"]);
    assert_eq!(output.status.code(), Some(2));
    let reported = text(&output.stderr);
    assert!(
        reported.contains("read-only.patio: it is read-only"),
        "{reported}"
    );
    let files = contents(folder.path());
    assert_eq!(files["read-only.patio"], crooked);
    assert_ne!(files["a.patio"], crooked);
    assert_eq!(files["twin"], files["a.patio"]);
    let mode = fs::metadata(at("a.patio")).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o640);
}

#[test]
fn a_library_that_cannot_be_read_says_why() {
    let folder = folder(&[
        (
            "yard.patio",
            "use \"lib.patio\"\nlet a = margin\nlet b = nothing\n",
        ),
        ("lob.patio", "use \"lip.patio\"\nlet a = margin\n"),
    ]);
    fs::write(
        folder.path().join("lib.patio"),
        b"let margin = 6 in # \xff\n",
    )
    .unwrap();
    let output = run_in(folder.path(), &["check", "--format", "json", "yard.patio"]);
    let found = json(&output)["files"][0]["findings"].to_string();
    assert!(
        found.contains("\\\"lib.patio\\\" cannot be read: it is not UTF-8 text: see line 1"),
        "{found}"
    );
    assert!(!found.contains("name-unknown"), "{found}");
    let output = run_in(folder.path(), &["check", "--format", "json", "lob.patio"]);
    let found = json(&output)["files"][0]["findings"].to_string();
    assert!(found.contains("Did you mean \\\"lib.patio\\\"?"), "{found}");
    assert!(!found.contains("name-unknown"), "{found}");
}
