//! Days of the week as people write them: `mon-fri`, `weekdays`.

use super::source::Source;
use crate::findings::{Finding, Fix};
use crate::syntax::Item;
use crate::vocabulary::Weekday;

/// The finding that writes out days of the week which a phrase of `day` has
/// in short.
pub(super) fn weekdays(source: &Source<'_>, key: &str, items: &[Item]) -> Option<Finding> {
    let written = source.text_of(items);
    let plain = written_out(written).filter(|_| key == "day")?;
    let place = source.place_of(items);
    let message = format!("the days of the week are written out: `{plain}`");
    let finding = Finding::new("word-unknown", place, message);
    Some(finding.fix(Fix::judged(format!("Write `{plain}`"), place, plain)))
}

/// Days of the week in full.
pub(super) fn written_out(written: &str) -> Option<String> {
    let apart = written
        .to_lowercase()
        .replace(['-', '–'], " to ")
        .replace('&', " and ");
    let words = apart.split_whitespace().map(|word| match word {
        "to" | "and" => Some(word),
        "weekdays" => Some("monday to friday"),
        "weekend" | "weekends" => Some("saturday and sunday"),
        "daily" => Some("monday to sunday"),
        _ => {
            let bare = word.trim_end_matches(['.', 's']);
            let mut days = Weekday::ALL.iter().map(|day| day.word());
            days.find(|day| bare.len() >= 3 && day.starts_with(bare))
        }
    });
    Some(words.collect::<Option<Vec<_>>>()?.join(" "))
}

#[cfg(test)]
mod tests {
    use super::written_out;

    #[test]
    fn days_are_written_out() {
        for (written, expected) in [
            ("mon to fri", Some("monday to friday")),
            ("Mon-Fri", Some("monday to friday")),
            ("mondays and thurs", Some("monday and thursday")),
            ("weekdays", Some("monday to friday")),
            ("weekend", Some("saturday and sunday")),
            ("break 30 min", None),
            ("m to f", None),
        ] {
            assert_eq!(written_out(written).as_deref(), expected, "{written}");
        }
    }
}
