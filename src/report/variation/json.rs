//! A comparison as JSON, for programs.

use serde_json::{Value as Json, json};

use super::Comparison;
use super::changed_lines::{ChangedLines, LineRange};
use super::figure_changes::FigureChange;
use super::finding_changes::FindingChange;
use crate::report::figure_value::Value;
use crate::report::row::Row;
use crate::units::System;

/// Comparisons as one JSON document. Numbers are in metres and kilograms;
/// `shown` is what a sheet says. `from` counts the changed `lines` from 0.
pub fn comparison_json(comparisons: &[Comparison]) -> String {
    let document = json!({
        "version": 1,
        "comparisons": comparisons.iter().map(comparison).collect::<Vec<_>>(),
    });
    // A value made of strings, numbers and lists always serialises.
    crate::report::json::written(&document)
}

fn comparison(own: &Comparison) -> Json {
    let figures = own.figures.iter().map(|change| figure(change, own.system));
    json!({
        "old": own.old,
        "new": own.new,
        "lines": own.lines.iter().map(lines).collect::<Vec<_>>(),
        "figures": figures.collect::<Vec<_>>(),
        "findings": own.findings.iter().map(finding).collect::<Vec<_>>(),
        "same": own.same,
    })
}

fn lines(change: &ChangedLines) -> Json {
    let ranges = |ranges: &[LineRange]| -> Vec<[u32; 2]> {
        let ends = ranges.iter().map(|range| [*range.start(), *range.end()]);
        ends.collect()
    };
    json!({
        "section": change.section,
        "path": Some(&change.path).filter(|path| !path.is_empty()),
        "old": ranges(&change.old),
        "new": ranges(&change.new),
    })
}

fn figure(change: &FigureChange, system: System) -> Json {
    let side = |value: &Option<Value>, shown: Option<String>| {
        let value = value.as_ref()?;
        Some(json!({"value": value.number(), "shown": shown}))
    };
    let [old, new] = change.shown(system);
    json!({
        "label": change.label,
        "part": change.of.part,
        "name": change.of.name,
        "item": change.of.item,
        "material": change.of.material,
        "what": change.of.what,
        "old": side(&change.old, old),
        "new": side(&change.new, new),
        "change": change.change,
        "from": change.from,
    })
}

fn finding(change: &FindingChange) -> Json {
    let side = |row: &Row| {
        json!({
            "severity": row.severity.word(),
            "message": row.message,
            "section": &*row.section,
            "line": row.at.start.0,
            "column": row.at.start.1,
            "accepted": row.accepted.as_ref().map(|accepted| accepted.reason.clone()),
        })
    };
    json!({
        "change": change.word(),
        "rule": change.row().map(|row| row.rule),
        "fingerprint": change.row().map(|row| row.fingerprint),
        "old": change.old.as_ref().map(side),
        "new": change.new.as_ref().map(side),
        "from": change.from,
    })
}
