//! Units by what is written.

use std::sync::LazyLock;

use rustc_hash::FxHashMap;

use super::unit::{TON, TONNE, UNITS, Unit};

/// The unit that `text` writes: its plain form or another spelling, in any
/// case and with any spaces inside (`Sq  Ft`).
///
/// Nothing if there is no such unit, and nothing for a capital `T`, which
/// some write for short tons and others for tonnes; see [`unit_readings`].
pub fn find_unit(text: &str) -> Option<&'static Unit> {
    if text == "T" {
        return None;
    }
    // Most are written plainly, and asked for at every turn.
    if let Some(unit) = SPELLINGS.get(text) {
        return Some(unit);
    }
    let is_odd = |letter: char| letter.is_ascii_uppercase() || letter.is_whitespace();
    if !text.contains(is_odd) {
        return None;
    }
    let mut written = text.split_whitespace().collect::<Vec<_>>().join(" ");
    written.make_ascii_lowercase();
    SPELLINGS.get(written.as_str()).copied()
}

/// Every unit by each of its spellings in lower case.
static SPELLINGS: LazyLock<FxHashMap<String, &'static Unit>> = LazyLock::new(|| {
    let mut spellings = FxHashMap::default();
    for unit in UNITS {
        for spelling in unit.spellings.iter().chain([&unit.symbol]) {
            // Where two should ever share one, the first stays.
            spellings
                .entry(spelling.to_ascii_lowercase())
                .or_insert(*unit);
        }
    }
    spellings
});

/// All that `text` may mean as a unit: one if it is plain, several if it
/// could be taken in more ways than one, none if it is no unit.
pub fn unit_readings(text: &str) -> Vec<&'static Unit> {
    match text {
        "T" => vec![&TON, &TONNE],
        _ => find_unit(text).into_iter().collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn units_are_found_by_every_spelling() {
        for (text, symbol) in [
            ("in", "in"),
            ("Inches", "in"),
            ("FEET", "ft"),
            ("mm", "mm"),
            ("MM", "mm"),
            ("M", "m"),
            ("sq ft", "sq ft"),
            ("sq  ft", "sq ft"),
            ("Sq\u{A0}Ft", "sq ft"),
            ("SF", "sq ft"),
            ("ft²", "sq ft"),
            ("FT2", "sq ft"),
            ("m²", "m2"),
            ("M³", "m3"),
            ("sqm", "m2"),
            ("cy", "cu yd"),
            ("l", "L"),
            ("L", "L"),
            ("lbs", "lb"),
            ("t", "t"),
            ("Ton", "ton"),
            ("tonne", "t"),
            ("PCF", "pcf"),
            ("hours", "h"),
            ("days", "day"),
            ("°", "deg"),
        ] {
            assert_eq!(
                find_unit(text).map(|unit| unit.symbol),
                Some(symbol),
                "{text}"
            );
        }
    }

    #[test]
    fn other_words_are_no_units() {
        for text in [
            "", " ", "f", "sqf t", "sq", "ft 2", "metre", "clay", "tonn", "'", "#", "%",
        ] {
            assert_eq!(find_unit(text), None, "{text}");
        }
    }

    #[test]
    fn a_capital_t_could_be_either_ton() {
        assert_eq!(find_unit("T"), None);
        let symbols: Vec<_> = unit_readings("T").iter().map(|unit| unit.symbol).collect();
        assert_eq!(symbols, ["ton", "t"]);
        assert_eq!(unit_readings("t").len(), 1);
        assert_eq!(unit_readings("x").len(), 0);
    }

    #[test]
    fn no_spelling_means_two_units() {
        let mut meant = BTreeMap::new();
        for unit in UNITS {
            for spelling in unit.spellings.iter().chain([&unit.symbol]) {
                let other = meant.insert(spelling.to_lowercase(), unit.symbol);
                assert_eq!(other, None, "{spelling}");
                assert_eq!(find_unit(spelling), Some(*unit));
            }
        }
    }
}
