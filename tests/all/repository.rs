//! What the repository may hold: short files, a core that cannot panic by its
//! own word, nothing unfinished and nothing of one machine. Which room may use
//! which is held by `house.rs`.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use crate::folder::repository;

/// The lines of a file may be no more than this, but for tables.
const MOST_LINES: usize = 600;

/// Where tables lie.
const TABLES: &[&str] = &["src/vocabulary/sections/", "src/materials/catalogue/"];

/// A file of `src`: its path in the repository, its room, and its code
/// without comments and without tests.
struct File {
    path: String,
    room: String,
    lines: usize,
    code: String,
}

/// Every file under a folder, in order.
fn files_under(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    let entries = std::fs::read_dir(folder).expect("the folder can be read");
    for entry in entries {
        let path = entry.expect("the folder can be read").path();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let is_kept_out = [".git", "target", "node_modules", "dist"].contains(&&*name);
        if path.is_dir() && !is_kept_out {
            files.extend(files_under(&path));
        } else if path.is_file() {
            files.push(path);
        }
    }
    files.sort();
    files
}

fn relative(path: &Path) -> String {
    let relative = path.strip_prefix(repository()).unwrap_or(path);
    relative.to_string_lossy().replace('\\', "/")
}

/// The modules that a file declares for tests alone.
fn for_tests(text: &str) -> Vec<String> {
    let pairs = text.lines().zip(text.lines().skip(1));
    pairs
        .filter(|(attribute, _)| attribute.trim() == "#[cfg(test)]")
        .filter_map(|(_, line)| line.trim().strip_prefix("mod ")?.strip_suffix(';'))
        .map(str::to_owned)
        .collect()
}

/// A file's text without what follows `#[cfg(test)]` and a brace, and without
/// comments.
fn code_of(text: &str) -> String {
    let lines: Vec<&str> = text.lines().collect();
    let is_test_module = |at: usize| {
        let next = lines.get(at + 1).map_or("", |line| line.trim());
        lines[at].trim() == "#[cfg(test)]" && next.starts_with("mod ") && next.ends_with('{')
    };
    let end = (0..lines.len())
        .find(|at| is_test_module(*at))
        .unwrap_or(lines.len());
    let without_comment = |line: &str| match line.find("//") {
        // A `//` inside text is preceded by a quote.
        Some(at) if !line[..at].contains('"') => line[..at].to_owned(),
        _ => line.to_owned(),
    };
    lines[..end]
        .iter()
        .map(|line| without_comment(line) + "\n")
        .collect()
}

fn source() -> Vec<File> {
    let all: Vec<(PathBuf, String)> = files_under(&repository().join("src"))
        .into_iter()
        .filter(|path| path.extension().is_some_and(|ending| ending == "rs"))
        .map(|path| {
            let text = std::fs::read_to_string(&path).expect("the file can be read");
            (path, text)
        })
        .collect();
    let mut tests: BTreeSet<PathBuf> = BTreeSet::new();
    for (path, text) in &all {
        let folder = path.parent().unwrap_or(Path::new(""));
        for module in for_tests(text) {
            tests.insert(folder.join(format!("{module}.rs")));
            tests.insert(folder.join(module));
        }
    }
    let is_test = |path: &Path| tests.iter().any(|test| path.starts_with(test));
    all.iter()
        .filter(|(path, _)| !is_test(path))
        .map(|(path, text)| {
            let path = relative(path);
            let room = path.trim_start_matches("src/").trim_end_matches(".rs");
            File {
                room: room.split('/').next().unwrap_or_default().to_owned(),
                lines: text.lines().count(),
                code: code_of(text),
                path,
            }
        })
        .collect()
}

/// Whether a word stands in a text with no letter of a name before it or
/// after.
fn names(code: &str, word: &str) -> bool {
    let is_of_a_name = |letter: char| letter.is_alphanumeric() || letter == '_';
    code.match_indices(word).any(|(at, _)| {
        let before = code[..at].chars().next_back();
        let after = code[at + word.len()..].chars().next();
        !before.is_some_and(|letter| is_of_a_name(letter) || letter == '.')
            && !after.is_some_and(is_of_a_name)
    })
}

#[test]
fn files_are_short() {
    let long: Vec<String> = source()
        .iter()
        .filter(|file| file.lines > MOST_LINES)
        .filter(|file| !TABLES.iter().any(|table| file.path.starts_with(table)))
        .map(|file| format!("{} has {} lines", file.path, file.lines))
        .collect();
    assert!(long.is_empty(), "{long:#?}");
}

#[test]
fn nothing_in_the_core_can_panic_by_its_own_word() {
    let words = [
        ".unwrap()",
        ".expect(",
        "panic!",
        "unreachable!",
        "dbg!",
        "println!",
    ];
    let mut wrong = Vec::new();
    for file in source() {
        let may_print = ["cli", "main"].contains(&&*file.room);
        for word in words {
            let is_there = if word.starts_with('.') {
                file.code.contains(word)
            } else {
                names(&file.code, word)
            };
            if is_there && !(may_print && word == "println!") {
                wrong.push(format!("{} has {word}", file.path));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// What no file of the repository may hold, each in two halves so that this
/// one does not: unfinished work, places of one machine, and the names of
/// papers that are not ours to show.
const NOWHERE: &[(&str, &str)] = &[
    ("TO", "DO"),
    ("FIX", "ME"),
    ("to", "do!("),
    ("unimple", "mented!("),
    ("#[ign", "ore"),
    ("/wo", "rk/"),
    ("/ro", "ot/"),
    ("/ho", "me/"),
    ("shared/hand", "book"),
    ("hand", "book.md"),
    ("trans", "cript"),
    ("seed docu", "ment"),
];

/// Files that are made by others or by a program.
const MADE: &[&str] = &["Cargo.lock", "package-lock.json", "LICENSE.txt"];

#[test]
fn no_file_holds_what_none_may() {
    let mut looked_at = 0;
    let mut wrong = Vec::new();
    for path in files_under(&repository()) {
        let name = relative(&path);
        // What cannot be read as text is no text.
        let Ok(text) = std::fs::read_to_string(&path) else {
            continue;
        };
        if name == ".git" || MADE.iter().any(|made| name.ends_with(made)) {
            continue;
        }
        looked_at += 1;
        for (one, other) in NOWHERE {
            let word = format!("{one}{other}");
            for (number, line) in (1..).zip(text.lines()) {
                if line.contains(&word) {
                    wrong.push(format!("{name}:{number} has `{word}`"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(looked_at > 300, "only {looked_at} files were looked at");
}

/// The top of the repository holds what it should and nothing else.
#[test]
fn the_top_of_the_repository_is_tidy() {
    let known = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "LICENSE-MIT",
        "LICENSE-APACHE",
        "clippy.toml",
        "rustfmt.toml",
        "grammar",
        "src",
        "editors",
        "tests",
        "specs",
        "target",
    ];
    let top = std::fs::read_dir(repository()).expect("the folder can be read");
    for entry in top {
        let name = entry.expect("the folder can be read").file_name();
        let name = name.to_string_lossy();
        assert!(
            name.starts_with('.') || known.contains(&&*name),
            "{name} does not belong here"
        );
    }
}

#[test]
fn the_searches_find_what_they_look_for() {
    assert!(names("panic!()", "panic!") && !names("eprintln!()", "println!"));
    assert_eq!(
        for_tests("#[cfg(test)]\nmod laws;\n#[cfg(test)]\nmod tests {\n"),
        ["laws"]
    );
    let text = "fn a() {} // b\n#[cfg(test)]\nmod tests {\n    x.unwrap();\n}\n";
    assert_eq!(code_of(text).trim(), "fn a() {}");
}
