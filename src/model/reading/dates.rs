//! Dates as people write them: `4/12/2027`, `12 April 2027`.

use super::misread::refused;
use super::source::Source;
use crate::findings::{Finding, Fix};
use crate::syntax::{Item, ItemKind};
use crate::vocabulary::Weekday;

/// What is said of a date that is written otherwise.
pub(crate) const MESSAGE: &str = "a date is written year-month-day, such as `2027-04-12`";

/// The months by the three letters that they begin with.
const MONTHS: [&str; 12] = [
    "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec",
];

/// How many items make a date that is written otherwise, and the finding
/// that offers what it may mean.
pub(super) fn date(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    if matches!(rest.first()?.kind, ItemKind::Date) {
        return None;
    }
    let is_joiner = |item: &Item| source.is_word(item, "to");
    let end = rest.iter().position(is_joiner).unwrap_or(rest.len());
    let own = rest.get(..end)?;
    let fixes = readings(source.text_of(own))?;
    refused(source, own, "number-unclear", MESSAGE.to_owned(), &fixes)
}

/// `April 12, 2027`: a date that a comma parts, which is all that its line
/// says.
pub(super) fn date_with_comma(source: &Source<'_>) -> Option<Finding> {
    let [day, year] = &*source.line.phrases else {
        return None;
    };
    let place = source.place_of(&day.items).to(source.place_of(&year.items));
    let written = place.span.relative_to(source.start).slice(source.text);
    let fixes = readings(&written.replace(',', " "))?;
    let finding = Finding::new("number-unclear", place, MESSAGE);
    Some(fixes.into_iter().fold(finding, |finding, text| {
        finding.fix(Fix::judged(format!("Write `{text}`"), place, text))
    }))
}

/// The days that a text may mean, the likeliest first; of three numbers the
/// first may be the day or the month.
fn readings(written: &str) -> Option<Vec<String>> {
    let parts = written.split(['/', '.', '-', ' ']);
    let mut parts: Vec<&str> = parts.filter(|part| !part.is_empty()).collect();
    // The day of the week says nothing that the date does not.
    if parts.len() == 4 && parts.first().is_some_and(|first| is_weekday(first)) {
        parts.remove(0);
    }
    let [first, second, third] = parts.as_slice() else {
        return None;
    };
    let (year, days) = match (month(first), month(second)) {
        (None, Some(month)) => (number(third)?, vec![(nth(first)?, month)]),
        (Some(month), None) => (number(third)?, vec![(nth(second)?, month)]),
        _ => match (number(first)?, number(second)?, number(third)?) {
            (first, second, year) if year >= 1000 => (year, vec![(first, second), (second, first)]),
            (year, month, day) => (year, vec![(day, month)]),
        },
    };
    let is_day = |(day, month): &(u32, u32)| (1..=31).contains(day) && (1..=12).contains(month);
    let days = days.into_iter().filter(is_day);
    let mut days: Vec<String> = days
        .map(|(day, month)| format!("{year:04}-{month:02}-{day:02}"))
        .collect();
    days.dedup();
    (year >= 1000).then_some(days)
}

/// `Monday`, `Mon`.
fn is_weekday(text: &str) -> bool {
    let lower = text.to_lowercase();
    let mut days = Weekday::ALL.iter();
    lower.len() >= 3 && days.any(|day| day.word().starts_with(&lower))
}

fn number(text: &str) -> Option<u32> {
    text.parse().ok()
}

/// The month of a word: `Apr`, `april`.
fn month(text: &str) -> Option<u32> {
    let lower = text.to_lowercase();
    let is_word = lower.chars().all(char::is_alphabetic);
    let at = MONTHS.iter().position(|month| lower.starts_with(month))?;
    is_word.then_some(at as u32 + 1)
}

/// The number of a day: `12`, `12th`.
fn nth(text: &str) -> Option<u32> {
    let ends = ["st", "nd", "rd", "th"];
    let bare = ends.iter().find_map(|end| text.strip_suffix(end));
    number(bare.unwrap_or(text))
}

#[cfg(test)]
mod tests {
    use super::readings;

    #[test]
    fn dates_are_read_as_they_may_be_meant() {
        for (written, expected) in [
            ("12/04/2027", Some(vec!["2027-04-12", "2027-12-04"])),
            ("25.4.2027", Some(vec!["2027-04-25"])),
            ("4/4/2027", Some(vec!["2027-04-04"])),
            ("2027-4-12", Some(vec!["2027-04-12"])),
            ("12 April 2027", Some(vec!["2027-04-12"])),
            ("Apr 12th 2027", Some(vec!["2027-04-12"])),
            ("12-Apr-2027", Some(vec!["2027-04-12"])),
            ("Monday 3 May 2027", Some(vec!["2027-05-03"])),
            ("Mon 3/5/2027", Some(vec!["2027-05-03", "2027-03-05"])),
            ("brick 3 May 2027", None),
            ("12 April 27", None),
            ("April 2027", None),
            ("12 brick 2027", None),
        ] {
            let found = readings(written);
            let expected = expected.map(|days| days.into_iter().map(str::to_owned).collect());
            assert_eq!(found, expected, "{written}");
        }
    }
}
