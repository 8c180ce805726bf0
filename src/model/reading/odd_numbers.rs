//! Numbers that are read otherwise than they are meant: `12. mm`, `+75 mm`,
//! `11/2 in`, `25/30 mm`, `1 200 mm`.

use super::literal::literal;
use super::misread::refused;
use super::number::{continues, single};
use super::source::Source;
use crate::findings::Finding;
use crate::syntax::{Item, ItemKind};
use crate::units::find_unit;
use crate::units::unit::FOOT;
use crate::vocabulary::SMALL_WORDS;

/// `~8 mm`: a figure that is nearly so: it counts as it stands.
pub(super) fn nearly(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let first = rest.first()?;
    let text = source.slice(first.span);
    let bare = text.trim_start_matches(['~', '≈', '±']);
    if bare.len() == text.len() || !matches!(first.kind, ItemKind::Stray | ItemKind::Word) {
        return None;
    }
    let tight = rest
        .get(1)
        .is_some_and(|next| bare.is_empty() && !next.spaced_before);
    let next = rest.get(1).filter(|next| match next.kind {
        ItemKind::Number { .. } => bare.is_empty(),
        _ => find_unit(source.slice(next.span)).is_some(),
    });
    let taken = 1 + usize::from(next.is_some());
    let figure = match next {
        Some(next) if tight || bare.is_empty() => source.slice(next.span).to_owned(),
        Some(next) => format!("{bare} {}", source.slice(next.span)),
        None => bare.to_owned(),
    };
    literal(&figure)?;
    let message = format!("a figure counts as it stands: `{figure}`");
    refused(source, rest.get(..taken)?, "word-stray", message, &[figure])
}

/// `+75 mm`: a figure with a sign that it does not need.
pub(super) fn plus(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let sign = rest.first()?;
    let number = rest.get(1)?;
    let is_plus = source.slice(sign.span) == "+";
    if !is_plus || !matches!(number.kind, ItemKind::Number { .. }) || continues(rest.get(1..)?) {
        return None;
    }
    let text = source.slice(number.span);
    let message = format!("a figure needs no plus: `{text}`");
    refused(
        source,
        rest.get(..2)?,
        "word-stray",
        message,
        &[text.to_owned()],
    )
}

/// `12. mm`: a point with no digit behind it between a number and its unit.
pub(super) fn number_with_point(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let (number, None) = single(source, rest.first()?)? else {
        return None;
    };
    let point = rest.get(1)?;
    let unit = source.word(rest.get(2)?)?;
    let is_point = source.slice(point.span) == "." && !point.spaced_before;
    if !is_point || find_unit(unit).is_none() {
        return None;
    }
    let text = format!("{number} {unit}");
    let message = format!("a number ends with a digit: `{text}`");
    refused(source, rest.get(..3)?, "number-unclear", message, &[text])
}

/// `12 ft. 6 in.`, `10 cu. yd. of`: units with points behind them. One at the
/// end of its line is told of as that.
pub(super) fn points_after_units(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    /// `12 ft . 6 in .`
    const MOST: usize = 6;
    let sign = usize::from(rest.first()?.kind == ItemKind::Negative);
    if !matches!(rest.get(sign)?.kind, ItemKind::Number { .. }) {
        return None;
    }
    let is_point = |item: &Item| source.slice(item.span) == "." && !item.spaced_before;
    let ends = (2..=rest.len().min(MOST)).rev();
    ends.filter(|end| rest.get(end - 1).is_some_and(is_point))
        .find_map(|end| {
            let items = rest.get(..end)?;
            let kept = items.iter().skip(sign).filter(|item| !is_point(item));
            let kept: Vec<&str> = kept.map(|item| source.slice(item.span)).collect();
            let text = format!("{}{}", "-".repeat(sign), kept.join(" "));
            let is_last = source.line.phrases.last().is_some_and(|last| {
                last.items.last().map(|item| item.span) == items.last().map(|item| item.span)
            });
            let is_told = is_last && kept.len() == 1;
            literal(&text).filter(|figure| !is_told && !figure.dimension.is_none())?;
            let message = format!("a unit is written without a point: `{text}`");
            refused(source, items, "word-stray", message, &[text])
        })
}

/// `12' 6`: feet and inches without the mark of the inches.
pub(super) fn feet_and_bare(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let (_, Some(mark)) = single(source, rest.first()?)? else {
        return None;
    };
    let (inches, None) = single(source, rest.get(1)?)? else {
        return None;
    };
    let inch = match mark {
        "'" | "′" | "’" => "\"",
        _ if find_unit(mark) == Some(&FOOT) => " in",
        _ => return None,
    };
    // `12' 2 courses`: a clause whose comma is missing.
    let is_other = |next: &Item| match source.word(next) {
        Some(word) => !SMALL_WORDS.contains(&word),
        None => !matches!(next.kind, ItemKind::By),
    };
    let text = format!("{} {inches}{inch}", source.slice(rest.first()?.span));
    if rest.get(2).is_some_and(is_other)
        || literal(&format!("{inches} in"))?.si() >= FOOT.size().to_f64()
    {
        return None;
    }
    let message = format!("feet and inches are written `{text}`");
    refused(source, rest.get(..2)?, "number-unclear", message, &[text])
}

/// `11/2 in`: one and a half to most who write it, and five and a half as it is
/// read.
pub(super) fn whole_and_fraction(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let (number, unit) = single(source, rest.first()?)?;
    let (above, below) = number.split_once('/')?;
    // Of a ruler's parts; `127/100` is worked out and not written by hand.
    if !["2", "4", "8", "16", "32"].contains(&below) {
        return None;
    }
    let (whole, part) = above.split_at_checked(1)?;
    let figures: (u32, u32) = (part.parse().ok()?, below.parse().ok()?);
    let unit = unit.filter(|_| figures.0 > 0 && figures.0 < figures.1 && whole != "0")?;
    let mark = match find_unit(unit) {
        Some(_) => format!(" {unit}"),
        None => unit.to_owned(),
    };
    let mixed = format!("{whole} {part}/{below}{mark}");
    let all: u32 = above.parse().ok()?;
    let read = match all % figures.1 {
        0 => format!("{}{mark}", all / figures.1),
        over => format!("{} {over}/{below}{mark}", all / figures.1),
    };
    let message = format!("`{number}` is `{read}`: is `{mixed}` meant?");
    refused(
        source,
        rest.get(..1)?,
        "number-unclear",
        message,
        &[mixed, read],
    )
}

/// `25/30 mm`: a range to those who write it, and a fraction as it is read. A
/// fraction of more than a millimetre or of one part is meant as one.
pub(super) fn range_as_fraction(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let (number, unit) = single(source, rest.first()?)?;
    let unit = unit.filter(|unit| ["mm", "cm"].contains(unit))?;
    let (least, most) = number.split_once('/')?;
    let figures: (u32, u32) = (least.parse().ok()?, most.parse().ok()?);
    if !matches!(figures, (2.., ..=100)) || figures.0 >= figures.1 {
        return None;
    }
    refused(
        source,
        rest.get(..1)?,
        "number-unclear",
        format!("`{number} {unit}` would be a fraction, and ranges are not read: state one figure"),
        &[format!("{most} {unit}"), format!("{least} {unit}")],
    )
}

/// `1 200 mm`.
pub(super) fn split_thousands(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let (first, None) = single(source, rest.first()?)? else {
        return None;
    };
    let second = rest.get(1)?;
    let (number, _) = single(source, second)?;
    let groups = first.len() <= 3
        && first.bytes().all(|byte| byte.is_ascii_digit())
        && number.len() >= 3
        && number.bytes().take(3).all(|byte| byte.is_ascii_digit())
        && number
            .as_bytes()
            .get(3)
            .is_none_or(|byte| !byte.is_ascii_digit());
    if !groups {
        return None;
    }
    let fix = format!("{first},{}", source.slice(second.span));
    refused(
        source,
        rest.get(..2)?,
        "number-unclear",
        format!("a space splits this into two numbers; thousands take a comma: `{fix}`"),
        &[fix],
    )
}
