//! Laying out changes how a spec looks and nothing that it says.

use drylay::analysis::Analysis;
use drylay::format::{Memory, formatted};
use drylay::report::takeoff_json;
use drylay::syntax::Tree;
use drylay::text::{Text, apply};

use crate::checked::checked;
use crate::folder::Folder;
use crate::random::{Random, cases};
use crate::sound;
use crate::vocabulary::piece;

/// Every spec of the repository, in one folder.
fn specs() -> Folder {
    let mut folder = Folder::of_specs();
    for (name, text) in sound::specs() {
        folder
            .0
            .insert(format!("/sound/{name}.patio"), Text::from(text));
    }
    folder
}

fn laid(text: &str) -> String {
    formatted(&Tree::parse(Text::from(text)))
}

/// What is found, but for how the text is quoted.
fn findings(analysis: &Analysis) -> Vec<String> {
    let findings = analysis.findings.iter();
    let reported = findings.map(|finding| {
        let accepted = finding.accepted.is_some();
        format!("{} {:?} {accepted}", finding.rule, finding.severity)
    });
    reported.collect()
}

/// The first line in which two texts differ, as each has it.
fn difference<'t>(one: &'t str, other: &'t str) -> Option<(&'t str, &'t str)> {
    let mut pairs = one.lines().zip(other.lines());
    pairs.find(|(one, other)| one != other)
}

/// Ways in which people write the same thing otherwise.
fn disarranged(text: &str) -> Vec<String> {
    let each_line = |change: &dyn Fn(&str) -> String| {
        let lines = text.lines().map(change);
        lines.collect::<Vec<_>>().join("\n") + "\n"
    };
    let outside_text = |from: &str, to: &str| {
        each_line(&|line| {
            let is_plain = !line.contains(['"', '#', '“']);
            if is_plain {
                line.replace(from, to)
            } else {
                line.to_owned()
            }
        })
    };
    let indented = |indent: &str| {
        each_line(&|line| match line.strip_prefix("  ") {
            Some(rest) => format!("{indent}{rest}  "),
            None => line.to_owned(),
        })
    };
    vec![
        indented("\t"),
        indented("       "),
        indented(" "),
        text.replace('\n', "\r\n"),
        text.replace('\n', "\r"),
        text.replace("\n\n", "\n"),
        text.replace('\n', "\n\n\n"),
        outside_text(", ", ","),
        outside_text(", ", " ,  "),
        outside_text("'", "′"),
        outside_text(" by ", " × "),
        outside_text(" mm", "mm"),
        outside_text(" 1/2 in", "½ in"),
        outside_text(" - ", " − "),
        outside_text(" %", "%"),
        outside_text(" in", "\u{A0}in"),
        outside_text(" mm", " MM"),
        outside_text(" ft", " Ft"),
        format!("\u{FEFF}{text}"),
    ]
}

#[test]
fn the_specs_here_are_laid_out() {
    for (path, text) in &Folder::of_specs().0 {
        assert_eq!(laid(text), **text, "{path}: run `drylay fmt`");
    }
}

#[test]
fn figures_and_findings_stay() {
    let folder = specs();
    for (path, text) in &folder.0 {
        for other in disarranged(text) {
            let mut before = folder.clone();
            before.0.insert(path.clone(), Text::from(other.as_str()));
            let once = laid(&other);
            assert_eq!(laid(&once), once, "{path}");
            let mut after = folder.clone();
            after.0.insert(path.clone(), Text::from(once.as_str()));
            let (before, after) = (before.analysis(path), after.analysis(path));
            let place = format!("{path}, as when {:?}", difference(text, &other));
            assert_eq!(findings(&before), findings(&after), "{place}");
            let (before, after) = (takeoff_json(&before), takeoff_json(&after));
            assert_eq!(difference(&before, &after), None, "{place}");
        }
    }
}

/// Marks and words that change much where they come to stand.
const STRAYS: &[&str] = &[
    "(",
    ")",
    ",",
    "\"",
    "#",
    "-",
    " ",
    "\n",
    "\t",
    "½",
    ":",
    "x",
    "'",
    "1",
    "×",
    "−",
    "“",
    "/",
    ".",
    "°",
    "%",
    "£",
    "12.04.2027 ",
    "8:00 ",
    "5x",
    " to ",
    "\nlet a = ",
];

/// A text with one to three strays put in, or letters taken out.
fn broken(text: &str, random: &mut Random) -> String {
    let mut broken = text.to_owned();
    for _ in 0..=random.below(3) {
        let places: Vec<(usize, char)> = broken.char_indices().collect();
        let (at, letter) = *random.pick(&places);
        match random.once_in(4) {
            true => broken.replace_range(at..at + letter.len_utf8(), ""),
            false => broken.insert_str(at, piece(random, STRAYS)),
        }
    }
    broken
}

#[test]
fn a_broken_spec_keeps_its_rules_and_figures_too() {
    let specs = specs();
    let paths = specs.paths();
    let mut random = Random::new("broken specs");
    for case in 0..cases(1500) {
        let path = random.pick(&paths);
        let broken = broken(&specs.text(path), &mut random);
        let tree = Tree::parse(Text::from(broken.as_str()));
        let once = formatted(&tree);
        assert_eq!(laid(&once), once, "{path}: {broken}");
        let edits = Memory::default().edits(&tree, None);
        assert_eq!(apply(&broken, &edits).as_deref(), Some(once.as_str()));
        // Working a spec out takes longer than laying it out.
        if case % 5 == 0 {
            let (before, after) = (checked(&broken), checked(&once));
            let (before, after) = (before.analysis(), after.analysis());
            assert_eq!(findings(before), findings(after), "{path}: {broken}");
            let (before, after) = (takeoff_json(before), takeoff_json(after));
            assert_eq!(difference(&before, &after), None, "{path}: {broken}");
        }
    }
}
