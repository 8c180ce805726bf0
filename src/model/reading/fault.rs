//! What the reading of a line itself found, told as findings.

use super::minus;
use super::source::Source;
use crate::findings::{Finding, Fix, Place, Severity};
use crate::syntax::{Fault, FaultKind, ItemKind, Phrase};
use crate::text::Span;
use crate::vocabulary::Role;

/// The finding for a fault.
pub(crate) fn finding(source: &Source<'_>, fault: &Fault) -> Finding {
    let place = source.place(fault.span);
    match fault.kind {
        FaultKind::Unread => unread(source, place),
        FaultKind::TooDeep => Finding::new(
            "line-unread",
            place,
            "too many parentheses inside each other: the line is skipped",
        ),
        FaultKind::TooLong => {
            Finding::new("line-unread", place, "this line is too long and is skipped")
        }
        FaultKind::GroupOpen => {
            Finding::new("line-unread", place, "this parenthesis is never closed").fix(Fix::judged(
                "Close it at the line's end",
                end_of_line(source),
                ")",
            ))
        }
        FaultKind::GroupClose => Finding::new(
            "word-stray",
            place,
            "this parenthesis closes nothing and is skipped",
        )
        .fix(Fix::judged("Take it out", place, "")),
        FaultKind::CommaStray => Finding::new(
            "comma-stray",
            place,
            "nothing follows this comma: the next line goes on only if it is indented deeper",
        )
        .severity(Severity::Warning)
        .fix(Fix::safe("Take the comma out", place, "")),
        FaultKind::TextUnclosed => text_unclosed(source, fault.span, place),
        FaultKind::HashTouchesDigit => hash(source, fault.span, place),
        FaultKind::MinusUnclear => minus::finding(source, fault.span, place),
        FaultKind::InchMarkOff => inch_mark_off(source, fault.span, place),
    }
}

/// A mark of inches that stands off its number. Where another unit follows it,
/// `10 "mm`, either may be meant.
fn inch_mark_off(source: &Source<'_>, span: Span, place: Place) -> Finding {
    let mark = source.slice(span);
    let joined = with_blank_before(source, span);
    let after = source.text.get(span.end as usize..).unwrap_or_default();
    let unit = after.split(|c: char| !c.is_alphabetic()).next();
    let Some(unit) = unit.filter(|unit| !unit.is_empty()) else {
        return Finding::new(
            "number-unclear",
            place,
            "this inch mark stands apart from its number",
        )
        .severity(Severity::Warning)
        .fix(Fix::safe("Move it up to its number", joined, mark));
    };
    let end = span.end.saturating_add(unit.len() as u32);
    let both = with_blank_before(source, Span::new(span.start, end));
    let message = format!("this number has two units, `{mark}` and `{unit}`: keep one of them");
    Finding::new("number-unclear", place, message)
        .fix(Fix::judged("Keep the inches", both, mark))
        .fix(Fix::judged(format!("Keep `{unit}`"), place, ""))
}

/// The place just after the last thing on the line, its comment aside.
fn end_of_line(source: &Source<'_>) -> Place {
    let end = last_end(source, &source.line.phrases).unwrap_or(source.line.word.end);
    source.place(Span::at(end))
}

/// Where the last thing of some phrases ends; in a parenthesis that is not
/// closed, that is the last thing in it. Depth is bounded by the reading.
fn last_end(source: &Source<'_>, phrases: &[Phrase]) -> Option<u32> {
    let mut items = phrases.iter().rev().flat_map(|phrase| phrase.items.last());
    let last = items.next()?;
    match &last.kind {
        ItemKind::Group { phrases } | ItemKind::Call { phrases, .. }
            if !source.slice(last.span).ends_with(')') =>
        {
            let open = source.slice(last.span).find('(').unwrap_or_default() as u32 + 1;
            Some(last_end(source, phrases).unwrap_or(last.span.start + open))
        }
        _ => Some(last.span.end),
    }
}

fn with_blank_before(source: &Source<'_>, span: Span) -> Place {
    let before = Span::new(0, span.start).slice(source.text);
    let blank = before.len() - before.trim_end().len();
    source.place(Span::new(span.start.saturating_sub(blank as u32), span.end))
}

fn unread(source: &Source<'_>, place: Place) -> Finding {
    Finding::new(
        "line-unread",
        place,
        "this line starts with no word and is skipped",
    )
    .help(if source.text.trim_start().starts_with("//") {
        "A comment starts with `#`."
    } else if source.text.trim_start().starts_with(|first: char| first.is_ascii_digit())
        && source.text.contains(':')
    {
        "The parts of a mix are an entry: `parts 1 portland-cement : 4 sharp-sand`."
    } else {
        "A section starts at the margin with its kind, an entry is indented and starts with its key."
    })
}

/// Text that is not closed. If it opens with the last mark of its line, the
/// mark before was hardly meant to close the text: `"Court 24" wide"`.
fn text_unclosed(source: &Source<'_>, span: Span, place: Place) -> Finding {
    let finding = Finding::new(
        "text-unclosed",
        place,
        "the closing quote is missing, so the rest of the line is text",
    );
    let before = Span::new(0, span.start).slice(source.text);
    match before.rfind('"').filter(|_| source.slice(span) == "\"") {
        Some(inner) => finding.fix(Fix::judged(
            "Keep the mark before it in the text",
            source.place(Span::at(inner as u32)),
            "\\",
        )),
        None => finding.fix(Fix::judged("Close it at the line's end", place.end(), "\"")),
    }
}

/// `#57 stone`, `50# bag`.
fn hash(source: &Source<'_>, span: Span, place: Place) -> Finding {
    let finding = Finding::new(
        "comment-unclear",
        place,
        "everything after this `#` is a comment. Is that meant?",
    )
    .severity(Severity::Warning);
    let before = Span::new(0, span.start).slice(source.text);
    if before.ends_with(|last: char| last.is_ascii_digit()) {
        let pounds = source.place(Span::new(span.start, span.start + 1));
        let after = source
            .text
            .get(span.start as usize + 1..)
            .unwrap_or_default();
        let blank = if after.starts_with(is_blank) { "" } else { " " };
        return finding
            .fix(Fix::judged(
                "Write pounds as `lb`",
                pounds,
                format!(" lb{blank}"),
            ))
            .fix(Fix::judged(
                "Keep it as a comment",
                pounds,
                format!(" #{blank}"),
            ));
    }
    let mark = source.place(Span::new(span.start, span.start + 1));
    // A layer of which the comment takes in all says nothing.
    let mut phrases = source.line.phrases.iter();
    let is_layer = Role::from_word(&source.slice(source.line.word).to_lowercase()).is_some();
    if is_layer
        && phrases.all(|phrase| phrase.items.is_empty())
        && let Some((name, length)) = size_of_stone(source, span)
    {
        let whole = source.place(Span::new(span.start, span.start + length));
        let fix = Fix::judged(format!("Write `{name}`"), whole, name);
        return finding.severity(Severity::Error).fix(fix);
    }
    finding
        .fix(Fix::judged("Keep it as a comment", mark, "# "))
        .fix(Fix::judged("Write the number as `No. `", mark, "No. "))
}

/// `#57`, `#57 stone`: the built-in material that American yards sell by that
/// number, and how long it is in bytes.
fn size_of_stone(source: &Source<'_>, span: Span) -> Option<(&'static str, u32)> {
    let written = source.text.get(span.start as usize + 1..)?;
    let digits = written.find(|letter: char| !letter.is_ascii_digit());
    let (number, after) = written.split_at_checked(digits.unwrap_or(written.len()))?;
    let name = crate::materials::other_name(&format!("{number}-stone"))?;
    let word = if after.starts_with(" stone") {
        " stone".len()
    } else {
        0
    };
    Some((name, (1 + number.len() + word) as u32))
}

/// Whether a character is a blank inside a line.
pub(crate) fn is_blank(character: char) -> bool {
    character.is_whitespace() && !matches!(character, '\n' | '\r')
}
