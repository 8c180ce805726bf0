//! Figures shown so finely that they are told from the one beside them.

use super::digits::measure;
use super::slope;
use crate::units::unit::INCH;
use crate::units::{Number, Quantity, Scale, System, degrees_in, find_unit};

/// So many more decimals are shown at most.
const MOST: u32 = 4;

/// A figure with as many more decimals than in `usual`, as it is usually
/// shown, as it takes for it to read unlike another that it differs from:
/// `1.99 % (1:50.3)` beside `2 % (1:50)`, `99.98 mm` beside `100 mm`.
pub fn apart(figure: &Quantity, usual: String, other: &str, system: System) -> String {
    if !reads_alike(&usual, other) {
        return usual;
    }
    let mut finer = (1..=MOST).filter_map(|more| finely(figure, &usual, more, system));
    let unlike = finer.find(|text| !reads_alike(text, other));
    unlike.unwrap_or(usual)
}

/// A figure with as many more decimals than in `usual` as it takes for it not
/// to read as nothing, where it is something: `0.02 in`.
pub fn something(figure: &Quantity, usual: String, system: System) -> String {
    let is_nothing = |text: &str| !text.contains(|digit| ('1'..='9').contains(&digit));
    if figure.number.is_zero() || !is_nothing(&usual) {
        return usual;
    }
    let mut finer = (1..=MOST).filter_map(|more| finely(figure, &usual, more, system));
    finer.find(|text| !is_nothing(text)).unwrap_or(usual)
}

/// A figure that somebody wrote, with as many more decimals than in `usual`
/// as it takes for all of it to be shown, `100.02 mm`; as usual where its
/// decimals do not end in these units.
pub fn exactly(figure: &Quantity, usual: String, system: System) -> String {
    if is_off_a_tape(&usual) && is_on_a_tape(figure) {
        return usual;
    }
    let shown = |more| finely(figure, &usual, more, system);
    let ends = |whole: &String| shown(MOST + 1).is_some_and(|more| reads_alike(&more, whole));
    let Some(whole) = shown(MOST).filter(ends) else {
        return usual;
    };
    let finer = (0..=MOST).filter_map(|more| Some((more, shown(more)?)));
    let mut finer = finer.skip_while(|(_, text)| !reads_alike(text, &whole));
    match (finer.next(), whole.split_once(" (")) {
        (Some((0, _)), _) if !is_off_a_tape(&usual) => usual,
        // Of a slope whose ratio goes on, the share alone.
        (Some((_, text)), Some((share, ratio))) if !text.ends_with(ratio) => share.to_owned(),
        (Some((_, text)), _) => text,
        (None, _) => usual,
    }
}

/// Whether two figures are the same text, or have the share or the ratio of a
/// slope in common.
fn reads_alike(one: &str, other: &str) -> bool {
    let mut both = one.split(" (").zip(other.split(" ("));
    both.any(|(one, other)| one == other)
}

fn is_off_a_tape(usual: &str) -> bool {
    usual.ends_with('"')
}

/// Whether a length comes to whole sixteenths of an inch.
fn is_on_a_tape(length: &Quantity) -> bool {
    let sixteenths = INCH.from_base(length.si()) * 16.0;
    (sixteenths - sixteenths.round()).abs() < 1e-6
}

/// A figure with so many more decimals than in `usual`, in the same unit;
/// nothing where that is none of ours: money.
fn finely(figure: &Quantity, usual: &str, more: u32, system: System) -> Option<String> {
    if is_off_a_tape(usual) {
        return Some(measure(INCH.from_base(figure.si()), 1 + more, " in"));
    }
    let is_digit = |letter: char| letter.is_ascii_digit() || ".,-".contains(letter);
    let (digits, unit) = usual.split_at(
        usual
            .find(|letter| !is_digit(letter))
            .unwrap_or(usual.len()),
    );
    let decimals = digits.split_once('.').map_or(0, |(_, part)| part.len());
    let value = match unit {
        _ if unit.contains('(') => return Some(slope::finely(figure.si(), more)),
        "" | "°" => figure.si(),
        " %" => figure.si() * 100.0,
        " °F" | " °C" => degrees(figure, system)?,
        _ => figure.si() / size(unit.trim_start())?,
    };
    Some(measure(value, decimals as u32 + more, unit))
}

/// A temperature in the degrees of a system.
fn degrees(temperature: &Quantity, system: System) -> Option<f64> {
    let scale = match system {
        System::Imperial => Scale::Fahrenheit,
        System::Metric => Scale::Celsius,
    };
    degrees_in(temperature.number, scale).map(Number::to_f64)
}

/// The size of a unit, or of one over another as `kg/m³`, in base units.
fn size(unit: &str) -> Option<f64> {
    let mut sizes = unit
        .split('/')
        .map(|unit| Some(find_unit(unit)?.size().to_f64()));
    let first = sizes.next()??;
    sizes.try_fold(first, |size, below| Some(size / below?))
}

#[cfg(test)]
mod tests {
    use super::super::{quantity, share};
    use super::*;
    use crate::units::Dimension;

    fn near(value: f64, dimension: Dimension) -> Quantity {
        Quantity::near(value, dimension).unwrap()
    }

    fn slope(value: f64) -> Quantity {
        Quantity::proportion(Number::Near(value))
    }

    #[test]
    fn what_is_there_does_not_read_as_nothing() {
        for (metres, system, shown) in [
            (0.0254 / 64.0, System::Imperial, "0.02 in"),
            (0.0254 / 16.0, System::Imperial, "1/16\""),
            (0.0, System::Imperial, "0\""),
            (0.0002, System::Metric, "0.2 mm"),
        ] {
            let figure = near(metres, Dimension::LENGTH);
            let usual = quantity(&figure, system);
            assert_eq!(something(&figure, usual, system), shown);
        }
    }

    #[test]
    fn what_differs_reads_unlike() {
        let length = |value| near(value, Dimension::LENGTH);
        let (metric, imperial) = (System::Metric, System::Imperial);
        for (figure, other, system, shown) in [
            (slope(0.0199), "2 % (1:50)", metric, "1.99 % (1:50.3)"),
            (slope(1.0 / 47.0), "2.08 % (1:48)", metric, "2.13 % (1:47)"),
            (
                slope(1.0 / 47.98),
                "2.08 % (1:48)",
                metric,
                "2.084 % (1:47.98)",
            ),
            (slope(0.051), "5 % (1:20)", metric, "5.1 % (1:19.6)"),
            (length(0.0254 / 32.0), "1/16\"", imperial, "0.03 in"),
            (length(0.0254 * 3.99), "4\"", imperial, "3.99 in"),
            (length(0.9), "1 m", metric, "900 mm"),
            (length(0.9004), "900 mm", metric, "900.4 mm"),
            (length(0.09997), "100 mm", metric, "99.97 mm"),
            (length(2.9998), "3 m", metric, "2.9998 m"),
            (near(23.04, Dimension::MASS), "23 kg", metric, "23.04 kg"),
            (near(5.004, Dimension::AREA), "5 m²", metric, "5.004 m²"),
            (
                near(2_240.04, Dimension::DENSITY),
                "2,240 kg/m³",
                metric,
                "2,240.04 kg/m³",
            ),
            (near(86_350.0, Dimension::TIME), "24 h", metric, "23.99 h"),
            (
                near(277.53, Dimension::TEMPERATURE),
                "4.4 °C",
                metric,
                "4.38 °C",
            ),
            (
                near(277.58, Dimension::TEMPERATURE),
                "40 °F",
                imperial,
                "39.97 °F",
            ),
            (near(42.001, Dimension::ANGLE), "42°", metric, "42.001°"),
            (Quantity::plain(Number::Near(36.25)), "36", metric, "36.25"),
        ] {
            let usual = quantity(&figure, system);
            assert_eq!(apart(&figure, usual, other, system), shown);
        }
        let voids = slope(0.450_01);
        let usual = share(voids.si());
        assert_eq!(apart(&voids, usual, "45 %", metric), "45.001 %");
    }

    #[test]
    fn what_somebody_wrote_is_shown_whole() {
        for (written, system, shown) in [
            ("100.02", System::Metric, "100.02 mm"),
            ("100", System::Metric, "100 mm"),
            ("101.6", System::Imperial, "4\""),
            ("100.02", System::Imperial, "3 15/16\""),
            ("100.584", System::Imperial, "3.96 in"),
        ] {
            let metres = Number::parse(written).unwrap().to_f64() / 1_000.0;
            let length = near(metres, Dimension::LENGTH);
            assert_eq!(exactly(&length, quantity(&length, system), system), shown);
        }
        for (value, shown) in [
            (1.0 / 48.0, "2.08 % (1:48)"),
            (0.02, "2 % (1:50)"),
            (0.012_501, "1.2501 %"),
            (1.0 / 47.5, "2.11 % (1:47.5)"),
        ] {
            let usual = quantity(&slope(value), System::Metric);
            assert_eq!(exactly(&slope(value), usual, System::Metric), shown);
        }
    }
}
