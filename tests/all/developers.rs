//! The papers of this repository name files and tests that there are.

use std::fs;

use crate::folder::repository;

const PAPERS: [&str; 2] = ["README.md", "DEVELOPERS.md"];

/// The folders whose files the papers name by their path.
const FOLDERS: [&str; 6] = ["src/", "tests/", "grammar/", "editors/", "specs/", ".ci/"];

fn read(name: &str) -> String {
    fs::read_to_string(repository().join(name)).unwrap_or_else(|_| panic!("there is no {name}"))
}

/// What stands between two marks, each time that both stand in one line.
fn between<'t>(text: &'t str, open: &'t str, close: &'t str) -> impl Iterator<Item = &'t str> {
    text.lines().flat_map(move |line| {
        let after = line.split(open).skip(1);
        after.filter_map(move |rest| rest.split_once(close).map(|(inside, _)| inside))
    })
}

/// What stands in backticks in a line.
fn code(line: &str) -> impl Iterator<Item = &str> {
    line.split('`').skip(1).step_by(2)
}

#[test]
fn what_the_papers_name_is_there() {
    let mut missing = Vec::new();
    for paper in PAPERS {
        let text = read(paper);
        let links = between(&text, "](", ")").filter(|link| !link.contains(':'));
        let links = links.map(|link| link.split('#').next().unwrap_or_default());
        let named = text.lines().flat_map(code);
        let named = named.flat_map(str::split_whitespace);
        let named = named.filter(|word| FOLDERS.iter().any(|folder| word.starts_with(folder)));
        for path in links.chain(named).filter(|path| !path.is_empty()) {
            let folder = path.split('*').next().unwrap_or_default();
            if !repository().join(folder).exists() {
                missing.push(format!("{paper}: {path}"));
            }
        }
    }
    assert!(missing.is_empty(), "{missing:#?}");
}

#[test]
fn every_invariant_has_its_test() {
    let text = read("DEVELOPERS.md");
    let (_, after) = text
        .split_once("## What must stay true")
        .expect("the table");
    let table = after.split("\n## ").next().unwrap_or_default();
    let rows: Vec<&str> = table
        .lines()
        .filter(|line| line.starts_with("| "))
        .skip(2)
        .collect();
    assert!(rows.len() > 20, "the table is not where it was");
    for row in rows {
        let kept_by = row.rsplit_once(" | ").expect("two columns").1;
        let mut file = String::new();
        let mut tests = 0;
        for word in code(kept_by) {
            if word.ends_with(".rs") {
                file = read(word);
            } else {
                assert!(
                    file.contains(&format!("fn {word}(")),
                    "there is no {word}: {row}"
                );
                tests += 1;
            }
        }
        assert!(tests > 0, "no test is named: {row}");
    }
}

#[test]
fn every_room_stands_on_its_floor() {
    let text = read("DEVELOPERS.md");
    let rows = text.lines().filter(|line| {
        let floor = line.strip_prefix("| ").and_then(|rest| rest.chars().next());
        floor.is_some_and(|floor| floor.is_ascii_digit())
    });
    let mut listed: Vec<&str> = rows.filter_map(|row| code(row).next()).collect();
    listed.sort_unstable();
    let folders = fs::read_dir(repository().join("src")).expect("the rooms");
    let mut rooms: Vec<String> = folders
        .flatten()
        .filter(|entry| entry.path().is_dir())
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    rooms.sort();
    assert_eq!(listed, rooms);
}
