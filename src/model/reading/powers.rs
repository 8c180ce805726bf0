//! Powers of ten, `1.2e-5`, as laboratories write small numbers: here their
//! decimals are written out.

use super::misread::refused;
use super::source::Source;
use crate::findings::Finding;
use crate::syntax::{Item, ItemKind};

/// The digits that stand raised, in order.
const RAISED: &str = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/// The largest power that is told of: beyond it nobody counts the noughts.
const LARGEST: i32 = 9;

/// `1.2e-5 m/s`, `1.2 x 10^-5 m/s`: all that is left of the phrase, and the
/// finding that writes it out.
pub(super) fn power_of_ten(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    if !matches!(rest.first()?.kind, ItemKind::Number { .. }) {
        return None;
    }
    let (number, power, after) = parted(source.text_of(rest))?;
    let power = power.parse::<i32>().ok();
    let power = power.filter(|power| power.abs() <= LARGEST)?;
    let number = format!("{number}e{power}").parse::<f64>().ok()?;
    let fix = format!("{number} {}", after.trim_start());
    let message = format!("a power of ten is written out: `{}`", fix.trim_end());
    refused(
        source,
        rest,
        "number-unclear",
        message,
        &[fix.trim_end().to_owned()],
    )
}

/// A number, the power of ten that it is times, and what follows.
fn parted(text: &str) -> Option<(&str, String, &str)> {
    let is_decimal = |letter: char| letter.is_ascii_digit() || letter == '.';
    let (number, after) = text.split_at_checked(text.find(|letter| !is_decimal(letter))?)?;
    let times = || {
        let after = after.trim_start();
        let after = after.strip_prefix(['x', 'X', '×', '*'])?.trim_start();
        let after = after.strip_prefix("10")?;
        let is_raised = |letter| letter == '⁻' || RAISED.contains(letter);
        let raised = after.starts_with(is_raised).then_some(after);
        after.strip_prefix('^').or(raised)
    };
    let after = after.strip_prefix(['e', 'E']).or_else(times)?;
    let end = after.find(|letter: char| letter.is_whitespace());
    let (power, after) = after.split_at_checked(end.unwrap_or(after.len()))?;
    let plain = power.chars().map(plain).collect::<Option<String>>()?;
    Some((number, plain, after))
}

/// A character of a power, which may stand raised.
fn plain(letter: char) -> Option<char> {
    match letter {
        '-' | '−' | '⁻' => Some('-'),
        '0'..='9' => Some(letter),
        _ => {
            let nth = RAISED.chars().position(|raised| raised == letter)?;
            char::from_digit(nth as u32, 10)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::parted;

    #[test]
    fn powers_are_parted_from_their_numbers() {
        for (text, expected) in [
            ("1.2e-5 m/s", Some(("1.2", "-5", " m/s"))),
            ("1E5 mm", Some(("1", "5", " mm"))),
            ("1.2 x 10^-5 m/s", Some(("1.2", "-5", " m/s"))),
            ("1.2×10⁻⁵ m/s", Some(("1.2", "-5", " m/s"))),
            ("600 x 900 mm", None),
            ("10 x 100 mm", None),
            ("6 each", None),
            ("6 m", None),
        ] {
            let found = parted(text);
            let found = found
                .as_ref()
                .map(|(number, power, after)| (*number, power.as_str(), *after));
            assert_eq!(found, expected, "{text}");
        }
    }
}
