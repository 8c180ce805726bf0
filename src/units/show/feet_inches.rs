//! Lengths in feet and inches, as a tape reads.

use super::NO_FIGURE;
use super::digits::{TOO_LARGE, grouped, nearest_size};
use crate::units::unit::INCH;

/// The parts of an inch that are shown.
const PARTS: u64 = 16;
const INCHES_PER_FOOT: u64 = 12;

/// A length in metres as feet and inches to the nearest sixteenth, halves
/// going up: `24' 1"`, `6 1/2"` under a foot, `-4"`, `0"`.
pub fn feet_inches(metres: f64) -> String {
    tape(metres, |sixteenths| {
        let foot = INCHES_PER_FOOT * PARTS;
        let (feet, rest) = (sixteenths / foot, sixteenths % foot);
        match feet {
            0 => inches_and_parts(rest),
            // A fraction alone after the feet is too easily misread.
            _ if (1..PARTS).contains(&rest) => {
                format!(
                    "{}' 0 {}",
                    grouped(&feet.to_string()),
                    inches_and_parts(rest)
                )
            }
            _ => format!("{}' {}", grouped(&feet.to_string()), inches_and_parts(rest)),
        }
    })
}

/// A length in metres as inches alone, to the nearest sixteenth: `54 1/2"`.
pub fn inches(metres: f64) -> String {
    tape(metres, inches_and_parts)
}

fn tape(metres: f64, shown: impl Fn(u64) -> String) -> String {
    let sixteenths = INCH.from_base(metres) * PARTS as f64;
    match nearest_size(sixteenths) {
        Some(0) => shown(0),
        Some(count) if metres < 0.0 => format!("-{}", shown(count)),
        Some(count) => shown(count),
        None if metres.is_nan() => NO_FIGURE.to_owned(),
        None => TOO_LARGE.to_owned(),
    }
}

fn inches_and_parts(sixteenths: u64) -> String {
    let (whole, part) = (sixteenths / PARTS, sixteenths % PARTS);
    let halvings = part.trailing_zeros().min(PARTS.trailing_zeros());
    let fraction = format!("{}/{}", part >> halvings, PARTS >> halvings);
    match (whole, part) {
        (_, 0) => format!("{}\"", grouped(&whole.to_string())),
        (0, _) => format!("{fraction}\""),
        _ => format!("{} {fraction}\"", grouped(&whole.to_string())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const A_INCH: f64 = 0.0254;

    #[test]
    fn lengths_read_as_on_a_tape() {
        for (metres, shown) in [
            (7.34, "24' 1\""),
            (24.0 * 12.0 * A_INCH, "24' 0\""),
            (24.5 * 12.0 * A_INCH, "24' 6\""),
            (6.5 * A_INCH, "6 1/2\""),
            (0.25 * A_INCH, "1/4\""),
            (12.0625 * A_INCH, "1' 0 1/16\""),
            (0.0, "0\""),
            (-4.0 * A_INCH, "-4\""),
            (-14.5 * A_INCH, "-1' 2 1/2\""),
            (1_234.0 * 12.0 * A_INCH, "1,234' 0\""),
            (f64::NAN, NO_FIGURE),
            (f64::INFINITY, TOO_LARGE),
            (-1e300, TOO_LARGE),
        ] {
            assert_eq!(feet_inches(metres), shown, "{metres}");
        }
        assert_eq!(inches(54.5 * A_INCH), "54 1/2\"");
        assert_eq!(inches(-0.5 * A_INCH), "-1/2\"");
    }

    #[test]
    fn the_nearest_sixteenth_is_shown_and_carried() {
        for (inches, shown) in [
            (11.0 + 15.4 / 16.0, "11 15/16\""),
            (11.0 + 15.97 / 16.0, "1' 0\""),
            (11.0 + 15.5 / 16.0, "1' 0\""),
            (1.0 / 32.0, "1/16\""),
            (3.0 / 32.0, "1/8\""),
            (-1.0 / 32.0, "-1/16\""),
            (0.99 / 32.0, "0\""),
            (-0.99 / 32.0, "0\""),
            (23.0 + 15.6 / 16.0, "2' 0\""),
        ] {
            assert_eq!(feet_inches(inches * A_INCH), shown, "{inches}");
        }
    }

    proptest! {
        #[test]
        fn every_sixteenth_is_shown_as_itself(sixteenths in 0u32..192_000) {
            let shown = feet_inches(f64::from(sixteenths) / 16.0 * A_INCH);
            let (feet, inches) = shown.split_once("' ").unwrap_or(("0", &shown));
            let inches = crate::units::Number::parse(inches.trim_end_matches('"')).unwrap();
            let feet = crate::units::Number::parse(feet).unwrap();
            let all = feet.to_f64() * 192.0 + inches.to_f64() * 16.0;
            prop_assert_eq!(all, f64::from(sixteenths));
        }
    }
}
