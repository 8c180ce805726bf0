//! Laying out changes how a spec looks and nothing that it says.

use drylay::analysis::Analysis;
use drylay::format::{Memory, formatted};
use drylay::report::takeoff_json;
use drylay::syntax::Tree;
use drylay::text::{Text, apply};

use crate::folder::Folder;
use crate::sound;

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
    let told = findings.map(|finding| {
        let accepted = finding.accepted.is_some();
        format!("{} {:?} {accepted}", finding.rule, finding.severity)
    });
    told.collect()
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
    "(", ")", ",", "\"", "#", "-", " ", "\n", "\t", "½", ":", "x", "'", "1",
];

#[test]
fn a_broken_spec_keeps_its_rules_too() {
    for (path, text) in &specs().0 {
        let places: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
        for (index, stray) in STRAYS.iter().cycle().take(56).enumerate() {
            let at = places[(index * 7919 + 13) % places.len()];
            let mut broken = text.to_string();
            broken.insert_str(at, stray);
            let tree = Tree::parse(Text::from(broken.as_str()));
            let once = formatted(&tree);
            assert_eq!(laid(&once), once, "{path}: {stray:?} at {at}");
            assert_eq!(
                apply(&broken, &Memory::default().edits(&tree, None)).as_deref(),
                Some(once.as_str())
            );
            let alone = |text: &str| {
                let checked = crate::checked::checked(text);
                let rules = checked.findings().iter().map(|finding| finding.rule);
                rules.collect::<Vec<_>>()
            };
            if index % 4 == 0 {
                assert_eq!(alone(&broken), alone(&once), "{path}: {stray:?} at {at}");
            }
        }
    }
}
