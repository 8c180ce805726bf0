//! The smallest change that makes one text of another.

use std::hash::{Hash, Hasher};

use rustc_hash::FxHasher;

use super::{Edit, Lines, Span};

/// Lines put in and taken out beyond which no alignment is looked for: the
/// work grows with the square of it.
const LARGEST_DISTANCE: usize = 400;

/// The edits that make `new` of `old`, in order and apart from each other.
///
/// Lines that differ in spaces only are taken for the same line, so a text
/// that is laid out afresh changes within its lines and whatever holds on to
/// a line, a cursor or a mark, stays where it was. No edit begins or ends
/// between the `\r` and the `\n` of one break.
pub fn smallest_edits(old: &str, new: &str) -> Vec<Edit> {
    let (old_lines, new_lines) = (pieces(old), pieces(new));
    let old_keys: Vec<u64> = old_lines.iter().map(|line| key(line.slice(old))).collect();
    let new_keys: Vec<u64> = new_lines.iter().map(|line| key(line.slice(new))).collect();

    let mut edits = Changes::default();
    let (mut old_at, mut new_at) = (0, 0);
    for (old_span, new_span) in paired(&old_keys, &new_keys)
        .into_iter()
        .filter_map(|(i, j)| Some((*old_lines.get(i)?, *new_lines.get(j)?)))
    {
        edits.replace(
            old,
            Span::new(old_at, old_span.start),
            new,
            Span::new(new_at, new_span.start),
        );
        edits.replace(old, old_span, new, new_span);
        (old_at, new_at) = (old_span.end, new_span.end);
    }
    let (old_all, new_all) = (Span::from(0..old.len()), Span::from(0..new.len()));
    edits.replace(
        old,
        Span::new(old_at, old_all.end),
        new,
        Span::new(new_at, new_all.end),
    );
    edits.0
}

/// The lines of a text with their breaks.
fn pieces(text: &str) -> Vec<Span> {
    let lines = Lines::new(text);
    (0..lines.count())
        .map(|line| lines.line_span_with_break(line))
        .collect()
}

/// What makes two lines the same line: all that is not space. Two different
/// lines with one key cost a longer edit, never a wrong one.
fn key(line: &str) -> u64 {
    let mut hasher = FxHasher::default();
    line.chars()
        .filter(|c| !c.is_whitespace())
        .for_each(|c| c.hash(&mut hasher));
    hasher.finish()
}

/// Edits gathered in order.
#[derive(Default)]
struct Changes(Vec<Edit>);

impl Changes {
    /// Makes one stretch into another, leaving alone what both begin and end with.
    fn replace(&mut self, old: &str, old_span: Span, new: &str, new_span: Span) {
        let (before, after) = (old_span.slice(old), new_span.slice(new));
        if before == after {
            return;
        }
        let start = common_start(before, after);
        let end = common_end(before, after, start);
        let kept = |text: &str| start..text.len().saturating_sub(end);
        let span = Span::from(kept(before)).shift(old_span.start);
        let text = after.get(kept(after)).unwrap_or_default();
        match self.0.last_mut() {
            Some(last) if last.span.end == span.start => {
                last.span = last.span.join(span);
                last.text.push_str(text);
            }
            _ => self.0.push(Edit::new(span, text)),
        }
    }
}

/// Bytes that both begin with, between characters and not inside a break.
fn common_start(a: &str, b: &str) -> usize {
    let same = a.bytes().zip(b.bytes()).take_while(|(x, y)| x == y).count();
    let same = a.floor_char_boundary(same).min(b.floor_char_boundary(same));
    let splits = |text: &str| splits_break(text, same);
    if splits(a) || splits(b) {
        same.saturating_sub(1)
    } else {
        same
    }
}

/// Bytes that both end with, apart from the first `start`.
fn common_end(a: &str, b: &str, start: usize) -> usize {
    let most = a.len().min(b.len()).saturating_sub(start);
    let same = a
        .bytes()
        .rev()
        .zip(b.bytes().rev())
        .take(most)
        .take_while(|(x, y)| x == y)
        .count();
    let cut = |text: &str, same: usize| text.ceil_char_boundary(text.len().saturating_sub(same));
    let same = (a.len() - cut(a, same)).min(b.len() - cut(b, same));
    let splits = |text: &str| splits_break(text, text.len().saturating_sub(same));
    if splits(a) || splits(b) {
        same.saturating_sub(1)
    } else {
        same
    }
}

fn splits_break(text: &str, at: usize) -> bool {
    let bytes = text.as_bytes();
    let before = at.checked_sub(1).and_then(|before| bytes.get(before));
    before == Some(&b'\r') && bytes.get(at) == Some(&b'\n')
}

/// Which element of `old` is which of `new`, in order.
fn paired(old: &[u64], new: &[u64]) -> Vec<(usize, usize)> {
    let first = old.iter().zip(new).take_while(|(x, y)| x == y).count();
    let (old_rest, new_rest) = (
        old.get(first..).unwrap_or_default(),
        new.get(first..).unwrap_or_default(),
    );
    let last = old_rest
        .iter()
        .rev()
        .zip(new_rest.iter().rev())
        .take_while(|(x, y)| x == y)
        .count();
    let (old_count, new_count) = (old_rest.len() - last, new_rest.len() - last);
    let middle = aligned(
        old_rest.get(..old_count).unwrap_or_default(),
        new_rest.get(..new_count).unwrap_or_default(),
    );
    (0..first)
        .map(|i| (i, i))
        .chain(middle.into_iter().map(|(i, j)| (first + i, first + j)))
        .chain((0..last).map(|i| (first + old_count + i, first + new_count + i)))
        .collect()
}

/// The longest common run of elements by the greedy method of E. W. Myers,
/// "An O(ND) Difference Algorithm and Its Variations" (1986, from memory).
/// Past [`LARGEST_DISTANCE`] the elements are paired one by one if there are
/// as many of them, and not at all otherwise.
fn aligned(old: &[u64], new: &[u64]) -> Vec<(usize, usize)> {
    let (n, m) = (old.len(), new.len());
    // For each distance, how far into `old` each diagonal reaches; a diagonal
    // is the index into `old` less the one into `new`, kept plus the distance.
    let mut reaches: Vec<Vec<usize>> = Vec::new();
    for distance in 0..=(n + m).min(LARGEST_DISTANCE) {
        let mut reach = vec![0; 2 * distance + 1];
        for slot in (0..=2 * distance).step_by(2) {
            let (mut i, _) = entry(reaches.last(), slot, distance);
            let Some(mut j) = (i + distance).checked_sub(slot) else {
                continue;
            };
            while old.get(i).is_some_and(|x| new.get(j) == Some(x)) {
                (i, j) = (i + 1, j + 1);
            }
            if let Some(cell) = reach.get_mut(slot) {
                *cell = i;
            }
            if (i, j) == (n, m) {
                reaches.push(reach);
                return traced(&reaches, n, m);
            }
        }
        reaches.push(reach);
    }
    if n == m {
        (0..n).map(|i| (i, i)).collect()
    } else {
        Vec::new()
    }
}

/// Where diagonal `slot` is entered at `distance`, given how far the distance
/// before reached, and the slot there that it is entered from.
fn entry(before: Option<&Vec<usize>>, slot: usize, distance: usize) -> (usize, usize) {
    let Some(before) = before else { return (0, 0) };
    // Slots of the distance before stand one lower, as it is one less.
    let down = before.get(slot).copied();
    let right = slot
        .checked_sub(2)
        .and_then(|left| before.get(left))
        .map(|i| i + 1);
    match (down, right) {
        (Some(down), Some(right)) if down >= right => (down, slot),
        (Some(down), None) => (down, slot),
        (_, Some(right)) => (right, slot - 2),
        (None, None) => (distance, slot),
    }
}

/// The pairs on the way that [`aligned`] found, walked from its end.
fn traced(reaches: &[Vec<usize>], n: usize, m: usize) -> Vec<(usize, usize)> {
    let mut pairs = Vec::new();
    let (mut i, mut j) = (n, m);
    for distance in (0..reaches.len()).rev() {
        let before = distance
            .checked_sub(1)
            .and_then(|before| reaches.get(before));
        let Some(slot) = (i + distance).checked_sub(j) else {
            break;
        };
        let (entered, _) = entry(before, slot, distance);
        while i > entered && j > 0 {
            (i, j) = (i - 1, j - 1);
            pairs.push((i, j));
        }
        if before.is_some() {
            let (_, from) = entry(before, slot, distance);
            if from == slot {
                j = j.saturating_sub(1)
            } else {
                i = i.saturating_sub(1)
            }
        }
    }
    pairs.reverse();
    pairs
}

#[cfg(test)]
mod tests {
    use super::super::{Encoding, apply};
    use super::*;
    use proptest::prelude::*;

    fn shown(old: &str, new: &str) -> Vec<(String, String)> {
        smallest_edits(old, new)
            .into_iter()
            .map(|edit| (edit.span.slice(old).to_owned(), edit.text))
            .collect()
    }

    fn pair(old: &str, new: &str) -> (String, String) {
        (old.to_owned(), new.to_owned())
    }

    #[test]
    fn only_what_differs_is_changed() {
        assert_eq!(shown("a\nb\nc\n", "a\nb\nc\n"), []);
        assert_eq!(shown("a\nb\nc\n", "a\nx\nc\n"), [pair("b", "x")]);
        assert_eq!(shown("a\nc\n", "a\nb\nc\n"), [pair("", "b\n")]);
        assert_eq!(shown("a\nb\nc\n", "a\nc\n"), [pair("b\n", "")]);
        assert_eq!(
            shown("soil clay\nfrost 20 in\n", "soil  clay\nfrost  20 in\n").len(),
            2
        );
        assert_eq!(
            shown("one\n two\n\n\nthree\n", "one\n  two\n\nthree\n"),
            [pair("", " "), pair("\n", "")]
        );
    }

    #[test]
    fn a_break_of_two_characters_stays_whole() {
        assert_eq!(shown("a\r\nb", "a\nb"), [pair("\r\n", "\n")]);
        assert_eq!(shown("a\rb", "a\r\nb"), [pair("\r", "\r\n")]);
    }

    #[test]
    fn texts_with_nothing_in_common_are_replaced() {
        let old: String = (0..900).map(|i| format!("old {i}\n")).collect();
        let new: String = (0..800).map(|i| format!("new {i}\n")).collect();
        let edits = smallest_edits(&old, &new);
        assert_eq!(apply(&old, &edits), Some(new));
    }

    proptest! {
        #[test]
        fn the_edits_make_the_new_text(old in "[ab½ \r\n]{0,40}", new in "[ab½ \r\n]{0,40}") {
            let edits = smallest_edits(&old, &new);
            prop_assert_eq!(apply(&old, &edits), Some(new));
            let lines = Lines::new(&old);
            for edit in edits {
                for end in [edit.span.start, edit.span.end] {
                    let position = lines.position(&old, end, Encoding::Utf16);
                    prop_assert_eq!(lines.offset(&old, position, Encoding::Utf16), end);
                }
            }
        }

        #[test]
        fn as_few_lines_as_can_be_change(old in "[abc]{0,12}", new in "[abc]{0,12}") {
            let lines = |text: &str| text.chars().map(|c| c as u64).collect::<Vec<_>>();
            let (old, new) = (lines(&old), lines(&new));
            prop_assert_eq!(paired(&old, &new).len(), longest_common(&old, &new));
        }
    }

    /// The textbook table, to hold the greedy method against.
    fn longest_common(old: &[u64], new: &[u64]) -> usize {
        let mut row = vec![0; new.len() + 1];
        for x in old {
            let mut corner = 0;
            for (j, y) in new.iter().enumerate() {
                let above = row[j + 1];
                row[j + 1] = if x == y {
                    corner + 1
                } else {
                    above.max(row[j])
                };
                corner = above;
            }
        }
        row[new.len()]
    }
}
