//! Days of the calendar.

use std::time::{SystemTime, UNIX_EPOCH};

const SECONDS_A_DAY: u64 = 86_400;

/// Today by universal time, as `2027-01-12`.
pub fn today() -> String {
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    date_of(since.map_or(0, |since| since.as_secs() / SECONDS_A_DAY))
}

/// A day as the command line gives it, if there is such a day.
pub fn day(text: &str) -> Result<String, String> {
    match is_day(text) {
        Some(true) => Ok(text.to_owned()),
        _ => Err("write a day as 2027-06-01".to_owned()),
    }
}

fn is_day(text: &str) -> Option<bool> {
    let mut parts = text.split('-');
    let mut digits = |count| {
        let part = parts.next()?;
        let is_right = part.len() == count && part.bytes().all(|byte| byte.is_ascii_digit());
        part.parse::<u64>().ok().filter(|_| is_right)
    };
    let (year, month, day) = (digits(4)?, digits(2)?, digits(2)?);
    Some((1..=days_in(month, year)).contains(&day) && parts.next().is_none())
}

fn is_leap(year: u64) -> bool {
    year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400))
}

fn days_in(month: u64, year: u64) -> u64 {
    match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 if is_leap(year) => 29,
        2 => 28,
        _ => 0,
    }
}

/// The date so many days after 1 January 1970.
fn date_of(mut days: u64) -> String {
    let days_of = |year| 365 + u64::from(is_leap(year));
    let (mut year, mut month) = (1970, 1);
    while days >= days_of(year) {
        days -= days_of(year);
        year += 1;
    }
    while days >= days_in(month, year) {
        days -= days_in(month, year);
        month += 1;
    }
    format!("{year:04}-{month:02}-{:02}", days + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_counted_from_1970() {
        for (days, date) in [
            (0, "1970-01-01"),
            (59, "1970-03-01"),
            (789, "1972-02-29"),
            (11_016, "2000-02-29"),
            (20_835, "2027-01-17"),
        ] {
            assert_eq!(date_of(days), date);
        }
    }

    #[test]
    fn only_days_are_read() {
        for good in ["2027-06-01", "2028-02-29", "0001-12-31"] {
            assert_eq!(day(good).as_deref(), Ok(good));
        }
        for bad in [
            "",
            "2027-6-1",
            "2027-02-29",
            "2027-13-01",
            "01/06/2027",
            "2027-06-01-1",
            "+027-06-01",
        ] {
            assert!(day(bad).is_err(), "{bad}");
        }
    }
}
