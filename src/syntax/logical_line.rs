//! Which physical lines belong together.
//!
//! A line goes on in the next one if its last word is a comma, or if a
//! parenthesis is open, and the next is indented deeper. Blank lines and
//! comments may lie between. A parenthesis that the lines after it never
//! close takes none of them with it.

use super::open_ends::OpenEnds;
use super::physical_line::{PhysicalLine, physical_lines};

/// How many lines further on the end of an open parenthesis is looked for.
/// It keeps the time linear: each line may have to be gone through this often.
const FARTHEST_CLOSE: u32 = 16;

/// One logical line of a text.
#[derive(Clone, Copy)]
pub(super) struct LogicalLine<'t> {
    /// All of it, with its line ends.
    pub text: &'t str,
    /// Where in it the first parenthesis stands that is too deep.
    pub too_deep: Option<usize>,
}

/// A line end that was passed only because a parenthesis is open.
struct Tentative {
    end: usize,
    lines: u32,
}

impl<'t> LogicalLine<'t> {
    /// The first logical line of a text.
    pub(crate) fn first_of(text: &'t str) -> Self {
        let first = PhysicalLine::first_of(text);
        let (mut start, mut end) = (0, first.length);
        let (mut line, mut depth, mut too_deep) = (first, 0, None);
        let mut tentative: Option<Tentative> = None;
        while line.has_words() {
            let open = OpenEnds::of(line.content, depth);
            depth = open.depth;
            too_deep = too_deep.or(open.too_deep.map(|at| start + at));
            if open.level {
                tentative = None;
            }
            if !open.comma && depth == 0 {
                break;
            }
            let Some((offset, next)) = next_words(text, end) else {
                break;
            };
            if next.width() <= first.width() {
                break;
            }
            if !open.comma && tentative.is_none() {
                tentative = Some(Tentative { end, lines: 0 });
            }
            if let Some(tentative) = &mut tentative {
                tentative.lines += 1;
                if tentative.lines > FARTHEST_CLOSE {
                    break;
                }
            }
            (line, start, end) = (next, offset, offset + next.length);
        }
        if let Some(tentative) = tentative.filter(|_| depth > 0) {
            end = tentative.end;
        }
        let text = text.get(..end).unwrap_or(text);
        Self {
            text,
            too_deep: too_deep.filter(|at| *at < end),
        }
    }
}

/// The first line from `at` on that has more than blanks and a comment.
fn next_words(text: &str, at: usize) -> Option<(usize, PhysicalLine<'_>)> {
    let rest = text.get(at..)?;
    let (offset, line) = physical_lines(rest).find(|(_, line)| line.has_words())?;
    Some((at + offset, line))
}

/// The logical lines of a text.
pub(super) fn logical_lines(text: &str) -> impl Iterator<Item = LogicalLine<'_>> {
    let mut rest = text;
    std::iter::from_fn(move || {
        let line = Some(rest)
            .filter(|rest| !rest.is_empty())
            .map(LogicalLine::first_of)?;
        rest = rest.get(line.text.len()..)?;
        Some(line)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The text with a bar before each logical line but the first.
    fn parted(text: &str) -> String {
        logical_lines(text)
            .map(|line| line.text)
            .collect::<Vec<_>>()
            .join("|")
    }

    #[test]
    fn a_line_goes_on_after_a_comma_or_in_a_parenthesis() {
        for parts in [
            " a\n| b\n",
            " a,\n  b\n| c",
            " a,\n| b",
            " a,\n|b",
            " a, # why\n\n  # because\n  b",
            " a, # why\n| # because\n| b",
            " a # why,\n|  b",
            " a (\n  b\n  )\n| c",
            " a (\n| b)",
            " a (0,\n  b (\n  c))\n|  d",
            "a,\n b",
            "a (\n b)",
            " a,\r\n  b\r|  c",
            " a \",\n|  b\"",
            "\ta,\n|    b",
            "\ta,\n     b",
            "  a,\n\tb",
        ] {
            assert_eq!(parted(&parts.replace('|', "")), parts);
        }
    }

    #[test]
    fn an_unclosed_parenthesis_takes_no_other_line() {
        for parts in [
            "shape a (\n|  start (0, 0)\n|  close\n|shape b",
            " a (0,\n  b\n|  c\n| d",
            " a (b) (\n|  c",
        ] {
            assert_eq!(parted(&parts.replace('|', "")), parts);
        }
        let far = format!("a (\n{} )", " b\n".repeat(16));
        assert_eq!(LogicalLine::first_of(&far).text, "a (\n");
        let near = format!("a (\n{} )", " b\n".repeat(15));
        assert_eq!(LogicalLine::first_of(&near).text, near);
    }

    #[test]
    fn too_deep_is_where_it_stands() {
        let open = "(".repeat(40);
        let text = format!(" a {open},\n  {open}\n");
        assert_eq!(
            LogicalLine::first_of(&text).too_deep,
            Some(3 + 40 + 2 + 2 + 24)
        );
        let given_up = format!(" a {open}\n  {open}\n");
        assert_eq!(LogicalLine::first_of(&given_up).too_deep, None);
    }
}
