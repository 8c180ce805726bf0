//! Running the rules: each check on what it is for, then how much each
//! finding matters, where it is placed, and one order for all.

use std::sync::Arc;

use super::courses::laid_as;
use super::mixes::each_use;
use super::{Check, Context, Family, Found, Rule, Stopwatch, families, timed};
use crate::findings::{Borrowed, FileId, Finding, Place, Related, SectionRef, Severity};
use crate::model::{Build, FileKind, Material, Mix, Surface};
use crate::vocabulary::Role;

/// The file that was asked for.
pub(super) const CHECKED: FileId = FileId(0);

/// Whether a rule looks at what a border stands on, too: what is said of a
/// surface, its units and its joints is said of the one that it borders.
fn looks_at_borders(rule: &Rule) -> bool {
    match rule.check {
        Check::Layer(_) => true,
        Check::Built(_) | Check::BuiltAndJob(..) => {
            matches!(rule.family, Family::Base | Family::Beds)
        }
        _ => false,
    }
}

/// What the rules find in one surface, its build and its borders, and the
/// rules on the whole job of which something holds here.
pub(super) fn of_surface(
    context: &Context<'_>,
    surface: &Surface,
    watch: Stopwatch<'_>,
) -> (Vec<Arc<Finding>>, Vec<&'static str>) {
    let build = surface.build.as_ref().map(|build| build.value.as_ref());
    let (mut all, mut holding) = (Vec::new(), Vec::new());
    let borders = surface.borders.iter();
    let courses: Vec<Surface> = borders.filter_map(|own| laid_as(surface, own)).collect();
    for rule in families::all() {
        if surface.is_border() && !looks_at_borders(rule) {
            continue;
        }
        let (found, build) = match (rule.check, build) {
            (Check::JobWith { holds, .. }, _) => {
                holding.extend(holds(surface).then_some(rule.name));
                continue;
            }
            (Check::Surface(check) | Check::SurfaceAndJob(check, _), _) => {
                let check = |found: &mut Found| check(context, surface, found);
                (found(context, rule, watch, check), None)
            }
            (Check::Built(check) | Check::BuiltAndJob(check, _), Some(build)) => {
                let check = |found: &mut Found| check(context, surface, build, found);
                (found(context, rule, watch, check), Some(build))
            }
            (Check::Units(check), Some(build)) => {
                let check = |found: &mut Found| {
                    check(context, surface, build, found);
                    for (course, build) in built(&courses) {
                        check(context, course, build, found);
                    }
                };
                (found(context, rule, watch, check), Some(build))
            }
            (Check::Layer(check), Some(build)) => {
                let check = |found: &mut Found| {
                    let layers = build.layers.iter();
                    layers.for_each(|layer| check(context, surface, build, layer, found));
                    for (course, build) in built(&courses) {
                        let paving = build.layer(Role::Paving).into_iter();
                        paving.for_each(|layer| check(context, course, build, layer, found));
                    }
                };
                (found(context, rule, watch, check), Some(build))
            }
            _ => continue,
        };
        let found = found.into_iter();
        all.extend(found.map(|one| Arc::new(settled(one, surface, build))));
    }
    (all, holding)
}

/// Surfaces with what each is built of.
fn built(surfaces: &[Surface]) -> impl Iterator<Item = (&Surface, &Build)> {
    let all = surfaces.iter();
    all.filter_map(|own| Some((own, own.build.as_ref()?.value.as_ref())))
}

/// What the rules find in a build, used or not. What is wrong by itself is
/// said where it is written, of a library in the library.
pub(super) fn of_build(
    context: &Context<'_>,
    build: &Build,
    watch: Stopwatch<'_>,
) -> Vec<Arc<Finding>> {
    of_own(context, Some(build.section), watch, |rule| {
        let Check::Build(check) = rule.check else {
            return None;
        };
        Some(move |found: &mut Found| check(context, build, found))
    })
}

/// What the rules find in a material that the file itself states.
pub(super) fn of_material(
    context: &Context<'_>,
    material: &Material,
    watch: Stopwatch<'_>,
) -> Vec<Arc<Finding>> {
    of_own(context, material.section, watch, |rule| {
        let Check::Material(check) = rule.check else {
            return None;
        };
        Some(move |found: &mut Found| check(context, material, found))
    })
}

/// What the rules find in a mix: that the file itself states, or that it takes
/// from a library and lays.
pub(super) fn of_mix(context: &Context<'_>, mix: &Mix, watch: Stopwatch<'_>) -> Vec<Arc<Finding>> {
    let rules = |rule: &'static Rule| {
        let Check::Mix(check) = rule.check else {
            return None;
        };
        Some(move |found: &mut Found| check(context, mix, found))
    };
    if mix.section.file == CHECKED {
        return of_own(context, Some(mix.section), watch, rules);
    }
    let Some(laid) = place_laid(context, mix) else {
        return Vec::new();
    };
    let all = families::all().filter_map(|rule| Some((rule, rules(rule)?)));
    let found = all.flat_map(|(rule, check)| found(context, rule, watch, check));
    found.map(|own| Arc::new(laid_at(own, laid))).collect()
}

/// Where the file itself first lays a mix.
fn place_laid(context: &Context<'_>, mix: &Mix) -> Option<Place> {
    let mut first = None;
    each_use(context, mix, |surface, used| {
        let place = used.of.place;
        first.get_or_insert_with(|| surface.map_or(place, |surface| context.at(surface, place)));
    });
    first
}

/// A finding of a library's mix at the place where it is laid, with the
/// library's line beside it and no fix that would go unseen.
fn laid_at(mut finding: Finding, laid: Place) -> Finding {
    if finding.place.section.file == CHECKED {
        return finding;
    }
    let stated = std::mem::replace(&mut finding.place, laid);
    finding.fixes.clear();
    finding.related(stated, "stated here")
}

/// What the rules with such a check find in a section of the file itself.
fn of_own<C: FnOnce(&mut Found)>(
    context: &Context<'_>,
    section: Option<SectionRef>,
    watch: Stopwatch<'_>,
    check: impl Fn(&'static Rule) -> Option<C>,
) -> Vec<Arc<Finding>> {
    if section.is_none_or(|section| section.file != CHECKED) {
        return Vec::new();
    }
    families::all()
        .filter_map(|rule| Some((rule, check(rule)?)))
        .flat_map(|(rule, check)| found(context, rule, watch, check))
        .map(Arc::new)
        .collect()
}

/// What the reading found, and what the rules find in the job as a whole.
/// `has_found` tells whether a rule has found anything in a part of it,
/// `holds` whether what a rule asks of a surface holds of one.
pub(super) fn of_job(
    context: &Context<'_>,
    has_found: impl Fn(&str) -> bool,
    holds: impl Fn(&str) -> bool,
    watch: Stopwatch<'_>,
) -> Vec<Arc<Finding>> {
    let read = context.job.findings.iter();
    let mut all: Vec<Arc<Finding>> = read
        .filter_map(|finding| weighed(finding.clone(), context).map(Arc::new))
        .collect();
    // A library is no job: what concerns a whole job is asked of its users.
    if context.job.kind == FileKind::Spec {
        for rule in families::all() {
            let check = match rule.check {
                Check::Job(check)
                | Check::SurfaceAndJob(_, check)
                | Check::BuiltAndJob(_, check) => check,
                Check::JobWith { unless, check, .. }
                    if holds(rule.name) && !unless.is_some_and(&has_found) =>
                {
                    check
                }
                _ => continue,
            };
            let found = found(context, rule, watch, |found| check(context, found));
            all.extend(found.into_iter().map(Arc::new));
        }
    }
    all
}

/// What a rule finds by a check, each finding with how much it matters where
/// the standards in force are heard. The check is run under the rule's name
/// on the stopwatch.
fn found(
    context: &Context<'_>,
    rule: &'static Rule,
    watch: Stopwatch<'_>,
    check: impl FnOnce(&mut Found),
) -> Vec<Finding> {
    let mut found = Found::default();
    timed(watch, rule.name, || check(&mut found));
    let found = found.findings.into_iter();
    found.filter_map(|one| weighed(one, context)).collect()
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
            message: "it is written here".into(),
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
    let usual = match borrowed(&finding) {
        Some(borrowed) => {
            finding.message = format!("{} ({borrowed})", finding.message).into();
            usual.min(borrowed.at_most)
        }
        None => usual,
    };
    finding.severity = Some(context.limits.weigh(finding.rule, usual)?);
    Some(finding)
}

/// That the limit which a finding missed is borrowed.
fn borrowed(finding: &Finding) -> Option<Borrowed> {
    finding.measured().limit_from.as_ref()?.borrowed
}
