//! Every rule is held to its own examples: the breaking one gives the finding
//! at the marked place, the keeping one gives nothing, the first fix of the
//! breaking one gives the mended one.

use std::sync::Arc;

use drylay::findings::{Finding, Severity};
use drylay::model::Region;
use drylay::rules::{Family, Rule, all, complete, find};
use drylay::vocabulary::entry;

use crate::checked::{Checked, checked};

/// The findings that an example may not have besides the one it shows:
/// others of its family, and errors.
fn unwanted(checked: &Checked, rule: &Rule, except: Option<&str>) -> Vec<String> {
    // Cautions come together, whatever else is found.
    let alone = except.is_none() || rule.family != Family::Cautions;
    let is_unwanted = |finding: &&Arc<Finding>| {
        let of_family = find(finding.rule).is_none_or(|other| other.family == rule.family);
        let is_error = finding.severity == Some(Severity::Error);
        except != Some(finding.rule)
            && finding.accepted.is_none()
            && ((of_family && alone) || is_error)
    };
    checked
        .findings()
        .iter()
        .filter(is_unwanted)
        .map(|finding| checked.shown(finding))
        .collect()
}

/// What is wrong with a rule's examples.
fn faults(rule: &Rule) -> Vec<String> {
    let mut faults = Vec::new();
    let example = complete(rule.breaks);
    let broken = checked(&example.text);
    let of_rule: Vec<&Finding> = broken
        .findings()
        .iter()
        .map(Arc::as_ref)
        .filter(|finding| finding.rule == rule.name)
        .collect();
    match of_rule.as_slice() {
        [only] => {
            if Some(broken.range(only.place)) != example.marked {
                faults.push(format!("breaks: elsewhere: {}", broken.shown(only)));
            }
            // An entry that a fix writes stands in the columns of `fmt`.
            let words = |line: &str| line.split_whitespace().collect::<Vec<_>>().join(" ");
            let trimmed = |text: Option<String>| {
                let text = text.unwrap_or_default();
                text.trim_end()
                    .lines()
                    .map(words)
                    .collect::<Vec<_>>()
                    .join("\n")
            };
            let mended = trimmed(broken.mended(only));
            let wanted = trimmed(rule.mended.map(|mended| complete(mended).text));
            if mended != wanted {
                faults.push(format!("mended: {mended}\n--- but wanted: {wanted}"));
            }
            if let Some(text) = rule.mended {
                let clean = checked(&complete(text).text);
                faults.extend(
                    unwanted(&clean, rule, None)
                        .into_iter()
                        .map(|one| format!("mended: {one}")),
                );
            }
        }
        several => faults.push(format!("breaks: {} findings", several.len())),
    }
    let besides = unwanted(&broken, rule, Some(rule.name));
    faults.extend(besides.into_iter().map(|one| format!("breaks: {one}")));
    let kept = checked(&complete(rule.keeps).text);
    faults.extend(
        unwanted(&kept, rule, None)
            .into_iter()
            .map(|one| format!("keeps: {one}")),
    );
    faults
}

#[test]
fn every_rule_keeps_to_its_examples() {
    let mut reported = String::new();
    for rule in all() {
        for fault in faults(rule) {
            reported.push_str(&format!("{}: {fault}\n", rule.name));
        }
    }
    assert!(reported.is_empty(), "\n{reported}");
}

#[test]
fn entries_that_fixes_write_stand_in_the_columns_of_fmt() {
    let mut entries = 0;
    for rule in all() {
        for finding in checked(&complete(rule.breaks).text).findings().iter() {
            let changes = finding.fixes.iter().flat_map(|fix| &fix.changes);
            let lines = changes.flat_map(|change| change.text.lines());
            for line in lines.filter_map(|line| line.strip_prefix("  ")) {
                let (key, value) = line.split_once(' ').unwrap_or((line, ""));
                let value = value.trim_start();
                if !value.is_empty() {
                    entries += 1;
                    assert_eq!(line, entry(key, value), "{}", rule.name);
                }
            }
        }
    }
    assert!(entries > 5, "{entries}");
}

#[test]
fn the_sound_job_is_sound() {
    let sound = checked(&complete("").text);
    let reported: Vec<String> = sound
        .findings()
        .iter()
        .filter(|finding| find(finding.rule).is_none_or(|rule| rule.family != Family::Cautions))
        .map(|finding| sound.shown(finding))
        .collect();
    assert!(reported.is_empty(), "{reported:#?}");
}

#[test]
fn what_is_found_is_declared() {
    for rule in all() {
        for text in [rule.breaks, rule.keeps] {
            for finding in checked(&complete(text).text).findings().iter() {
                assert!(find(finding.rule).is_some(), "{}", finding.rule);
            }
        }
    }
}

#[test]
fn what_rests_on_memory_or_practice_alone_is_no_error() {
    // These hold the spec's own figures to one another.
    const OWN_FIGURES: &[&str] = &["levels-disagree", "coverage-odd"];
    let mut errors = 0;
    let mut wrong = String::new();
    for rule in all() {
        for region in ["general", "us", "uk", "au"] {
            let region = format!("region       {region}");
            let text = complete(rule.breaks).text;
            let text = text.replace("region       general", &region);
            let checked = checked(&text);
            for finding in checked.findings().iter() {
                let (Some(Severity::Error), Some(from)) =
                    (finding.severity, &finding.measured().limit_from)
                else {
                    continue;
                };
                errors += 1;
                let is_known = ["from memory", "common practice"]
                    .iter()
                    .all(|words| !from.source.contains(words));
                if !is_known && !OWN_FIGURES.contains(&finding.rule) {
                    wrong += &format!("{} in {region}: {}\n", finding.rule, from.source);
                }
            }
        }
    }
    assert!(errors > 12, "{errors}");
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn a_borrowed_limit_says_so_and_is_no_error() {
    let mut borrowed = 0;
    let mut wrong = String::new();
    for rule in all() {
        for (word, region) in [
            ("general", Region::General),
            ("us", Region::Us),
            ("uk", Region::Uk),
            ("au", Region::Au),
        ] {
            for limit in rule.limits {
                let source = limit.value(region).source;
                if !source.is_placed() {
                    wrong += &format!("{}, {}: whose is {source}?\n", rule.name, limit.row);
                }
            }
            let text = complete(rule.breaks).text;
            let heading = format!("region       {word}");
            let checked = checked(&text.replace("region       general", &heading));
            for finding in checked.findings().iter() {
                let from = finding.measured().limit_from.as_ref();
                let is_said = finding.message.contains("figure; no ");
                match from.and_then(|from| from.borrowed) {
                    Some(lent) => {
                        borrowed += 1;
                        let is_light = finding.severity <= Some(lent.at_most);
                        let is_other = lent.lender != region && lent.borrower == region;
                        if !is_light || !is_said || !is_other {
                            wrong += &format!("{word}: {}\n", checked.shown(finding));
                        }
                    }
                    None if is_said => wrong += &format!("{word}: {}\n", checked.shown(finding)),
                    None => {}
                }
            }
        }
    }
    assert!(borrowed > 50, "{borrowed}");
    assert!(wrong.is_empty(), "{wrong}");
}

/// Who calls a thing of the catalogue otherwise means that thing, and is not
/// asked what it might be.
#[test]
fn a_material_of_another_name_is_taken_for_its_own() {
    for (name, titles) in [
        ("soft-sand", &["Take it for building-sand"][..]),
        (
            "dune-dust",
            &[
                "Take it for bedding-sand",
                "Take it for cement",
                "Take it for open-aggregate",
            ],
        ),
    ] {
        let text = format!(
            "job \"A\"\n\nmix bed-mix\n  for bed\n  parts 1 portland-cement : 4 {name}\n\n\
             material {name}\n  sold by t\n  price £58/t\n"
        );
        let checked = checked(&text);
        let mut found = checked.findings().iter();
        let found = found.find(|found| found.rule == "kind-unknown");
        let found = found.expect("its kind is unknown");
        let fixes: Vec<&str> = found.fixes.iter().map(|fix| &*fix.title).collect();
        assert_eq!(fixes, titles);
        let mended = checked.mended(found).expect("it has a fix");
        let again = crate::checked::checked(&mended);
        assert!(
            again
                .findings()
                .iter()
                .all(|found| found.rule != "kind-unknown")
        );
    }
}
