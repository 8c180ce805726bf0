//! Money as people say it: `£9.8k`, `£1.2k/day`, `92p`, `92¢`.

use super::misread::refused;
use super::source::Source;
use crate::findings::Finding;
use crate::syntax::{Item, ItemKind, Operator};
use crate::units::show;

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
