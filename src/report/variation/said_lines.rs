//! The lines of a text that say something, and those of two texts that
//! differ.

use super::passages::is_silent;

/// A line that says something: its number from 0, and its text.
type SaidLine<'t> = (u32, &'t str);

/// Where more pairs of lines than this are left to be compared, all of them
/// are told as changed.
const MOST_PAIRS: usize = 1_000_000;

/// A change of a text: the lines of the older one that went, and those of the
/// newer one that came for them, each by its number from 0.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub(super) struct LineChange {
    /// The older lines that went.
    pub old: Vec<u32>,
    /// The newer lines that came.
    pub new: Vec<u32>,
    /// The newer line before which the older ones would go back.
    pub before: u32,
}

/// A line of the older text beside that of the newer one, where both have it.
type Beside<'t> = (Option<SaidLine<'t>>, Option<SaidLine<'t>>);

/// What changed from the older to the newer text, in order: an entry that was
/// written anew is one change, and so are lines on end that only one of the two
/// has. Comments, blank lines, and blanks at either end of a line count for
/// nothing.
pub(super) fn line_changes(old: &str, new: &str) -> Vec<LineChange> {
    let (old, new) = (said_lines(old), said_lines(new));
    let lines = beside(&old, &new, &|line| line);
    let runs = lines.chunk_by(|one, next| is_common(one) == is_common(next));
    let mut changes = Vec::new();
    let mut before = 0;
    for run in runs {
        match run.first().is_some_and(is_common) {
            true => before = after(run).unwrap_or(before),
            false => {
                let (old, new): (Vec<_>, Vec<_>) = run.iter().copied().unzip();
                let flat = |lines: Vec<Option<_>>| lines.into_iter().flatten().collect();
                let (old, new): (Vec<_>, Vec<_>) = (flat(old), flat(new));
                let entries = beside(&old, &new, &first_word);
                let entries = entries.chunk_by(|one, next| !is_common(one) && !is_common(next));
                for entry in entries {
                    changes.push(LineChange {
                        old: numbers(entry.iter().filter_map(|own| own.0)),
                        new: numbers(entry.iter().filter_map(|own| own.1)),
                        before,
                    });
                    before = after(entry).unwrap_or(before);
                }
            }
        }
    }
    changes
}

fn said_lines(text: &str) -> Vec<SaidLine<'_>> {
    let lines = (0..).zip(text.lines());
    let said = lines.filter(|(_, line)| !is_silent(line));
    said.map(|(number, line)| (number, line.trim())).collect()
}

/// Whether both texts have a line.
fn is_common(line: &Beside<'_>) -> bool {
    line.0.is_some() && line.1.is_some()
}

/// The newer line after the last one of a run.
fn after(run: &[Beside<'_>]) -> Option<u32> {
    let last = run.iter().rev().find_map(|line| line.1);
    last.map(|(number, _)| number.saturating_add(1))
}

fn first_word(line: &str) -> &str {
    line.split_whitespace().next().unwrap_or_default()
}

fn numbers<'t>(lines: impl Iterator<Item = SaidLine<'t>>) -> Vec<u32> {
    lines.map(|(number, _)| number).collect()
}

/// The lines of two texts beside each other, in order: those of the longest
/// sequence in which they have the same mark together, the others apart.
fn beside<'t>(
    old: &[SaidLine<'t>],
    new: &[SaidLine<'t>],
    mark: &dyn Fn(&'t str) -> &'t str,
) -> Vec<Beside<'t>> {
    let is_same = |(one, other): &(&SaidLine<'t>, &SaidLine<'t>)| mark(one.1) == mark(other.1);
    let head = old.iter().zip(new).take_while(is_same).count();
    let (of_old, of_new) = (rest(old, head, 0), rest(new, head, 0));
    let pairs = of_old.iter().rev().zip(of_new.iter().rev());
    let tail = pairs.take_while(is_same).count();
    let both = |(one, other): (&SaidLine<'t>, &SaidLine<'t>)| (Some(*one), Some(*other));
    let mut lines: Vec<Beside<'t>> = old.iter().zip(new).take(head).map(both).collect();
    let (of_old, of_new) = (rest(of_old, 0, tail), rest(of_new, 0, tail));
    lines.extend(apart(of_old, of_new, mark));
    let last = |all: &[SaidLine<'t>]| all.len().saturating_sub(tail);
    let tails = rest(old, last(old), 0).iter().zip(rest(new, last(new), 0));
    lines.extend(tails.map(both));
    lines
}

fn rest<T>(all: &[T], head: usize, tail: usize) -> &[T] {
    let end = all.len().saturating_sub(tail);
    all.get(head..end).unwrap_or_default()
}

/// The same of lines of which the first and the last differ.
fn apart<'t>(
    old: &[SaidLine<'t>],
    new: &[SaidLine<'t>],
    mark: &dyn Fn(&'t str) -> &'t str,
) -> Vec<Beside<'t>> {
    // For each line of the old text, from the last one up, how long the
    // common sequence of what follows it and what follows each new line is.
    let mut table: Vec<Vec<u32>> = Vec::new();
    if old.len().saturating_mul(new.len()) <= MOST_PAIRS {
        table.push(vec![0; new.len() + 1]);
        for (_, line) in old.iter().rev() {
            let below = table.last().cloned().unwrap_or_default();
            let mut row = vec![0_u32; new.len() + 1];
            for (at, (_, other)) in new.iter().enumerate().rev() {
                let of = |row: &[u32], at: usize| row.get(at).copied().unwrap_or(0);
                let longest = match mark(line) == mark(other) {
                    true => of(&below, at + 1).saturating_add(1),
                    false => of(&below, at).max(of(&row, at + 1)),
                };
                if let Some(cell) = row.get_mut(at) {
                    *cell = longest;
                }
            }
            table.push(row);
        }
        table.reverse();
    }
    let is_compared = !table.is_empty();
    let longest = |row: usize, at: usize| table.get(row).and_then(|row| row.get(at)).copied();
    let mut lines = Vec::new();
    let (mut row, mut at) = (0, 0);
    loop {
        let (one, other) = (old.get(row).copied(), new.get(at).copied());
        let is_same = match (one, other) {
            (Some(one), Some(other)) => is_compared && mark(one.1) == mark(other.1),
            (None, None) => return lines,
            _ => false,
        };
        let goes =
            one.is_some() && (other.is_none() || longest(row + 1, at) >= longest(row, at + 1));
        match (is_same, goes) {
            (true, _) => lines.push((one, other)),
            (false, true) => lines.push((one, None)),
            (false, false) => lines.push((None, other)),
        }
        row += usize::from(is_same || goes);
        at += usize::from(is_same || !goes);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Changes as numbers: the older lines, the newer ones, where the older
    /// would go back.
    fn changes(old: &str, new: &str) -> Vec<(Vec<u32>, Vec<u32>, u32)> {
        let changes = line_changes(old, new).into_iter();
        changes.map(|own| (own.old, own.new, own.before)).collect()
    }

    #[test]
    fn lines_that_differ_are_few() {
        type Change = (&'static [u32], &'static [u32], u32);
        let cases: [(&str, &str, &[Change]); 12] = [
            ("", "", &[]),
            ("a\nb\nc", "a\nb\nc", &[]),
            ("a\nb\nc", "# note\na\n\n  b \nc", &[]),
            ("a\nb\nc", "a\nx\nc", &[(&[1], &[1], 1)]),
            (
                "a\nb\nc\nd",
                "x\na\nc\ny\nd",
                &[(&[], &[0], 0), (&[1], &[], 2), (&[], &[3], 3)],
            ),
            ("a\nb\nc\nd", "b\nc", &[(&[0], &[], 0), (&[3], &[], 2)]),
            ("", "a\nb", &[(&[], &[0, 1], 0)]),
            ("a\nb", "b\na", &[(&[0], &[], 0), (&[], &[1], 1)]),
            // Entries that were written anew are a change each.
            (
                "h\nbed 1\nbase 2",
                "h\nbed 3\nbase 4",
                &[(&[1], &[1], 1), (&[2], &[2], 2)],
            ),
            (
                "h\npaving 1\nbase 2",
                "h\npaving 3\nbed 5\nmesh\nbase 4",
                &[(&[1], &[1], 1), (&[], &[2, 3], 2), (&[2], &[4], 4)],
            ),
            ("h\ngo 1\ngo 2\nz", "h\nz", &[(&[1, 2], &[], 1)]),
            ("h\nz", "h\n# note\nx\nz", &[(&[], &[2], 1)]),
        ];
        for (old, new, wanted) in cases {
            let wanted = wanted.iter();
            let wanted: Vec<_> = wanted
                .map(|own| (own.0.to_vec(), own.1.to_vec(), own.2))
                .collect();
            assert_eq!(changes(old, new), wanted, "{old:?} {new:?}");
        }
    }

    #[test]
    fn a_long_text_written_anew_is_told_whole() {
        let text = |word: &str| (0..1100).map(|line| format!("{word} {line}\n")).collect();
        let (old, new): (String, String) = (text("a"), text("b"));
        let all: Vec<u32> = (0..1100).collect();
        assert_eq!(changes(&old, &new), [(all.clone(), all, 0)]);
    }
}
