//! A rule told as Markdown: what it looks at and why, its limits, examples
//! and sources.

use std::fmt::Write;

use crate::rules::{Limits, Rule, underlined};

/// Everything that is declared of a rule, as Markdown.
pub fn explanation(rule: &'static Rule) -> String {
    let mut text = format!(
        "*{}.* {}\n\n{}\n\n**What to do.** {}\n",
        rule.severity, rule.looks_at, rule.reason, rule.remedy
    );
    let page = &mut text;
    built_in(page, rule);
    let mended = rule.mended.map(|mended| ("The first, fixed:", mended));
    let examples = [("Breaks it:", rule.breaks), ("Keeps it:", rule.keeps)];
    for (head, text) in examples.into_iter().chain(mended) {
        let text = underlined(text);
        let _ = writeln!(page, "\n{head}\n\n```\n{}\n```", text.trim_end());
    }
    if !rule.sources.is_empty() {
        let sources: Vec<String> = rule.sources.iter().map(ToString::to_string).collect();
        let _ = writeln!(page, "\nSources: {}.", sources.join("; "));
    }
    text
}

/// The limits of a rule where no standard sets any; nothing if it has none.
fn built_in(page: &mut String, rule: &'static Rule) {
    let rows = Limits::default().rows(rule, None);
    if rows.is_empty() {
        return;
    }
    page.push_str("\n| row | of | region | limit |\n| --- | --- | --- | --- |\n");
    for row_of in rows {
        let figure = row_of.bound(None, &|_| String::new());
        let (limit, region) = (row_of.limit, row_of.region_word());
        page.push_str(&table_row(&[limit.row, limit.of, region, &figure]));
    }
}

/// A row of a table, its bars kept from parting it.
pub fn table_row(cells: &[&str]) -> String {
    let cells: Vec<String> = cells
        .iter()
        .map(|cell| cell.replace('|', "\\|").replace('\n', " "))
        .collect();
    format!("| {} |\n", cells.join(" | "))
}
