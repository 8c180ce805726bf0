//! Plain Markdown, and figures in words.

use crate::analysis::Analysis;
use crate::findings::Place;
use crate::model::Origin;
use crate::text::{Shown, clean};
use crate::units::show;
use crate::vocabulary::DIRECTIONS;

/// A table of two columns; empty if there are no rows.
pub(crate) fn table(head: [&str; 2], rows: &[[String; 2]]) -> String {
    let rows: Vec<Vec<&str>> = rows
        .iter()
        .map(|row| row.iter().map(String::as_str).collect())
        .collect();
    columns(&head, &rows)
}

/// A table of three columns; empty if there are no rows.
pub(crate) fn table_of_three(head: [&str; 3], rows: &[[String; 3]]) -> String {
    let rows: Vec<Vec<&str>> = rows
        .iter()
        .map(|row| row.iter().map(String::as_str).collect())
        .collect();
    columns(&head, &rows)
}

fn columns(head: &[&str], rows: &[Vec<&str>]) -> String {
    if rows.is_empty() {
        return String::new();
    }
    let line = |cells: &[&str]| {
        let cells: Vec<String> = cells.iter().map(|cell| cell.replace('|', "\\|")).collect();
        format!("| {} |\n", cells.join(" | "))
    };
    let rule = format!("|{}\n", " --- |".repeat(head.len()));
    rows.iter()
        .fold(line(head) + &rule, |table, row| table + &line(row))
}

/// Lines of a spec, set apart and coloured as such.
pub(crate) fn code(text: &str) -> String {
    format!("```patio\n{}\n```", text.trim_end())
}

/// What somebody wrote, as text that means nothing to Markdown.
pub(crate) fn plain(text: &str) -> String {
    clean(text, Shown::Markdown).into_owned()
}

/// A sentence of ours that may hold what somebody wrote.
pub(crate) fn sentence(text: &str) -> String {
    clean(text, Shown::Sentence).into_owned()
}

/// Parts one under the other, the empty ones left out.
pub(crate) fn paragraphs(parts: impl IntoIterator<Item = String>) -> String {
    let parts: Vec<String> = parts
        .into_iter()
        .map(|part| part.trim_end().to_owned())
        .filter(|part| !part.is_empty())
        .collect();
    parts.join("\n\n")
}

/// A direction of the plan: `north`, or `at bearing 35.2°`.
pub(crate) fn direction(bearing: f64) -> String {
    let turned = |of: f64| (bearing - of).rem_euclid(360.0);
    let compass = DIRECTIONS
        .iter()
        .find(|(_, of)| turned(*of) < 0.005 || turned(*of) > 359.995);
    match compass {
        Some((word, _)) => (*word).to_owned(),
        None => format!("at bearing {}", show::angle(bearing.rem_euclid(360.0))),
    }
}

/// Where a value comes from: `line 12`, the catalogue or a default.
pub(crate) fn origin(analysis: &Analysis, origin: Origin) -> String {
    match origin {
        Origin::Line(place) => line_of(analysis, place).unwrap_or_default(),
        Origin::Catalogue { material, source } => format!("catalogue, `{material}`: {source}"),
        Origin::Default { what, source } => format!("default, {what}: {source}"),
    }
}

/// A place in words: `line 12`, in another file `line 3 of mixes.patio`.
pub(crate) fn line_of(analysis: &Analysis, place: Place) -> Option<String> {
    line_in_words(analysis, place).map(|line| plain(&line))
}

/// The same as it is, to stand in a [`sentence`].
pub(crate) fn line_in_words(analysis: &Analysis, place: Place) -> Option<String> {
    let (index, span) = analysis.span(place)?;
    let file = analysis.files.get(index)?;
    let line = file.lines.line_of(span.start).saturating_add(1);
    let name = file.path.rsplit('/').next().unwrap_or_default();
    Some(if index == 0 {
        format!("line {line}")
    } else {
        format!("line {line} of {name}")
    })
}

/// The same text for an editor that shows no Markdown: without its marks,
/// tables as columns, lines of a spec set in.
pub fn without_marks(markdown: &str) -> String {
    let mut plain = String::with_capacity(markdown.len());
    let mut in_code = false;
    let mut lines = markdown.lines().peekable();
    while let Some(line) = lines.next() {
        if line.starts_with("```") {
            in_code = !in_code;
            continue;
        }
        if in_code {
            plain.push_str(format!("  {line}").trim_end());
        } else if line.starts_with('|') {
            let mut rows = vec![cells(line)];
            while let Some(row) = lines.next_if(|line| line.starts_with('|')) {
                rows.push(cells(row));
            }
            plain.push_str(&in_columns(rows));
        } else if line == "---" {
            // The blank line before it parts as well.
            lines.next_if(|line| line.is_empty());
            continue;
        } else {
            plain.push_str(&unmarked(line));
        }
        plain.push('\n');
    }
    plain.trim_end().to_owned()
}

/// The cells of a row of a table.
fn cells(row: &str) -> Vec<String> {
    let row = row.trim().trim_matches('|').replace("\\|", "\u{0}");
    row.split('|')
        .map(|cell| unmarked(&cell.trim().replace('\u{0}', "|")))
        .collect()
}

/// The rows of a table under each other; the rule under its head and a head
/// that says nothing are left out.
fn in_columns(mut rows: Vec<Vec<String>>) -> String {
    rows.retain(|row| row.iter().any(|cell| !cell.is_empty() && cell != "---"));
    let width = |at: usize| {
        let cells = rows.iter().filter_map(|row| row.get(at));
        cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let widths: Vec<usize> = (0..columns).map(width).collect();
    let lines = rows.iter().map(|row| {
        let cells = row.iter().zip(&widths);
        let line: Vec<String> = cells
            .map(|(cell, width)| format!("{cell:<width$}"))
            .collect();
        line.join("  ").trim_end().to_owned()
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// A line without what makes it bold, a name or harmless.
fn unmarked(line: &str) -> String {
    let mut plain = String::with_capacity(line.len());
    let mut in_name = false;
    let mut characters = line.chars().peekable();
    while let Some(character) = characters.next() {
        match character {
            '`' => in_name = !in_name,
            '*' if !in_name && characters.next_if_eq(&'*').is_some() => {}
            '\\' if !in_name => {
                let marked = characters.next_if(char::is_ascii_punctuation);
                plain.push(marked.unwrap_or('\\'));
            }
            _ => plain.push(character),
        }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_its_marks_a_text_says_the_same() {
        for (markdown, wanted) in [
            ("**fall** · in a `surface`", "fall · in a surface"),
            (r"\!\[a\](b) \<c\>, 2 * 3", "![a](b) <c>, 2 * 3"),
            ("one\n\n---\n\ntwo", "one\n\ntwo"),
            (
                "a\n\n```patio\nfall 1:60\n  ~~~\n```",
                "a\n\n  fall 1:60\n    ~~~",
            ),
            (
                "| | wide |\n| --- | --- |\n| a | 1 |\n| long | `x` \\| y |\n",
                "      wide\na     1\nlong  x | y",
            ),
            ("| | |\n| --- | --- |\n| a | b |", "a  b"),
        ] {
            assert_eq!(without_marks(markdown), wanted);
        }
    }

    #[test]
    fn directions_are_compass_words_where_they_can_be() {
        for (bearing, words) in [
            (0.0, "north"),
            (359.999_9, "north"),
            (90.000_01, "east"),
            (-90.0, "west"),
            (180.0, "south"),
            (35.25, "at bearing 35.25°"),
        ] {
            assert_eq!(direction(bearing), words);
        }
    }

    #[test]
    fn tables_keep_their_columns() {
        assert_eq!(table(["a", "b"], &[]), "");
        assert_eq!(
            table(["a", "b"], &[["x|y".to_owned(), "z".to_owned()]]),
            "| a | b |\n| --- | --- |\n| x\\|y | z |\n"
        );
    }

    #[test]
    fn empty_parts_leave_no_gap() {
        let parts = ["one\n", "", "two"].map(str::to_owned);
        assert_eq!(paragraphs(parts), "one\n\ntwo");
    }
}
