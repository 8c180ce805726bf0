//! Lengths, levels and falls as drawings write them: millimetres and metres
//! without their unit, which the title block names, or feet and inches.

use super::lettering::{FRACTION, THIN_SPACE};
use crate::units::rounding::nearest;
use crate::units::unit::{INCH, MILLIMETRE};
use crate::units::{System, show};

/// Sixteenths of an inch in a foot.
const FOOT: u64 = 192;
/// And in an inch.
const INCHES: u64 = 16;

/// A length in metres: `7 200`, `24′-6 1⁄2″`.
pub(crate) fn length(metres: f64, system: System) -> String {
    match system {
        System::Metric => millimetres(metres, 0),
        System::Imperial => feet(metres),
    }
}

/// How thick a layer of so many metres is: `150`, `6″`, and `62.5` where that
/// was written.
pub(crate) fn thickness(metres: f64, system: System) -> String {
    match (system, sixteenths(metres)) {
        (System::Imperial, Some(count)) if count < 4 * FOOT => inches(count),
        (System::Imperial, _) => feet(metres),
        (System::Metric, _) => millimetres(metres, show::tenths_of_millimetres(metres)),
    }
}

/// The two sides of a unit in metres: `200 × 100`, `12″ × 6″`.
pub(crate) fn unit(long: f64, short: f64, system: System) -> String {
    format!("{} × {}", thickness(long, system), thickness(short, system))
}

/// A level in metres against the datum: `−0.150`, `−4 5⁄8″`.
pub(crate) fn level(metres: f64, system: System) -> String {
    match system {
        System::Metric => {
            let text = format!("{:.3}", metres.abs());
            let is_zero = text.chars().all(|letter| matches!(letter, '0' | '.'));
            signed(metres < 0.0 && !is_zero, &text)
        }
        System::Imperial => match sixteenths(metres) {
            Some(count) => signed(metres < 0.0 && count > 0, &inches(count)),
            None => unknown(),
        },
    }
}

/// A fall in metres to a metre: what is built to, and what explains it.
pub(crate) fn fall(slope: f64, system: System) -> (String, String) {
    let (slope, percent) = (slope.abs(), percent(slope.abs()));
    let ratio = ratio(slope);
    let per_foot = slope * FOOT as f64;
    // In sixteenths to the foot where it comes out, as a level reads.
    let is_even = per_foot >= 1.0 && (per_foot - per_foot.round()).abs() < 0.01;
    match system {
        System::Imperial if is_even && per_foot < 1e6 => (
            format!("{} per ft", inches(per_foot.round() as u64)),
            format!("{ratio} · {percent}"),
        ),
        _ => (ratio, percent),
    }
}

fn ratio(slope: f64) -> String {
    let run = 1.0 / slope;
    match run {
        run if !run.is_finite() || run > 9999.0 => "level".to_owned(),
        run if (run - run.round()).abs() < 0.005 || run >= 20.0 => format!("1:{run:.0}"),
        run => format!("1:{run:.1}"),
    }
}

fn percent(slope: f64) -> String {
    let text = format!("{:.2}", slope * 100.0);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    format!("{text} %")
}

fn signed(is_negative: bool, text: &str) -> String {
    match is_negative {
        true => format!("−{text}"),
        false => text.to_owned(),
    }
}

fn unknown() -> String {
    "–".to_owned()
}

fn millimetres(metres: f64, places: u32) -> String {
    let scale = 10_f64.powi(places as i32);
    let value = nearest(MILLIMETRE.from_base(metres) * scale) / scale;
    if !value.is_finite() || value.abs() > 1e12 {
        return unknown();
    }
    let digits = format!("{:.*}", places as usize, value.abs());
    let (whole, part) = digits.split_at(digits.find('.').unwrap_or(digits.len()));
    let mut text = String::new();
    for (at, digit) in whole.chars().enumerate() {
        if at > 0 && (whole.len() - at).is_multiple_of(3) {
            text.push(THIN_SPACE);
        }
        text.push(digit);
    }
    signed(value < 0.0, &(text + part))
}

/// A length in metres as sixteenths of an inch, without its sign.
fn sixteenths(metres: f64) -> Option<u64> {
    let count = (INCH.from_base(metres.abs()) * INCHES as f64).round();
    (count < 1e12).then_some(count as u64)
}

fn feet(metres: f64) -> String {
    let Some(count) = sixteenths(metres) else {
        return unknown();
    };
    let text = match count / FOOT {
        0 => inches(count),
        feet => format!(
            "{}′-{}{}",
            show::grouped(&feet.to_string()),
            if (1..INCHES).contains(&(count % FOOT)) {
                "0 "
            } else {
                ""
            },
            inches(count % FOOT)
        ),
    };
    signed(metres < 0.0 && count > 0, &text)
}

fn inches(count: u64) -> String {
    let (whole, part) = (count / INCHES, count % INCHES);
    if part == 0 {
        return format!("{whole}″");
    }
    let halvings = part.trailing_zeros().min(INCHES.trailing_zeros());
    let fraction = format!("{}{FRACTION}{}", part >> halvings, INCHES >> halvings);
    match whole {
        0 => format!("{fraction}″"),
        _ => format!("{whole} {fraction}″"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_written_as_on_drawings() {
        use System::{Imperial, Metric};
        let foot = 0.3048;
        for (metres, system, text) in [
            (7.2, Metric, "7\u{2009}200"),
            (0.4496, Metric, "450"),
            (12_345.678, Metric, "12\u{2009}345\u{2009}678"),
            (24.5 * foot, Imperial, "24′-6″"),
            (0.5 * foot, Imperial, "6″"),
            (foot + 0.0254 * 0.625, Imperial, "1′-0 5⁄8″"),
            (0.0, Imperial, "0″"),
            (f64::NAN, Metric, "–"),
            (f64::INFINITY, Imperial, "–"),
        ] {
            assert_eq!(length(metres, system), text);
        }
    }

    #[test]
    fn units_are_written_in_inches() {
        assert_eq!(unit(0.2, 0.1, System::Metric), "200 × 100");
        assert_eq!(unit(0.215, 0.1025, System::Metric), "215 × 102.5");
        assert_eq!(unit(0.2, 0.0985, System::Metric), "200 × 98.5");
        assert_eq!(thickness(0.5 / 3.0, System::Metric), "167");
        assert_eq!(unit(0.3048, 0.1524, System::Imperial), "12″ × 6″");
    }

    #[test]
    fn levels_and_falls_are_written_as_on_drawings() {
        use System::{Imperial, Metric};
        for (metres, system, text) in [
            (-0.15, Metric, "−0.150"),
            (-0.0001, Metric, "0.000"),
            (1.2345, Metric, "1.234"),
            (-0.0254 * 4.625, Imperial, "−4 5⁄8″"),
            (0.0, Imperial, "0″"),
        ] {
            assert_eq!(level(metres, system), text);
        }
        for (slope, system, built, reported) in [
            (1.0 / 60.0, Metric, "1:60", "1.67 %"),
            (0.02, Imperial, "1:50", "2 %"),
            (1.0 / 48.0, Imperial, "1⁄4″ per ft", "1:48 · 2.08 %"),
            (0.0, Metric, "level", "0 %"),
            (0.15, Metric, "1:6.7", "15 %"),
        ] {
            assert_eq!(fall(slope, system), (built.to_owned(), reported.to_owned()));
        }
    }
}
