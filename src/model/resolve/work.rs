//! The `work` section worked out.

use super::super::job::{
    Beside, Built, Job, Length, OtherTask, Pause, Stated, StatedWait, TaskRate, Work, WorkingDay,
    measures_of,
};
use super::super::reading::{Clause, Entry, Filled, nearest};
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::heading::text_of;
use super::money::{OWN, noted};
use super::want::Range;
use crate::findings::{Finding, Fix, Place};
use crate::units::{Day, Dimension, Quantity, unit};
use crate::vocabulary::{NameSpace, Task, ValueKind, Weekday};

/// The most that work on one job, and the most days kept for rain.
const MOST: u32 = 100;
/// The longest wait, task or stretch of days off, in days.
const LONGEST: f64 = 366.0;

/// Half a day in minutes, by which an afternoon is told from a morning where
/// hours are counted to twelve.
const HALF_A_DAY: u16 = 12 * 60;

impl Resolver<'_> {
    /// Fills in the work.
    pub(crate) fn work_stated(&mut self, job: &mut Job) {
        let section = self.own("work").into_iter().next();
        job.work = section.map(|(_, section)| std::sync::Arc::new(self.work_of(section)));
    }

    fn work_of(&mut self, section: &LogicalSection) -> Work {
        let mut unread = Vec::new();
        unread.extend(section.has_lost_line().then(|| section.place()));
        let lost = &mut unread;
        let start = noted(section.entry("start"), lost, |entry| {
            self.day_in(&entry.filled, "DATE")
        });
        let crew = noted(section.entry("crew"), lost, |entry| {
            self.count(&entry.filled, "HANDS")
        });
        let day = noted(section.entry("day"), lost, |entry| self.working_day(entry));
        let off = self.each(section, "off", lost, |resolver, entry| {
            resolver.days_off(entry)
        });
        let temperature = noted(section.entry("temperature"), lost, |entry| {
            self.temperature(entry)
        });
        let rates = self.each(section, "rate", lost, |resolver, entry| {
            resolver.task_rate(entry, day.as_ref())
        });
        let waits = self.each(section, "wait", lost, |resolver, entry| {
            resolver.stated_wait(entry)
        });
        let tasks = self.each(section, "task", lost, |resolver, entry| {
            resolver.other_task(entry)
        });
        let orders = self.each(section, "order", lost, |resolver, entry| {
            resolver.build_order(entry)
        });
        // They come after all other days: without them those hold.
        let rain_days = section.entry("rain-days");
        let rain_days =
            rain_days.and_then(|entry| self.count_of(&entry.filled, "DAYS", Range::WholeOrNone));
        let work = Work {
            place: section.place(),
            start,
            crew,
            day,
            off,
            temperature,
            rates: self.once_each(rates),
            waits,
            tasks,
            orders,
            rain_days,
            notes: section
                .all("note")
                .filter_map(|entry| text_of(Some(entry), "NOTE"))
                .collect(),
            unread,
        };
        self.about_days_off(&work);
        self.about_other_tasks(&work);
        work
    }

    /// What each entry with a key says; where one cannot be made out that is
    /// noted.
    fn each<T>(
        &mut self,
        section: &LogicalSection,
        key: &str,
        unread: &mut Vec<Place>,
        read: impl Fn(&mut Self, &Entry) -> Option<T>,
    ) -> Vec<T> {
        let entries = section.all(key);
        entries
            .filter_map(|entry| noted(Some(entry), unread, |entry| read(self, entry)))
            .collect()
    }

    fn day_in(&mut self, filled: &Filled, slot: &str) -> Option<Stated<Day>> {
        let (date, place) = filled.date(slot)?;
        let is_real = self.real_day(date, place);
        let day = Day::read(date).filter(|_| is_real)?;
        Some(Stated::new(day, place))
    }

    fn count(&mut self, filled: &Filled, slot: &str) -> Option<Stated<u32>> {
        self.count_of(filled, slot, Range::Whole)
    }

    fn count_of(&mut self, filled: &Filled, slot: &str, range: Range) -> Option<Stated<u32>> {
        let count = self.wanted(filled, slot, ValueKind::Count, range, OWN)?;
        let number = count.value.si();
        if number <= f64::from(MOST) {
            return Some(Stated::new(number as u32, count.place));
        }
        let message = format!("more than {MOST}: is it a slip?");
        self.find(Finding::new("value-range", count.place, message));
        None
    }

    /// How many do a thing: one if it does not say.
    fn hands(&mut self, entry: &Entry) -> Option<Stated<u32>> {
        match entry.clause("crew") {
            None => Some(Stated::new(1, entry.place)),
            Some(clause) => self.count(&clause.filled, "HANDS"),
        }
    }

    fn working_day(&mut self, entry: &Entry) -> Option<WorkingDay> {
        let from = entry.filled.clock("FROM")?;
        let until = entry.filled.clock("UNTIL")?;
        if until.value <= from.value {
            let place = from.place.to(until.place);
            let message = "the day ends before it begins: count the hours to 24:00";
            let finding = Finding::new("value-range", place, message);
            let afternoon = until.value + HALF_A_DAY;
            let is_meant = until.value < HALF_A_DAY && afternoon > from.value;
            self.find(match is_meant {
                true => {
                    let written = format!("{}:{:02}", afternoon / 60, afternoon % 60);
                    let title = format!("Write `{written}`");
                    finding.fix(Fix::judged(title, until.place, written))
                }
                false => finding,
            });
            return None;
        }
        let pause = match entry.clause("break") {
            None => 0,
            Some(clause) => self.pause(clause, until.value - from.value)?,
        };
        Some(WorkingDay {
            from: from.value,
            until: until.value,
            pause,
            weekdays: self.weekdays(entry)?,
            place: entry.place,
        })
    }

    /// A break in minutes; it must leave some of a day.
    fn pause(&mut self, clause: &Clause, day: u16) -> Option<u16> {
        let range = Range::NotNegative;
        let time = self.wanted(&clause.filled, "LENGTH", ValueKind::Time, range, OWN)?;
        let minutes = time.value.in_unit(&unit::MINUTE)?.ceil().to_f64();
        if minutes < f64::from(day) {
            return Some(minutes as u16);
        }
        let message = "the break takes the whole day, and leaves no time to work";
        self.find(Finding::new("value-range", time.place, message));
        None
    }

    /// The days of the week that are named, in the order of the week.
    fn weekdays(&mut self, entry: &Entry) -> Option<Vec<Weekday>> {
        let Some(clause) = entry.values().next() else {
            return Some(Vec::new());
        };
        let first = clause.filled.chosen::<Weekday>("FIRST")?;
        let mut named = vec![first.value];
        if let Some(last) = clause.filled.chosen::<Weekday>("LAST") {
            let week = Weekday::ALL.iter().copied().cycle();
            let from = week.skip_while(|day| *day != first.value);
            // From Saturday to Monday are three days.
            let before = from.take(7).take_while(|day| *day != last.value);
            named = before.collect();
            named.push(last.value);
        }
        for (value, _) in clause.filled.all("MORE") {
            if let super::super::reading::Value::Choice(word) = value {
                named.extend(Weekday::from_word(word));
            }
        }
        named.sort_unstable();
        named.dedup();
        Some(named)
    }

    fn days_off(&mut self, entry: &Entry) -> Option<Stated<(Day, Day)>> {
        let first = self.day_in(&entry.filled, "FIRST")?;
        let last = match entry.filled.get("LAST") {
            None => first.clone(),
            Some(_) => self.day_in(&entry.filled, "LAST")?,
        };
        let days = last.value.since(first.value);
        let place = first.place.to(last.place);
        let message = match days {
            i64::MIN..0 => "the last day lies before the first",
            367.. => "more than a year off: is the date right?",
            _ => return Some(Stated::new((first.value, last.value), place)),
        };
        self.find(Finding::new("value-range", place, message));
        None
    }

    /// Days off mean nothing where no day has a date.
    fn about_days_off(&mut self, work: &Work) {
        let is_dated = work.start.is_some() || work.unread.iter().any(|_| true);
        if let (false, Some(off)) = (is_dated, work.off.first()) {
            let message = "days off need a date to count from: state the start of the work";
            self.find(Finding::new("entry-missing", off.place, message));
        }
    }

    /// Air that is neither colder nor hotter than anyone works in.
    fn temperature(&mut self, entry: &Entry) -> Option<Stated<Quantity>> {
        let kind = ValueKind::Temperature;
        let air = self.wanted(&entry.filled, "AIR", kind, Range::Any, OWN)?;
        if (233.0..=333.0).contains(&air.value.si()) {
            return Some(air);
        }
        let message = "nobody works in such air: between -40 and 60 °C belongs here";
        self.find(Finding::new("value-range", air.place, message));
        None
    }

    /// A rate: so much in a time, or a time for so much.
    fn task_rate(&mut self, entry: &Entry, day: Option<&WorkingDay>) -> Option<TaskRate> {
        let (word, named) = entry.filled.choice("TASK")?;
        let task = Task::from_word(word)?;
        let kind = ValueKind::Quantity;
        let slot = match entry.filled.get("DAYS") {
            Some(_) => "DAYS",
            None => "RATE",
        };
        let rate = self.wanted(&entry.filled, slot, kind, Range::Positive, OWN)?;
        let of = self.built_in(&entry.filled, "PART")?;
        let hands = self.hands(entry)?;
        let wanted = measures_of(task);
        if wanted.is_empty() {
            let message = format!("{word} goes by no rate: state its time as a task of its own");
            self.find(Finding::new("word-stray", named, message));
            return None;
        }
        let own = rate.value.dimension;
        let is_inverse = own.time > 0;
        let measures = match is_inverse {
            true => Dimension {
                time: 0,
                length: own.length.saturating_neg(),
                mass: own.mass.saturating_neg(),
                ..own
            },
            false => Dimension { time: 0, ..own },
        };
        let is_rate = own.time.abs() == 1 && rate.value.currency.is_none();
        if !is_rate || !wanted.contains(&measures) {
            self.no_rate(task, rate);
            return None;
        }
        let written = entry.filled.quantity(slot)?;
        let time = match (is_inverse, slot) {
            (true, "DAYS") => written.first_literal(),
            (true, _) => None,
            (false, _) => self.price_is_for(written),
        };
        let mut done = match is_inverse {
            true => 1.0 / rate.value.si(),
            false => rate.value.si(),
        };
        // A day of work has no 24 hours, and a week no seven days.
        let day_long = unit::DAY.size().to_f64();
        if let Some(time) = time.filter(|time| slot == "DAYS" || time.si() >= day_long) {
            done *= time.si() / seconds_worked(time.si(), day);
        }
        Some(TaskRate {
            task,
            of,
            done,
            measures,
            sharing: entry
                .filled
                .chosen("HOW")
                .map(|how| how.value)
                .unwrap_or_default(),
            hands,
            place: rate.place,
        })
    }

    fn no_rate(&mut self, task: Task, rate: Stated<Quantity>) {
        let wanted: Vec<String> = measures_of(task).iter().map(|own| own.name()).collect();
        let (word, example) = (task.word(), example_of(task));
        let message = format!(
            "a rate of {word} is {} in an hour, as in `rate {word} {example}`",
            wanted.join(" or ")
        );
        let mut finding = Finding::new("dimension-wrong", rate.place, message);
        if measures_of(task).contains(&rate.value.dimension) {
            for time in ["h", "day"] {
                let title = format!("Write `per {time}` after it");
                let text = format!(" per {time}");
                finding = finding.fix(Fix::judged(title, rate.place.end(), text));
            }
        }
        self.find(finding);
    }

    /// The first rate of each kind of work on each thing.
    fn once_each(&mut self, rates: Vec<TaskRate>) -> Vec<TaskRate> {
        let mut kept: Vec<TaskRate> = Vec::new();
        for rate in rates {
            let is_same = |own: &&TaskRate| own.task == rate.task && own.of == rate.of;
            match kept.iter().find(is_same) {
                Some(first) => {
                    let word = rate.task.word();
                    let message = format!("{word} has a rate already; the first one holds");
                    let finding = Finding::new("entry-twice", rate.place, message);
                    self.find(finding.related(first.place, "it is first stated here"));
                }
                None => kept.push(rate),
            }
        }
        kept
    }

    fn stated_wait(&mut self, entry: &Entry) -> Option<StatedWait> {
        let filled = &entry.filled;
        let (from, _) = filled.choice("FROM")?;
        let (to, _) = filled.choice("TO")?;
        let pause = match filled.get("TIME") {
            None => Pause::Overnight,
            Some(_) => Pause::Seconds(self.time_in(filled, "TIME")?.value.si()),
        };
        Some(StatedWait {
            pause,
            from: Task::from_word(from)?,
            to: Task::from_word(to)?,
            of: self.built_in(filled, "PART")?,
            place: entry.place,
        })
    }

    /// A time of at most a year.
    fn time_in(&mut self, filled: &Filled, slot: &str) -> Option<Stated<Quantity>> {
        let kind = ValueKind::Time;
        let time = self.wanted(filled, slot, kind, Range::NotNegative, OWN)?;
        if time.value.si() <= LONGEST * unit::DAY.size().to_f64() {
            return Some(time);
        }
        let message = "longer than a year: is the unit right?";
        self.find(Finding::new("value-range", time.place, message));
        None
    }

    /// What a slot names: nothing if none is named, and no value if there is
    /// none of that name.
    fn built_in(&mut self, filled: &Filled, slot: &str) -> Option<Option<Built>> {
        match filled.name(slot) {
            None => Some(None),
            Some((name, place)) => Some(Some(self.built(name, place)?)),
        }
    }

    /// What is built under a name: a surface, else a drain, else a flight of
    /// steps.
    fn built(&mut self, name: &str, place: Place) -> Option<Built> {
        let spaces = [NameSpace::Surfaces, NameSpace::Drains, NameSpace::Steps];
        let mut all = spaces.iter().copied();
        if let Some(space) = all.find(|own| self.seen(*own, name, OWN).is_some()) {
            self.look_up(space, name, place, OWN)?;
            let name = name.to_owned();
            return Some(match space {
                NameSpace::Drains => Built::Drain(name),
                NameSpace::Steps => Built::Steps(name),
                _ => Built::Surface(name),
            });
        }
        // It is told of as what it is most like.
        let scope = std::sync::Arc::clone(&self.scope);
        let is_near = |space: &NameSpace| {
            let known = scope.definitions.names(*space).iter();
            nearest(name, known.map(String::as_str)).is_some()
        };
        let (space, noun) = match spaces.into_iter().find(is_near) {
            Some(space) => (space, space.noun()),
            None => (
                NameSpace::Surfaces,
                "a surface, a drain or a flight of steps",
            ),
        };
        self.missing(space, noun, (name, place), OWN);
        None
    }

    fn other_task(&mut self, entry: &Entry) -> Option<OtherTask> {
        let what = text_of(Some(entry), "WHAT")?;
        let length = match entry.values().next() {
            None => {
                let message = "how long does this take? State its hours";
                let finding = Finding::new("entry-missing", entry.place, message);
                let fix = Fix::judged("Write 4 h after it", what.place.end(), ", 4 h");
                self.find(finding.fix(fix));
                None
            }
            Some(clause) => Some(self.length_of_task(clause)?),
        };
        let besides = |resolver: &mut Self, word: &str| {
            let mut all = Vec::new();
            for clause in entry.clauses.iter().filter(|own| own.word == Some(word)) {
                let told = clause.filled.text("WHAT");
                let place = told.map_or(clause.place, |(_, place)| place);
                all.push(Stated::new(resolver.beside(clause)?, place));
            }
            Some(all)
        };
        Some(OtherTask {
            what: what.value,
            length,
            after: besides(self, "after")?,
            before: besides(self, "before")?,
            hands: self.hands(entry)?.value,
            place: entry.place,
        })
    }

    /// How long a task takes: days are working days.
    fn length_of_task(&mut self, clause: &Clause) -> Option<Length> {
        if clause.filled.get("DAYS").is_none() {
            let time = self.time_in(&clause.filled, "LENGTH")?;
            return Some(Length::Seconds(time.value.si()));
        }
        let days = self.time_in(&clause.filled, "DAYS")?;
        Some(Length::Days(days.value.in_unit(&unit::DAY)?.to_f64()))
    }

    fn beside(&mut self, clause: &Clause) -> Option<Beside> {
        if let Some((what, _)) = clause.filled.text("WHAT") {
            return Some(Beside::Told(what.to_owned()));
        }
        if let Some((what, place)) = clause.filled.name("WHAT") {
            self.task_without_quotes(what, place);
            return None;
        }
        let (word, _) = clause.filled.choice("TASK")?;
        let of = self.built_in(&clause.filled, "PART")?;
        Some(Beside::Kind(Task::from_word(word)?, of))
    }

    fn build_order(&mut self, entry: &Entry) -> Option<Stated<Vec<Built>>> {
        let first = entry.filled.name("FIRST").into_iter();
        let rest = entry
            .filled
            .all("NEXT")
            .filter_map(|(value, place)| match value {
                super::super::reading::Value::Name(name) => Some((name.as_str(), place)),
                _ => None,
            });
        let mut names: Vec<Built> = Vec::new();
        for (name, place) in first.chain(rest) {
            let built = self.built(name, place)?;
            if names.contains(&built) {
                let message = format!("`{name}` stands twice in this order");
                self.find(Finding::new("entry-twice", place, message));
                return None;
            }
            names.push(built);
        }
        Some(Stated::new(names, entry.place))
    }
}

/// The seconds that are worked in so many of the calendar, whole weeks by
/// the days of the week that are worked: eight hours a day, and five days a
/// week, where that is not stated.
fn seconds_worked(seconds: f64, day: Option<&WorkingDay>) -> f64 {
    let minutes = day.map_or(480, |day| {
        day.until.saturating_sub(day.from).saturating_sub(day.pause)
    });
    let in_a_week = day.map_or(5, |day| day.weekdays.len());
    let (days, weeks) = (
        seconds / unit::DAY.size().to_f64(),
        seconds / unit::WEEK.size().to_f64(),
    );
    let worked = match weeks >= 1.0 && weeks.fract() == 0.0 {
        true => weeks * in_a_week as f64,
        false => days,
    };
    worked * f64::from(minutes) * 60.0
}

/// A rate as it is written.
const fn example_of(task: Task) -> &'static str {
    match task {
        Task::Compacting => "1 ton per h",
        Task::Digging | Task::Carting | Task::Pouring | Task::Backfilling => "0.5 m3 per h",
        Task::Edging | Task::Forming | Task::Draining => "10 m per h",
        Task::Building => "1 m per h",
        _ => "4 m2 per h",
    }
}
