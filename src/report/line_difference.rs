//! The difference of two texts, line by line.

use crate::text::{Edit, Lines, Span, apply, smallest_edits};

/// Unchanged lines that are shown around what changes.
const AROUND: u32 = 3;

/// What changes between two texts of a file, in the unified form that `patch`
/// reads; empty if they are the same.
pub fn line_difference(path: &str, old: &str, new: &str) -> String {
    let lines = Lines::new(old);
    let changes = changes(old, new, &lines);
    let mut text = String::new();
    if !changes.is_empty() {
        text = format!("--- {path}\n+++ {path}\n");
    }
    // How many lines further down the new text is.
    let mut ahead = 0;
    let near = |one: &Change, next: &Change| next.first <= one.last.saturating_add(2 * AROUND);
    for group in changes.chunk_by(near) {
        text += &hunk(old, &lines, group, &mut ahead);
    }
    text
}

/// Whole lines of the old text, from `first` to before `last`, and what takes
/// their place.
struct Change {
    first: u32,
    last: u32,
    text: String,
}

/// How many lines a text has; a line end at its end opens no other.
fn count(text: &str) -> u32 {
    let lines = Lines::new(text);
    let last = lines.line_span(lines.count().saturating_sub(1));
    lines.count() - u32::from(last.is_empty())
}

fn changes(old: &str, new: &str, lines: &Lines) -> Vec<Change> {
    let edits = smallest_edits(old, new);
    let rows = |edit: &Edit| (lines.line_of(edit.span.start), lines.line_of(edit.span.end));
    let on_one_line = |one: &Edit, next: &Edit| rows(next).0 <= rows(one).1;
    let groups = edits.chunk_by(on_one_line);
    groups
        .filter_map(|group| change(old, lines, group))
        .collect()
}

/// The edits of neighbouring lines as one change of whole lines.
fn change(old: &str, lines: &Lines, edits: &[Edit]) -> Option<Change> {
    let (begin, end) = (edits.first()?.span.start, edits.last()?.span.end);
    let first = lines.line_of(begin);
    let start = lines.line_span(first).start;
    // An edit that ends where a line starts leaves that line alone.
    let ends_between = end > begin && lines.line_span(lines.line_of(end)).start == end;
    let whole_lines = edits
        .iter()
        .all(|edit| edit.text.is_empty() || edit.text.ends_with('\n'));
    let last = lines.line_of(end) + u32::from(!(ends_between && whole_lines && begin == start));
    let stop = match last < lines.count() {
        true => lines.line_span(last).start,
        false => u32::try_from(old.len()).unwrap_or(u32::MAX),
    };
    let here = edits
        .iter()
        .map(|edit| Edit::new(edit.span.relative_to(start), edit.text.as_str()));
    let text = apply(Span::new(start, stop).slice(old), &here.collect::<Vec<_>>())?;
    Some(Change { first, last, text })
}

/// A group of changes with the unchanged lines around them.
fn hunk(old: &str, lines: &Lines, group: &[Change], ahead: &mut i64) -> String {
    let total = count(old);
    let (Some(head), Some(tail)) = (group.first(), group.last()) else {
        return String::new();
    };
    let from = head.first.saturating_sub(AROUND);
    let to = tail.last.saturating_add(AROUND).min(total);
    let line = |number: u32| lines.line_span_with_break(number).slice(old);
    let mut body = String::new();
    let (mut at, mut added) = (from, 0_i64);
    for change in group {
        (at..change.first).for_each(|number| push(&mut body, ' ', line(number)));
        let gone = change.first..change.last.min(total);
        gone.clone()
            .for_each(|number| push(&mut body, '-', line(number)));
        let new = Lines::new(&change.text);
        (0..count(&change.text)).for_each(|number| {
            push(
                &mut body,
                '+',
                new.line_span_with_break(number).slice(&change.text),
            );
        });
        added += i64::from(count(&change.text)) - gone.count() as i64;
        at = change.last;
    }
    (at..to).for_each(|number| push(&mut body, ' ', line(number)));
    let old_count = i64::from(to.saturating_sub(from));
    // An empty side is named by the line before it.
    let start = |count: i64, ahead: i64| i64::from(from) + ahead + i64::from(count > 0);
    let new_count = old_count + added;
    let head = format!(
        "@@ -{},{old_count} +{},{new_count} @@\n",
        start(old_count, 0),
        start(new_count, *ahead)
    );
    *ahead += added;
    head + &body
}

fn push(body: &mut String, sign: char, line: &str) {
    body.push(sign);
    body.push_str(line);
    if !line.ends_with('\n') {
        body.push_str("\n\\ No newline at end of file\n");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn differences_are_shown_as_patch_reads_them() {
        for (old, new, hunks) in [
            (
                "a\nb\nc\n",
                "a\nB\nc\n",
                "@@ -1,3 +1,3 @@\n a\n-b\n+B\n c\n",
            ),
            ("a\n", "a\nb\n", "@@ -1,1 +1,2 @@\n a\n+b\n"),
            ("a\nb\n", "a\n", "@@ -1,2 +1,1 @@\n a\n-b\n"),
            ("", "a\n", "@@ -0,0 +1,1 @@\n+a\n"),
            (
                "a",
                "b",
                "@@ -1,1 +1,1 @@\n-a\n\\ No newline at end of file\n+b\n\\ No newline at end of file\n",
            ),
            (
                "1\n2\n3\n4\n5\n6\n7\n8\n9\n10\n",
                "1\nx\ny\n3\n4\n5\n6\n7\n8\n9\nz\n",
                "@@ -1,5 +1,6 @@\n 1\n-2\n+x\n+y\n 3\n 4\n 5\n\
                 @@ -7,4 +8,4 @@\n 7\n 8\n 9\n-10\n+z\n",
            ),
        ] {
            let shown = line_difference("p", old, new);
            assert_eq!(shown, format!("--- p\n+++ p\n{hunks}"), "{old:?} {new:?}");
        }
        assert_eq!(line_difference("p", "a\n", "a\n"), "");
    }
}
