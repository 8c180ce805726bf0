//! Temperatures that lack their degree or their scale: `50 F`, `8°`.

use super::misread::refused;
use super::number::single;
use super::source::Source;
use crate::findings::Finding;
use crate::syntax::Item;

/// How many items make a temperature that is written otherwise, and the
/// finding that writes it; where it does not say which scale is meant, both.
pub(super) fn degrees_of_no_scale(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let sign = usize::from(source.slice(rest.first()?.span) == "-");
    let (number, unit) = single(source, rest.get(sign)?)?;
    let mut next = sign + 1;
    let mut word = || {
        let word = source.word(rest.get(next)?)?;
        next += 1;
        Some(word)
    };
    let first = match unit {
        None => word()?,
        Some(unit) => unit,
    };
    let scale = match is_degree(first) {
        false => Some(scale(first)?),
        true => word().map_or(Some(None), |word| scale(word).map(Some))?,
    };
    let number = format!("{}{number}", if sign == 1 { "-" } else { "" });
    let scales = scale.map_or(vec!["°C", "°F"], |scale| vec![scale]);
    let fixes: Vec<String> = scales.iter().map(|own| format!("{number} {own}")).collect();
    let message = match scale {
        Some(_) => format!("a temperature is written `{}`", fixes.first()?),
        None => "a temperature is in °C or in °F: say which".to_owned(),
    };
    refused(source, rest.get(..next)?, "unit-missing", message, &fixes)
}

fn is_degree(word: &str) -> bool {
    let words = ["°", "deg", "degree", "degrees"];
    words.iter().any(|own| own.eq_ignore_ascii_case(word))
}

/// The scale that a letter or a word is for.
fn scale(word: &str) -> Option<&'static str> {
    match word.to_ascii_lowercase().as_str() {
        "c" | "celsius" | "centigrade" => Some("°C"),
        "f" | "fahrenheit" => Some("°F"),
        _ => None,
    }
}
