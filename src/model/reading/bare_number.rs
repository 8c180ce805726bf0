//! Numbers without a unit, where one belongs.

use super::number::{continues, number_item, single};
use super::source::Source;
use crate::findings::{Finding, Fix};
use crate::syntax::{Item, ItemKind};
use crate::vocabulary::ValueKind;

/// A bare number where a unit belongs: how many items it takes, and the
/// finding that offers the units, the likeliest first.
pub(crate) fn bare_number(
    source: &Source<'_>,
    rest: &[Item],
    kind: ValueKind,
) -> Option<(usize, Finding)> {
    let sign = usize::from(rest.first()?.kind == ItemKind::Negative);
    let from = rest.get(sign..)?;
    let first = from.first()?;
    let (digits, unit) = single(source, first)?;
    let is_zero = || number_item(source, first).is_ok_and(|quantity| quantity.number.is_zero());
    if unit.is_some() || continues(from) || is_zero() {
        return None;
    }
    let number = format!("{}{digits}", if sign == 1 { "-" } else { "" });
    let units: &[&str] = match kind {
        ValueKind::Length => &["in", "mm", "ft", "m"],
        ValueKind::Share => &["%"],
        ValueKind::Area => &["sq ft", "m2"],
        ValueKind::Volume => &["cu ft", "m3"],
        ValueKind::Mass => &["lb", "kg"],
        ValueKind::Strength => &["psi", "MPa"],
        ValueKind::Density => &["lb/cu ft", "kg/m3"],
        ValueKind::Time => &["min", "h"],
        ValueKind::Stay => &["days", "weeks"],
        ValueKind::Angle => &["°"],
        ValueKind::Temperature => &["°C", "°F"],
        ValueKind::Rainfall | ValueKind::Infiltration => &["in/h", "mm/h"],
        _ => return None,
    };
    let mut units = units.to_vec();
    if let Some(likely) = likely_unit(source, from, (digits, &units))
        && let Some(at) = units.iter().position(|unit| *unit == likely)
    {
        units.remove(at);
        units.insert(0, likely);
    }
    let is_part = |next: &&Item| match next.kind {
        ItemKind::Word => centimetres(source.slice(next.span)).is_some(),
        ItemKind::Stray => source.slice(next.span).starts_with(['-', '−', '–']),
        _ => false,
    };
    let glued = from.get(1).filter(|next| !next.spaced_before);
    let glued = glued.filter(is_part);
    // With a unit in the midst of what is written as one, nothing is better.
    if let Some(glued) = glued {
        return glued_on(source, rest.get(..sign + 2)?, (digits, glued), kind);
    }
    let place = source.place_of(rest.get(..=sign)?);
    let message = format!("{number} has no unit: {} belongs here", kind.noun());
    let mut finding = Finding::new("unit-missing", place, message);
    // `waste 0.08` is 8 % to most who write it.
    if kind == ValueKind::Share
        && let Some(text) = in_per_cent(digits)
    {
        let text = format!("{}{text}", if sign == 1 { "-" } else { "" });
        finding = finding.fix(Fix::judged(format!("Write `{text}`"), place, text));
    }
    // `4x8 in` is parted again where the unit comes in.
    let by = from
        .get(1)
        .filter(|next| next.kind == ItemKind::By && !next.spaced_before);
    let (replaced, after) = match by {
        Some(by) => (place.to(source.place(by.span)), " by "),
        None => (place, ""),
    };
    for unit in units {
        let blank = if unit == "°" { "" } else { " " };
        let unit = match (kind, digits) {
            (ValueKind::Stay, "1") => unit.trim_end_matches('s'),
            _ => unit,
        };
        let text = format!("{number}{blank}{unit}");
        finding = finding.fix(Fix::judged(
            format!("Write `{text}`"),
            replaced,
            format!("{text}{after}"),
        ));
    }
    Some((sign + 1, finding))
}

/// `(6, 4)`, `(0, -4)`: points whose numbers have no units, all that follow one
/// another.
pub(crate) fn bare_points(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let bare: Vec<[Coordinate<'_>; 2]> =
        rest.iter().map_while(|item| point(source, item)).collect();
    let items = rest.get(..bare.len())?;
    let first = items.first()?;
    let all = || bare.iter().flatten();
    let has_unit = |coordinate: &Coordinate<'_>| coordinate.2;
    if all().all(|(_, digits, _)| is_none(digits)) || all().any(has_unit) {
        return None;
    }
    let place = source.place_of(items);
    let message = match bare.len() {
        1 => format!("{} has no units", source.slice(first.span)),
        _ => "these points have no units".to_owned(),
    };
    let finding = Finding::new("unit-missing", place, message);
    let mut units = vec!["m", "ft", "mm"];
    if let Some(likely) = likely_unit(source, &[], ("", &units))
        && let Some(at) = units.iter().position(|unit| *unit == likely)
    {
        units.remove(at);
        units.insert(0, likely);
    }
    let with = |unit: &str| {
        let points = bare.iter().map(|[east, north]| {
            let written = [east, north].map(|(sign, digits, _)| match is_none(digits) {
                true => (*digits).to_owned(),
                false => format!("{sign}{digits} {unit}"),
            });
            format!("({})", written.join(", "))
        });
        points.collect::<Vec<_>>().join(" ")
    };
    let finding = units.into_iter().fold(finding, |finding, unit| {
        let text = with(unit);
        finding.fix(Fix::judged(format!("Write `{text}`"), place, text))
    });
    Some((items.len(), finding))
}

/// A number of a point: its sign, its digits and whether it has a unit.
type Coordinate<'a> = (&'static str, &'a str, bool);

fn is_none(digits: &str) -> bool {
    digits.bytes().all(|digit| b"0.".contains(&digit))
}

/// The two numbers of a point, where it is made of such.
fn point<'a>(source: &Source<'a>, item: &Item) -> Option<[Coordinate<'a>; 2]> {
    let ItemKind::Group { phrases } = &item.kind else {
        return None;
    };
    let coordinate = |items: &[Item]| {
        let (sign, number) = match items {
            [number] => ("", number),
            [minus, number] if minus.kind == ItemKind::Negative => ("-", number),
            _ => return None,
        };
        let (digits, unit) = single(source, number)?;
        Some((sign, digits, unit.is_some()))
    };
    match &**phrases {
        [east, north] => Some([coordinate(&east.items)?, coordinate(&north.items)?]),
        _ => None,
    }
}

/// `5m50`, `-150-160`: a number with something grown to it.
fn glued_on(
    source: &Source<'_>,
    items: &[Item],
    (digits, glued): (&str, &Item),
    kind: ValueKind,
) -> Option<(usize, Finding)> {
    let place = source.place_of(items);
    let written = source.text_of(items);
    let metres = centimetres(source.slice(glued.span));
    let message = format!("`{written}` is not a value: {} belongs here", kind.noun());
    let finding = Finding::new("number-unclear", place, message);
    let finding = match metres.filter(|_| kind == ValueKind::Length) {
        Some(after) => {
            let sign = written.get(..written.find(digits)?)?;
            let text = format!("{sign}{digits}.{after} m");
            finding.fix(Fix::judged(format!("Write `{text}`"), place, text))
        }
        None => finding,
    };
    Some((items.len(), finding))
}

/// The digits behind metres, `m50`.
fn centimetres(word: &str) -> Option<&str> {
    let after = word.strip_prefix(['m', 'M'])?;
    let is_short = matches!(after.len(), 1..=3);
    (is_short && after.bytes().all(|own| own.is_ascii_digit())).then_some(after)
}

/// A share of one, `0.08`, in per cent; nothing for a number of one or more.
pub(crate) fn in_per_cent(digits: &str) -> Option<String> {
    let share: f64 = digits.parse().ok()?;
    let is_share = share > 0.0 && share < 1.0 && digits.contains('.');
    let per_cent = (share * 1e8).round() / 1e6;
    is_share.then(|| format!("{per_cent} %"))
}

/// The unit that a bare number most likely has, of those that it may have:
/// that of the next value on the line, `600 x 900 mm`, or of any; a large one
/// that stands alone, millimetres.
fn likely_unit<'a>(
    source: &Source<'a>,
    rest: &[Item],
    (number, may_be): (&str, &[&str]),
) -> Option<&'a str> {
    let line = source.line.phrases.iter().flat_map(|phrase| &phrase.items);
    let mut units = rest
        .iter()
        .chain(line)
        .filter_map(|item| single(source, item)?.1)
        .map(|unit| match unit {
            "'" => "ft",
            "\"" => "in",
            unit => unit,
        })
        .filter(|unit| may_be.contains(unit));
    let is_large = || number.parse::<f64>().is_ok_and(|number| number > 36.0);
    units.next().or_else(|| is_large().then_some("mm"))
}
