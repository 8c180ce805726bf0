//! Every rule, by family, and how one is found by its name.

use std::sync::LazyLock;

use rustc_hash::FxHashMap;

use super::{
    Family, Rule, acceptance, as_built, base, beds, cautions, drains, edges, falls, ground, joints,
    levels, mixes, ordering, steps, text, units, work,
};
use crate::findings::{Finding, Severity};

/// The rules, family by family, in the order in which they are listed.
pub static FAMILIES: &[&[&Rule]] = &[
    falls::RULES,
    drains::RULES,
    levels::RULES,
    ground::RULES,
    base::RULES,
    beds::RULES,
    mixes::RULES,
    units::RULES,
    joints::RULES,
    edges::RULES,
    steps::RULES,
    ordering::RULES,
    work::RULES,
    as_built::RULES,
    cautions::RULES,
    acceptance::RULES,
    text::RULES,
];

/// Every rule, in the order in which they are listed.
pub fn all() -> impl Iterator<Item = &'static Rule> {
    FAMILIES.iter().flat_map(|rules| rules.iter().copied())
}

/// The rule with this name. It is asked of every finding.
pub fn find(name: &str) -> Option<&'static Rule> {
    static BY_NAME: LazyLock<FxHashMap<&str, &Rule>> =
        LazyLock::new(|| all().map(|rule| (rule.name, rule)).collect());
    BY_NAME.get(name).copied()
}

/// How much a finding matters: as it says, else as its rule usually does.
pub fn severity_of(finding: &Finding) -> Option<Severity> {
    let usual = || find(finding.rule).map(|rule| rule.severity);
    finding.severity.or_else(usual)
}

/// The rules of a family, in the order in which they are listed.
pub fn of(family: Family) -> impl Iterator<Item = &'static Rule> {
    all().filter(move |rule| rule.family == family)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::{Bound, Check};

    #[test]
    fn every_name_is_plain_and_used_once() {
        let mut seen = std::collections::BTreeSet::new();
        for rule in all() {
            assert!(seen.insert(rule.name), "{} stands twice", rule.name);
            let is_caution = rule.name.starts_with("care-");
            assert_eq!(is_caution, rule.family == Family::Cautions, "{}", rule.name);
            assert!(
                rule.name
                    .chars()
                    .all(|letter| letter.is_ascii_lowercase() || letter == '-'),
                "{}",
                rule.name
            );
        }
    }

    #[test]
    fn every_declaration_is_whole() {
        for rule in all() {
            for (what, text) in [
                ("looks_at", rule.looks_at),
                ("reason", rule.reason),
                ("remedy", rule.remedy),
            ] {
                assert!(text.ends_with('.'), "{}: {what} is no sentence", rule.name);
            }
            // What makes a text unreadable needs no authority.
            assert!(
                !rule.sources.is_empty() || matches!(rule.check, Check::Reading),
                "{} names no source",
                rule.name
            );
            assert!(rule.breaks.contains('«'), "{} marks no place", rule.name);
            assert!(
                !rule.keeps.contains('«'),
                "{} marks a sound place",
                rule.name
            );
        }
    }

    #[test]
    fn every_limit_can_be_read_and_its_twins_agree() {
        for rule in all() {
            for limit in rule.limits {
                let regions = limit.regions.iter().map(|(_, value)| value);
                for value in std::iter::once(&limit.general).chain(regions) {
                    let read: Vec<_> = value
                        .written
                        .iter()
                        .map(|text| crate::model::literal(text))
                        .collect();
                    let Some(Some(first)) = read.first() else {
                        panic!("{} {}: {:?}", rule.name, limit.row, value.written);
                    };
                    for twin in &read {
                        let twin = twin.as_ref().expect("a twin that can be read");
                        let ratio = twin.si() / first.si();
                        assert!(
                            (0.75..1.3).contains(&ratio),
                            "{} {}: {:?}",
                            rule.name,
                            limit.row,
                            value.written
                        );
                    }
                    assert!(matches!(limit.bound, Bound::Least | Bound::Most));
                }
            }
        }
    }
}
