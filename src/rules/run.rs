//! Running the rules: every check once, then how much each finding matters,
//! where it is placed, and one order for all.

use std::cmp::Reverse;

use rayon::prelude::*;

use super::{Check, Context, Found, Rule, Stopwatch, families, timed};
use crate::findings::{FileId, Finding, Related, SectionRef, Severity};
use crate::model::{Build, FileKind, Surface};

/// From how many surfaces on the rules run side by side.
const MANY_SURFACES: usize = 64;

/// The file that was asked for.
const CHECKED: FileId = FileId(0);

/// Everything found in a job: what the reading found and what every rule
/// finds, each with how much it matters where the standards in force are
/// heard. In one order, whatever order the rules ran in. Each rule is run
/// under its name on the stopwatch.
pub fn run(context: &Context<'_>, watch: Stopwatch<'_>) -> Vec<Finding> {
    let checked = |rule: &'static Rule| timed(watch, rule.name, || checked(rule, context));
    let mut findings = context.job.findings.clone();
    if context.job.surfaces.len() < MANY_SURFACES {
        findings.extend(families::all().flat_map(checked));
    } else {
        let rules: Vec<&'static Rule> = families::all().collect();
        let found = rules.par_iter().flat_map_iter(|rule| checked(rule));
        findings.par_extend(found);
    }
    let mut findings: Vec<Finding> = findings
        .into_iter()
        .filter_map(|finding| weighed(finding, context))
        .collect();
    order(&mut findings);
    merge_same(findings)
}

/// What one rule finds.
fn checked(rule: &'static Rule, context: &Context<'_>) -> Vec<Finding> {
    let job = context.job;
    let mut all = Vec::new();
    match rule.check {
        Check::Reading => {}
        // A library is no job: what concerns a whole job is asked of its users.
        Check::Job(_) if job.kind != FileKind::Spec => {}
        Check::Job(check) => {
            let mut found = Found::default();
            check(context, &mut found);
            all = found.findings;
        }
        Check::Surface(check) => {
            for surface in &job.surfaces {
                let mut found = Found::default();
                check(context, surface, &mut found);
                all.extend(
                    found
                        .findings
                        .into_iter()
                        .map(|one| settled(one, surface, None)),
                );
            }
        }
        Check::Built(check) => {
            for (surface, build) in built(&job.surfaces) {
                let mut found = Found::default();
                check(context, surface, build, &mut found);
                let found = found.findings.into_iter();
                all.extend(found.map(|one| settled(one, surface, Some(build))));
            }
        }
        Check::Layer(check) => {
            for (surface, build) in built(&job.surfaces) {
                for layer in &build.layers {
                    let mut found = Found::default();
                    check(context, surface, build, layer, &mut found);
                    let found = found.findings.into_iter();
                    all.extend(found.map(|one| settled(one, surface, Some(build))));
                }
            }
        }
        // What is wrong by itself is said where it is written, of a library
        // in the library.
        Check::Build(check) => {
            let mut found = Found::default();
            let own = job.builds.values();
            own.filter(|build| build.section.file == CHECKED)
                .for_each(|build| check(context, build, &mut found));
            all = found.findings;
        }
        Check::Material(check) => {
            let mut found = Found::default();
            let is_own = |section: SectionRef| section.file == CHECKED;
            let own = job.materials.values();
            own.filter(|material| material.section.is_some_and(is_own))
                .for_each(|material| check(context, material, &mut found));
            all = found.findings;
        }
        Check::Mix(check) => {
            let mut found = Found::default();
            let own = job.mixes.values();
            own.filter(|mix| mix.section.file == CHECKED)
                .for_each(|mix| check(context, mix, &mut found));
            all = found.findings;
        }
    }
    all
}

fn built(surfaces: &[Surface]) -> impl Iterator<Item = (&Surface, &Build)> {
    surfaces.iter().filter_map(|surface| {
        let build = surface.build.as_ref()?;
        Some((surface, build.value.as_ref()))
    })
}

/// A finding at the entry of the checked file that is nearest to its cause:
/// what lies in a library is reported at the surface's `build` entry, with the
/// library's line beside it and no fix that would go unseen.
fn settled(mut finding: Finding, surface: &Surface, build: Option<&Build>) -> Finding {
    let sections = [Some(surface.section), build.map(|build| build.section)];
    for section in sections.into_iter().flatten() {
        note_source(&mut finding, section);
    }
    if finding.place.section.file == CHECKED {
        return finding;
    }
    let here = surface
        .build
        .as_ref()
        .map_or(surface.name.place, |build| build.place);
    let there = std::mem::replace(&mut finding.place, here);
    finding.related.insert(
        0,
        Related {
            place: there,
            message: "it is written here".to_owned(),
        },
    );
    for fix in &mut finding.fixes {
        fix.safe = false;
    }
    finding
}

fn note_source(finding: &mut Finding, section: SectionRef) {
    if !finding.computed_from.contains(&section) {
        finding.computed_from.push(section);
    }
}

/// The finding with how much it matters; nothing if its rule is switched off.
fn weighed(mut finding: Finding, context: &Context<'_>) -> Option<Finding> {
    let usual = finding
        .severity
        .or_else(|| families::find(finding.rule).map(|rule| rule.severity))
        .unwrap_or(Severity::Error);
    finding.severity = Some(context.limits.weigh(finding.rule, usual)?);
    Some(finding)
}

/// Puts findings into one order: by place, the gravest first, then by name.
pub(super) fn order(findings: &mut [Finding]) {
    findings.sort_by(|one, other| {
        let key = |finding: &Finding| (finding.place, Reverse(finding.severity), finding.rule);
        key(one)
            .cmp(&key(other))
            .then_with(|| one.message.cmp(&other.message))
    });
}

/// One finding for what is said twice of one place, as where two surfaces
/// share a build.
fn merge_same(findings: Vec<Finding>) -> Vec<Finding> {
    let mut merged: Vec<Finding> = Vec::with_capacity(findings.len());
    for finding in findings {
        match merged.last_mut() {
            Some(last)
                if (last.rule, last.place, &last.message)
                    == (finding.rule, finding.place, &finding.message) =>
            {
                for section in finding.computed_from {
                    note_source(last, section);
                }
            }
            _ => merged.push(finding),
        }
    }
    merged
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::Place;
    use crate::syntax::SectionId;
    use crate::text::Span;

    fn place(section: u32, start: u32) -> Place {
        Place {
            section: section_of(section),
            span: Span::new(start, start + 1),
        }
    }

    fn section_of(section: u32) -> SectionRef {
        SectionRef {
            file: CHECKED,
            section: SectionId(section),
        }
    }

    #[test]
    fn findings_come_in_one_order() {
        let finding = |rule, at, severity| Finding::new(rule, at, "x").severity(severity);
        let mut findings = vec![
            finding("lip", place(2, 0), Severity::Error),
            finding("lip", place(1, 9), Severity::Error),
            finding("lip", place(1, 3), Severity::Advice),
            finding("base-thin", place(1, 3), Severity::Advice),
            finding("fall-flat", place(1, 3), Severity::Warning),
        ];
        order(&mut findings);
        let names: Vec<_> = findings.iter().map(|finding| finding.rule).collect();
        assert_eq!(names, ["fall-flat", "base-thin", "lip", "lip", "lip"]);
        assert_eq!(findings.last().map(|last| last.place), Some(place(2, 0)));
    }

    #[test]
    fn the_same_thing_is_said_once() {
        let said = |message: &str, from: u32| {
            let mut finding = Finding::new("base-thin", place(1, 3), message);
            finding.computed_from = vec![section_of(from)];
            finding
        };
        let merged = merge_same(vec![said("thin", 4), said("thin", 5), said("thinner", 5)]);
        assert_eq!(merged.len(), 2);
        assert_eq!(
            merged.first().map(|first| first.computed_from.clone()),
            Some(vec![section_of(4), section_of(5)])
        );
    }
}
