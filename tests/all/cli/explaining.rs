//! What the rules are and which limits are in force where: `explain` and
//! `standard`.

use super::{SOUND, folder, of_golden, run_in, text};
use crate::folder::repository;
use crate::golden;

/// What a command writes about the office's specs.
fn of_office(arguments: &[&str]) -> String {
    let output = run_in(&repository().join("specs/office"), arguments);
    assert_eq!(text(&output.stderr), "", "{arguments:?}");
    text(&output.stdout)
}

#[test]
fn rules_are_listed_and_searched() {
    let all = of_golden(&["explain"]);
    let some = of_golden(&["explain", "--search", "frost clay"]);
    assert!(
        all.lines().count() > some.lines().count() && some.contains("base-thin"),
        "{some}"
    );
    let folder = folder(&[]);
    let none = run_in(folder.path(), &["explain", "--search", "no such words"]);
    assert_eq!((none.status.code(), none.stdout.len()), (Some(0), 0));
    let wrong = run_in(folder.path(), &["explain", "base-thn"]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(text(&wrong.stderr).contains("did you mean base-thin?"));
}

#[test]
fn a_rule_is_explained_as_it_is_kept() {
    for (file, arguments) in [
        (
            "explain-spec.txt",
            &["explain", "fall-flat", "granary-steps.patio"][..],
        ),
        ("explain-folder.txt", &["explain", "base-thin"]),
        ("explain-list.txt", &["explain"]),
        ("standard-spec.txt", &["standard", "granary-steps.patio"]),
        ("standard-folder.txt", &["standard"]),
    ] {
        golden::check(file, &of_office(arguments));
    }
}

/// A practice with a standard, one further out, and a spec without any.
fn practice() -> tempfile::TempDir {
    let house = "standard \"House\"\n  limit base-thin foot 120 mm\n  limit level-high 200 mm, region uk\n  \
        off waste-odd, because \"we measure\"\n";
    let outer = "standard \"Outer\"\n  limit lip 9 mm\n  firm level-high\n";
    let imperial = "job \"A\"\n  units imperial\n  region us\n";
    let uk = "job \"B\"\n  units metric\n  region uk\n";
    folder(&[
        ("standard.patio", outer),
        ("jobs/standard.patio", house),
        ("jobs/a.patio", imperial),
        ("jobs/b.patio", uk),
        ("jobs/lib.patio", "let a = 1 m\n"),
        ("house.patio", house),
    ])
}

#[test]
fn limits_are_told_for_a_spec_or_a_folder() {
    let practice = practice();
    // The rule, where, what is said of it, and what is not.
    for (rule, place, said, unsaid) in [
        (
            "base-thin",
            "jobs/a.patio",
            "4 3/4\"  line 2 of jobs/standard.patio, instead of 100 mm or 4 in",
            " uk ",
        ),
        (
            "base-thin",
            "jobs/a.patio",
            "IN jobs/a.patio, REGION us",
            "FOLDER",
        ),
        (
            "base-thin",
            "jobs/lib.patio",
            "IN THE FOLDER jobs",
            "REGION",
        ),
        ("base-thin", "jobs", "120 mm", "127 mm"),
        ("base-thin", ".", "IN THIS FOLDER", "line 2"),
        (
            "level-high",
            "jobs/b.patio",
            "200 mm  line 3 of jobs/standard.patio",
            "row plain, instead",
        ),
        (
            "level-high",
            "jobs/a.patio",
            "Held firm by line 3 of standard.patio",
            "200 mm",
        ),
        // One further out is not started from: only what it holds firm counts.
        ("lip", "jobs/b.patio", "6.4 mm  2010 ADA", "9 mm"),
        ("lip", ".", "9 mm", "IN THE FOLDER"),
        (
            "waste-odd",
            "jobs",
            "Switched off by line 4 of jobs/standard.patio, because \"we measure\".",
            "Held firm",
        ),
        // Of a standard itself, what it applies to is meant.
        ("base-thin", "jobs/standard.patio", "120 mm", "REGION"),
        (
            "base-thin",
            "house.patio",
            "line 2 of house.patio",
            "REGION",
        ),
    ] {
        let output = run_in(practice.path(), &["explain", rule, place]);
        let reported = text(&output.stdout);
        assert_eq!(output.status.code(), Some(0), "{rule} {place}");
        let reported = reported.split("AN EXAMPLE").next().unwrap();
        assert!(
            reported.contains(said),
            "{rule} {place}: {said}\n{reported}"
        );
        assert!(
            !reported.contains(unsaid),
            "{rule} {place}: {unsaid}\n{reported}"
        );
    }
    // Without a path this folder is meant.
    let described = |arguments: &[&str]| text(&run_in(practice.path(), arguments).stdout);
    assert_eq!(
        described(&["explain", "lip"]),
        described(&["explain", "lip", "."])
    );
    for (arguments, complaint) in [
        (
            &["explain", "lip", "none.patio"][..],
            "none.patio: there is no such file",
        ),
        (
            &["explain", "--search", "frost", "lip"],
            "cannot be used with",
        ),
        (&["explain", "jobs/a.patio"], "there is no such rule"),
        (
            &["standard", "none.patio"],
            "none.patio: there is no such file",
        ),
    ] {
        let output = run_in(practice.path(), arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(
            text(&output.stderr).contains(complaint),
            "{arguments:?}: {output:?}"
        );
    }
}

#[test]
fn every_limit_in_force_is_told_with_its_origin() {
    let practice = practice();
    let described = |path: &str| text(&run_in(practice.path(), &["standard", path]).stdout);
    for path in ["jobs", "jobs/b.patio", "jobs/lib.patio", "."] {
        let all = described(path);
        for rule in drylay::rules::all().filter(|rule| !rule.limits.is_empty()) {
            let head = format!("\n  {}", rule.name);
            let (_, after) = all
                .split_once(&head)
                .unwrap_or_else(|| panic!("{path}: {head}"));
            let rows: Vec<&str> = after
                .lines()
                .skip(1)
                .take_while(|line| line.starts_with("    "))
                .collect();
            for limit in rule.limits {
                let row = format!("    {} ", limit.row);
                assert!(
                    rows.iter().any(|line| line.starts_with(&row)),
                    "{path}: {head}, {row}"
                );
            }
        }
    }
    let of_spec = described("jobs/b.patio");
    for said in [
        "jobs/standard.patio, standard \"House\"\n    line 2    base-thin, row foot: 120 mm\n",
        "    line 3    level-high: 200 mm in region uk\n",
        "    line 4    waste-odd is off, because \"we measure\"\n",
        "  standard.patio, standard \"Outer\"\n    line 3    level-high may not be accepted",
        "at least 200 mm  line 3 of jobs/standard.patio, instead of 150 mm or 6 in\n",
        "  waste-odd, off\n",
    ] {
        assert!(of_spec.contains(said), "{said}\n{of_spec}");
    }
    let bare = folder(&[("a.patio", SOUND)]);
    let none = text(&run_in(bare.path(), &["standard", "a.patio"]).stdout);
    assert!(
        none.contains("none: the built-in limits of each job's region apply"),
        "{none}"
    );
    assert!(!none.contains("line "), "{none}");
}

#[test]
fn a_rule_is_told_of_in_the_same_words_everywhere() {
    let folder = folder(&[("standard.patio", "standard \"House\"\n")]);
    let page = std::fs::read_to_string(repository().join("grammar/rules.md")).unwrap();
    for rule in drylay::rules::all() {
        let (_, of_page) = page.split_once(&format!("\n### {}\n", rule.name)).unwrap();
        let of_page = of_page.split("\n### ").next().unwrap();
        let reported = text(&run_in(folder.path(), &["explain", rule.name]).stdout);
        let joined = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let (reported, of_page) = (joined(&reported), joined(of_page));
        let examples = [Some(rule.breaks), Some(rule.keeps), rule.mended];
        let mut parts = vec![
            rule.looks_at.to_owned(),
            rule.reason.to_owned(),
            rule.remedy.to_owned(),
        ];
        parts.extend(
            examples
                .iter()
                .flatten()
                .map(|text| drylay::rules::underlined(text)),
        );
        parts.extend(rule.sources.iter().map(ToString::to_string));
        parts.extend(rule.limits.iter().map(|limit| limit.of.to_owned()));
        for part in parts {
            assert!(
                reported.contains(&joined(&part)),
                "explain {}: {part}",
                rule.name
            );
            assert!(
                of_page.contains(&joined(&part)),
                "rules.md {}: {part}",
                rule.name
            );
        }
    }
}
