//! A minus that may mean several things: `margin -6 in`, `24' -6"`,
//! `3.6-0.15 m`, `30-50 mm`.

use std::cmp::Ordering;

use super::fault::is_blank;
use super::literal;
use super::source::Source;
use crate::findings::{Finding, Fix, Place};
use crate::text::Span;
use crate::units::{Dimension, Kind, Quantity};

/// How many words a value beside it has at most: `24 ft 6 1/2 in`.
const MOST_WORDS: usize = 5;

/// The finding, with every reading that its neighbours allow; whether the line
/// then reads is for whoever has the line.
pub(crate) fn finding(source: &Source<'_>, span: Span, place: Place) -> Finding {
    let before = Span::new(0, span.start).slice(source.text);
    let after = source.text.get(span.end as usize..).unwrap_or_default();
    let left = before.trim_end_matches(is_blank);
    let right = after.trim_start_matches(is_blank);
    if right.is_empty() || right.starts_with(['\n', '\r', '#']) {
        return Finding::new(
            "minus-unclear",
            place,
            "nothing follows this minus: take it out",
        )
        .fix(Fix::judged("Take it out", place, ""));
    }
    let whole = source.place(Span::new(
        left.len() as u32,
        (source.text.len() - right.len()) as u32,
    ));
    if let Some(finding) = negative_after_key(source, whole, right) {
        return finding;
    }
    let mut finding = Finding::new(
        "minus-unclear",
        place,
        "a minus here could subtract, make a negative, or mean a range: say which",
    )
    .help("With a space on both sides it subtracts; at the start of a value it makes it negative; ranges are not read.");
    // Nothing is taken away from a point.
    let open = left.rfind('(').and_then(|at| left.get(at..));
    let is_point = left.ends_with(')') && open.is_some_and(|open| open.contains(','));
    if let Some(text) = taken_away(left, right).filter(|_| !is_point) {
        let title = "Subtract: a space on both sides";
        finding = finding.fix(Fix::judged(title, whole, text));
    }
    if is_clock(left.rsplit(is_blank).next())
        && is_clock(right.split([' ', ',', '\n', '\r']).next())
    {
        finding = finding.fix(Fix::judged("From one to the other: `to`", whole, " to "));
    }
    if left.ends_with(['\'', '′', '’']) {
        finding = finding.fix(Fix::judged("Feet and inches: no spaces", whole, "-"));
    } else if is_mixed(left, right) {
        finding = finding.fix(Fix::judged("A mixed number: no spaces", whole, "-"));
    } else {
        finding = finding.fix(Fix::judged("A negative value: after a comma", whole, ", -"));
    }
    if last_value(left).is_none() {
        finding = finding.fix(Fix::judged("Without the minus", whole, " "));
    }
    let is_tight = left.len() == before.len() && right.len() == after.len();
    if let Some((inches, text)) = feet_dash_inches(left, right).filter(|_| is_tight) {
        let feet = left.len() - left.trim_end_matches(|c: char| c.is_ascii_digit()).len();
        let size = Span::new(span.start.saturating_sub(feet as u32), span.end + inches);
        let fix = Fix::judged(
            format!("Feet and inches: `{text}`"),
            source.place(size),
            text,
        );
        finding.fixes.insert(0, fix);
    }
    match range(left, right).filter(|_| is_tight) {
        None => finding,
        Some((least, most)) => finding
            .fix(Fix::judged(
                "Keep the second figure of the range",
                source.place(Span::new(span.start.saturating_sub(least), span.end)),
                "",
            ))
            .fix(Fix::judged(
                "Keep the first figure of the range",
                source.place(Span::new(span.start, span.end + most)),
                "",
            )),
    }
}

/// `level - 150 mm`, `ground level -200 mm`: nobody takes away from nothing,
/// or from a word that only says again that this is a level. `whole` is the
/// minus with the blanks round it.
fn negative_after_key(source: &Source<'_>, whole: Place, right: &str) -> Option<Finding> {
    let key = source.line.word.end;
    let to = whole.span.relative_to(source.start);
    let said = Span::new(key, to.start).slice(source.text);
    let mut words = said.split(is_blank).filter(|word| !word.is_empty());
    let is_of_level = |word: &str| {
        let lower = word.to_lowercase();
        LEVEL_WORDS.contains(&lower.as_str())
    };
    if !words.all(is_of_level) {
        return None;
    }
    let (value, _) = first_value(right)?;
    let text = format!("{} -{value}", source.slice(source.line.word));
    let message = format!("a minus that makes a value negative stands close before it: `{text}`");
    let place = source.place(Span::new(key, to.end));
    let finding = Finding::new(
        "minus-unclear",
        source.place(Span::new(to.start, to.end)),
        message,
    );
    Some(finding.fix(Fix::judged(format!("Write `{text}`"), place, " -")))
}

/// Words that people write between a key and a level, and that say no more.
const LEVEL_WORDS: &[&str] = &[
    "level", "levels", "lvl", "at", "is", "of", "about", "approx",
];

/// How long the figures on both sides are, in bytes, if there are two: they
/// may be a range, `30-50 mm`, of which one may be kept.
fn range(left: &str, right: &str) -> Option<(u32, u32)> {
    let is_of_figure = |c: char| c.is_ascii_digit() || c == '.';
    let least = left.len() - left.trim_end_matches(is_of_figure).len();
    let most = right.len() - right.trim_start_matches(is_of_figure).len();
    (least > 0 && most > 0).then_some((least as u32, most as u32))
}

/// `24-6`: feet and inches as they are drawn in America, with how long the
/// inches are in bytes; nothing where a unit says otherwise.
fn feet_dash_inches(left: &str, right: &str) -> Option<(u32, String)> {
    let digits = |c: char| c.is_ascii_digit();
    let feet = left.get(left.trim_end_matches(digits).len()..)?;
    let before = left.get(..left.len() - feet.len())?;
    let end = right.find(|c| !digits(c)).unwrap_or(right.len());
    let (inches, after) = right.split_at_checked(end)?;
    let ends = after.trim_start_matches(is_blank);
    let is_end = ends.is_empty() || ends.starts_with([',', ')', '\n', '\r', '#']);
    let is_bare = before.ends_with(|c| is_blank(c) || "(,".contains(c)) && is_end;
    let is_inches = inches.parse::<u32>().is_ok_and(|inches| inches < 12);
    let text = format!("{feet}' {inches}\"");
    (is_bare && is_inches && !feet.is_empty()).then_some((inches.len() as u32, text))
}

/// What stands in place of the minus where it takes away; nothing where that
/// leaves nothing, or the two do not measure the same. A bare number before it
/// has the unit of the other: `3.6-0.15 m`.
fn taken_away(left: &str, right: &str) -> Option<String> {
    if is_feet_and_inches(left, right) {
        return Some(" - 0' ".to_owned());
    }
    let ((before, from), (after, less)) = match (last_value(left), first_value(right)) {
        (Some(left), Some(right)) => (left, right),
        _ => return Some(" - ".to_owned()),
    };
    let is_bare = |own: &Quantity| own.dimension == Dimension::NONE && own.kind == Kind::Plain;
    let (unit, from) = match is_bare(&from) && !is_bare(&less) {
        false => (String::new(), from),
        true => {
            let unit = after.trim_start_matches(is_of_number);
            let blank = match unit.starts_with(char::is_alphabetic) {
                true => " ",
                false => "",
            };
            let unit = format!("{blank}{unit}");
            let with_unit = literal(&format!("{before}{unit}"))?;
            (unit, with_unit)
        }
    };
    let is_more = from.compare(less).ok() == Some(Ordering::Greater);
    is_more.then(|| format!("{unit} - "))
}

/// Whether a word is a time of day, `8:00`.
fn is_clock(word: Option<&str>) -> bool {
    let parts = word.and_then(|word| word.split_once(':'));
    parts.is_some_and(|(hours, minutes)| {
        let digits = |text: &str| !text.is_empty() && text.bytes().all(|own| own.is_ascii_digit());
        digits(hours) && digits(minutes)
    })
}

/// Whether a whole number ends here, and a fraction begins: `2 -1/4 in`.
fn is_mixed(left: &str, right: &str) -> bool {
    let digits = right.trim_start_matches(|c: char| c.is_ascii_digit());
    let is_fraction = digits.len() < right.len() && digits.starts_with('/')
        || right.starts_with(|c| "½¼¾⅛⅜⅝⅞⅓⅔".contains(c));
    let last = left.rsplit(|c| is_blank(c) || c == ',').next();
    let is_whole =
        last.is_some_and(|last| !last.is_empty() && last.bytes().all(|byte| byte.is_ascii_digit()));
    is_whole && is_fraction
}

/// The value that a text ends with, as it is written.
fn last_value(text: &str) -> Option<(&str, Quantity)> {
    let from = text.rfind([',', '(', '=']).map_or(0, |at| at + 1);
    let own = text.get(from..)?;
    let starts = own.char_indices().filter(|(at, character)| {
        let before = own.get(..*at).unwrap_or_default();
        !is_blank(*character) && (before.is_empty() || before.ends_with(is_blank))
    });
    let starts: Vec<usize> = starts.map(|(at, _)| at).collect();
    let few = starts.iter().rev().take(MOST_WORDS).rev();
    few.filter_map(|at| own.get(*at..))
        .find_map(|part| Some((part, literal(part)?)))
}

/// The value that a text begins with, as it is written.
fn first_value(text: &str) -> Option<(&str, Quantity)> {
    let to = text.find([',', '(', ')', '#', '+', '*', '\n', '\r']);
    let own = text.get(..to.unwrap_or(text.len()))?.trim_end();
    let blanks = own
        .char_indices()
        .filter(|(_, character)| is_blank(*character));
    let mut ends: Vec<usize> = blanks.map(|(at, _)| at).take(MOST_WORDS).collect();
    if ends.len() < MOST_WORDS {
        ends.push(own.len());
    }
    let longest = ends.iter().rev();
    longest
        .filter_map(|end| own.get(..*end))
        .find_map(|part| Some((part, literal(part)?)))
}

fn is_of_number(character: char) -> bool {
    character.is_ascii_digit() || " ./½¼¾⅛⅜⅝⅞⅓⅔".contains(character)
}

/// Whether a number with a mark of feet ends here, and one with a mark of
/// inches begins: taken away, those are written with their feet, `24' - 0' 6"`.
fn is_feet_and_inches(left: &str, right: &str) -> bool {
    let mark = right.trim_start_matches(is_of_number);
    left.ends_with(['\'', '′', '’'])
        && ["\"", "″", "”", "''"]
            .iter()
            .any(|inch| mark.starts_with(inch))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_minus_takes_away_where_something_is_left() {
        for (left, right, wanted) in [
            ("beyond margin", "6 in", Some(" - ")),
            ("let a = 3.6 m", "0.15 m", Some(" - ")),
            ("let a = 3.6", "0.15 m", Some(" m - ")),
            ("let a = 2", "1/4 in", Some(" in - ")),
            ("let a = 24", "6\"", Some("\" - ")),
            ("let a = 24'", "6\"", Some(" - 0' ")),
            ("bed sharp-sand, 30", "50 mm", None),
            ("bed sharp-sand, 30 mm", "50 mm, x", None),
            ("let a = 3 m", "2 kg", None),
        ] {
            let found = taken_away(left, right);
            assert_eq!(found.as_deref(), wanted, "{left} {right}");
        }
    }

    #[test]
    fn a_whole_number_and_a_fraction_are_a_mixed_one() {
        for (left, right, wanted) in [
            ("beyond 2", "1/4 in", true),
            ("beyond 2", "½ in", true),
            ("beyond margin", "1/4 in", false),
            ("beyond 2", "6 in", false),
            ("beyond 2.5", "1/4 in", false),
        ] {
            assert_eq!(is_mixed(left, right), wanted, "{left} {right}");
        }
    }
}
