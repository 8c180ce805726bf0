//! What is written for people, held to what is kept.

use super::{FAULTY, drylay, folder, of_golden};
use crate::golden;

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
        golden::check(name, &of_golden(arguments));
    }
}

#[test]
fn findings_look_as_they_should() {
    let day = ["check", "--date", "2027-03-20"];
    for (name, more) in [
        (
            "check.txt",
            &["--accepted", "courtyard.patio", "landing.patio"][..],
        ),
        ("check-ascii.txt", &["--ascii", "landing.patio"]),
        ("check-colour.txt", &["--color", "always", "landing.patio"]),
        ("check.json", &["--format", "json", "landing.patio"]),
        ("check-github.txt", &["--format", "github", "landing.patio"]),
        (
            "check-junit.xml",
            &["--format", "junit", "--deny", "warning", "landing.patio"],
        ),
        (
            "check-checkstyle.xml",
            &["--format", "checkstyle", "landing.patio"],
        ),
        ("check-statistics.txt", &["--statistics", "landing.patio"]),
    ] {
        golden::check(name, &of_golden(&[&day, more].concat()));
    }
}

#[test]
fn help_looks_as_it_should() {
    let help: String = [
        &["--help"][..],
        &["check", "--help"],
        &["takeoff", "--help"],
        &["compare", "--help"],
    ]
    .iter()
    .map(|arguments| of_golden(arguments) + "\n")
    .collect();
    golden::check("help.txt", &help);
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
