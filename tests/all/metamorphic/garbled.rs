//! A line whose word cannot be read, an entry or a heading. What it said is not
//! known then: nothing else is said to be wrong for the want of it.

use std::collections::BTreeMap;

use drylay::findings::Severity;

use crate::checked::{Checked, checked};
use crate::folder::Folder;
use crate::random::{Random, cases};

/// Errors and warnings, so many of each rule.
fn grave(found: &Checked) -> BTreeMap<&'static str, usize> {
    let mut counts = BTreeMap::new();
    let is_grave =
        |severity: Option<Severity>| severity.is_some_and(|own| own >= Severity::Warning);
    for one in found
        .findings()
        .iter()
        .filter(|one| is_grave(one.severity) && !one.is_caution())
    {
        *counts.entry(one.rule).or_default() += 1;
    }
    counts
}

/// The lines that begin an entry or a section, with the word that they begin
/// with.
fn lines(text: &str) -> Vec<(usize, &str)> {
    let mut found = Vec::new();
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let indent = line.len() - line.trim_start().len();
        let word = line.split_whitespace().next().unwrap_or("");
        let is_key = word
            .bytes()
            .all(|byte| byte.is_ascii_lowercase() || byte == b'-');
        if matches!(indent, 0 | 2) && is_key && !word.is_empty() {
            found.push((start + indent, word));
        }
        start += line.len();
    }
    found
}

/// Where no region can be read the general limits hold, and what is too flat by
/// them is told.
const WITHOUT_REGION: [(&str, &str); 2] = [("region", "fall-flat"), ("job", "fall-flat")];

#[test]
fn a_line_that_cannot_be_read_is_the_one_thing_wrong() {
    let folder = Folder::of_specs();
    let paths = folder.paths();
    let is_alone = |path: &&String| {
        let text = folder.text(path);
        let leans = ["\nuse ", "\nstandard "]
            .iter()
            .any(|word| text.contains(word));
        text.contains("\njob ") && !leans && !path.contains("/mistakes/")
    };
    let mut told: BTreeMap<(&str, &str), String> = BTreeMap::new();
    let texts: Vec<_> = paths
        .iter()
        .filter(is_alone)
        .map(|path| folder.text(path))
        .collect();
    let (mut random, mut tried) = (Random::new("lines that cannot be read"), 0);
    for text in &texts {
        let before = grave(&checked(text));
        for (at, word) in lines(text) {
            // Each time a sixth of them.
            if random.below(6) >= cases(1) {
                continue;
            }
            tried += 1;
            let wrong = format!("{}zq{}", &text[..at], &text[at..]);
            let found = checked(&wrong);
            for (rule, count) in grave(&found) {
                let is_new = count > before.get(rule).copied().unwrap_or(0);
                if is_new && rule != "word-unknown" && !WITHOUT_REGION.contains(&(word, rule)) {
                    let one = found.findings().iter().find(|one| one.rule == rule);
                    let message = one.map_or("", |one| &*one.message);
                    told.insert((word, rule), message.to_owned());
                }
            }
        }
    }
    assert!(tried > 100, "only {tried} lines were tried");
    assert!(told.is_empty(), "said for the want of a line: {told:#?}");
}
