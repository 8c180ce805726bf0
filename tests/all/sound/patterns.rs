//! The pattern that units are laid in changes nothing of what else is wrong.

use super::{besides_cautions, spec, specs};
use crate::checked::checked;

/// The rules that ask nothing of the pattern.
const RULES: &[&str] = &[
    "base-missing",
    "bed-missing",
    "edge-loose",
    "fall-flat",
    "fall-missing",
    "joint-unfilled",
    "overdig-short",
];

/// What is taken out of a job, by the key of the entry.
const TAKEN_OUT: &[&str] = &["", "base", "bed", "edging", "fall"];

/// The sizes of the units of running or stack bond, as they are written in a
/// job, and the pattern that they stand after.
fn sizes(text: &str) -> Option<(&str, &str, &str)> {
    let laid = text.lines().find(|line| {
        line.trim_start().starts_with("laid ")
            && (line.contains("running-bond, ") || line.contains("stack-bond, "))
    })?;
    let (_, units) = laid.split_once(", units ")?;
    let (long, wide) = units.split(',').next()?.split_once(" by ")?;
    Some((laid, long, wide))
}

/// What is found of those rules, without the entries of a key.
fn found(text: &str, key: &str) -> Vec<&'static str> {
    let is_kept = |line: &&str| key.is_empty() || line.split_whitespace().next() != Some(key);
    let text: Vec<&str> = text.lines().filter(is_kept).collect();
    let checked = checked(&(text.join("\n") + "\n"));
    let findings = besides_cautions(&checked);
    let rules = findings.iter().map(|finding| finding.rule);
    let mut rules: Vec<&str> = rules.filter(|rule| RULES.contains(rule)).collect();
    rules.sort_unstable();
    rules
}

#[test]
fn a_pattern_hides_nothing() {
    let mut looked_at = 0;
    // Stones that are stepped on one by one lie in no courses.
    for (name, _) in specs()
        .into_iter()
        .filter(|(name, _)| name != "stepping-stones")
    {
        let text = spec(&name);
        let Some((laid, long, wide)) = sizes(&text) else {
            continue;
        };
        looked_at += 1;
        let ashlar =
            format!("  laid ashlar, units {long} by {wide} of 60 % and {wide} by {wide} of 40 %");
        let patterns = [
            (long != wide).then_some(ashlar),
            Some(format!("  laid courses, units {wide} wide")),
        ];
        for pattern in patterns.into_iter().flatten() {
            let other = text.replacen(laid, &pattern, 1);
            for key in TAKEN_OUT {
                let as_it_was = found(&text, key);
                assert_eq!(
                    found(&other, key),
                    as_it_was,
                    "{name}, no `{key}`: {pattern}"
                );
            }
        }
    }
    assert!(looked_at > 20, "{looked_at}");
}
