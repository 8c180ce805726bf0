//! Plausible writings that must not silently mean something else: what each
//! is taken for, and the edits that say it plainly.

use super::bare_number::{bare_number, bare_points, in_per_cent};
use super::clock::time_of_day;
use super::dates::date;
use super::depths_in_time::{depth_in_seconds, depth_over_a_time, seconds_for_a_depth};
use super::number::{continues, number_item, single};
use super::odd_numbers::{
    feet_and_bare, nearly, number_with_point, plus, points_after_units, range_as_fraction,
    split_thousands, whole_and_fraction,
};
use super::parts::{joined_otherwise, numbers_before_names};
use super::powers::power_of_ten;
use super::source::Source;
use super::spelled_units::{newtons_on_an_area, spelled_out, unit_spelled_out};
use super::spoken_money::{money_in_short, price_of_days, sign_behind};
use super::spoken_names::measure_before_name;
use super::temperatures::degrees_of_no_scale;
use super::winds::{wind_as_angle, wind_as_direction};
use super::working_time::{nights, per_person, weekday_off};
use crate::findings::{Finding, Fix, Severity};
use crate::syntax::{Item, ItemKind, Operator, Phrase};
use crate::units::unit::{FOOT, INCH};
use crate::units::{Kind, Quantity, find_unit, unit_readings};
use crate::vocabulary::ValueKind;

/// How many items from `start` make a value of this kind that is written in
/// a form the language refuses, and the finding that says so.
pub(crate) fn value(
    source: &Source<'_>,
    items: &[Item],
    start: usize,
    kind: ValueKind,
) -> Option<(usize, Finding)> {
    let rest = items.get(start..)?;
    if let Some(found) = plus(source, rest).filter(|_| kind.is_quantity()) {
        return Some(found);
    }
    if let Some(found) = points_after_units(source, rest).filter(|_| kind.is_quantity()) {
        return Some(found);
    }
    if let Some(found) = nearly(source, rest).filter(|_| kind.is_quantity()) {
        return Some(found);
    }
    let found = match kind {
        ValueKind::Slope => slope(source, rest),
        ValueKind::Date => date(source, rest).or_else(|| weekday_off(source, rest)),
        ValueKind::Clock => time_of_day(source, rest),
        ValueKind::Angle => minutes_of_arc(source, rest).or_else(|| wind_as_angle(source, rest)),
        ValueKind::Direction | ValueKind::Heading => wind_as_direction(source, rest),
        ValueKind::Point => bare_points(source, rest),
        ValueKind::Parts => {
            numbers_before_names(source, rest).or_else(|| joined_otherwise(source, rest))
        }
        ValueKind::Length => feet_and_inches(source, rest)
            .or_else(|| feet_and_bare(source, rest))
            .or_else(|| range_as_fraction(source, rest))
            .or_else(|| whole_and_fraction(source, rest)),
        ValueKind::Material | ValueKind::Substance => measure_before_name(source, rest),
        ValueKind::Strength => newtons_on_an_area(source, rest),
        ValueKind::Unit => unit_spelled_out(source, rest),
        ValueKind::Temperature => degrees_of_no_scale(source, rest),
        ValueKind::Rainfall => depth_over_a_time(source, rest),
        ValueKind::Infiltration => seconds_for_a_depth(source, rest),
        ValueKind::Price => money_in_short(source, rest)
            .or_else(|| price_of_days(source, rest))
            .or_else(|| sign_behind(source, rest)),
        ValueKind::Time => nights(source, rest).or_else(|| per_person(source, rest, kind)),
        ValueKind::Quantity => {
            per_person(source, rest, kind).or_else(|| depth_in_seconds(source, rest))
        }
        _ => None,
    };
    found
        .or_else(|| power_of_ten(source, rest).filter(|_| kind.is_quantity()))
        .or_else(|| spelled_out(source, rest, kind).filter(|_| kind.is_quantity()))
        .or_else(|| split_thousands(source, rest).filter(|_| kind.is_quantity()))
        .or_else(|| feet_minus_inches(source, rest).filter(|_| kind.is_quantity()))
        .or_else(|| unit_of_two_readings(source, rest).filter(|_| kind.is_quantity()))
        .or_else(|| number_with_point(source, rest).filter(|_| kind.is_quantity()))
        .or_else(|| bare_number(source, rest, kind))
}

pub(super) fn refused(
    source: &Source<'_>,
    items: &[Item],
    rule: &'static str,
    message: String,
    fixes: &[String],
) -> Option<(usize, Finding)> {
    let place = source.place_of(items);
    let mut finding = Finding::new(rule, place, message);
    for text in fixes {
        finding = finding.fix(Fix::judged(format!("Write `{text}`"), place, text.as_str()));
    }
    Some((items.len(), finding))
}

fn slope(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let first = rest.first()?;
    if let ItemKind::Ratio { left, right } = &first.kind {
        return steep_ratio(source, first, (source.slice(*left), source.slice(*right)));
    }
    if let Some(found) = angle_as_slope(source, rest) {
        return Some(found);
    }
    let (number, unit) = single(source, first)?;
    let take = |count: usize| rest.get(..count).unwrap_or_default();
    let ratio = |run: &str| format!("{number}:{run}");
    let is_in = unit.is_some_and(|unit| unit.eq_ignore_ascii_case("in"));
    if let (true, Some((run, None))) = (is_in, rest.get(1).and_then(|item| single(source, item))) {
        let fix = ratio(run);
        return refused(
            source,
            take(2),
            "number-unclear",
            format!("a slope of one in so many is written `{fix}`"),
            &[fix],
        );
    }
    if unit.is_none()
        && matches!(rest.get(1).map(|item| &item.kind), Some(ItemKind::Colon))
        && let Some((run, None)) = rest.get(2).and_then(|item| single(source, item))
    {
        let fix = ratio(run);
        return refused(
            source,
            take(3),
            "number-unclear",
            format!("a slope is written without spaces, `{fix}`: with them it reads as parts"),
            &[fix],
        );
    }
    if unit.is_some()
        && rest.get(1).is_some_and(|item| source.is_word(item, "in"))
        && rest
            .get(2)
            .is_some_and(|item| matches!(item.kind, ItemKind::Number { .. }))
    {
        let run = source.slice(rest.get(2)?.span);
        let drop = source.slice(first.span);
        let fix = format!("{drop} over {run}");
        return refused(
            source,
            take(3),
            "number-unclear",
            format!("a drop over a run is written `{fix}`"),
            &[fix],
        );
    }
    if let (None, Some(ItemKind::Per { unit: over })) = (unit, rest.get(1).map(|item| &item.kind)) {
        let drop = match source.slice(*over) {
            "ft" | "foot" => "in",
            "m" => "mm",
            _ => return None,
        };
        let over = source.slice(rest.get(1)?.span);
        let blank = if over.starts_with('/') { "" } else { " " };
        let fix = format!("{number} {drop}{blank}{over}");
        let message = format!("a fall is a drop over a run: is `{fix}` meant?");
        return refused(source, take(2), "unit-missing", message, &[fix]);
    }
    let is_inch = unit.is_some_and(|unit| {
        matches!(unit, "\"" | "″" | "”" | "''") || find_unit(unit) == Some(&INCH)
    });
    if is_inch && !continues(rest) && number.contains('/') {
        let foot = format!("{number} in per ft");
        let message = format!("a slope is a drop over a run: is `{foot}` meant?");
        return refused(source, take(1), "number-unclear", message, &[foot]);
    }
    if unit.is_none() && !continues(rest) && number != "0" {
        if let Some((drop, run)) = number.split_once('/') {
            let fix = format!("{drop}:{run}");
            // Of a ruler's parts: so much to the foot, to most who write it.
            if ["2", "4", "8", "16"].contains(&run) {
                let foot = format!("{number} in per ft");
                let message =
                    format!("a slope is a drop over a run: is `{foot}` meant, or `{fix}`?");
                return refused(source, take(1), "number-unclear", message, &[foot, fix]);
            }
            return refused(
                source,
                take(1),
                "number-unclear",
                format!("a slope of one in so many is written `{fix}`"),
                &[fix],
            );
        }
        let own = format!("{number} %");
        let fixes = match (in_per_cent(number), number.parse::<u32>()) {
            (Some(share), _) => vec![share, own],
            (None, Ok(10..)) => vec![format!("1:{number}"), own],
            _ => vec![own],
        };
        return refused(
            source,
            take(1),
            "unit-missing",
            format!(
                "a bare {number} is not a slope: write it in per cent, or as a ratio such as `1:60`"
            ),
            &fixes,
        );
    }
    None
}

/// `60:1`: a ratio the wrong way round.
fn steep_ratio(
    source: &Source<'_>,
    item: &Item,
    (drop, run): (&str, &str),
) -> Option<(usize, Finding)> {
    let run_of = run.parse::<f64>().ok()?;
    let items = std::slice::from_ref(item);
    if run_of == 0.0 {
        let message = format!("{drop}:{run} is no slope: {drop} in how many?");
        return refused(source, items, "number-unclear", message, &[]);
    }
    let steep = drop.parse::<f64>().ok()? >= 10.0 * run_of;
    let fix = format!("{run}:{drop}");
    let message = format!("{drop}:{run} is steeper than a wall; one in {drop} is written `{fix}`");
    steep.then(|| refused(source, items, "number-unclear", message, &[fix]))?
}

/// `2 degrees`: an angle where a slope belongs.
fn angle_as_slope(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let (number, unit) = single(source, rest.first()?)?;
    let is_angle = |word: &str| {
        ["°", "deg", "degree", "degrees"]
            .iter()
            .any(|own| own.eq_ignore_ascii_case(word))
    };
    let next = rest.get(1).and_then(|item| source.word(item));
    let taken = match (unit, next) {
        (Some(unit), _) if is_angle(unit) => 1,
        (None, Some(word)) if is_angle(word) => 2,
        _ => return None,
    };
    let degrees = number
        .parse::<f64>()
        .ok()
        .filter(|degrees| *degrees < 45.0)?;
    let per_cent = (degrees.to_radians().tan() * 1e4).round() / 1e2;
    let fix = format!("{per_cent} %");
    refused(
        source,
        rest.get(..taken)?,
        "number-unclear",
        format!("a slope is written in per cent or as a ratio: {number} degrees are about `{fix}`"),
        &[fix],
    )
}

/// `16ft6in`, `12'6`: feet and inches grown together.
fn feet_and_inches(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let tight = rest
        .iter()
        .skip(1)
        .take_while(|item| !item.spaced_before)
        .count();
    let items = rest.get(..=tight).filter(|_| tight > 0)?;
    let written = source.text_of(items);
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let at = written.find(|c: char| !c.is_ascii_digit())?;
    let (feet, after) = written.split_at_checked(at)?;
    let (mark, after) = ["ft", "'", "′", "’"]
        .into_iter()
        .find_map(|mark| Some((mark, after.strip_prefix(mark)?)))?;
    let end = after
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(after.len());
    let (inches, end) = after.split_at_checked(end)?;
    let is_end = ["", "in", "\"", "″", "”", "''"].contains(&end);
    if !digits(feet) || !digits(inches) || !is_end || inches.parse::<u32>().ok()? > 11 {
        return None;
    }
    let fix = match mark {
        "ft" => format!("{feet} ft {inches} in"),
        _ => format!("{feet}' {inches}\""),
    };
    let message = format!("feet and inches are written `{fix}`");
    refused(source, items, "number-unclear", message, &[fix])
}

/// `3 T`, `$40/T`: a unit that some take for one and others for another.
fn unit_of_two_readings(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let first = rest.first()?;
    let own = match &first.kind {
        ItemKind::Number { terms, .. } => terms.last().and_then(|term| term.unit),
        _ => return None,
    };
    let (unit, taken) = match (own, rest.get(1).map(|next| &next.kind)) {
        (None, Some(ItemKind::Per { unit })) => (*unit, 2),
        (Some(unit), _) => (unit, 1),
        _ => return None,
    };
    let written = source.slice(unit);
    let readings = unit_readings(written);
    if readings.len() < 2 {
        return None;
    }
    let place = source.place(unit);
    let message = format!("`{written}` is one unit to some and another to others; say which");
    let finding = readings.iter().fold(
        Finding::new("number-unclear", place, message),
        |finding, unit| {
            finding.fix(Fix::judged(
                format!("Write `{}`", unit.symbol),
                place,
                unit.symbol,
            ))
        },
    );
    Some((taken, finding))
}

/// `24' - 6"`, `24 ft - 6 in`.
fn feet_minus_inches(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let (feet, Some(mark)) = single(source, rest.first()?)? else {
        return None;
    };
    if !matches!(mark, "'" | "′" | "’") && find_unit(mark) != Some(&FOOT) {
        return None;
    }
    if !matches!(rest.get(1)?.kind, ItemKind::Operator(Operator::Subtract)) {
        return None;
    }
    let (inches, Some(mark)) = single(source, rest.get(2)?)? else {
        return None;
    };
    if !matches!(mark, "\"" | "″" | "”" | "''" | "’’") && find_unit(mark) != Some(&INCH) {
        return None;
    }
    let long = source.slice(rest.first()?.span);
    let short = source.slice(rest.get(2)?.span);
    let foot = if find_unit(mark).is_some() {
        " ft"
    } else {
        "'"
    };
    refused(
        source,
        rest.get(..3)?,
        "minus-unclear",
        format!("this may be {feet} feet {inches} inches, or {feet} feet less {inches} inches"),
        &[
            format!("{long} {short}"),
            format!("{long} - 0{foot} {short}"),
        ],
    )
}

/// `35° 12'`.
fn minutes_of_arc(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let (degrees, Some("°" | "deg")) = single(source, rest.first()?)? else {
        return None;
    };
    let (minutes, Some("'" | "′" | "’")) = single(source, rest.get(1)?)? else {
        return None;
    };
    let decimal = degrees.parse::<f64>().ok()? + minutes.parse::<f64>().ok()? / 60.0;
    let fix = format!("{}°", (decimal * 1e4).round() / 1e4);
    refused(
        source,
        rest.get(..2)?,
        "number-unclear",
        format!("minutes of arc would read as feet; write the angle as `{fix}`"),
        &[fix],
    )
}

/// Parts without names: `1:4`, `1:1:6`, `1 : 4`.
pub(crate) fn unlabelled(
    source: &Source<'_>,
    items: &[Item],
    start: usize,
) -> Option<Vec<Quantity>> {
    let rest = items.get(start..)?;
    let written = source
        .place_of(rest)
        .span
        .relative_to(source.start)
        .slice(source.text);
    let numbers_only = rest.iter().all(|item| match &item.kind {
        ItemKind::TightParts | ItemKind::Ratio { .. } | ItemKind::Colon => true,
        ItemKind::Number { .. } => number_item(source, item)
            .is_ok_and(|quantity| quantity.kind == Kind::Plain && quantity.dimension.is_none()),
        _ => false,
    });
    if !numbers_only || !written.contains(':') {
        return None;
    }
    written
        .split(':')
        .map(|part| crate::units::Number::parse(part.trim()).map(Quantity::plain))
        .collect()
}

/// `key: value` and `key = value`: how many items to pass over, and the
/// finding.
pub(crate) fn mark_after_key(
    source: &Source<'_>,
    key: &str,
    items: &[Item],
) -> Option<(usize, Finding)> {
    let first = items.first()?;
    let mark = match first.kind {
        ItemKind::Colon => ":",
        ItemKind::Equals => "=",
        _ => return None,
    };
    let place = source.place(first.span);
    let after = items
        .get(1)
        .map_or(place, |next| source.place(next.span).start());
    let gap = crate::findings::Place {
        span: crate::text::Span::new(
            source.line.word.end + source.start,
            after.span.start.max(place.span.end),
        ),
        ..place
    };
    Some((
        1,
        Finding::new(
            "word-stray",
            place,
            format!("`{key}` and its value need no `{mark}` between them"),
        )
        .severity(Severity::Warning)
        .fix(Fix::safe(format!("Take out the `{mark}`"), gap, " ")),
    ))
}

/// `(1,5 m, 2,5 m)`: decimal commas in a point.
pub(crate) fn commas_in_point(
    source: &Source<'_>,
    item: &Item,
    phrases: &[Phrase],
) -> Option<Finding> {
    let mut members: Vec<String> = Vec::new();
    let mut end = None;
    let mut is_whole = false;
    for phrase in phrases {
        let written = source.slice(phrase.span);
        let is_plain = matches!(&*phrase.items, [only] if single(source, only).is_some_and(|(_, unit)| unit.is_none()));
        match members.last_mut() {
            Some(last)
                if is_whole
                    && end.is_some_and(|end| end + 1 == phrase.span.start)
                    && written.starts_with(|first: char| first.is_ascii_digit()) =>
            {
                *last = format!("{last}.{written}");
                is_whole = false;
            }
            _ => {
                members.push(written.to_owned());
                is_whole = is_plain;
            }
        }
        end = Some(phrase.span.end);
    }
    let [east, north] = members.as_slice() else {
        return None;
    };
    let place = source.place(item.span);
    let point = format!("({east}, {north})");
    let message = format!("a comma separates two values; a decimal takes a point: `{point}`");
    Some(
        Finding::new("number-unclear", place, message).fix(Fix::judged(
            format!("Write `{point}`"),
            place,
            point,
        )),
    )
}

/// `(5.2 m; -3.1 m)`: a point with another mark between its numbers.
pub(crate) fn mark_in_point(source: &Source<'_>, item: &Item) -> Option<Finding> {
    let place = source.place(item.span);
    let written = source.slice(item.span);
    let (east, north) = written.split_once(';')?;
    let point = format!("{}, {}", east.trim_end(), north.trim_start());
    let message = format!("a comma separates the two numbers of a point: `{point}`");
    let finding = Finding::new("word-stray", place, message);
    Some(finding.fix(Fix::judged(format!("Write `{point}`"), place, point)))
}

/// `start 0, 0`: a point without its parenthesis, in two phrases; before it
/// stand so many words in the first.
pub(crate) fn bare_point(source: &Source<'_>, phrase: usize, words: usize) -> Option<Finding> {
    let [east, north, ..] = source.line.phrases.get(phrase..)? else {
        return None;
    };
    let (east, north) = (east.items.get(words..)?, &*north.items);
    let is_number = |items: &[Item]| {
        let numbers =
            |item: &Item| matches!(item.kind, ItemKind::Number { .. } | ItemKind::Negative);
        !items.is_empty() && items.iter().all(numbers)
    };
    if !is_number(east) || !is_number(north) {
        return None;
    }
    let place = source.place_of(east).to(source.place_of(north));
    let point = format!("({}, {})", source.text_of(east), source.text_of(north));
    let message = format!("a point goes in parentheses: `{point}`");
    Some(Finding::new("word-stray", place, message).fix(Fix::safe(
        format!("Write `{point}`"),
        place,
        point,
    )))
}

/// A number without a unit as it is written, money with its sign.
fn bare<'a>(source: &Source<'a>, item: &Item) -> Option<(&'a str, Option<&'a str>)> {
    match &item.kind {
        ItemKind::Number { terms, currency } if currency.is_some() => match &**terms {
            [term] if term.unit.is_none() => Some((source.slice(item.span), None)),
            _ => None,
        },
        _ => single(source, item),
    }
}

/// `1,5 m`: a comma tight between two digits, with the index of the phrase
/// before it.
pub(crate) fn decimal_commas(source: &Source<'_>) -> Vec<(usize, Finding)> {
    let mut reported: Vec<(usize, Finding)> = Vec::new();
    for (index, comma) in source.line.commas.iter().enumerate() {
        let (Some(before), Some(after)) = (
            source
                .line
                .phrases
                .get(index)
                .and_then(|phrase| phrase.items.last()),
            source
                .line
                .phrases
                .get(index + 1)
                .and_then(|phrase| phrase.items.first()),
        ) else {
            continue;
        };
        let tight = before.span.end == comma.start && after.span.start == comma.end;
        if !tight {
            continue;
        }
        let (Some((left, None)), Some((right, _))) = (bare(source, before), single(source, after))
        else {
            continue;
        };
        if !right.starts_with(|first: char| first.is_ascii_digit()) {
            continue;
        }
        let place = source.place(before.span.join(after.span));
        let whole = source.slice(after.span);
        let point = format!("{left}.{whole}");
        let apart = format!("{left}, {whole}");
        let is_money = !left.starts_with(|first: char| first.is_ascii_digit());
        let finding = Finding::new(
            "number-unclear",
            place,
            format!("a comma splits this into two values; a decimal takes a point: `{point}`"),
        )
        .fix(Fix::judged(format!("Write `{point}`"), place, point));
        let finding = match is_money {
            true => finding,
            false => finding.fix(Fix::judged(format!("Write `{apart}`"), place, apart)),
        };
        reported.push((index, finding));
    }
    reported
}
