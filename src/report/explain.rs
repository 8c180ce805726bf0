//! Rules explained: what each looks at, why, its limits with their sources,
//! and an example that breaks it.

use super::words::{WIDTH, wrapped};
use crate::rules::{Bound, Family, Limit, Rule, Value, of};

/// Everything that is known of a rule.
pub fn explained(rule: &Rule) -> String {
    let mut text = format!(
        "{}: {}, {}\n",
        rule.name,
        rule.severity,
        rule.family.title().to_lowercase()
    );
    let mut part = |head: &str, body: String| {
        if !body.is_empty() {
            text += &format!("\n{head}\n{body}");
        }
    };
    part("WHAT IT LOOKS AT", paragraph(rule.looks_at));
    part("WHY", paragraph(rule.reason));
    part("WHAT TO DO", paragraph(rule.remedy));
    part("LIMITS", rule.limits.iter().map(limit).collect());
    part(
        "SOURCES",
        rule.sources
            .iter()
            .map(|source| paragraph(&source.to_string()))
            .collect(),
    );
    part("AN EXAMPLE THAT BREAKS IT", example(rule.breaks));
    part("AN EXAMPLE THAT KEEPS IT", example(rule.keeps));
    part(
        "THE FIRST EXAMPLE PUT RIGHT",
        rule.mended.map(example).unwrap_or_default(),
    );
    text
}

/// Every rule in a line or two, family by family; only those in whose name
/// or words all of `words` stand, in any case.
pub fn listed_rules(words: &[&str]) -> String {
    let families = Family::ALL.iter().map(|family| {
        let found: Vec<&Rule> = of(*family).filter(|rule| speaks_of(rule, words)).collect();
        (family, found)
    });
    let parts: Vec<String> = families
        .filter(|(_, found)| !found.is_empty())
        .map(|(family, found)| {
            let lines: String = found.into_iter().map(line).collect();
            format!("{}\n{lines}", family.title().to_uppercase())
        })
        .collect();
    parts.join("\n")
}

fn speaks_of(rule: &Rule, words: &[&str]) -> bool {
    let of_limits = rule.limits.iter().flat_map(|limit| [limit.row, limit.of]);
    let said = [
        rule.name,
        rule.looks_at,
        rule.reason,
        rule.remedy,
        rule.family.title(),
    ];
    let said: Vec<String> = said
        .into_iter()
        .chain(of_limits)
        .map(str::to_lowercase)
        .collect();
    words
        .iter()
        .all(|word| said.iter().any(|text| text.contains(&word.to_lowercase())))
}

fn line(rule: &Rule) -> String {
    let first = format!("  {:<20} {:<8} ", rule.name, rule.severity.word());
    wrapped(rule.looks_at, &first, WIDTH) + "\n"
}

fn paragraph(text: &str) -> String {
    wrapped(text, "  ", WIDTH) + "\n"
}

/// A limit in each region that has its own, with its source.
fn limit(limit: &Limit) -> String {
    let bound = match limit.bound {
        Bound::Least => "at least",
        Bound::Most => "at most",
    };
    let head = wrapped(
        &format!("row {}: {}, {bound}", limit.row, limit.of),
        "  ",
        WIDTH,
    );
    let in_region = |region: &str, value: &Value| {
        let figure = value.written.join(" or ");
        let first = format!("    {region:<8} {figure:<22} ");
        wrapped(&value.source.to_string(), &first, WIDTH) + "\n"
    };
    let own = limit
        .regions
        .iter()
        .map(|(region, value)| in_region(region.word(), value));
    format!(
        "{head}\n{}{}",
        in_region("general", &limit.general),
        own.collect::<String>()
    )
}

/// An example, the marks of the place that is found taken out.
fn example(text: &str) -> String {
    let plain = text.replace(['«', '»'], "");
    let lines = plain
        .lines()
        .map(|line| format!("  {line}").trim_end().to_owned() + "\n");
    lines.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::{all, find};

    #[test]
    fn every_rule_is_listed_and_explained() {
        let list = listed_rules(&[]);
        for rule in all() {
            assert!(list.contains(rule.name), "{}", rule.name);
            let text = explained(rule);
            assert!(
                text.contains("WHAT TO DO") && !text.contains('«'),
                "{}",
                rule.name
            );
        }
    }

    #[test]
    fn rules_are_searched_by_their_words() {
        assert!(listed_rules(&["Frost"]).contains("base-thin"));
        assert!(!listed_rules(&["frost"]).contains("mix-rich"));
        assert_eq!(listed_rules(&["frost", "no such word at all"]), "");
    }

    #[test]
    fn limits_are_shown_with_their_sources() {
        let rule = find("fall-flat").unwrap();
        let text = explained(rule);
        for limit in rule.limits {
            assert!(text.contains(&format!("row {}: ", limit.row)));
        }
    }
}
