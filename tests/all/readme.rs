//! The README says what is so: its commands run, what it shows of their
//! output is what they write, its spec is sound.
//!
//! `DRYLAY_REFRESH=1 cargo test readme` writes the outputs anew. Output is
//! shown in whole paragraphs, and `…` stands for those that are left out; a
//! paragraph is found again by its first line.

use std::collections::HashSet;
use std::process::Command;

use crate::folder::repository;

fn readme() -> String {
    std::fs::read_to_string(repository().join("README.md")).expect("the README")
}

/// The insides of the blocks with this word after their fence.
fn blocks<'t>(text: &'t str, word: &str) -> Vec<&'t str> {
    let fence = format!("```{word}\n");
    let after = text.split(fence.as_str()).skip(1);
    after
        .filter_map(|rest| rest.split_once("```").map(|(inside, _)| inside))
        .collect()
}

/// What a command line writes, with the program on the path.
fn written(line: &str) -> String {
    let program = std::path::Path::new(env!("CARGO_BIN_EXE_drylay"));
    let folder = program.parent().expect("its folder").to_path_buf();
    let path = std::env::var_os("PATH").unwrap_or_default();
    let path = std::env::join_paths(std::iter::once(folder).chain(std::env::split_paths(&path)));
    let output = Command::new("sh")
        .current_dir(repository())
        .args(["-c", line])
        .env("PATH", path.expect("a path"))
        .output()
        .expect("the shell runs");
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert!(
        output.status.code().is_some_and(|code| code < 2),
        "{line}: {complaint}"
    );
    String::from_utf8(output.stdout)
        .expect("text")
        .trim_end()
        .to_owned()
}

/// The output as the README shows it: what is kept of it, as it is now.
fn shown(kept: &str, now: &str) -> Option<String> {
    let all: Vec<&str> = now.split("\n\n").collect();
    let mut next = 0;
    let mut shown = Vec::new();
    for kept in kept.split("\n\n") {
        if kept == "…" {
            shown.push("…");
            continue;
        }
        let first = kept.lines().next();
        let may_skip = shown.last() == Some(&"…");
        let rest = all.get(next..)?;
        let found = rest
            .iter()
            .position(|paragraph| paragraph.lines().next() == first);
        next += if may_skip { found? } else { 0 };
        shown.push(all.get(next)?);
        next += 1;
    }
    let is_whole = shown.last() == Some(&"…") || next == all.len();
    is_whole.then(|| shown.join("\n\n"))
}

#[test]
fn outputs_are_what_the_commands_write() {
    let text = readme();
    let mut fresh = text.clone();
    for block in blocks(&text, "console") {
        let (line, kept) = block.split_once('\n').expect("a command and its output");
        let line = line.strip_prefix("$ ").expect("a command after a dollar");
        let now = written(line);
        let shown = shown(kept.trim_end(), &now)
            .unwrap_or_else(|| panic!("{line} writes other paragraphs:\n{now}"));
        fresh = fresh.replace(block, &format!("$ {line}\n{shown}\n"));
    }
    if std::env::var_os("DRYLAY_REFRESH").is_some() {
        std::fs::write(repository().join("README.md"), fresh).expect("the README can be written");
    } else {
        assert_eq!(
            text, fresh,
            "the README shows other output: run with DRYLAY_REFRESH=1"
        );
    }
}

#[test]
fn the_spec_is_the_one_in_the_folder() {
    let text = readme();
    let spec = std::fs::read_to_string(repository().join("specs/weir-lane.patio")).expect("it");
    let sections = spec.split_once("\njob").expect("a job").1;
    assert!(
        blocks(&text, "patio")
            .iter()
            .any(|block| block.contains(sections))
    );
}

#[test]
fn fragments_are_in_the_language() {
    for block in blocks(&readme(), "patio") {
        for finding in crate::checked::checked(block).findings().iter() {
            let family = drylay::rules::find(finding.rule).map(|rule| rule.family);
            let is_of_text = family == Some(drylay::rules::Family::Text);
            // What a fragment refers to stands elsewhere.
            let is_elsewhere = ["name-unknown", "accept-idle"].contains(&finding.rule);
            assert!(
                !is_of_text || is_elsewhere,
                "{}: {}",
                finding.rule,
                finding.message
            );
        }
    }
}

#[test]
fn every_command_and_format_is_told_of() {
    let text = readme();
    let help = written("drylay --help");
    let (_, list) = help.split_once("Commands:\n").expect("the commands");
    let commands: Vec<&str> = list
        .lines()
        .take_while(|line| !line.is_empty())
        .filter_map(|line| line.split_whitespace().next())
        .collect();
    assert!(commands.contains(&"check"));
    let words: HashSet<String> = text
        .split(|letter: char| !letter.is_alphanumeric())
        .map(str::to_lowercase)
        .collect();
    for command in commands {
        assert!(
            text.contains(&format!("| `drylay {command}")),
            "{command} is not told of"
        );
        let help = written(&format!("drylay {command} --help"));
        let formats = help.split_once("--format <FORMAT>").unzip().1;
        let lines = formats.unwrap_or_default().lines();
        let listed = lines.take_while(|line| !line.trim().starts_with("--"));
        for line in listed.filter_map(|line| line.trim().strip_prefix("- ")) {
            let format = line.split(':').next().unwrap_or_default();
            assert!(
                words.contains(format),
                "{format} of {command} is not told of"
            );
        }
    }
}

/// Every option that stands beside a command is one of its options.
#[test]
fn every_option_is_there() {
    let text = readme();
    let lines = text
        .lines()
        .flat_map(|line| line.split('`').skip(1).step_by(2));
    let mut seen = 0;
    for line in lines
        .chain(blocks(&text, "sh"))
        .flat_map(|block| block.split("&&"))
    {
        let mut words = line.split_whitespace();
        let (Some("drylay"), Some(command)) = (words.next(), words.next()) else {
            continue;
        };
        let help = written(&format!("drylay {command} --help"));
        for option in words.filter(|word| word.starts_with("--")) {
            assert!(help.contains(option), "{option} of {line}");
            seen += 1;
        }
    }
    assert!(seen > 3);
}

#[test]
fn every_kind_of_section_is_told_of() {
    let text = readme();
    let (_, table) = text.split_once("| section | says |").expect("the table");
    let table = table.split("\n\n").next().unwrap_or_default();
    for kind in drylay::vocabulary::SECTIONS {
        let row = format!("| `{}` |", kind.word);
        assert!(table.contains(&row), "{} is not told of", kind.word);
    }
}
