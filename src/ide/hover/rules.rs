//! Rules, where one is named or has found something.

use crate::analysis::Analysis;
use crate::findings::Place;
use crate::ide::markdown::{
    code, line_in_words, line_of, paragraphs, plain, sentence, table_of_three,
};
use crate::model::FileKind;
use crate::rules::{Limits, Rule, find, underlined};

/// Why a rule looks at what it looks at, and where that comes from.
pub(crate) fn in_brief(name: &str) -> Option<String> {
    let rule = find(name)?;
    Some(paragraphs([rule.reason.to_owned(), sources(rule)]))
}

/// What to do about what a rule finds.
pub(crate) fn remedy(name: &str) -> Option<&'static str> {
    find(name).map(|rule| rule.remedy)
}

/// A rule that an `accept` or a standard names: its explanation under its
/// name.
pub(crate) fn card(analysis: &Analysis, name: &str) -> Option<String> {
    let rule = find(name)?;
    let title = format!(
        "**{}** · {} · {}",
        rule.name,
        rule.severity.word(),
        rule.family.title()
    );
    Some(paragraphs([title, explanation(analysis, name)?]))
}

/// What to do, what a rule looks at and why, the limits in force for this
/// file with where each is from, the sources and the examples.
pub(crate) fn explanation(analysis: &Analysis, name: &str) -> Option<String> {
    let remedy = remedy(name)?.to_owned();
    Some(paragraphs([remedy, after_remedy(analysis, name)?]))
}

/// The same without what to do, which stands above it already.
pub(crate) fn after_remedy(analysis: &Analysis, name: &str) -> Option<String> {
    let rule = find(name)?;
    let limits = limits_in_force(analysis);
    let example = |head: &str, text: &str| paragraphs([head.to_owned(), code(&underlined(text))]);
    Some(paragraphs([
        rule.looks_at.to_owned(),
        rule.reason.to_owned(),
        said_here(analysis, &limits, rule),
        table(analysis, &limits, rule),
        sources(rule),
        example("Breaks it:", rule.breaks),
        example("Keeps it:", rule.keeps),
        rule.mended
            .map(|mended| example("The first, fixed:", mended))
            .unwrap_or_default(),
    ]))
}

/// The limits that hold for what lies where this file does: of a standard,
/// its own come first.
fn limits_in_force(analysis: &Analysis) -> Limits {
    let own = analysis.standard.iter().cloned();
    let outer = analysis.limits.standards.iter().cloned();
    Limits {
        standards: own.chain(outer).collect(),
    }
}

fn line(analysis: &Analysis, place: Place) -> String {
    line_of(analysis, place).unwrap_or_default()
}

/// What the standards that apply say of a rule, besides its limits.
fn said_here(analysis: &Analysis, limits: &Limits, rule: &Rule) -> String {
    let line = |place| line_in_words(analysis, place).unwrap_or_default();
    let weight = limits.weight(rule.name, rule.severity);
    let firm = limits.firm(rule.name);
    let firm = firm.map(|(place, _)| format!("Held firm by {}.", line(place)));
    let said = weight.in_words(rule.severity, &line).into_iter();
    paragraphs(said.chain(firm).map(|said| sentence(&said)))
}

fn table(analysis: &Analysis, limits: &Limits, rule: &'static Rule) -> String {
    let heading = &analysis.job.heading;
    let is_spec = analysis.job.kind == FileKind::Spec;
    let system = is_spec.then(|| heading.system());
    let rows = limits.rows(rule, is_spec.then(|| heading.region()));
    let rows = rows.iter().map(|row| {
        let of = match is_spec {
            true => row.limit.of.to_owned(),
            false => format!("{}, region {}", row.limit.of, row.region_word()),
        };
        let text = |place| plain(analysis.text(place));
        let whence = row.whence(&|place| line(analysis, place));
        [of, row.bound(system, &text), whence]
    });
    table_of_three(["limit", "value", "from"], &rows.collect::<Vec<_>>())
}

fn sources(rule: &Rule) -> String {
    let lines = rule
        .sources
        .iter()
        .map(|source| format!("- source: {source}\n"));
    lines.collect()
}
