//! A line whose word cannot be read, an entry or a heading. What it said is not
//! known then: nothing else is said to be wrong for the want of it.

use std::collections::BTreeMap;

use drylay::findings::Severity;
use drylay::rules::{Family, find};

use crate::checked::{Checked, checked};
use crate::folder::Folder;
use crate::random::{Random, cases};
use crate::sound;

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

/// The words that begin an entry or a section, and those that begin the value of
/// an entry, each with the word that its line begins with.
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
            let rest = &line[indent + word.len()..];
            let value = rest.trim_start();
            if indent == 2 && value.starts_with(|first: char| first.is_ascii_lowercase()) {
                found.push((start + line.len() - value.len(), word));
            }
        }
        start += line.len();
    }
    found
}

/// Where no region can be read the general limits hold, and what is too flat by
/// them is told.
const WITHOUT_REGION: [(&str, &str); 2] = [("region", "fall-flat"), ("job", "fall-flat")];

/// Whether a rule tells of the line itself.
fn is_of_the_text(rule: &str) -> bool {
    find(rule).is_none_or(|rule| rule.family == Family::Text)
}

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
        .map(|path| folder.text(path).to_string())
        .chain(sound::specs().into_iter().map(|(_, text)| text))
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
                if is_new && !is_of_the_text(rule) && !WITHOUT_REGION.contains(&(word, rule)) {
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
