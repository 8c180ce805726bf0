//! The lines of a text that say something, and those of two texts that
//! differ.

use super::passages::is_silent;

/// A line that says something: its number from 0, and its text.
type SaidLine<'t> = (u32, &'t str);

/// Where more pairs of lines than this are left to be compared, all of them
/// are told as changed.
const MOST_PAIRS: usize = 1_000_000;

/// The lines of the older and of the newer text that are not in the other, in
/// order. Comments, blank lines, and blanks at either end of a line count for
/// nothing.
pub(super) fn differing_lines(old: &str, new: &str) -> (Vec<u32>, Vec<u32>) {
    let (old, new) = (said_lines(old), said_lines(new));
    let is_same = |(one, other): &(&SaidLine<'_>, &SaidLine<'_>)| one.1 == other.1;
    let head = old.iter().zip(&new).take_while(is_same).count();
    let (old, new) = (rest(&old, head, 0), rest(&new, head, 0));
    let pairs = old.iter().rev().zip(new.iter().rev());
    let tail = pairs.take_while(is_same).count();
    let (old, new) = (rest(old, 0, tail), rest(new, 0, tail));
    match old.len().saturating_mul(new.len()) {
        0 => (numbers(old), numbers(new)),
        pairs if pairs > MOST_PAIRS => (numbers(old), numbers(new)),
        _ => without_common(old, new),
    }
}

fn said_lines(text: &str) -> Vec<SaidLine<'_>> {
    let lines = (0..).zip(text.lines());
    let said = lines.filter(|(_, line)| !is_silent(line));
    said.map(|(number, line)| (number, line.trim())).collect()
}

fn rest<T>(all: &[T], head: usize, tail: usize) -> &[T] {
    let end = all.len().saturating_sub(tail);
    all.get(head..end).unwrap_or_default()
}

fn numbers(lines: &[SaidLine<'_>]) -> Vec<u32> {
    lines.iter().map(|(number, _)| *number).collect()
}

/// The lines outside the longest sequence that both have in common.
fn without_common(old: &[SaidLine<'_>], new: &[SaidLine<'_>]) -> (Vec<u32>, Vec<u32>) {
    // For each line of the old text, from the last one up, how long the
    // common sequence of what follows it and what follows each new line is.
    let mut table: Vec<Vec<u32>> = vec![vec![0; new.len() + 1]];
    for (_, line) in old.iter().rev() {
        let below = table.last().cloned().unwrap_or_default();
        let mut row = vec![0_u32; new.len() + 1];
        for (at, (_, other)) in new.iter().enumerate().rev() {
            let of = |row: &[u32], at: usize| row.get(at).copied().unwrap_or(0);
            let longest = match line == other {
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
    let longest = |row: usize, at: usize| table.get(row).and_then(|row| row.get(at)).copied();
    let (mut of_old, mut of_new) = (Vec::new(), Vec::new());
    let (mut row, mut at) = (0, 0);
    loop {
        match (old.get(row), new.get(at)) {
            (Some((_, one)), Some((_, other))) if one == other => {
                row += 1;
                at += 1;
            }
            (Some((gone, _)), Some(_)) if longest(row + 1, at) >= longest(row, at + 1) => {
                of_old.push(*gone);
                row += 1;
            }
            (_, Some((come, _))) => {
                of_new.push(*come);
                at += 1;
            }
            (Some((gone, _)), None) => {
                of_old.push(*gone);
                row += 1;
            }
            (None, None) => return (of_old, of_new),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_that_differ_are_few() {
        for (old, new, of_old, of_new) in [
            ("", "", &[][..], &[][..]),
            ("a\nb\nc", "a\nb\nc", &[], &[]),
            ("a\nb\nc", "# note\na\n\n  b \nc", &[], &[]),
            ("a\nb\nc", "a\nx\nc", &[1], &[1]),
            ("a\nb\nc\nd", "x\na\nc\ny\nd", &[1], &[0, 3]),
            ("a\nb\nc\nd", "b\nc", &[0, 3], &[]),
            ("", "a\nb", &[], &[0, 1]),
            ("a\nb", "b\na", &[0], &[1]),
        ] {
            let (gone, come) = differing_lines(old, new);
            assert_eq!((&gone[..], &come[..]), (of_old, of_new), "{old:?} {new:?}");
        }
    }

    #[test]
    fn a_long_text_written_anew_is_told_whole() {
        let text = |word: &str| (0..1100).map(|line| format!("{word} {line}\n")).collect();
        let (old, new): (String, String) = (text("a"), text("b"));
        let (gone, come) = differing_lines(&old, &new);
        assert_eq!((gone.len(), come.len()), (1100, 1100));
    }
}
