//! A figure and the limit that it misses never read alike, by however little
//! it misses it: a practice's standard is put a hair's breadth beyond the
//! figure of each rule's breaking example, in both systems.

use std::collections::BTreeSet;
use std::sync::Arc;

use drylay::analysis::Analysis;
use drylay::findings::Finding;
use drylay::rules::{Bound, Limit, Rule, all, complete};
use drylay::units::{Dimension, Kind, Quantity};

use crate::folder::Folder;

/// By so much of itself a figure misses the limit.
const HAIR: f64 = 2e-4;

/// A value as a standard writes it, in SI; nothing for what no standard sets
/// to a hair's breadth.
fn written(figure: &Quantity, si: f64) -> Option<String> {
    let (factor, unit) = match (figure.dimension, figure.kind) {
        (Dimension::NONE, Kind::Plain) => (1.0, ""),
        (Dimension::NONE, _) => (100.0, " %"),
        (Dimension::LENGTH, _) => (1_000.0, " mm"),
        (Dimension::AREA, _) => (1.0, " m2"),
        (Dimension::MASS, _) => (1.0, " kg"),
        (Dimension::DENSITY, _) => (1.0, " kg/m3"),
        (Dimension::STRENGTH, _) => (1e-6, " MPa"),
        (Dimension::ANGLE, _) => (1.0, " deg"),
        (Dimension::TIME, _) => (1.0 / 3_600.0, " h"),
        _ => return None,
    };
    Some(format!("{:.7}{unit}", si * factor))
}

/// The lines of a standard that let a figure miss each limit by a hair.
fn hairs(rule: &Rule, figure: &Quantity) -> Option<String> {
    let line = |limit: &Limit| {
        let beyond = match limit.bound {
            Bound::Least => 1.0 + HAIR,
            Bound::Most => 1.0 - HAIR,
        };
        let value = written(figure, figure.si() * beyond)?;
        Some(format!("  limit {} {} {value}\n", rule.name, limit.row))
    };
    rule.limits.iter().map(line).collect()
}

fn analysed(text: &str, standard: &str) -> Arc<Analysis> {
    let standard = format!("standard \"House\"\n{standard}");
    Folder::with([
        ("/specs/court.patio", text),
        ("/specs/standard.patio", &standard),
    ])
    .analysis("/specs/court.patio")
}

fn of_rule<'a>(analysis: &'a Analysis, rule: &Rule) -> Option<&'a Finding> {
    let mut findings = analysis.findings.iter().map(Arc::as_ref);
    findings.find(|finding| finding.rule == rule.name && finding.measured().limit.is_some())
}

/// Whether two figures have their text, their share or their ratio in common.
fn reads_alike(one: &str, other: &str) -> bool {
    let mut both = one.split(" (").zip(other.split(" ("));
    both.any(|(one, other)| one == other)
}

#[test]
fn a_figure_never_reads_as_the_limit_that_it_misses() {
    let (mut reached, mut alike) = (BTreeSet::new(), String::new());
    for rule in all() {
        for units in ["metric", "imperial"] {
            let units = format!("units        {units}");
            let text = complete(rule.breaks).text;
            let text = text.replace("units        metric", &units);
            let plain = analysed(&text, "");
            let figure = of_rule(&plain, rule).and_then(|own| own.measured().figure);
            let Some(standard) = figure.and_then(|figure| hairs(rule, &figure)) else {
                continue;
            };
            let close = analysed(&text, &standard);
            let Some(finding) = of_rule(&close, rule) else {
                continue;
            };
            let (Some(found), Some(limit)) = (&finding.measured().found, &finding.measured().limit)
            else {
                continue;
            };
            reached.insert(rule.name);
            // The limit on kerbs goes by how long they are.
            if rule.name == "kerb-straight" {
                continue;
            }
            if reads_alike(found, limit) {
                alike += &format!("{units}: {}: {}\n", rule.name, finding.message);
            }
        }
    }
    assert!(alike.is_empty(), "\n{alike}");
    assert!(reached.len() >= 80, "{}: {reached:?}", reached.len());
}
