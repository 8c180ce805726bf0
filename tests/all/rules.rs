//! Every rule is held to its own examples: the breaking one gives the finding
//! at the marked place, the keeping one gives nothing, the first fix of the
//! breaking one gives the mended one.

use std::ops::Range;
use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::findings::{Finding, Place, Severity};
use drylay::rules::{Family, Rule, all, complete, find};

const TODAY: &str = "2027-04-12";

/// A text and everything found in it.
struct Checked(Arc<Analysis>);

fn checked(text: &str) -> Checked {
    let mut analyser = Analyser::new();
    Checked(analyser.analyse("/specs/example.patio", text.into(), &NoFiles, TODAY))
}

impl Checked {
    fn range(&self, place: Place) -> Range<usize> {
        self.0.span(place).expect("a place in the text").1.into()
    }

    /// The text with the first fix of a finding applied.
    fn mended(&self, finding: &Finding) -> Option<String> {
        let fix = finding.fixes.first()?;
        let mut changes: Vec<_> = fix
            .changes
            .iter()
            .map(|change| (self.range(change.place), change.text.as_str()))
            .collect();
        changes.sort_by_key(|(range, _)| std::cmp::Reverse(range.start));
        let mut text = self.0.own_text().to_string();
        for (range, new) in changes {
            text.replace_range(range, new);
        }
        Some(text)
    }

    /// The findings that an example may not have besides the one it shows:
    /// others of its family, and errors.
    fn unwanted(&self, rule: &Rule, except: Option<&str>) -> Vec<String> {
        // Cautions come together, whatever else is found.
        let alone = except.is_none() || rule.family != Family::Cautions;
        let is_unwanted = |finding: &&Finding| {
            let Some(other) = find(finding.rule) else {
                return false;
            };
            let of_family = other.family == rule.family;
            let is_error = finding.severity == Some(Severity::Error);
            except != Some(finding.rule)
                && finding.accepted.is_none()
                && ((of_family && alone) || is_error)
        };
        self.0
            .findings
            .iter()
            .filter(is_unwanted)
            .map(|finding| self.shown(finding))
            .collect()
    }

    fn shown(&self, finding: &Finding) -> String {
        let range = self.range(finding.place);
        format!(
            "{:?} {} at {range:?} `{}`: {}",
            finding.severity,
            finding.rule,
            self.0.own_text().get(range.clone()).unwrap_or("?"),
            finding.message
        )
    }
}

/// What is wrong with a rule's examples.
fn faults(rule: &Rule) -> Vec<String> {
    let mut faults = Vec::new();
    let example = complete(rule.breaks);
    let broken = checked(&example.text);
    let of_rule: Vec<&Finding> = broken
        .0
        .findings
        .iter()
        .filter(|finding| finding.rule == rule.name)
        .collect();
    match of_rule.as_slice() {
        [only] => {
            if Some(broken.range(only.place)) != example.marked {
                faults.push(format!("breaks: elsewhere: {}", broken.shown(only)));
            }
            let trimmed = |text: Option<String>| text.unwrap_or_default().trim_end().to_owned();
            let mended = trimmed(broken.mended(only));
            let wanted = trimmed(rule.mended.map(|mended| complete(mended).text));
            if mended != wanted {
                faults.push(format!("mended: {mended}\n--- but wanted: {wanted}"));
            }
            if let Some(text) = rule.mended {
                let clean = checked(&complete(text).text);
                faults.extend(
                    clean
                        .unwanted(rule, None)
                        .into_iter()
                        .map(|one| format!("mended: {one}")),
                );
            }
        }
        several => faults.push(format!("breaks: {} findings", several.len())),
    }
    let besides = broken.unwanted(rule, Some(rule.name));
    faults.extend(besides.into_iter().map(|one| format!("breaks: {one}")));
    let kept = checked(&complete(rule.keeps).text);
    faults.extend(
        kept.unwanted(rule, None)
            .into_iter()
            .map(|one| format!("keeps: {one}")),
    );
    faults
}

#[test]
fn every_rule_keeps_to_its_examples() {
    let mut told = String::new();
    for rule in all() {
        for fault in faults(rule) {
            told.push_str(&format!("{}: {fault}\n", rule.name));
        }
    }
    assert!(told.is_empty(), "\n{told}");
}

#[test]
fn the_sound_job_is_sound() {
    let sound = checked(&complete("").text);
    let told: Vec<String> = sound
        .0
        .findings
        .iter()
        .filter(|finding| find(finding.rule).is_none_or(|rule| rule.family != Family::Cautions))
        .map(|finding| sound.shown(finding))
        .collect();
    assert!(told.is_empty(), "{told:#?}");
}
