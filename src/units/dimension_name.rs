//! Dimensions in plain words.

use std::fmt;

use super::Dimension;
use crate::text::with_article;

/// Dimensions that have a word of their own.
const NAMED: [(Dimension, &str); 16] = [
    (Dimension::NONE, "a plain number"),
    (Dimension::LENGTH, "a length"),
    (Dimension::AREA, "an area"),
    (Dimension::VOLUME, "a volume"),
    (Dimension::MASS, "a mass"),
    (Dimension::DENSITY, "a density"),
    (Dimension::LOAD, "a load (mass per area)"),
    (Dimension::COVERAGE, "a coverage (area per mass)"),
    (Dimension::MONEY, "money"),
    (Dimension::MONEY_PER_TIME, "money per time"),
    (Dimension::TIME, "a time"),
    (Dimension::RAINFALL, "a rainfall (length per time)"),
    (Dimension::PERCOLATION, "a percolation (time per length)"),
    (Dimension::STRENGTH, "a strength (force per area)"),
    (Dimension::TEMPERATURE, "a temperature"),
    (Dimension::ANGLE, "an angle"),
];

impl Dimension {
    /// The dimension in plain words for a message, with its article:
    /// "a length", "a density", "money per mass", "an area per time".
    pub fn name(self) -> String {
        if let Some((_, name)) = NAMED.iter().find(|(dimension, _)| *dimension == self) {
            return (*name).to_owned();
        }
        let above = self.words(i16::is_positive).join(" times ");
        let below = self.words(i16::is_negative).join(" and ");
        match (above.as_str(), below.as_str()) {
            ("", below) => format!("a number per {below}"),
            (above, "") => after_article(above),
            (above, below) => format!("{} per {below}", after_article(above)),
        }
    }

    /// A word for each base dimension on one side of the fraction bar.
    fn words(self, on_this_side: impl Fn(i16) -> bool) -> Vec<String> {
        [
            (self.money, "money"),
            (self.mass, "mass"),
            (self.length, "length"),
            (self.angle, "angle"),
            (self.temperature, "temperature"),
            (self.time, "time"),
        ]
        .into_iter()
        .map(|(power, word)| (i16::from(power), word))
        .filter(|&(power, _)| on_this_side(power))
        .map(|(power, word)| powered(word, power.unsigned_abs()))
        .collect()
    }
}

impl fmt::Display for Dimension {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.name())
    }
}

fn powered(word: &str, power: u16) -> String {
    match (word, power) {
        (_, 1) => word.to_owned(),
        ("length", 2) => "area".to_owned(),
        ("length", 3) => "volume".to_owned(),
        (_, 2) => format!("{word} squared"),
        (_, 3) => format!("{word} cubed"),
        _ => format!("{word} to the power {power}"),
    }
}

fn after_article(words: &str) -> String {
    match words.starts_with("money") {
        true => words.to_owned(),
        false => with_article(words),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn dimensions_have_plain_names() {
        let dimension = |length, mass, money, time| Dimension {
            length,
            mass,
            money,
            time,
            ..Dimension::NONE
        };
        for (dimension, name) in [
            (Dimension::NONE, "a plain number"),
            (Dimension::LENGTH, "a length"),
            (Dimension::AREA, "an area"),
            (Dimension::DENSITY, "a density"),
            (Dimension::MONEY_PER_MASS, "money per mass"),
            (Dimension::MONEY_PER_AREA, "money per area"),
            (Dimension::RAINFALL, "a rainfall (length per time)"),
            (dimension(4, 0, 0, 0), "a length to the power 4"),
            (dimension(2, 0, 0, -1), "an area per time"),
            (dimension(-1, 0, 0, 0), "a number per length"),
            (dimension(1, 1, 0, 0), "a mass times length"),
            (dimension(0, 2, 0, 0), "a mass squared"),
            (dimension(-2, 0, 1, -1), "money per area and time"),
            (
                dimension(i8::MIN, 0, 0, 0),
                "a number per length to the power 128",
            ),
        ] {
            assert_eq!(dimension.name(), name);
        }
    }

    proptest! {
        #[test]
        fn no_two_dimensions_share_a_name(
            a in any::<[i8; 6]>(), b in prop::array::uniform6(-2i8..3),
        ) {
            let of = |[length, mass, money, time, temperature, angle]: [i8; 6]| Dimension {
                length, mass, money, time, temperature, angle,
            };
            prop_assert!(a == b || of(a).name() != of(b).name());
        }
    }
}
