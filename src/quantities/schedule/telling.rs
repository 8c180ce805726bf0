//! A schedule in words: days, moments, and why a task begins when it does.

use super::{DAY_MINUTES, Lag, Minutes, Reason, ScheduleFigures, Span};
use crate::units::show;

impl ScheduleFigures {
    /// A day, counted from the first: `Mon 12 Apr`, with its year where it and
    /// the work do not all lie within one; `day 3` where days have no dates.
    pub fn day_name(&self, day: i64) -> String {
        let Some(day) = self.day(day.saturating_mul(DAY_MINUTES)) else {
            return format!("day {}", day.saturating_add(1));
        };
        let end = self.end_with_rain_min.max(self.end_min);
        let ends = [Some(0), end.map(|end| (end - 1).max(0))].into_iter();
        let is_within = |moment: Minutes| {
            let other = self.day(moment);
            other.is_some_and(|other| other.year() == day.year())
        };
        match ends.flatten().all(is_within) {
            true => day.in_words(),
            false => day.in_words_with_year(),
        }
    }

    /// A moment: `Mon 12 Apr 8:00`, `day 3 8:00`.
    pub fn moment(&self, moment: Minutes) -> String {
        let (day, minute) = (
            moment.div_euclid(DAY_MINUTES),
            moment.rem_euclid(DAY_MINUTES),
        );
        format!("{} {}", self.day_name(day), clock(minute))
    }

    /// From when to when: `Mon 12 Apr 8:00 to 12:00`, `day 1 8:00 to day 2
    /// 9:30`.
    pub fn from_to(&self, start: Minutes, end: Minutes) -> String {
        let is_same = start.div_euclid(DAY_MINUTES) == end.div_euclid(DAY_MINUTES);
        let until = match is_same {
            true => clock(end.rem_euclid(DAY_MINUTES)),
            false => self.moment(end),
        };
        format!("{} to {until}", self.moment(start))
    }

    /// The days from when to when: `Mon 12 Apr`, `day 1 to day 2`.
    pub fn days_from_to(&self, start: Minutes, end: Minutes) -> String {
        let last = (end - 1).max(start).div_euclid(DAY_MINUTES);
        let first = start.div_euclid(DAY_MINUTES);
        match first == last {
            true => self.day_name(first),
            false => format!("{} to {}", self.day_name(first), self.day_name(last)),
        }
    }

    /// The stretches of a task's time, one a day; of what goes on by the clock
    /// the whole. Empty for one without a day.
    pub fn stretches(&self, index: usize) -> Vec<(Minutes, Minutes)> {
        let task = self.tasks.get(index);
        let Some((span, slot)) = task.and_then(|task| task.span.zip(task.slot)) else {
            return Vec::new();
        };
        let (start, end) = (slot.start_min, slot.end_min);
        if matches!(span, Span::ByTheClock(_)) || start >= end {
            return vec![(start, end)];
        }
        let days = start.div_euclid(DAY_MINUTES)..=(end - 1).div_euclid(DAY_MINUTES);
        let own = days.filter_map(|day| {
            let hours = self.calendar.hours(day)?;
            let (from, until) = (hours.start.max(start), hours.end.min(end));
            (from < until).then_some((from, until))
        });
        own.collect()
    }

    /// Why a task does not begin earlier: `waits for laying of court, 24 h`.
    pub fn why(&self, index: usize) -> Option<String> {
        let reason = self.tasks.get(index)?.slot?.reason;
        let name = |index: usize| self.tasks.get(index).map(|own| own.name.as_str());
        Some(match reason {
            Reason::Start => "begins the work".to_owned(),
            Reason::After(from, Lag::Minutes(0)) => format!("follows {}", name(from)?),
            Reason::After(from, Lag::Minutes(minutes)) => {
                let time = show::time(minutes as f64 * 60.0);
                format!("waits for {}, {time}", name(from)?)
            }
            Reason::After(from, Lag::Weekdays { days, .. }) => {
                format!("waits for {}, {days} working days", name(from)?)
            }
            Reason::After(from, _) => format!("waits for {}, overnight", name(from)?),
            Reason::Crew(from) => match name(from) {
                Some(name) => format!("waits for hands from {name}"),
                None => "waits for hands".to_owned(),
            },
            Reason::Day => "would not be done before the day's end, and is not parted".to_owned(),
        })
    }
}

/// Minutes since midnight as a clock shows them: `8:00`.
fn clock(minutes: Minutes) -> String {
    format!("{}:{:02}", minutes / 60, minutes % 60)
}
