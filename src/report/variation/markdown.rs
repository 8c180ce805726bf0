//! A comparison as Markdown, for a comment on a change.

use super::Comparison;
use super::changed_lines::{ChangedLines, by_section, said, said_of};
use super::figure_changes::FigureChange;
use super::shared::{by_cause, in_short, whole};
use crate::report::markdown::plain;
use crate::report::words::counted;

/// Comparisons as Markdown, those in which nothing changed in a line at the
/// end.
pub fn comparison_markdown(comparisons: &[Comparison]) -> String {
    let changed = comparisons.iter().filter(|one| !one.is_same());
    let (apart, together) = by_cause(changed);
    let mut parts: Vec<String> = apart.into_iter().map(part).collect();
    parts.extend(together.iter().map(|specs| shared_part(specs)));
    let rest = comparisons.iter().filter(|one| one.is_same()).count();
    if rest > 0 {
        let specs = match parts.is_empty() {
            true => counted(rest, "spec", "specs"),
            false => counted(rest, "other spec", "other specs"),
        };
        parts.push(format!("Nothing changed in {specs}.\n"));
    }
    parts.join("\n")
}

fn part(comparison: &Comparison) -> String {
    if let Some(whole) = whole(comparison) {
        return plain(&whole) + "\n";
    }
    let mut text = format!("### {}\n", heading(comparison));
    if !comparison.figures.is_empty() {
        text += "\n| | old | new | change | lines |\n| --- | ---: | ---: | ---: | --- |\n";
        let rows = comparison.figures.iter();
        rows.for_each(|figure| text += &row(comparison, figure));
    }
    if !comparison.findings.is_empty() {
        text += "\n| finding | | | lines |\n| --- | --- | --- | --- |\n";
        for finding in &comparison.findings {
            let (rule, severity) = finding.row().map_or(("", String::new()), |row| {
                (row.rule, row.severity.to_string())
            });
            let cells = [
                finding.word().to_owned(),
                format!("`{rule}` {severity}"),
                plain(&finding.said()),
                plain(&said_of(&comparison.lines, &finding.from)),
            ];
            text += &format!("| {} |\n", cells.join(" | "));
        }
    }
    text += &lines(&comparison.lines);
    let same = counted(
        comparison.same,
        "figure is the same",
        "figures are the same",
    );
    text + &format!("\n{same}.\n")
}

/// Specs in which the same lines of the files that they use change figures.
fn shared_part(specs: &[&Comparison]) -> String {
    let changes = specs.first().map(|first| first.lines.as_slice());
    let mut text = format!("### The same lines change {} specs\n\n", specs.len());
    text += "| | | old | new | change | other figures |\n";
    text += "| --- | --- | ---: | ---: | ---: | ---: |\n";
    for spec in specs {
        let cells = in_short(spec).map(|cell| plain(&cell));
        text += &format!("| {} |\n", cells.join(" | "));
    }
    text + &lines(changes.unwrap_or_default())
}

/// The lines that changed, as a list.
fn lines(changes: &[ChangedLines]) -> String {
    let mut text = String::new();
    if !changes.is_empty() {
        text += "\nLines that changed:\n\n";
        for change in by_section(changes) {
            let place = match change.path.is_empty() {
                true => change.section.clone(),
                false => format!("{} in {}", change.section, change.path),
            };
            let lines = match (change.old.as_slice(), change.new.as_slice()) {
                (old, []) => format!("gone, was {}", said(old)),
                ([], new) => format!("new, {}", said(new)),
                (old, new) => format!("{}, was {}", said(new), said(old)),
            };
            text += &format!("- {}: {lines}\n", plain(&place));
        }
    }
    text
}

/// Which two states are compared: both are there.
fn heading(comparison: &Comparison) -> String {
    let name = |name: &Option<String>| plain(name.as_deref().unwrap_or_default());
    format!("{} → {}", name(&comparison.old), name(&comparison.new))
}

fn row(comparison: &Comparison, figure: &FigureChange) -> String {
    let shown = figure.shown(comparison.system);
    let [old, new] = shown.map(|shown| plain(&shown.unwrap_or_default()));
    let cells = [
        plain(&figure.label),
        old,
        new,
        plain(&figure.change),
        plain(&said_of(&comparison.lines, &figure.from)),
    ];
    format!("| {} |\n", cells.join(" | "))
}
