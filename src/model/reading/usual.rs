//! Figures that nobody builds by: a slip of a unit or a point, told with what
//! is usual and the unit that makes it so.

use super::super::resolve::constant;
use super::literal::literal;
use super::source::Source;
use super::value::{Entry, Filled, Value};
use crate::findings::{Finding, Fix, Place, Severity};
use crate::units::unit::{HOUR, INCH, UNITS};
use crate::units::{Dimension, Kind, Number, Quantity, System, Unit, find_unit, show};
use crate::vocabulary::Bounds;

/// Units that nobody states the size of a thing by on site.
const SELDOM: &[&str] = &["cm", "yd", "sq in", "cu in", "g"];

/// Lengths that differ by less are shown alike, in metres.
const SAME: f64 = 1e-6;

/// Slots whose name is no thing that a figure could be of.
const NO_NOUNS: &[&str] = &[
    "EAST", "NORTH", "MOST", "LEAST", "ACROSS", "LONG", "WIDE", "DEEP", "ROUND", "OVER_ALL", "DOWN",
];

/// Tells of the figures of an entry that lie far from all that is built.
pub(super) fn tell(source: &Source<'_>, entry: &Entry, findings: &mut Vec<Finding>) {
    let clauses = entry.clauses.iter().map(|clause| &clause.filled);
    for filled in std::iter::once(&entry.filled).chain(clauses) {
        for (slot, value, place) in &filled.0 {
            let Value::Quantity(expression) = value else {
                continue;
            };
            let Some(figure) = constant(expression) else {
                continue;
            };
            let written = place.span.relative_to(source.start).slice(source.text);
            let system = || system_of(written);
            let word = source.slice(source.line.word);
            let odd = odd(filled, slot, (figure, written), system, (word, *place));
            let Some((finding, bounds)) = odd else {
                continue;
            };
            let meant = meant(written, figure.dimension, bounds).into_iter();
            findings.push(meant.fold(finding, |finding, text| {
                finding.fix(Fix::judged(format!("Write `{text}`"), *place, text))
            }));
        }
    }
}

/// Tells of a figure in a slot that was worked out from names, and lies far
/// from all that is built.
pub(crate) fn odd_when_worked_out(
    filled: &Filled,
    slot: &str,
    figure: Quantity,
    system: System,
    place: Place,
) -> Option<Finding> {
    if filled
        .quantity(slot)
        .is_none_or(|own| constant(own).is_some())
    {
        return None;
    }
    let shown = show::quantity(&figure, system);
    let word = filled.1?.word;
    Some(odd(filled, slot, (figure, &shown), || system, (word, place))?.0)
}

fn odd(
    filled: &Filled,
    slot: &str,
    (figure, shown): (Quantity, &str),
    system: impl FnOnce() -> System,
    (word, place): (&str, Place),
) -> Option<(Finding, Bounds)> {
    let key = filled.1?;
    let bounds = key.bounds(slot)?;
    let Bounds::Between(least, most) = bounds else {
        return None;
    };
    if bounds.hold(figure.si()) {
        return None;
    }
    // Of what measures something else another finding tells.
    let kind = key.slots().find(|(name, _)| *name == slot)?.1;
    let wanted = kind.dimension().unwrap_or(Dimension::MONEY_PER_TIME);
    if figure.dimension != wanted {
        return None;
    }
    let what = match slot.to_lowercase().replace('_', " ") {
        same if same == key.word || same == "air" => format!("`{word}`"),
        _ if NO_NOUNS.contains(&slot) => format!("size in `{word}`"),
        noun => format!("{noun} in `{word}`"),
    };
    let (bound, side) = match figure.si().abs() < least {
        true => (least, "least"),
        false => (most, "most"),
    };
    let doubt = match figure.dimension.is_none() {
        true => "figure",
        false => "unit",
    };
    let message = format!(
        "no {what} comes to {shown}; {} is about the {side}: check the {doubt}",
        about(bound, &figure, system())
    );
    let finding = Finding::new("value-odd", place, message).severity(Severity::Warning);
    Some((finding.found(shown, Some(figure)), bounds))
}

/// The system that a figure is written in.
fn system_of(written: &str) -> System {
    let (_, unit, _) = parted(written);
    match unit {
        "'" | "\"" | "′" | "″" | "’" | "”" => System::Imperial,
        unit => find_unit(unit)
            .and_then(|unit| unit.system)
            .unwrap_or(System::Metric),
    }
}

/// A figure parted into its number, its unit and what that is over.
fn parted(written: &str) -> (&str, &str, &str) {
    let is_number = |c: char| c.is_ascii_digit() || "-−.,/ ½¼¾$£€".contains(c);
    let end = written.find(|c: char| !is_number(c));
    let (number, unit) = written.split_at(end.unwrap_or(written.len()));
    // `£28/h` has no unit but for the one that it is over.
    let number_end = number.trim_end_matches(['/', ' ']).len();
    let unit = match number
        .get(number_end..)
        .is_some_and(|gap| gap.contains('/'))
    {
        true => written.get(number_end..).unwrap_or(unit),
        false => unit,
    };
    let number = number.get(..number_end).unwrap_or(number);
    let over = unit.find('/').or_else(|| unit.find(" per "));
    let (unit, over) = unit.split_at(over.unwrap_or(unit.len()));
    (number, unit.trim(), over)
}

/// The same number in another unit, where that is usual: `1.2 m` for `1.2 mm`;
/// of a share or of money with its point: `20 %` for `200 %`.
fn meant(written: &str, dimension: Dimension, bounds: Bounds) -> Vec<String> {
    let (number, unit, over) = parted(written);
    let is_usual = |text: &String| {
        literal(text).is_some_and(|figure| {
            figure.dimension == dimension && figure.si() != 0.0 && bounds.hold(figure.si())
        })
    };
    let moved = match unit {
        "%" => with_a_point(number, " %"),
        "" => with_a_point(number, over),
        _ => Vec::new(),
    };
    if let Some(text) = moved.into_iter().find(is_usual) {
        return vec![text];
    }
    let mark = match unit {
        "'" => Some("\""),
        "\"" => Some("'"),
        _ => None,
    };
    if let Some(mark) = mark {
        let text = format!("{number}{mark}{over}");
        return Some(text).filter(is_usual).into_iter().collect();
    }
    let Some(own) = find_unit(unit) else {
        return Vec::new();
    };
    let in_other_units = |is_wanted: &dyn Fn(&Unit) -> bool| -> Vec<String> {
        let like = |other: &&&Unit| {
            other.dimension == own.dimension
                && other.symbol != own.symbol
                && !SELDOM.contains(&other.symbol)
                && is_wanted(other)
        };
        let texts = UNITS.iter().filter(like);
        let texts = texts.map(|other| format!("{number} {}{over}", other.symbol));
        texts.filter(is_usual).collect()
    };
    let alike = in_other_units(&|other| other.system == own.system);
    match alike.is_empty() {
        false => alike,
        true => in_other_units(&|other| other.system != own.system),
    }
}

/// A number whose point was lost, or set one or two digits too far.
fn with_a_point(number: &str, after: &str) -> Vec<String> {
    let at = number.find(|c: char| c.is_ascii_digit()).unwrap_or(0);
    let (sign, digits) = number.split_at(at);
    let Ok(figure) = digits.replace(',', "").parse::<f64>() else {
        return Vec::new();
    };
    let is_money = !sign.is_empty() && !sign.contains(['-', '−']);
    let parts: &[f64] = match is_money {
        true => &[100.0],
        false => &[10.0, 100.0, 0.1, 0.01],
    };
    let moved = parts.iter().map(|part| (figure / part * 1e6).round() / 1e6);
    moved
        .map(|figure| format!("{sign}{figure}{after}"))
        .collect()
}

/// A bound as people say it: no more exact than it is meant.
fn about(bound: f64, like: &Quantity, system: System) -> String {
    if like.dimension == Dimension::MONEY_PER_TIME
        && let Some(hour) = Number::near(bound * HOUR.size().to_f64())
        && let Some(currency) = like.currency
    {
        let amount = Quantity::money(hour, currency);
        return format!("{}/h", show::quantity(&amount, system));
    }
    let unit = match (like.dimension, system) {
        (Dimension::LENGTH, System::Imperial) => match bound < 0.3048 {
            true => "in",
            false => "ft",
        },
        _ => "",
    };
    let number = match find_unit(unit) {
        Some(unit) => {
            let count = unit.from_base(bound);
            let eighths = (count * 8.0).round().max(1.0) / 8.0;
            let rough = if count < 4.0 { eighths } else { count.round() };
            let rough = rough * unit.size().to_f64();
            // `5 ft` is not past what is shown as 5' 0".
            let figure = like.si().abs();
            let step = match bound < 0.1 {
                true => INCH.size().to_f64() / 8.0,
                false => INCH.size().to_f64(),
            };
            match figure > bound {
                true if figure <= rough + SAME => (bound / step).floor() * step,
                false if figure >= rough - SAME => (bound / step).ceil() * step,
                _ => rough,
            }
        }
        None => bound,
    };
    let shown = Number::near(number).map(|number| Quantity { number, ..*like });
    match shown {
        Some(bound) if bound.dimension.is_none() => match like.kind {
            Kind::Proportion => show::share(bound.si()),
            Kind::Plain => show::number(bound.si()),
        },
        Some(bound) => show::quantity(&bound, system),
        None => String::new(),
    }
}
