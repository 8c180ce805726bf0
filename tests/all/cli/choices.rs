//! Which findings are told, and putting them right.

use std::fs;
use std::path::Path;

use serde_json::Value;

use super::{
    ADVISED, FAULTY, SOUND, folder, golden_folder, json, of_golden, run_in, run_with_input, text,
};

#[test]
fn a_named_standard_is_the_one_that_counts() {
    let sheet = fs::read_to_string(golden_folder().join("landing.patio")).unwrap();
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

/// Every file below a folder with its text.
fn texts(folder: &Path) -> Vec<(String, String)> {
    let mut texts: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap())
        .map(|entry| {
            let text = fs::read_to_string(entry.path()).unwrap();
            (entry.file_name().into_string().unwrap(), text)
        })
        .collect();
    texts.sort();
    texts
}

/// A spec with a fault that may be put right unseen, once the line before is.
const MENDABLE: &str = "job \"Gate court\"\n  units metric\n  reference TC-4,\n  region general\n";

#[test]
fn safe_fixes_are_made_and_nothing_else() {
    let folder = folder(&[("a.patio", MENDABLE), ("b.patio", SOUND)]);
    let shown = run_in(folder.path(), &["check", "--diff"]);
    assert_eq!(shown.status.code(), Some(1));
    let lines = text(&shown.stdout);
    assert!(
        lines.starts_with("--- a.patio\n+++ a.patio\n@@ -1,4 +1,4 @@\n"),
        "{lines}"
    );
    assert!(
        lines.contains("\n-  reference TC-4,\n+  reference \"TC-4\"\n"),
        "{lines}"
    );
    let before = texts(folder.path());
    assert_eq!(before[0].1, MENDABLE, "nothing is changed yet");
    let mended = run_in(folder.path(), &["check", "--fix"]);
    assert_eq!(mended.status.code(), Some(0), "{mended:?}");
    let after = texts(folder.path());
    assert_eq!(after[0].1, MENDABLE.replace("TC-4,", "\"TC-4\""));
    assert_eq!(after[1], before[1]);
    let again = run_in(folder.path(), &["check", "--diff"]);
    assert_eq!((again.status.code(), again.stdout.len()), (Some(0), 0));
    let input = run_with_input(folder.path(), &["check", "--fix", "-"], MENDABLE.as_bytes());
    assert_eq!(input.status.code(), Some(2));
}

#[test]
fn a_baseline_leaves_only_what_is_new() {
    let folder = folder(&[("a.patio", FAULTY)]);
    let run = |arguments: &[&str]| run_in(folder.path(), arguments);
    assert_eq!(
        run(&["check", "--write-baseline", "known.json"])
            .status
            .code(),
        Some(0)
    );
    let known = run(&["check", "--baseline", "known.json", "--format", "json"]);
    assert_eq!(known.status.code(), Some(0));
    assert_eq!(json(&known)["summary"]["known"], 1);
    // Known again though it has moved down, and a new one is told.
    let more = format!("# A line more.\n{FAULTY}  flavour salt\n");
    fs::write(folder.path().join("a.patio"), more).unwrap();
    let new = run(&["check", "--baseline", "known.json", "--format", "json"]);
    assert_eq!(new.status.code(), Some(1));
    let summary = &json(&new)["summary"];
    assert_eq!(
        (&summary["known"], &summary["errors"]),
        (&1.into(), &1.into())
    );
    // What is put right is told, and taken out where that is asked for.
    fs::write(folder.path().join("a.patio"), SOUND).unwrap();
    let described = |arguments: &[&str]| {
        let output = run(&[&["check", "--baseline", "known.json"], arguments].concat());
        assert_eq!(output.status.code(), Some(0));
        text(&output.stderr)
    };
    assert!(described(&[]).contains("1 finding has been fixed since known.json"));
    let document = json(&run(&[
        "check",
        "--baseline",
        "known.json",
        "--format",
        "json",
    ]));
    assert_eq!(document["summary"]["put_right"], 1);
    let right = &document["put_right"];
    assert_eq!(
        (&right[0]["path"], right.as_array().unwrap().len()),
        (&"a.patio".into(), 1)
    );
    let kept = fs::read_to_string(folder.path().join("known.json")).unwrap();
    let kept: Value = serde_json::from_str(&kept).unwrap();
    let known = kept["files"]["a.patio"]["findings"].as_object().unwrap();
    let marks: Vec<&String> = known.keys().collect();
    assert_eq!(right[0]["fingerprints"], serde_json::json!(marks));
    assert_eq!(
        described(&["--rule", "fall-flat"]),
        "",
        "not all is looked for"
    );
    assert!(described(&["--prune-baseline"]).contains("taken out of known.json"));
    assert_eq!(described(&["--prune-baseline"]), "");
    fs::write(folder.path().join("a.patio"), FAULTY).unwrap();
    let again = run(&["check", "--baseline", "known.json"]);
    assert_eq!(again.status.code(), Some(1), "it is not known any more");
    for other in ["a.patio", "none.json"] {
        assert_eq!(run(&["check", "--baseline", other]).status.code(), Some(2));
    }
}

#[test]
fn accepted_findings_are_listed_on_request() {
    let check = ["check", "--date", "2027-03-20", "landing.patio"];
    let list = "Accepted in landing.patio";
    let plain = of_golden(&check);
    assert!(
        !plain.contains(list) && plain.contains("accepted"),
        "{plain}"
    );
    assert!(of_golden(&[&check[..], &["--accepted"]].concat()).contains(list));
}

#[test]
fn what_runs_out_soon_is_told_in_time() {
    let accepting = |until: &str| {
        format!("{ADVISED}\naccept region-unstated, because \"an old form\", until {until}\n")
    };
    let (near, far) = (accepting("2027-03-20"), accepting("2027-09-01"));
    let folder = folder(&[("near.patio", &near), ("far.patio", &far)]);
    for (date, sentence, running_out) in [
        ("2027-02-17", "nothing found in 2 files; 2 accepted\n", 0),
        (
            "2027-02-18",
            "1 advisory in 2 files; 2 accepted; 1 acceptance runs out within 30 days\n",
            1,
        ),
        (
            "2027-03-20",
            "1 advisory in 2 files; 2 accepted; 1 acceptance runs out within 30 days\n",
            1,
        ),
        // Then the finding is there again, with the day on which it ran out.
        ("2027-03-21", "2 advisories in 2 files; 1 accepted\n", 0),
    ] {
        let check = ["check", "--date", date];
        let quiet = run_in(folder.path(), &[&check[..], &["--quiet"]].concat());
        assert_eq!(text(&quiet.stdout), sentence, "{date}");
        let document = run_in(folder.path(), &[&check[..], &["--format", "json"]].concat());
        let summary = &json(&document)["summary"];
        assert_eq!(summary["running_out"], running_out, "{date}");
    }
}

#[test]
fn what_each_rule_costs_is_told() {
    let output = run_in(&golden_folder(), &["check", "--timings", "landing.patio"]);
    let plain = run_in(&golden_folder(), &["check", "landing.patio"]);
    assert_eq!(output.stdout, plain.stdout, "the result is the same");
    let table = text(&output.stderr);
    let of = |name: &str| {
        let mut rows = table
            .lines()
            .map(|row| row.split_whitespace().collect::<Vec<_>>());
        let row = rows.find(|row| row.first() == Some(&name));
        let row = row.unwrap_or_else(|| panic!("{name} is not in\n{table}"));
        (row[2].to_owned(), row.last().unwrap().to_string())
    };
    for name in [
        "reading",
        "resolving",
        "figures",
        "accepting",
        "fall-flat",
        "base-thin",
    ] {
        assert_eq!(of(name), ("ms".to_owned(), "1".to_owned()), "{name}");
    }
    assert!(table.lines().last().unwrap().contains("100.0 %"), "{table}");
}

#[test]
fn findings_can_be_chosen() {
    let count = |arguments: &[&str]| {
        let arguments = [
            &["check", "--format", "json", "landing.patio"][..],
            arguments,
        ]
        .concat();
        let rules =
            serde_json::from_str::<Value>(&of_golden(&arguments)).unwrap()["summary"]["rules"]
                .clone();
        rules
            .as_object()
            .unwrap()
            .keys()
            .cloned()
            .collect::<Vec<_>>()
    };
    assert_eq!(count(&["--rule", "fall-flat"]), ["fall-flat"]);
    assert_eq!(
        count(&["--rule", "fall-flat", "--rule", "base-thin"]),
        ["base-thin", "fall-flat"]
    );
    assert!(
        count(&["--family", "beds"])
            .iter()
            .all(|rule| rule.starts_with("bed-"))
    );
    assert!(count(&[]).len() > 5);
    let folder = folder(&[("a.patio", FAULTY)]);
    let wrong = run_in(folder.path(), &["check", "--rule", "fall-flt"]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(text(&wrong.stderr).contains("did you mean fall-flat?"));
    let quiet = run_in(folder.path(), &["check", "--quiet"]);
    assert_eq!(text(&quiet.stdout), "1 error in 1 file\n");
}

#[test]
fn only_specs_that_a_change_concerns_are_checked() {
    let user = format!("{SOUND}\nuse \"lib.patio\"\n");
    let folder = folder(&[
        ("user.patio", &user),
        ("other.patio", SOUND),
        ("lib.patio", "let a = 1 m\n"),
    ]);
    let checked = |file: &str| {
        let document = json(&run_in(
            folder.path(),
            &["check", "--format", "json", "--affected-by", file],
        ));
        let files = document["files"].as_array().unwrap().clone();
        files
            .iter()
            .map(|file| file["path"].as_str().unwrap().to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(checked("lib.patio"), ["lib.patio", "user.patio"]);
    assert_eq!(checked("other.patio"), ["other.patio"]);
    assert_eq!(checked("none.patio"), [""; 0]);
}

/// A court that falls as it is said, and too little.
fn falling(fall: &str) -> String {
    let rule = drylay::rules::find("fall-flat").expect("the rule");
    let text = drylay::rules::complete(rule.breaks).text;
    assert!(text.contains("1:150"));
    text.replace("1:150", fall)
}

#[test]
fn what_is_worse_than_the_baseline_knows_is_new() {
    let folder = folder(&[("a.patio", &falling("1:110"))]);
    let run = |arguments: &[&str]| run_in(folder.path(), arguments);
    let written = run(&["check", "--write-baseline", "known.json"]);
    let reported = text(&written.stderr);
    assert!(
        reported.contains("of 1 file are kept in known.json") || reported.contains("kept"),
        "{reported}"
    );
    let known = |fall: &str| {
        fs::write(folder.path().join("a.patio"), falling(fall)).unwrap();
        let checked = run(&["check", "--baseline", "known.json", "--format", "json"]);
        json(&checked)["summary"]["rules"]["fall-flat"].is_null()
    };
    for (fall, is_known) in [
        ("1:110", true),
        ("1:105", true),
        ("1:120", false),
        ("1:2000", false),
    ] {
        assert_eq!(known(fall), is_known, "{fall}");
    }
    // One that is worse says what it was.
    fs::write(folder.path().join("a.patio"), falling("1:120")).unwrap();
    let checked = text(&run(&["check", "--baseline", "known.json"]).stdout);
    assert!(
        checked.contains("worse than the baseline knows: 0.91"),
        "{checked}"
    );
    let checked = text(&run(&["check"]).stdout);
    assert!(!checked.contains("baseline"), "{checked}");
}

#[test]
fn what_makes_a_check_fail_stands_first() {
    let spec = "job \"Court\"\n\nlet spare = 1 m\n\nshape court\n  rectangle 6 m by 4\n\nsurface court\n  shape court\n";
    let folder = folder(&[("a.patio", spec)]);
    let checked = |deny: &str| {
        let run = run_in(folder.path(), &["check", "--deny", deny]);
        let shown = text(&run.stdout);
        let at = |rule: &str| {
            shown
                .find(rule)
                .unwrap_or_else(|| panic!("{rule}: {shown}"))
        };
        at("unit-missing") < at("name-unused")
    };
    // The advisory stands before the error in the text.
    assert!(checked("error"));
    assert!(!checked("advisory"));
}

#[test]
fn a_renamed_spec_keeps_its_baseline() {
    let folder = folder(&[("a.patio", &falling("1:110")), ("b.patio", SOUND)]);
    let run = |arguments: &[&str]| run_in(folder.path(), arguments);
    run(&["check", "--write-baseline", "known.json"]);
    fs::rename(folder.path().join("a.patio"), folder.path().join("c.patio")).unwrap();
    let checked = run(&["check", "--baseline", "known.json", "--format", "json"]);
    let summary = &json(&checked)["summary"];
    assert!(summary["rules"]["fall-flat"].is_null(), "{summary}");
    assert_eq!(summary["put_right"], 0);
    // A copy is no renaming: the first is still there.
    fs::copy(folder.path().join("c.patio"), folder.path().join("a.patio")).unwrap();
    let checked = run(&["check", "--baseline", "known.json", "--format", "json"]);
    assert_eq!(json(&checked)["summary"]["rules"]["fall-flat"], 1);
}

#[test]
fn findings_that_a_new_version_brings_are_told() {
    let folder = folder(&[("a.patio", &falling("1:110"))]);
    let run = |arguments: &[&str]| run_in(folder.path(), arguments);
    run(&["check", "--write-baseline", "known.json"]);
    let file = folder.path().join("known.json");
    let mut baseline: Value = serde_json::from_str(&fs::read_to_string(&file).unwrap()).unwrap();
    baseline["program"] = "0.0.1".into();
    let known = baseline["files"]["a.patio"]["findings"]
        .as_object_mut()
        .unwrap();
    let count = known.len();
    known.clear();
    fs::write(&file, baseline.to_string()).unwrap();
    let described = || text(&run(&["check", "--baseline", "known.json"]).stderr);
    let news = format!("{count} finding");
    assert!(
        described().contains(&news) && described().contains("by 0.0.1"),
        "{}",
        described()
    );
    // In a spec that has changed nobody can tell.
    fs::write(folder.path().join("a.patio"), falling("1:111")).unwrap();
    assert!(!described().contains("by 0.0.1"), "{}", described());
}

#[test]
fn an_acceptance_is_never_taken_out_unseen() {
    let idle = "\n  accept fall-flat, because \"agreed\"\n";
    let sound = falling("1:40").replace(
        "\n  build        sand-set",
        &format!("{idle}  build        sand-set"),
    );
    let misread = sound.replace("edging       steel-edge", "edging       stele-edge");
    for (text, is_told) in [(&sound, true), (&misread, false)] {
        let folder = folder(&[("a.patio", text)]);
        let output = run_in(folder.path(), &["check", "--fix", "--format", "json"]);
        assert!(
            fs::read_to_string(folder.path().join("a.patio"))
                .unwrap()
                .contains("agreed")
        );
        let rules = &json(&output)["summary"]["rules"];
        assert_eq!(rules["accept-idle"].is_null(), !is_told, "{rules}");
    }
}

#[test]
fn a_changed_file_that_is_not_there_is_told() {
    let folder = folder(&[("a.patio", SOUND)]);
    for (file, is_told) in [("none.patio", true), ("a.patio", false)] {
        let output = run_in(folder.path(), &["check", "--affected-by", file]);
        let reported = text(&output.stderr);
        assert_eq!(
            reported.contains("none.patio is not there"),
            is_told,
            "{reported}"
        );
    }
}
