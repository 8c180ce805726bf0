//! Numbers as they are written.

use super::Number;

/// Most digits a written number may have; more is never meant, and this many
/// leave room to multiply exactly.
pub const LONGEST_NUMBER: usize = 15;

/// Why a text is not a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NumberFault {
    /// It is not written as a number is.
    Unreadable,
    /// It has more than [`LONGEST_NUMBER`] digits.
    TooLong,
    /// Commas stand elsewhere than before groups of exactly three digits.
    Grouping,
    /// The lower part of its fraction is zero.
    OverZero,
}

const VULGAR_FRACTIONS: [(char, i128, i128); 9] = [
    ('½', 1, 2),
    ('¼', 1, 4),
    ('¾', 3, 4),
    ('⅛', 1, 8),
    ('⅜', 3, 8),
    ('⅝', 5, 8),
    ('⅞', 7, 8),
    ('⅓', 1, 3),
    ('⅔', 2, 3),
];

impl Number {
    /// The exact number that `text` writes, as [`read_number`].
    pub fn parse(text: &str) -> Option<Self> {
        read_number(text).ok()
    }
}

/// The exact number that `text` writes, which is nothing but the number.
///
/// Read are `12`, `12.5`, `.5`, `1,200` in groups of exactly three, `3/4`,
/// `1 3/4`, `1-3/4`, and the fractions `½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ ⅓ ⅔` alone or after a
/// whole number. There is no sign: that is an operation.
pub fn read_number(text: &str) -> Result<Number, NumberFault> {
    if !text.chars().all(may_stand_in_number) {
        return Err(NumberFault::Unreadable);
    }
    if text.chars().filter(char::is_ascii_digit).count() > LONGEST_NUMBER {
        return Err(NumberFault::TooLong);
    }
    if let Some((before, numerator, denominator)) = vulgar_fraction(text) {
        let whole = if before.is_empty() {
            0
        } else {
            digits(before.trim_end_matches(is_space))?
        };
        return mixed(whole, numerator, denominator);
    }
    match text.split_once('/') {
        Some((above, below)) => fraction(above, below),
        None => decimal(text),
    }
}

fn may_stand_in_number(character: char) -> bool {
    character.is_ascii_digit()
        || is_space(character)
        || matches!(character, '.' | ',' | '/' | '-')
        || VULGAR_FRACTIONS
            .iter()
            .any(|(fraction, ..)| *fraction == character)
}

fn is_space(character: char) -> bool {
    matches!(character, ' ' | '\t' | '\u{A0}' | '\u{2009}' | '\u{202F}')
}

fn vulgar_fraction(text: &str) -> Option<(&str, i128, i128)> {
    VULGAR_FRACTIONS
        .iter()
        .find_map(|&(sign, above, below)| Some((text.strip_suffix(sign)?, above, below)))
}

fn fraction(above: &str, below: &str) -> Result<Number, NumberFault> {
    let denominator = digits(below)?;
    let before = above.trim_end_matches(|c: char| c.is_ascii_digit());
    let numerator = digits(above.get(before.len()..).unwrap_or_default())?;
    let whole = if before.is_empty() {
        0
    } else {
        let whole = before
            .strip_suffix('-')
            .unwrap_or_else(|| before.trim_end_matches(is_space));
        digits(whole)?
    };
    mixed(whole, numerator, denominator)
}

fn mixed(whole: i128, numerator: i128, denominator: i128) -> Result<Number, NumberFault> {
    if denominator == 0 {
        return Err(NumberFault::OverZero);
    }
    whole
        .checked_mul(denominator)
        .and_then(|wholes| Number::ratio(wholes.checked_add(numerator)?, denominator))
        .ok_or(NumberFault::TooLong)
}

fn decimal(text: &str) -> Result<Number, NumberFault> {
    let (whole, part) = match text.split_once('.') {
        Some((whole, part)) => (whole, Some(part)),
        None => (text, None),
    };
    let whole = match (whole, part) {
        ("", Some(_)) => 0,
        _ if whole.contains(',') => grouped(whole)?,
        _ => digits(whole)?,
    };
    let Some(part) = part else {
        return mixed(whole, 0, 1);
    };
    let places = u32::try_from(part.len()).map_err(|_| NumberFault::TooLong)?;
    let scale = 10_i128.checked_pow(places).ok_or(NumberFault::TooLong)?;
    mixed(whole, digits(part)?, scale)
}

fn grouped(text: &str) -> Result<i128, NumberFault> {
    let mut groups = text.split(',');
    let first = groups.next().unwrap_or_default();
    let sound = matches!(first.len(), 1..=3)
        && !first.starts_with('0')
        && groups.all(|group| group.len() == 3);
    if !sound {
        return Err(NumberFault::Grouping);
    }
    digits(&text.replace(',', ""))
}

fn digits(text: &str) -> Result<i128, NumberFault> {
    if text.is_empty() || !text.chars().all(|c| c.is_ascii_digit()) {
        return Err(NumberFault::Unreadable);
    }
    text.parse().map_err(|_| NumberFault::TooLong)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn every_written_form_is_read_exactly() {
        for (text, numerator, denominator) in [
            ("12", 12, 1),
            ("0", 0, 1),
            ("007", 7, 1),
            ("12.5", 25, 2),
            (".5", 1, 2),
            ("0.10", 1, 10),
            ("1,200", 1_200, 1),
            ("12,000,000", 12_000_000, 1),
            ("1,200.25", 4_801, 4),
            ("3/4", 3, 4),
            ("6/8", 3, 4),
            ("1 3/4", 7, 4),
            ("1  3/4", 7, 4),
            ("1\u{A0}3/4", 7, 4),
            ("1-3/4", 7, 4),
            ("½", 1, 2),
            ("6½", 13, 2),
            ("6 ½", 13, 2),
            ("⅜", 3, 8),
            ("1⅔", 5, 3),
            ("999999999999999", 999_999_999_999_999, 1),
            ("0.00000000000001", 1, 100_000_000_000_000),
        ] {
            assert_eq!(
                read_number(text),
                Ok(Number::ratio(numerator, denominator).unwrap()),
                "{text}"
            );
        }
    }

    #[test]
    fn what_is_no_number_is_refused_with_its_fault() {
        use NumberFault::*;
        for (text, fault) in [
            ("", Unreadable),
            (".", Unreadable),
            ("12.", Unreadable),
            ("1.2.3", Unreadable),
            ("-6", Unreadable),
            ("+6", Unreadable),
            ("1e3", Unreadable),
            ("١٢", Unreadable),
            (" 12", Unreadable),
            ("12 ", Unreadable),
            ("1 200", Unreadable),
            ("1 - 3/4", Unreadable),
            ("1--3/4", Unreadable),
            ("1.5 3/4", Unreadable),
            ("3/4/5", Unreadable),
            ("3 /4", Unreadable),
            ("3/", Unreadable),
            ("/4", Unreadable),
            ("6-½", Unreadable),
            ("½½", Unreadable),
            ("½ 6", Unreadable),
            ("1.½", Unreadable),
            ("1,5", Grouping),
            ("1,2000", Grouping),
            ("1200,000", Grouping),
            ("0,200", Grouping),
            (",200", Grouping),
            ("1,,200", Grouping),
            ("1,200,", Grouping),
            ("3/0", OverZero),
            ("1 0/0", OverZero),
            ("1000000000000000", TooLong),
            ("0.000000000000001", TooLong),
            ("99999999 99999999/3", TooLong),
        ] {
            assert_eq!(read_number(text), Err(fault), "{text:?}");
        }
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused(text in "[0-9.,/½ -]{0,24}") {
            if let Ok(number) = read_number(&text) {
                prop_assert!(number.is_exact() && !number.is_negative());
            }
        }

        #[test]
        fn decimals_are_what_they_say(whole in 0i64..999_999_999, part in 0i128..1_000_000) {
            let number = Number::parse(&format!("{whole}.{part:06}"));
            let expected = Number::ratio(i128::from(whole) * 1_000_000 + part, 1_000_000);
            prop_assert_eq!(number, expected);
        }
    }
}
