//! The rooms under `src` keep to their floors, as DEVELOPERS.md has them: each
//! uses what lies below it and nothing else, and only some may name certain
//! crates or touch anything outside.

use std::collections::BTreeMap;
use std::path::Path;

use crate::folder::repository;

/// What only these rooms may name.
const KEPT: [(&str, &[&str]); 32] = [
    ("pest::", &["syntax"]),
    ("pest_derive::", &["syntax"]),
    ("tower_lsp::", &["server"]),
    ("tower::", &["server"]),
    ("tokio::", &["server", "preview"]),
    ("hyper::", &["preview"]),
    ("hyper_util::", &["preview"]),
    ("http_body_util::", &["preview"]),
    ("notify::", &["preview"]),
    ("ropey::", &["server"]),
    ("clap::", &["cli"]),
    ("clap_complete::", &["cli"]),
    ("clap_mangen::", &["cli"]),
    ("miette::", &["cli"]),
    ("miniz_oxide::", &["drawing"]),
    ("data_encoding::", &["ide"]),
    ("maud::", &["report"]),
    ("pdf_writer::", &["drawing"]),
    ("tiny_skia::", &["drawing"]),
    ("ttf_parser::", &["drawing"]),
    ("rust_xlsxwriter::", &["report"]),
    ("schemars::", &["report"]),
    ("std::fs", &["host", "server", "cli"]),
    ("std::env", &["server", "cli"]),
    ("SystemTime", &["host"]),
    ("std::io", &["host", "server", "preview", "cli"]),
    ("std::process", &["server", "cli"]),
    ("eprintln!", &["server", "cli"]),
    ("eprint!", &["server", "cli"]),
    ("println!", &[]),
    ("print!", &[]),
    ("dbg!", &[]),
];

/// The rooms with their floors, from the table in DEVELOPERS.md.
fn floors() -> BTreeMap<String, u32> {
    let text = std::fs::read_to_string(repository().join("DEVELOPERS.md")).expect("the paper");
    let row = |line: &str| {
        let (floor, rest) = line.strip_prefix("| ")?.split_once(" | `")?;
        let (room, _) = rest.split_once("` | ")?;
        Some((room.to_owned(), floor.parse().ok()?))
    };
    text.lines().filter_map(row).collect()
}

/// The code of each room's files, but for what only tests use.
fn files() -> Vec<(String, String, String)> {
    let mut files = Vec::new();
    for room in floors().keys() {
        add(&repository().join("src").join(room), room, &mut files);
    }
    assert!(files.len() > 200, "the rooms are not where they were");
    files
}

fn add(folder: &Path, room: &str, files: &mut Vec<(String, String, String)>) {
    for entry in std::fs::read_dir(folder).expect("the room") {
        let path = entry.expect("the room").path();
        let name = path
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        if path.is_dir() && name != "tests" {
            add(&path, room, files);
        } else if name.ends_with(".rs") {
            let code = std::fs::read_to_string(&path).expect("the file");
            let code = code
                .split("#[cfg(test)]\nmod tests")
                .next()
                .unwrap_or_default();
            files.push((
                room.to_owned(),
                path.display().to_string(),
                without_comments(code),
            ));
        }
    }
}

fn without_comments(code: &str) -> String {
    let code = code
        .lines()
        .map(|line| match line.trim_start().starts_with("//") {
            true => "",
            false => line,
        });
    code.collect::<Vec<_>>().join("\n")
}

/// The names that follow a path: `crate::a` and `crate::{a, b::c}`.
fn names_after<'c>(code: &'c str, path: &str) -> Vec<&'c str> {
    let is_end = |letter: char| !letter.is_alphanumeric() && letter != '_';
    let mut names = Vec::new();
    for after in code.split(path).skip(1) {
        let list = match after.strip_prefix('{') {
            Some(list) => list.split(';').next().unwrap_or_default(),
            None => after.split(is_end).next().unwrap_or_default(),
        };
        names.extend(list.split(is_end).filter(|name| !name.is_empty()));
    }
    names
}

#[test]
fn data_flows_down() {
    let floors = floors();
    let mut wrong = Vec::new();
    for (room, path, code) in files() {
        for name in names_after(&code, "crate::") {
            let is_below = floors.get(name).is_none_or(|floor| *floor < floors[&room]);
            if name != room && !is_below {
                wrong.push(format!("{path} uses {name}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Whether a word stands in code, not as the end of a longer one.
/// What no `mod` names is no part of the program, and nothing would say so.
#[test]
fn every_file_is_part_of_the_program() {
    let source = repository().join("src");
    let mut forgotten = Vec::new();
    for (_, path, _) in files() {
        let path = Path::new(&path);
        let (folder, name) = match path.ends_with("mod.rs") {
            true => (path.parent().and_then(Path::parent), path.parent()),
            false => (path.parent(), Some(path)),
        };
        let folder = folder.expect("a folder");
        let above = match folder == source {
            true => folder.join("lib.rs"),
            false => folder.join("mod.rs"),
        };
        let name = name.and_then(Path::file_stem).unwrap_or_default();
        let named = format!("mod {};", name.to_string_lossy());
        let places = [above, folder.with_extension("rs")];
        let mut texts = places.iter().flat_map(std::fs::read_to_string);
        if !texts.any(|text| text.contains(&named)) {
            forgotten.push(path.display().to_string());
        }
    }
    assert!(forgotten.is_empty(), "{forgotten:#?}");
}

fn is_named(word: &str, code: &str) -> bool {
    code.match_indices(word).any(|(at, _)| {
        let before = code[..at].chars().next_back();
        before.is_none_or(|before| !before.is_alphanumeric() && !"_:".contains(before))
    })
}

#[test]
fn each_crate_is_named_in_its_rooms_only() {
    let mut wrong = Vec::new();
    for (room, path, code) in files() {
        for (kept, rooms) in KEPT {
            if is_named(kept, &code) && !rooms.contains(&room.as_str()) {
                wrong.push(format!("{path} names {kept}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn names_are_found_in_code() {
    let code =
        "use crate::model::Job;\nuse crate::{text, units::Unit};\nlet a = crate::rules::all();";
    assert_eq!(
        names_after(code, "crate::"),
        ["model", "text", "units", "Unit", "rules"]
    );
    assert!(is_named("pest::", "use pest::Parser;"));
    assert!(!is_named("pest::", "use tempest::Storm;"));
    assert!(!is_named("println!", "eprintln!()"));
}
