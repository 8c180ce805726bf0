//! Days of the calendar, for acceptances that run out.

/// A day, counted so that the difference of two is the days between them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Day(i64);

impl Day {
    /// The day written as `2027-04-12`; nothing if it is no such date.
    pub fn read(text: &str) -> Option<Day> {
        let mut parts = text.trim().split('-');
        let mut next = |digits: usize| -> Option<i64> {
            let part = parts.next()?;
            let plain = part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit());
            plain.then(|| part.parse().ok()).flatten()
        };
        let (year, month, day) = (next(4)?, next(2)?, next(2)?);
        if parts.next().is_some() || !(1..=12).contains(&month) || !(1..=31).contains(&day) {
            return None;
        }
        // Counted in years that begin in March, so that a leap day comes last.
        let year = if month > 2 { year } else { year - 1 };
        let month = (month + 9) % 12;
        let leap_days = year / 4 - year / 100 + year / 400;
        Some(Day(365 * year + leap_days + (153 * month + 2) / 5 + day))
    }

    /// How many days this day lies after another; negative before it.
    pub fn since(self, other: Day) -> i64 {
        self.0 - other.0
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
    fn what_is_no_date_is_none() {
        for text in [
            "",
            "2027",
            "2027-4-12",
            "12-04-2027",
            "2027-13-01",
            "2027-01-00",
            "2027-01-01-01",
            "abcd-ef-gh",
        ] {
            assert_eq!(Day::read(text), None, "{text}");
        }
    }
}
