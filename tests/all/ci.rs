//! What `editors/ci` offers, on a sample repository with real git.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use serde_json::Value;
use tempfile::TempDir;

use crate::folder::repository;
use crate::tools::{command, python_with, tool};

const SOUND: &str = "job \"Gate court\"\n  units metric\n  region general\n  currency GBP\n";
const FAULTY: &str = "job \"Gate court\"\n  units metric\n  region general\n  colour blue\n";
const USER: &str =
    "job \"Gate court\"\n  units metric\n  region general\n\nuse \"../house.patio\"\n";
const LIBRARY: &str = "material pale-grit\n  density 1.6 t/m3\n";

/// A repository with one sound spec, its library and a standard committed.
fn sample() -> TempDir {
    let sample = tempfile::tempdir().unwrap();
    write(sample.path(), "standard.patio", "standard \"House\"\n");
    write(sample.path(), "house.patio", LIBRARY);
    write(sample.path(), "jobs/court.patio", USER);
    done(git(sample.path(), &["init", "--quiet"]));
    done(git(sample.path(), &["add", "."]));
    done(git(sample.path(), &["commit", "--quiet", "-m", "Begin"]));
    sample
}

fn write(folder: &Path, name: &str, text: &str) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
}

fn git(folder: &Path, arguments: &[&str]) -> Output {
    let mut git = command("git", folder);
    git.args(arguments).output().expect("git can be started")
}

fn done(output: Output) -> Output {
    assert!(output.status.success(), "{}", said(&output));
    output
}

fn said(output: &Output) -> String {
    let (out, err) = (&output.stdout, &output.stderr);
    String::from_utf8_lossy(out).into_owned() + &String::from_utf8_lossy(err)
}

/// Commits all that is staged, or is kept from it.
fn commit(folder: &Path) -> Output {
    git(folder, &["commit", "--quiet", "-m", "Go on"])
}

/// How many commits there are.
fn commits(folder: &Path) -> usize {
    let log = done(git(folder, &["log", "--oneline"]));
    said(&log).lines().count()
}

#[test]
fn the_hook_takes_sound_specs_only() {
    let sample = hooked();
    let folder = sample.path();
    write(folder, "jobs/gate yard.patio", FAULTY);
    done(git(folder, &["add", "."]));
    let refused = commit(folder);
    assert!(!refused.status.success());
    let reported = said(&refused);
    assert!(
        reported.contains("word-unknown") && reported.contains("jobs/gate yard.patio:4:3"),
        "{reported}"
    );
    assert_eq!(commits(folder), 1);

    // What counts is what is staged: the mended text, whatever lies here.
    write(folder, "jobs/gate yard.patio", SOUND);
    done(git(folder, &["add", "."]));
    write(folder, "jobs/gate yard.patio", FAULTY);
    done(commit(folder));
    assert_eq!(commits(folder), 2);
    write(folder, "jobs/gate yard.patio", SOUND);

    // A library that goes takes its users with it.
    done(git(folder, &["rm", "--quiet", "house.patio"]));
    let refused = commit(folder);
    let reported = said(&refused);
    assert!(
        !refused.status.success() && reported.contains("jobs/court.patio:5:5"),
        "{reported}"
    );

    // What is no spec is not looked at.
    done(git(folder, &["reset", "--quiet", "--hard"]));
    write(folder, "notes.txt", "colour blue\n");
    done(git(folder, &["add", "."]));
    assert_eq!(said(&done(commit(folder))), "");
}

/// The hook's copy in a sample repository.
fn hooked() -> TempDir {
    let sample = sample();
    let hook = repository().join("editors/ci/pre-commit");
    fs::create_dir_all(sample.path().join(".git/hooks")).unwrap();
    fs::copy(hook, sample.path().join(".git/hooks/pre-commit")).unwrap();
    sample
}

#[test]
fn the_hook_takes_an_ending_in_any_case() {
    let sample = hooked();
    let folder = sample.path();
    write(folder, "jobs/A.PATIO", FAULTY);
    done(git(folder, &["add", "."]));
    let refused = commit(folder);
    assert!(!refused.status.success());
    assert!(
        said(&refused).contains("jobs/A.PATIO:4:3"),
        "{}",
        said(&refused)
    );
    write(folder, "jobs/A.PATIO", SOUND);
    done(git(folder, &["add", "."]));
    done(commit(folder));
    assert_eq!(commits(folder), 2);
}

#[test]
fn the_hook_sees_what_a_sparse_checkout_leaves_out() {
    let sample = hooked();
    let folder = sample.path();
    write(folder, "yards/yard.patio", USER);
    done(git(folder, &["add", "."]));
    done(commit(folder));
    // Only `yards` is here; the library above and `jobs` lie in the index.
    done(git(
        folder,
        &["sparse-checkout", "set", "--no-cone", "/yards/"],
    ));
    assert!(!folder.join("house.patio").exists());
    write(
        folder,
        "yards/yard.patio",
        &format!("{USER}\nlet deep = 1 m\nlet more = deep\n"),
    );
    done(git(folder, &["add", "yards"]));
    done(commit(folder));
    write(folder, "yards/yard.patio", FAULTY);
    done(git(folder, &["add", "yards"]));
    let refused = commit(folder);
    assert!(!refused.status.success());
    assert!(
        said(&refused).contains("yards/yard.patio:4:3"),
        "{}",
        said(&refused)
    );
}

#[test]
fn the_framework_takes_sound_specs_only() {
    let Some(framework) = tool("pre-commit") else {
        return;
    };
    let sample = sample();
    let folder = sample.path();
    let config = repository().join("editors/ci/pre-commit-config.yaml");
    fs::copy(config, folder.join(".pre-commit-config.yaml")).unwrap();
    done(command(framework, folder).arg("install").output().unwrap());

    write(folder, "jobs/yard.patio", FAULTY);
    done(git(folder, &["add", "jobs", ".pre-commit-config.yaml"]));
    let refused = commit(folder);
    let reported = said(&refused);
    assert!(
        !refused.status.success() && reported.contains("word-unknown"),
        "{reported}"
    );
    write(folder, "jobs/yard.patio", SOUND);
    done(git(folder, &["add", "jobs"]));
    done(commit(folder));
    assert_eq!(commits(folder), 2);
}

/// The composite action, to be run in a folder with its inputs.
fn action(python: &Path, folder: &Path) -> Command {
    let mut runner = command(python, folder);
    runner.arg("-B");
    runner.arg(repository().join("tests/outside/action.py"));
    runner.arg(repository().join("editors/ci/action.yml"));
    runner.arg(folder);
    runner.env("GITHUB_STEP_SUMMARY", folder.join("summary.md"));
    runner.env_remove("GITHUB_BASE_REF");
    runner
}

const PATH: &str = "job \"Gate path\"\n  units metric\n  region general\n\nshape path\n  \
    rectangle 6 m by 1 m\n";

#[test]
fn the_action_tells_what_a_pull_request_changes() {
    let Some(python) = python_with(&["yaml"]) else {
        return;
    };
    let sample = sample();
    let origin = sample.path();
    write(origin, "jobs/path.patio", PATH);
    done(git(origin, &["add", "."]));
    done(commit(origin));
    done(git(origin, &["branch", "--move", "trunk"]));
    done(git(origin, &["branch", "wider"]));
    // A checkout of the pull request alone, and one with all branches.
    for checkout in [
        &["--depth=1", "--single-branch"][..],
        &["--no-single-branch"],
    ] {
        let place = tempfile::tempdir().unwrap();
        let clone = place.path().join("clone");
        let address = format!("file://{}", origin.display());
        let (clone_at, branch) = (clone.display().to_string(), ["--branch", "wider"]);
        let arguments = [
            &["clone", "--quiet"][..],
            checkout,
            &branch,
            &[&address, &clone_at],
        ];
        done(git(origin, &arguments.concat()));
        write(
            &clone,
            "jobs/path.patio",
            &PATH.replace("by 1 m", "by 1.5 m"),
        );
        done(git(&clone, &["add", "."]));
        done(commit(&clone));
        let run = action(&python, &clone)
            .env("GITHUB_BASE_REF", "trunk")
            .arg("path=jobs")
            .output()
            .unwrap();
        assert!(said(&done(run)).starts_with("::notice file=jobs/path.patio,"));
        let summary = fs::read_to_string(clone.join("summary.md")).unwrap();
        assert!(
            summary.contains("shape path: area | 6.00 m² | 9.00 m² | +50.0 %"),
            "{summary}"
        );
        // A revision may be named; steps add to one summary.
        done(action(&python, &clone).arg("base=HEAD").output().unwrap());
        let both = fs::read_to_string(clone.join("summary.md")).unwrap();
        assert!(
            both.starts_with(&summary) && both.len() > summary.len(),
            "{both}"
        );
        let unknown = action(&python, &clone).arg("base=none").output().unwrap();
        assert_eq!(unknown.status.code(), Some(2), "{}", said(&unknown));
    }
}

#[test]
fn the_action_annotates_and_writes_sarif() {
    let Some(python) = python_with(&["yaml"]) else {
        return;
    };
    let sample = sample();
    let folder = sample.path();
    let run = |inputs: &[&str]| {
        let mut runner = action(&python, folder);
        runner.args(inputs).output().unwrap()
    };
    let results = |file: &str| {
        let log = fs::read_to_string(folder.join(file)).unwrap();
        let log: Value = serde_json::from_str(&log).unwrap();
        log["runs"][0]["results"].as_array().unwrap().len()
    };
    assert_eq!(said(&done(run(&[]))), "");
    assert_eq!(results("drylay.sarif"), 0);

    write(folder, "jobs/gate yard.patio", FAULTY);
    let failed = run(&["path=jobs", "sarif=found.sarif"]);
    assert_eq!(failed.status.code(), Some(1), "{}", said(&failed));
    let reported = said(&failed);
    assert!(
        reported.starts_with("::error file=jobs/gate yard.patio,line=4,col=3,endLine=4,"),
        "{reported}"
    );
    assert_eq!(results("found.sarif"), 1);
    assert!(
        !folder.join("summary.md").exists(),
        "nothing is compared unless there is something to compare with"
    );
    // What an input says is never run.
    let odd = run(&["path=$(touch made); touch made"]);
    assert_eq!(odd.status.code(), Some(2));
    assert!(!folder.join("made").exists());
}
