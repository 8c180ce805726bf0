//! Numbers, units and texts in the form that anyone can type.

use crate::syntax::Term;
use crate::text::Span;
use crate::units::find_unit;

/// The fractions that are one character.
const VULGAR: &[(char, &str)] = &[
    ('½', "1/2"),
    ('¼', "1/4"),
    ('¾', "3/4"),
    ('⅛', "1/8"),
    ('⅜', "3/8"),
    ('⅝', "5/8"),
    ('⅞', "7/8"),
    ('⅓', "1/3"),
    ('⅔', "2/3"),
];

/// A number without its unit: `6½` is `6 1/2`.
pub(super) fn figure(written: &str) -> String {
    let single = written.split_whitespace().collect::<Vec<_>>().join(" ");
    for (character, fraction) in VULGAR {
        if let Some(whole) = single.strip_suffix(*character) {
            return match whole.trim_end() {
                "" => (*fraction).to_owned(),
                whole => format!("{whole} {fraction}"),
            };
        }
    }
    single
}

/// A unit in the spelling that was chosen for it, without capitals and raised
/// figures. A capital `T`, which may be one of two units, is left alone.
pub(super) fn unit(written: &str) -> String {
    match written {
        "'" | "′" | "’" => return "'".to_owned(),
        "\"" | "″" | "”" | "''" | "’’" => return "\"".to_owned(),
        _ => {}
    }
    let single = written
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .replace('²', "2")
        .replace('³', "3");
    if let Some(scale) = single.strip_prefix('°') {
        return format!("°{}", scale.to_ascii_uppercase());
    }
    let spelling = find_unit(&single).and_then(|unit| {
        let spellings = [unit.symbol].into_iter();
        spellings
            .chain(unit.spellings.iter().copied())
            .find(|spelling| spelling.eq_ignore_ascii_case(&single))
    });
    spelling.map_or(single, str::to_owned)
}

/// A number with its units or its money: `24'6½”` is `24' 6 1/2"`.
pub(super) fn number(text: &str, terms: &[Term], currency: Option<Span>) -> String {
    let mut plain = String::new();
    let mut end = None;
    for term in terms {
        if let Some(end) = end {
            let between = Span::new(end, term.number.start).slice(text);
            let is_joined = between.contains(['-', '–', '−']);
            plain.push(if is_joined { '-' } else { ' ' });
        }
        plain += &figure(term.number.slice(text));
        if let Some(written) = term.unit {
            let unit = unit(written.slice(text));
            if !matches!(unit.as_str(), "'" | "\"" | "°") {
                plain.push(' ');
            }
            plain += &unit;
        }
        end = Some(term.unit.unwrap_or(term.number).end);
    }
    let Some(money) = currency else {
        return plain;
    };
    let written = money.slice(text);
    if end.is_some_and(|end| money.start >= end) {
        format!("{plain} {}", written.to_ascii_uppercase())
    } else {
        format!("{written}{plain}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_are_written_out() {
        for (written, plain) in [
            ("½", "1/2"),
            ("6½", "6 1/2"),
            ("6\u{2009}¾", "6 3/4"),
            ("6  1/2", "6 1/2"),
            ("1-3/4", "1-3/4"),
            ("1,200", "1,200"),
            (".5", ".5"),
        ] {
            assert_eq!(figure(written), plain);
        }
    }

    #[test]
    fn units_keep_their_spelling_but_not_their_capitals() {
        for (written, plain) in [
            ("MM", "mm"),
            ("Inches", "inches"),
            ("Sq\u{A0}Ft", "sq ft"),
            ("sqft", "sqft"),
            ("m²", "m2"),
            ("YD³", "yd3"),
            ("l", "L"),
            ("T", "T"),
            ("t", "t"),
            ("’’", "\""),
            ("′", "'"),
            ("°f", "°F"),
            ("°", "°"),
            ("%", "%"),
            ("DEG", "deg"),
        ] {
            assert_eq!(unit(written), plain);
        }
    }
}
