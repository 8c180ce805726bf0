//! Today's date, for acceptances that run out.

use std::time::{SystemTime, UNIX_EPOCH};

/// Today by the clock of Greenwich, as `2027-01-12`.
pub fn today() -> String {
    let since = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .unwrap_or_default();
    date(since.as_secs() / 86_400)
}

/// The date so many days after 1970-01-01, in the Gregorian calendar.
fn date(days: u64) -> String {
    // Years are counted from March, so that the leap day ends the year; an era
    // is the 400 years after which the calendar repeats.
    let day = days + 719_468;
    let (era, day) = (day / 146_097, day % 146_097);
    let year = (day - day / 1_460 + day / 36_524 - day / 146_096) / 365;
    let day = day - (365 * year + year / 4 - year / 100);
    let month = (5 * day + 2) / 153;
    let day = day - (153 * month + 2) / 5 + 1;
    let (year, month) = if month < 10 {
        (year, month + 3)
    } else {
        (year + 1, month - 9)
    };
    format!("{:04}-{month:02}-{day:02}", year + 400 * era)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_dates_of_the_calendar() {
        for (days, expected) in [
            (0, "1970-01-01"),
            (58, "1970-02-28"),
            (59, "1970-03-01"),
            (789, "1972-02-29"),
            (11_016, "2000-02-29"),
            (11_322, "2000-12-31"),
            (20_830, "2027-01-12"),
            (47_540, "2100-02-28"),
            (47_541, "2100-03-01"),
        ] {
            assert_eq!(date(days), expected);
        }
    }
}
