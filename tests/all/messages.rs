//! What every rule says: one finding of each, out of its breaking example, kept
//! in one file so that all can be read at a sitting.

use std::fmt::Write;
use std::sync::Arc;

use drylay::findings::Finding;
use drylay::rules::{Rule, all, complete};

use crate::checked::checked;
use crate::golden;

/// The longest that a message may be, in characters.
const LONGEST: usize = 180;

/// What no message may hold: words of programs and forms of their making.
const JARGON: &[&str] = &[
    "None)",
    "Some(",
    "null",
    "NaN",
    "inf ",
    "::",
    "{",
    "}",
    "parse",
    "token",
    "syntax",
    "invalid",
    "undefined",
    "boolean",
    "string",
    "identifier",
];

/// What sounds translated: a limit before its verdict, verbs that nobody uses
/// on site, and the trade's things under other names.
const TRANSLATED: &[&str] = &[
    "is to be",
    "are to be",
    "wants",
    "said to",
    "stands by",
    "it speaks",
    "speaks of",
    "so that none",
    "passed over",
    "may be at most",
    "an advice",
    "graver",
    "milder",
    "kinder",
    "inside corner",
    "takes up water",
    "grows in the sun",
    "open stone",
    "is no key",
    "by the each",
    "put right",
    "; region",
    "(region",
];

/// Holds a text that a person reads to the voice of the trade.
fn check_voice(of: &str, text: &str) {
    let lower = text.to_lowercase();
    for phrase in TRANSLATED {
        assert!(!lower.contains(phrase), "{of} says {phrase:?}: {text}");
    }
}

/// What stands in brackets before the verdict ends, which may be a twin of a
/// figure or a name of the job, and no list.
fn check_brackets(of: &str, message: &str) {
    let verdict = message.split([':', ';']).next().unwrap_or(message);
    for bracket in verdict.split('(').skip(1) {
        let inside = bracket.split(')').next().unwrap_or(bracket);
        let is_list = inside.contains("region") || inside.contains("row ");
        assert!(!is_list, "{of} has a bracket in its verdict: {message}");
    }
}

/// The finding of a rule's breaking example, as it stands or in another
/// system of units and region; there it may be that nothing is wrong.
fn finding(rule: &Rule, heading: &[(&str, &str)]) -> Option<Arc<Finding>> {
    let mut text = complete(rule.breaks).text;
    for (from, to) in heading {
        text = text.replace(from, to);
    }
    let checked = checked(&text);
    let mut findings = checked.findings().iter();
    findings.find(|finding| finding.rule == rule.name).cloned()
}

/// As American practices write them.
const AMERICAN: &[(&str, &str)] = &[
    ("units        metric", "units        imperial"),
    ("region       general", "region       us"),
    ("currency     GBP", "currency     USD"),
];

/// A finding as it is kept.
fn described(finding: &Finding) -> String {
    let mut reported = String::new();
    let severity = finding.severity.map_or("", |severity| severity.word());
    writeln!(reported, "{severity} {}", finding.rule).expect("a line");
    writeln!(reported, "  {}", finding.message).expect("a line");
    if let Some(help) = &finding.help {
        writeln!(reported, "  help: {help}").expect("a line");
    }
    if let (Some(limit), Some(from)) = (&finding.measured().limit, &finding.measured().limit_from) {
        writeln!(reported, "  limit: {limit}, {}; {}", from.what, from.source).expect("a line");
    }
    for related in &finding.related {
        writeln!(reported, "  see: {}", related.message).expect("a line");
    }
    for fix in &finding.fixes {
        let how = if fix.safe { "fix" } else { "fix to look at" };
        writeln!(reported, "  {how}: {}", fix.title).expect("a line");
    }
    reported
}

#[test]
fn every_rule_says_what_is_kept() {
    let reported: Vec<String> = all()
        .map(|rule| described(&finding(rule, &[]).expect(rule.name)))
        .collect();
    golden::check("messages.txt", &reported.join("\n"));
}

/// Holds what a finding says to be short and plain.
pub fn check(finding: &Finding) {
    let related = finding.related.iter().map(|related| &*related.message);
    let titles = finding.fixes.iter().map(|fix| &*fix.title);
    let texts = std::iter::once(&*finding.message).chain(finding.help.as_deref());
    for text in texts.chain(related).chain(titles) {
        let length = text.chars().count();
        assert!(length <= LONGEST, "{}, {length}: {text}", finding.rule);
        for word in JARGON {
            assert!(!text.contains(word), "{}: {text}", finding.rule);
        }
        check_voice(finding.rule, text);
    }
    check_brackets(finding.rule, &finding.message);
    let message = &finding.message;
    assert!(!message.ends_with('.'), "{}: {message}", finding.rule);
}

#[test]
fn messages_are_short_and_plain() {
    let findings: Vec<Arc<Finding>> = all()
        .flat_map(|rule| [finding(rule, &[]), finding(rule, AMERICAN)])
        .flatten()
        .collect();
    assert!(findings.len() > 3 * all().count() / 2);
    findings.iter().for_each(|finding| check(finding));
}

#[test]
fn rules_are_told_in_the_voice_of_the_trade() {
    for rule in all() {
        for text in [rule.looks_at, rule.reason, rule.remedy] {
            check_voice(rule.name, text);
        }
        for limit in rule.limits {
            check_voice(rule.name, limit.of);
        }
    }
}
