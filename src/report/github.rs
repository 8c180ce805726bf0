//! Findings as workflow commands, which GitHub shows as annotations beside
//! the lines of a change.

use super::{Review, Row, Unread};
use crate::findings::Severity;

/// So many annotations of each level are shown for a step; more are dropped
/// without a word.
const MOST: usize = 10;

/// The findings of a review as workflow commands, at most ten of each level,
/// with a line that says how many are left out.
pub fn github(review: &Review) -> String {
    let mut text = String::new();
    for (severity, level, one, many) in [
        (Severity::Error, "error", "error", "errors"),
        (Severity::Warning, "warning", "warning", "warnings"),
        (Severity::Advisory, "notice", "advisory", "advisories"),
    ] {
        let of_level = review
            .standing()
            .filter(|(_, row)| row.severity == severity);
        let rows: Vec<&Row> = of_level.map(|(_, row)| row).collect();
        rows.iter()
            .take(MOST)
            .for_each(|row| text += &annotation(level, row));
        if rows.len() > MOST {
            let left = rows.len() - MOST;
            let noun = if left == 1 { one } else { many };
            text += &format!("{left} more {noun}: only {MOST} of a level are shown for a step\n");
        }
    }
    for unread in &review.unread {
        text += &unreadable(unread);
    }
    text
}

/// A file that could not be read has no line to stand beside.
fn unreadable(unread: &Unread) -> String {
    format!(
        "::error file={},title=unreadable::{}\n",
        property(&unread.path),
        escaped(&unread.why)
    )
}

fn annotation(level: &str, row: &Row) -> String {
    let at = &row.at;
    let file = property(&at.path);
    // A column is heard only where start and end stand on one line.
    let end = match at.start.0 == at.end.0 {
        true => format!(",endLine={},endColumn={}", at.end.0, at.end.1),
        false => format!(",endLine={}", at.end.0),
    };
    format!(
        "::{level} file={file},line={},col={}{end},title={}::{}\n",
        at.start.0,
        at.start.1,
        property(row.rule),
        escaped(&row.message)
    )
}

/// The text of a message, its line ends and per cent signs as numbers.
fn escaped(text: &str) -> String {
    text.replace('%', "%25")
        .replace('\r', "%0D")
        .replace('\n', "%0A")
}

/// The value of a property, which may hold no colon or comma either.
fn property(text: &str) -> String {
    escaped(text).replace(':', "%3A").replace(',', "%2C")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_in_a_text_ends_a_command() {
        assert_eq!(escaped("2 %\r\n::error::x"), "2 %25%0D%0A::error::x");
        assert_eq!(property("a,b:c%"), "a%2Cb%3Ac%25");
    }
}
