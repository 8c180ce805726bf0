//! Days of the calendar.

use std::fmt;

/// Days from 1 March of the year 0 to 1 January 1970.
const BEFORE_1970: i64 = 719_468;

/// The days of the week in short.
const WEEKDAYS: [&str; 7] = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];

/// The months in short.
const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// A day of the Gregorian calendar. Days are counted from 1970-01-01, so
/// that the difference of two is the days between them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(i64);

impl Day {
    /// The day written as `2027-04-12`; nothing if it is no day, or written
    /// in another form.
    pub fn read(text: &str) -> Option<Day> {
        let mut parts = text.split('-');
        let mut next = |digits: usize| -> Option<i64> {
            let part = parts.next()?;
            let plain = part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit());
            plain.then(|| part.parse().ok()).flatten()
        };
        let (year, month, day) = (next(4)?, next(2)?, next(2)?);
        if parts.next().is_some() || !(1..=days_in(month, year)).contains(&day) {
            return None;
        }
        // Counted in years that begin in March, so that a leap day comes last.
        let year = if month > 2 { year } else { year - 1 };
        let month = (month + 9) % 12;
        let leap_days = year.div_euclid(4) - year.div_euclid(100) + year.div_euclid(400);
        let days = 365 * year + leap_days + (153 * month + 2) / 5 + day - 1;
        Some(Day(days - BEFORE_1970))
    }

    /// The day so many days after 1970-01-01.
    pub const fn after_1970(days: i64) -> Day {
        Day(days)
    }

    /// The day after it.
    pub const fn next(self) -> Day {
        Day(self.0.saturating_add(1))
    }

    /// The day as people name it within a year: `Mon 12 Apr`.
    pub fn in_words(self) -> String {
        let written = self.to_string();
        let mut parts = written.rsplit('-');
        let day = parts.next().unwrap_or_default().trim_start_matches('0');
        let month = parts.next().and_then(|month| month.parse::<usize>().ok());
        let month = month.and_then(|month| MONTHS.get(month.checked_sub(1)?));
        let weekday = WEEKDAYS.get(self.weekday() as usize);
        let name = |name: Option<&&'static str>| name.copied().unwrap_or_default();
        format!("{} {day} {}", name(weekday), name(month))
    }

    /// The same with its year: `Mon 12 Apr 2027`.
    pub fn in_words_with_year(self) -> String {
        format!("{} {}", self.in_words(), self.year())
    }

    /// Its year.
    pub fn year(self) -> i64 {
        let written = self.to_string();
        let year = written.rsplitn(3, '-').last();
        year.and_then(|year| year.parse().ok()).unwrap_or_default()
    }

    /// The day of the week, Monday 0.
    pub const fn weekday(self) -> i64 {
        // The first day of 1970 was a Thursday.
        self.0.saturating_add(3).rem_euclid(7)
    }

    /// How many days this day lies after another; negative before it.
    pub const fn since(self, other: Day) -> i64 {
        self.0.saturating_sub(other.0)
    }
}

/// The days of a month; 0 for a month that is none.
const fn days_in(month: i64, year: i64) -> i64 {
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 if leap => 29,
        2 => 28,
        _ => 0,
    }
}

impl fmt::Display for Day {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Years are counted from March; an era is the 400 years after which
        // the calendar repeats.
        let day = self.0.saturating_add(BEFORE_1970);
        let (era, day) = (day.div_euclid(146_097), day.rem_euclid(146_097));
        let year = (day - day / 1_460 + day / 36_524 - day / 146_096) / 365;
        let day = day - (365 * year + year / 4 - year / 100);
        let month = (5 * day + 2) / 153;
        let day = day - (153 * month + 2) / 5 + 1;
        let (year, month) = if month < 10 {
            (year, month + 3)
        } else {
            (year + 1, month - 9)
        };
        write!(out, "{:04}-{month:02}-{day:02}", year + 400 * era)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_counted_over_months_and_leap_years() {
        for (from, to, days) in [
            ("2027-04-12", "2027-04-12", 0),
            ("2027-04-12", "2027-05-12", 30),
            ("2028-02-28", "2028-03-01", 2),
            ("2027-02-28", "2027-03-01", 1),
            ("2100-02-28", "2100-03-01", 1),
            ("2027-12-31", "2028-01-01", 1),
            ("2028-01-01", "2027-12-31", -1),
            ("2000-01-01", "2400-01-01", 146_097),
        ] {
            let (from, to) = (Day::read(from).unwrap(), Day::read(to).unwrap());
            assert_eq!(to.since(from), days);
        }
    }

    #[test]
    fn days_since_1970_are_dates() {
        for (days, date) in [
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
            assert_eq!(Day::after_1970(days).to_string(), date);
            assert_eq!(Day::read(date), Some(Day::after_1970(days)));
        }
    }

    #[test]
    fn days_are_named_by_week_and_month() {
        for (date, weekday, words) in [
            ("2027-04-12", 0, "Mon 12 Apr"),
            ("1970-01-01", 3, "Thu 1 Jan"),
            ("1969-12-28", 6, "Sun 28 Dec"),
            ("2028-02-29", 1, "Tue 29 Feb"),
        ] {
            let day = Day::read(date).unwrap();
            assert_eq!((day.weekday(), day.in_words().as_str()), (weekday, words));
            let year = date.split('-').next().unwrap();
            assert_eq!(day.in_words_with_year(), format!("{words} {year}"));
        }
    }

    #[test]
    fn what_is_no_day_is_none() {
        for text in [
            "",
            "2027",
            "2027-4-12",
            "12-04-2027",
            "2027-13-01",
            "2027-01-00",
            "2027-02-29",
            "2100-02-29",
            "2027-06-31",
            "2027-01-01-01",
            "+027-06-01",
            "abcd-ef-gh",
        ] {
            assert_eq!(Day::read(text), None, "{text}");
        }
        assert!(Day::read("2028-02-29").is_some());
    }
}
