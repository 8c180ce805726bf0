//! A comparison for reading.

use super::Comparison;
use super::changed_lines::{ChangedLines, by_section, said, said_of};
use super::shared::{by_cause, cost, in_short, whole};
use crate::report::columns::{Columns, Side};
use crate::report::figure_value::Value;
use crate::report::words::{WIDTH, counted, wrapped};

/// Labels wider than this stand on a line of their own.
const WIDEST_LABEL: usize = 48;

/// Comparisons as a sheet, those in which nothing changed in a line at the
/// end.
pub fn comparison_text(comparisons: &[Comparison]) -> String {
    let changed = comparisons.iter().filter(|one| !one.is_same());
    let (apart, together) = by_cause(changed);
    let mut sheets: Vec<String> = apart.into_iter().map(sheet).collect();
    sheets.extend(together.iter().map(|specs| shared_sheet(specs)));
    match comparisons {
        [only] if only.is_same() => {
            sheets.push(format!("{}\nnothing changed: {}\n", head(only), same(only)))
        }
        _ => {
            let rest = comparisons.iter().filter(|one| one.is_same()).count();
            if rest > 0 {
                let specs = match sheets.is_empty() {
                    true => counted(rest, "spec", "specs"),
                    false => counted(rest, "other spec", "other specs"),
                };
                sheets.push(format!("nothing changed in {specs}\n"));
            }
        }
    }
    sheets.join("\n")
}

/// Specs in which the same lines of the files that they use change figures.
fn shared_sheet(specs: &[&Comparison]) -> String {
    let changes = specs.first().map(|first| first.lines.as_slice());
    let heads = [
        ("", Side::Left),
        ("", Side::Left),
        ("old", Side::Right),
        ("new", Side::Right),
        ("change", Side::Right),
        ("other figures", Side::Right),
    ];
    let mut columns = Columns::new(&heads).with_words_up_to(WIDEST_LABEL);
    specs.iter().for_each(|spec| columns.row(in_short(spec)));
    format!(
        "Lines that changed\n{}\nWhat they change in {} specs\n{}",
        lines(changes.unwrap_or_default()),
        specs.len(),
        columns.text()
    )
}

fn sheet(comparison: &Comparison) -> String {
    if let Some(whole) = whole(comparison) {
        return whole + "\n";
    }
    let mut text = head(comparison) + &cost(comparison).unwrap_or_default();
    if !comparison.lines.is_empty() {
        text += "\nLines that changed\n";
        text += &lines(&comparison.lines);
    }
    if !comparison.figures.is_empty() {
        text += "\nFigures that changed\n";
        text += &figures(comparison);
    }
    if !comparison.findings.is_empty() {
        text += "\nFindings that changed\n";
        text += &findings(comparison);
    }
    format!("{text}\n{}\n", same(comparison))
}

/// Which two states are compared.
fn head(comparison: &Comparison) -> String {
    let name = |name: &Option<String>| name.clone().unwrap_or_default();
    format!(
        "old: {}\nnew: {}\n",
        name(&comparison.old),
        name(&comparison.new)
    )
}

fn same(comparison: &Comparison) -> String {
    counted(
        comparison.same,
        "figure is the same",
        "figures are the same",
    )
}

fn lines(changes: &[ChangedLines]) -> String {
    let heads = [
        ("", Side::Left),
        ("now", Side::Left),
        ("before", Side::Left),
    ];
    let mut columns = Columns::new(&heads).with_words_up_to(WIDEST_LABEL);
    for change in by_section(changes) {
        let section = match change.path.is_empty() {
            true => change.section.clone(),
            false => format!("{} in {}", change.section, change.path),
        };
        columns.row([section, said(&change.new), said(&change.old)]);
    }
    columns.text()
}

fn figures(comparison: &Comparison) -> String {
    let heads = [
        ("", Side::Left),
        ("old", Side::Right),
        ("new", Side::Right),
        ("change", Side::Right),
        ("lines", Side::Left),
    ];
    let mut columns = Columns::new(&heads).with_words_up_to(WIDEST_LABEL);
    let system = comparison.system;
    for figure in &comparison.figures {
        let shown = |value: &Option<_>| match value {
            Some(value) => Value::shown(value, system),
            None => String::new(),
        };
        columns.row([
            figure.label.clone(),
            shown(&figure.old),
            shown(&figure.new),
            figure.change.clone(),
            said_of(&comparison.lines, &figure.from),
        ]);
    }
    columns.text()
}

fn findings(comparison: &Comparison) -> String {
    let mut text = String::new();
    for finding in &comparison.findings {
        let rule = finding.row().map_or("", |row| row.rule);
        let first = format!("  {:<7}  ", finding.word());
        let lines = said_of(&comparison.lines, &finding.from);
        let from = match lines.is_empty() {
            true => String::new(),
            false => format!(" (lines: {lines})"),
        };
        text += &wrapped(&format!("{rule}, {}{from}", finding.said()), &first, WIDTH);
        text.push('\n');
    }
    text
}
