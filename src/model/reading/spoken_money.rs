//! Money as people say it: `£9.8k`, `£1.2k/day`, `92p`, `92¢`.

use super::misread::refused;
use super::source::Source;
use crate::findings::{Finding, Fix};
use crate::syntax::{Item, ItemKind, Operator};
use crate::text::Span;
use crate::units::show;

/// What people write beside an amount, and the sign that goes before it.
const SIGNS: &[(&str, &str)] = &[
    ("£", "£"),
    ("€", "€"),
    ("$", "$"),
    ("gbp", "£"),
    ("pound", "£"),
    ("pounds", "£"),
    ("quid", "£"),
    ("eur", "€"),
    ("euro", "€"),
    ("euros", "€"),
    ("usd", "$"),
    ("aud", "$"),
    ("cad", "$"),
    ("nzd", "$"),
    ("dollar", "$"),
    ("dollars", "$"),
];

/// An amount whose sign stands behind it or is a word, `12.50 €/m2`, `20
/// pounds`: all that is left of its phrase, and the finding that writes the
/// sign before it.
pub(super) fn sign_behind(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let first = rest.first()?;
    // `20 GBP` is read as it stands.
    let is_money = matches!(
        first.kind,
        ItemKind::Number {
            currency: Some(_),
            ..
        }
    );
    let finding = written_plainly(source, first.span.start).filter(|_| !is_money)?;
    Some((rest.len(), finding))
}

/// The same where a comma parts the amount, `1.250,50 €`, `€1.250,50`: by the
/// findings that tell of such commas, of which it takes the place.
pub(super) fn with_a_comma(
    source: &Source<'_>,
    (index, told): (usize, Finding),
) -> (usize, Finding) {
    let phrase = source.line.phrases.get(index);
    let last = phrase.and_then(|phrase| phrase.items.last());
    let from = last.map(|last| match source.line.phrases.get(index) {
        // `EUR 12,50`: its word stands before the number.
        Some(phrase) if phrase.items.len() > 1 => {
            let before = phrase.items.get(phrase.items.len() - 2);
            let sign = before.filter(|item| sign_of(source.slice(item.span)).is_some());
            sign.unwrap_or(last).span.start
        }
        _ => last.span.start,
    });
    let plainly = from.and_then(|from| written_plainly(source, from));
    (index, plainly.unwrap_or(told))
}

fn sign_of(word: &str) -> Option<&'static str> {
    let mut signs = SIGNS.iter();
    let own = signs.find(|(own, _)| own.eq_ignore_ascii_case(word))?;
    Some(own.1)
}

/// The finding that writes an amount plainly that begins at a byte of the
/// line; nothing if it is written so, or is no amount.
fn written_plainly(source: &Source<'_>, from: u32) -> Option<Finding> {
    let text = source.text.get(from as usize..)?;
    let (before, rest) = sign_at(text);
    let is_of_number = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
    let end = rest.find(|c: char| !is_of_number(c)).unwrap_or(rest.len());
    let number = rest.get(..end)?.trim_end_matches(['.', ',']);
    let after = rest.get(number.len()..)?;
    let (behind, left) = match before {
        Some(_) => (None, after),
        None => sign_at(after.trim_start_matches(' ')),
    };
    let left = if behind.is_some() { left } else { after };
    let plain = in_points(number)?;
    let text = format!("{}{plain}", before.or(behind)?);
    let length = text_length(source, from, left)?;
    let written = source.text.get(from as usize..from as usize + length)?;
    if written == text {
        return None;
    }
    let place = source.place(Span::new(from, from + length as u32));
    let message = format!("money is written with its sign before it: `{text}`");
    let finding = Finding::new("number-unclear", place, message);
    Some(finding.fix(Fix::judged(format!("Write `{text}`"), place, text)))
}

/// How many bytes lie between a place of the line and what is left of it.
fn text_length(source: &Source<'_>, from: u32, left: &str) -> Option<usize> {
    (source.text.len() - left.len()).checked_sub(from as usize)
}

/// The sign that a text begins with, and what follows it and a blank.
fn sign_at(text: &str) -> (Option<&'static str>, &str) {
    let end = match text.chars().next() {
        Some(first @ ('£' | '€' | '$')) => first.len_utf8(),
        _ => text
            .find(|c: char| !c.is_ascii_alphabetic())
            .unwrap_or(text.len()),
    };
    let (word, rest) = text.split_at(end);
    match sign_of(word) {
        Some(sign) => {
            let begins = |text: &&str| text.starts_with(|c: char| c.is_ascii_digit());
            (
                Some(sign),
                rest.strip_prefix(' ').filter(begins).unwrap_or(rest),
            )
        }
        None => (None, text),
    }
}

/// A number whose decimals stand behind a comma, `1.250,50`, with a point; any
/// other as it is.
fn in_points(number: &str) -> Option<String> {
    if !number.starts_with(|first: char| first.is_ascii_digit()) {
        return None;
    }
    let Some((whole, decimals)) = number.rsplit_once(',') else {
        return Some(number.to_owned());
    };
    if decimals.len() > 2 || decimals.contains('.') {
        return Some(number.to_owned());
    }
    let whole = whole.replace(['.', ','], "");
    Some(format!("{}.{decimals}", show::grouped(&whole)))
}

/// A number with a letter grown to it, which makes it thousands or
/// hundredths of the currency: how many items that takes, and the finding
/// that writes it out.
pub(super) fn money_in_short(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let (number, letter) = (rest.first()?, rest.get(1)?);
    let ItemKind::Number { terms, currency } = &number.kind else {
        return None;
    };
    let [term] = &**terms else { return None };
    if letter.spaced_before || term.unit.is_some() {
        return None;
    }
    let figure = source.slice(term.number).replace(',', "");
    let figure = figure.parse::<f64>().ok()?;
    let text = match (currency, source.slice(letter.span)) {
        (Some(sign), "k" | "K") => thousands(source.slice(*sign), figure)?,
        (None, "p") => format!("£{:.2}", figure / 100.0),
        (None, "c" | "¢") => format!("${:.2}", figure / 100.0),
        _ => return None,
    };
    let taken = 2 + rate(rest.get(2..)?);
    let text = match rest.get(2..taken)? {
        [] => text,
        rate => {
            let rate = source.text_of(rate);
            let blank = if rate.starts_with('/') { "" } else { " " };
            format!("{text}{blank}{rate}")
        }
    };
    let message = format!("money is written with its sign, and in full: `{text}`");
    refused(
        source,
        rest.get(..taken)?,
        "number-unclear",
        message,
        &[text],
    )
}

/// How many items say what the money is for: `/day`, `per day`.
fn rate(rest: &[Item]) -> usize {
    match rest.first().map(|item| &item.kind) {
        Some(ItemKind::Per { .. }) => 1,
        Some(ItemKind::Operator(Operator::Per | Operator::Divide)) => rest.len().min(2),
        _ => 0,
    }
}

/// A price for several days that stands without its brackets: `£63/3 days`,
/// `£63 per 3 days`, `£63 for 3 days`.
pub(super) fn price_of_days(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let ItemKind::Number { currency, .. } = &rest.first()?.kind else {
        return None;
    };
    currency.as_ref()?;
    (2..=4).find_map(|count| {
        let items = rest.get(..count)?;
        let text = source.text_of(items);
        let joins = ["/", " per ", " for "].iter();
        let (price, of) = joins.filter_map(|join| text.split_once(join)).next()?;
        let (number, unit) = of.trim().split_once(' ')?;
        let is_several = number.parse::<u32>().is_ok_and(|number| number > 1);
        let is_time = matches!(unit.trim(), "day" | "days" | "week" | "weeks");
        let written = format!("{}/({number} {})", price.trim(), unit.trim());
        let message = format!("a price for several days is written `{written}`");
        let told = || refused(source, items, "number-unclear", message, &[written]);
        (is_several && is_time).then(told)?
    })
}

/// So many thousands, with the pence that are over.
fn thousands(sign: &str, figure: f64) -> Option<String> {
    let pence = (figure * 1e5).round();
    let is_money = (0.0..1e13).contains(&pence);
    let (whole, over) = (pence as u64 / 100, pence as u64 % 100);
    let whole = show::grouped(&whole.to_string());
    is_money.then(|| match over {
        0 => format!("{sign}{whole}"),
        over => format!("{sign}{whole}.{over:02}"),
    })
}

#[cfg(test)]
mod tests {
    use super::thousands;

    #[test]
    fn thousands_are_written_in_full() {
        for (figure, expected) in [
            (9.8, Some("£9,800")),
            (0.5, Some("£500")),
            (12.0, Some("£12,000")),
            (1.234_567, Some("£1,234.57")),
            (1e12, None),
        ] {
            assert_eq!(thousands("£", figure).as_deref(), expected, "{figure}");
        }
    }
}
