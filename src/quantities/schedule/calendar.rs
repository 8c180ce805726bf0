//! The calendar of a job: when work is done, in minutes from the first
//! midnight on. What lies beyond the horizon is not known.

use std::ops::Range;

/// Minutes from the midnight at which the first day begins.
pub type Minutes = i64;

/// The minutes of a day.
pub const DAY: Minutes = 24 * 60;

/// How many days are looked at: work that goes on for longer has no end here.
const HORIZON: i64 = 1_500;

/// When work is done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Calendar {
    /// The stretches of a working day, in order, with a break between them.
    stretches: Vec<Range<Minutes>>,
    /// Whether each day of the week is worked, Monday first.
    weekdays: [bool; 7],
    /// Which day of the week the first day is, Monday 0.
    first_weekday: i64,
    /// Days on which nobody works, counted from the first.
    off: Vec<Range<i64>>,
}

impl Calendar {
    /// The calendar of days from `from` to `until`, with a break of so many
    /// minutes in their middle; all in minutes since midnight.
    pub(crate) fn new(from: Minutes, until: Minutes, pause: Minutes) -> Calendar {
        let middle = from + (until - from - pause) / 2;
        // From the quarter of an hour, as a break begins.
        let middle = (middle - middle % 15).max(from);
        let whole = (from..until, until..until);
        let parted = (from..middle, middle + pause..until);
        let (first, second) = if pause > 0 { parted } else { whole };
        let stretches = [first, second];
        Calendar {
            stretches: stretches
                .into_iter()
                .filter(|own| !own.is_empty())
                .collect(),
            weekdays: [true; 7],
            first_weekday: 0,
            off: Vec::new(),
        }
    }

    /// Work day and night, with no day off.
    #[cfg(test)]
    pub(crate) fn without_end() -> Calendar {
        Calendar::new(0, DAY, 0)
    }

    /// Worked on these days of the week only, Monday first.
    #[must_use]
    pub(crate) fn on(self, weekdays: [bool; 7]) -> Calendar {
        Calendar { weekdays, ..self }
    }

    /// With a first day that is this day of the week, Monday 0.
    #[must_use]
    pub(crate) fn beginning_on(self, first_weekday: i64) -> Calendar {
        Calendar {
            first_weekday: first_weekday.rem_euclid(7),
            ..self
        }
    }

    /// Which day of the week the first day is, Monday 0.
    pub(crate) const fn first_weekday(&self) -> u8 {
        self.first_weekday as u8
    }

    /// With these days off, counted from the first.
    #[must_use]
    pub(crate) fn off(self, off: Vec<Range<i64>>) -> Calendar {
        Calendar { off, ..self }
    }

    /// Whether a day is worked.
    pub(crate) fn is_worked(&self, day: i64) -> bool {
        let weekday = (day + self.first_weekday).rem_euclid(7) as usize;
        self.weekdays.get(weekday).is_some_and(|is| *is)
            && !self.off.iter().any(|off| off.contains(&day))
    }

    /// The working time of a day.
    pub(crate) fn day_length(&self) -> Minutes {
        self.stretches.iter().map(|own| own.end - own.start).sum()
    }

    /// From a day's opening to its close, the break included.
    pub(crate) fn day_span(&self) -> Minutes {
        let (first, last) = (self.stretches.first(), self.stretches.last());
        first
            .zip(last)
            .map_or(0, |(first, last)| last.end - first.start)
    }

    /// When a day opens and when it closes.
    pub(crate) fn hours(&self, day: i64) -> Option<Range<Minutes>> {
        let (first, last) = (self.stretches.first()?, self.stretches.last()?);
        let hours = day * DAY + first.start..day * DAY + last.end;
        self.is_worked(day).then_some(hours)
    }

    /// The stretches of a day.
    fn of_day(&self, day: i64) -> impl DoubleEndedIterator<Item = Range<Minutes>> + '_ {
        let is_worked = self.is_worked(day);
        let own = self.stretches.iter().filter(move |_| is_worked);
        own.map(move |own| day * DAY + own.start..day * DAY + own.end)
    }

    /// The first working minute from a moment on.
    pub(crate) fn open(&self, from: Minutes) -> Option<Minutes> {
        let first = from.div_euclid(DAY);
        let days = first..first.saturating_add(HORIZON).min(HORIZON);
        let mut stretches = days.flat_map(|day| self.of_day(day));
        let own = stretches.find(|own| own.end > from)?;
        Some(own.start.max(from))
    }

    /// When so much work that begins at a working minute is done.
    pub(crate) fn done(&self, start: Minutes, work: Minutes) -> Option<Minutes> {
        let mut left = work;
        if left <= 0 {
            return Some(start);
        }
        for day in start.div_euclid(DAY)..HORIZON {
            for own in self.of_day(day) {
                let from = own.start.max(start);
                let room = own.end - from;
                if room <= 0 {
                    continue;
                }
                if left <= room {
                    return Some(from + left);
                }
                left -= room;
            }
        }
        None
    }

    /// The latest moment at which so much work can begin to be done by an
    /// end.
    pub(crate) fn begun(&self, end: Minutes, work: Minutes) -> Option<Minutes> {
        let mut left = work;
        if left <= 0 {
            return Some(end);
        }
        let last = end.div_euclid(DAY);
        for day in (last - HORIZON..=last).rev() {
            for own in self.of_day(day).rev() {
                let until = own.end.min(end);
                let room = until - own.start;
                if room <= 0 {
                    continue;
                }
                if left <= room {
                    return Some(until - left);
                }
                left -= room;
            }
        }
        None
    }

    /// The first moment from `from` on at which something that takes `whole`
    /// minutes, the break worked through, is done on the same day.
    pub(crate) fn open_for_whole(&self, from: Minutes, whole: Minutes) -> Option<Minutes> {
        let first = from.div_euclid(DAY);
        let mut days = first..first.saturating_add(HORIZON).min(HORIZON);
        days.find_map(|day| {
            let hours = self.hours(day)?;
            let start = hours.start.max(from);
            let start = self.open(start)?;
            (start + whole <= hours.end).then_some(start)
        })
    }

    /// The latest moment at which something that is not parted can begin to
    /// be done by an end.
    pub(crate) fn begun_whole(&self, end: Minutes, whole: Minutes) -> Option<Minutes> {
        let last = end.div_euclid(DAY);
        let mut days = (last - HORIZON..=last).rev();
        days.find_map(|day| {
            let hours = self.hours(day)?;
            let start = hours.end.min(end) - whole;
            (start >= hours.start).then_some(start)
        })
    }

    /// The working minutes between two moments; 0 if the second is the
    /// earlier.
    pub(crate) fn between(&self, from: Minutes, until: Minutes) -> Minutes {
        let (first, last) = (from.div_euclid(DAY), until.div_euclid(DAY));
        let days = first..=last.min(first.saturating_add(HORIZON));
        let stretches = days.flat_map(|day| self.of_day(day));
        let common = |own: Range<Minutes>| own.end.min(until) - own.start.max(from);
        stretches.map(|own| common(own).max(0)).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// 8:00 to 16:30 with a break of half an hour, Monday to Friday, from a
    /// Thursday on.
    fn week() -> Calendar {
        Calendar::new(8 * 60, 16 * 60 + 30, 30)
            .on([true, true, true, true, true, false, false])
            .beginning_on(3)
    }

    fn at(day: i64, hours: i64, minutes: i64) -> Minutes {
        day * DAY + hours * 60 + minutes
    }

    #[test]
    fn work_stops_for_the_break_the_night_and_the_weekend() {
        let week = week();
        assert_eq!(week.day_length(), 8 * 60);
        for (start, hours, end) in [
            (at(0, 8, 0), 4, at(0, 12, 0)),
            (at(0, 8, 0), 5, at(0, 13, 30)),
            (at(0, 8, 0), 8, at(0, 16, 30)),
            (at(0, 15, 30), 2, at(1, 9, 0)),
            // Over the weekend.
            (at(1, 15, 30), 2, at(4, 9, 0)),
        ] {
            assert_eq!(week.done(start, hours * 60), Some(end));
            assert_eq!(week.begun(end, hours * 60), Some(start));
            assert_eq!(week.between(start, end), hours * 60);
        }
        for (from, open) in [
            (0, at(0, 8, 0)),
            (at(0, 12, 10), at(0, 12, 30)),
            (at(0, 16, 30), at(1, 8, 0)),
            (at(2, 9, 0), at(4, 8, 0)),
        ] {
            assert_eq!(week.open(from), Some(open));
        }
    }

    #[test]
    fn what_is_not_parted_waits_for_a_day_that_holds_it() {
        let week = week();
        for (from, hours, start) in [
            (at(0, 8, 0), 8, Some(at(0, 8, 0))),
            (at(0, 9, 0), 8, Some(at(1, 8, 0))),
            (at(1, 12, 30), 5, Some(at(4, 8, 0))),
            (at(0, 8, 0), 9, None),
        ] {
            assert_eq!(week.open_for_whole(from, hours * 60), start);
        }
        assert_eq!(week.begun_whole(at(4, 9, 0), 120), Some(at(1, 14, 30)));
    }

    #[test]
    fn days_off_are_not_worked_and_no_days_are_no_calendar() {
        let off = |days: Range<i64>| week().off(std::iter::once(days).collect());
        assert_eq!(off(1..5).open(at(0, 16, 30)), Some(at(5, 8, 0)));
        let never = week().on([false; 7]);
        assert_eq!(never.open(0), None);
        assert_eq!(off(0..9_999).open(0), None);
    }

    proptest! {
        /// Work that is begun as late as it may is done at its end, and no
        /// sooner than that.
        #[test]
        fn to_begin_is_the_way_back_of_to_be_done(
            from in 0i64..600, length in 60i64..800, pause in 0i64..200, work in 1i64..4000,
            start in 0i64..20_000,
        ) {
            let calendar = Calendar::new(from, from + length, pause.min(length - 30))
                .on([true, true, false, true, true, false, true]);
            let start = calendar.open(start).unwrap();
            let end = calendar.done(start, work).unwrap();
            prop_assert_eq!(calendar.between(start, end), work);
            let again = calendar.begun(end, work).unwrap();
            prop_assert_eq!(calendar.between(again, end), work);
            prop_assert!(again >= start);
        }
    }
}
