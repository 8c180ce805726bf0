//! Time: the tasks of a job, the hours that they take, and the days on which
//! they are done.

mod assumed;
mod calendar;
mod drain_tasks;
mod effort;
mod links;
mod network;
mod rates;
mod steps_tasks;
mod surface_tasks;
mod tasks;
mod telling;
mod waits;
mod wanted;
mod work_on;
#[cfg(test)]
mod worked_networks;

use std::collections::BTreeMap;

pub use assumed::assumed;
pub use calendar::{DAY as DAY_MINUTES, Minutes};
pub(super) use effort::Hours;
pub use effort::{air_k, shown_hours};
pub use links::Fault;
pub use network::{Lag, Link, Reason, Span};
pub use waits::{
    LOCATE_SERVICES, Law, UsualWait, is_bedded_on_core, is_bonded_to_slab, is_loose,
    usual as usual_wait,
};
pub use wanted::wanted;
pub use work_on::WorkOn;

use super::Figures;
use super::trace::Trace;
use crate::findings::Place;
use crate::model::{Job, Stated, Work};
use crate::units::{Day, Dimension};
use crate::vocabulary::{Task, Weekday};
use calendar::Calendar;
use effort::{Effort, crew, effort};
use network::{Activity, MOST_TASKS, circle};
pub(super) use rates::UsualRate;
use tasks::{Planned, Source, planned};
pub(super) use tasks::{Planned as PlannedTask, digging_rate, planned_with_others};

/// When a task is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slot {
    /// When it begins, in minutes from the midnight that begins the first day.
    pub start_min: Minutes,
    /// When it is done.
    pub end_min: Minutes,
    /// Why it does not begin earlier.
    pub reason: Reason,
    /// By how much working time it may slip before the end does.
    pub float_min: Minutes,
}

/// A task and when it is done.
#[derive(Debug, Clone, PartialEq)]
pub struct TaskFigures {
    /// Its verb; `None` for one that the spec states itself.
    pub task: Option<Task>,
    /// What it is called: `digging of court`.
    pub name: String,
    /// What it is done on.
    pub of: Option<WorkOn>,
    /// The line that causes it.
    pub place: Place,
    /// How much there is to do, in base units, in the measure that its rate
    /// goes by.
    pub amount: Option<(f64, Dimension)>,
    /// Hours of all who do it together.
    pub hours: Option<f64>,
    /// How many do it.
    pub hands: Option<u32>,
    /// How long it takes; `None` if that is not known.
    pub span: Option<Span>,
    /// What it comes after, by the index of the task.
    pub links: Vec<Link>,
    /// When it is done; `None` if that is not known.
    pub slot: Option<Slot>,
    /// Why it is not known how long it takes, or when it is done.
    pub unknown: Option<String>,
}

/// The schedule of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct ScheduleFigures {
    /// The tasks, in the order of the text.
    pub tasks: Vec<TaskFigures>,
    /// The first day, if it has a date.
    pub first_day: Option<Day>,
    /// How many work.
    pub crew: u32,
    /// Hours of all tasks together; `None` if those of one are not known.
    pub hours: Option<f64>,
    /// When the last task is done; `None` if that is not known.
    pub end_min: Option<Minutes>,
    /// The same with the days that are kept for rain.
    pub end_with_rain_min: Option<Minutes>,
    /// What is wrong with the order of the work.
    pub faults: Vec<Fault>,
    calendar: Calendar,
}

impl ScheduleFigures {
    /// The tasks in the order in which they begin; those without a day last.
    pub fn in_time(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.tasks.len()).collect();
        let start = |index: &usize| self.tasks.get(*index).and_then(|own| own.slot);
        order.sort_by_key(|index| {
            let start = start(index).map(|slot| (slot.start_min, slot.end_min));
            (start.is_none(), start, *index)
        });
        order
    }

    /// Whether a day, counted from the first, is worked.
    pub fn is_worked(&self, day: i64) -> bool {
        self.calendar.is_worked(day)
    }

    /// When a day, counted from the first, opens and closes; `None` for one on
    /// which nobody works.
    pub fn hours_of(&self, day: i64) -> Option<(Minutes, Minutes)> {
        let hours = self.calendar.hours(day)?;
        Some((hours.start, hours.end))
    }

    /// The hours from a day's close to the next day's opening.
    pub fn night_hours(&self) -> f64 {
        (DAY_MINUTES - self.calendar.day_span()) as f64 / 60.0
    }

    /// The hours of a working day.
    pub fn day_hours(&self) -> f64 {
        self.calendar.day_length() as f64 / 60.0
    }

    /// The days on which any of these kinds of work is done, counted from the
    /// first day; `None` if the days of one are not known, or there is none.
    pub fn days_of(&self, kinds: &[Task]) -> Option<Vec<i64>> {
        let own = self.tasks.iter();
        let own = own.filter(|own| own.task.is_some_and(|task| kinds.contains(&task)));
        let mut days: Vec<i64> = Vec::new();
        for task in own {
            let slot = task.slot?;
            let last = (slot.end_min - 1).max(slot.start_min);
            let both = slot.start_min.div_euclid(DAY_MINUTES)..=last.div_euclid(DAY_MINUTES);
            days.extend(both.filter(|day| self.is_worked(*day)));
        }
        days.sort_unstable();
        days.dedup();
        (!days.is_empty()).then_some(days)
    }

    /// The first and the last moment of each place that causes tasks: of a
    /// layer under two surfaces that of both.
    pub fn by_place(&self) -> BTreeMap<Place, Option<(Minutes, Minutes)>> {
        let mut all: BTreeMap<Place, Option<(Minutes, Minutes)>> = BTreeMap::new();
        for task in &self.tasks {
            let own = task.slot.map(|slot| (slot.start_min, slot.end_min));
            let before = all.entry(task.place).or_insert(own);
            *before = before.zip(own).map(|(a, b)| (a.0.min(b.0), a.1.max(b.1)));
        }
        all
    }

    /// Until when a task may go on without the end being put off.
    pub fn latest_end(&self, index: usize) -> Option<Minutes> {
        let slot = self.tasks.get(index)?.slot?;
        self.calendar.done(slot.end_min, slot.float_min)
    }

    /// The day of a moment, if days have dates.
    pub fn day(&self, moment: Minutes) -> Option<Day> {
        let first = self.first_day?;
        let since = first.since(Day::after_1970(0));
        Some(Day::after_1970(since + moment.div_euclid(DAY_MINUTES)))
    }

    /// The day on which the first work is done: the one that is stated may be
    /// none that is worked. `None` where no date is stated.
    pub fn begins(&self) -> Option<Day> {
        let starts = self
            .tasks
            .iter()
            .filter_map(|task| Some(task.slot?.start_min));
        self.day(starts.min().unwrap_or(0))
    }
}

/// The schedule of a job; `None` if it says nothing of the work.
pub(super) fn schedule(job: &Job, figures: &Figures) -> Option<ScheduleFigures> {
    let work = job.work.as_deref()?;
    let calendar = calendar_of(work);
    let planned = planned(job, work, figures);
    let is_too_much = planned.len() > MOST_TASKS;
    let (links, mut faults) = match is_too_much {
        true => (vec![Vec::new(); planned.len()], Vec::new()),
        false => links::links(job, work, &planned),
    };
    let silent = Trace::silent();
    let efforts = planned
        .iter()
        .map(|task| effort((job, work), &calendar, task, &silent));
    let efforts: Vec<Result<Effort, &'static str>> = efforts.collect();
    let crew = crew(work);
    let activities: Vec<Activity> = efforts
        .iter()
        .zip(&links)
        .map(|(effort, links)| Activity {
            span: effort.ok().map(|effort| effort.span),
            hands: effort.map_or(0, |effort| effort.hands),
            links: links.clone(),
        })
        .collect();
    let slots = match is_too_much || !work.unread.is_empty() {
        true => vec![None; planned.len()],
        false => network::schedule(&activities, crew, &calendar),
    };
    faults.extend(faults_of(
        (job, work),
        &planned,
        &activities,
        (crew, &calendar),
    ));
    let tasks = planned.iter().zip(&efforts).zip(links).zip(&slots);
    let tasks: Vec<TaskFigures> = tasks
        .map(|(((task, effort), links), slot)| TaskFigures {
            task: task.task(),
            name: task.name.clone(),
            of: task.of,
            place: task.place,
            amount: amount(job, work, task),
            hours: effort.ok().map(|effort| effort.hours),
            hands: effort.ok().map(|effort| effort.hands),
            span: effort.ok().map(|effort| effort.span),
            links,
            slot: slot.map(|slot| Slot {
                start_min: slot.start,
                end_min: slot.end,
                reason: slot.reason,
                float_min: slot.float,
            }),
            unknown: effort.err().map(str::to_owned),
        })
        .collect();
    let ends: Option<Vec<Minutes>> = slots.iter().map(|slot| slot.map(|slot| slot.end)).collect();
    let end = ends.and_then(|ends| ends.into_iter().max());
    let rain = work
        .rain_days
        .as_ref()
        .map_or(0, |days| i64::from(days.value));
    let mut schedule = ScheduleFigures {
        first_day: work.start.as_ref().map(|start| start.value),
        crew,
        hours: tasks.iter().map(|task| task.hours).sum(),
        end_min: end,
        end_with_rain_min: end.and_then(|end| {
            let start = calendar.open(end).filter(|_| rain > 0)?;
            calendar.done(start, rain * calendar.day_length())
        }),
        tasks,
        faults,
        calendar,
    };
    tell_what_is_unknown(&mut schedule, work);
    Some(schedule)
}

/// Says of each task without a day why it has none.
fn tell_what_is_unknown(schedule: &mut ScheduleFigures, work: &Work) {
    let crew = schedule.crew;
    let is_held = |task: &TaskFigures| {
        let links = task.links.iter();
        let mut before = links.filter_map(|link| schedule.tasks.get(link.from));
        before.any(|own| own.slot.is_none())
    };
    let reasons: Vec<Option<String>> = schedule
        .tasks
        .iter()
        .map(|task| match (&task.unknown, task.slot) {
            (Some(why), _) => Some(why.clone()),
            (None, Some(_)) => None,
            (None, None) if !work.unread.is_empty() => {
                Some("a line of the work cannot be read".to_owned())
            }
            (None, None) if schedule.tasks.len() > MOST_TASKS => {
                Some(format!("more than {MOST_TASKS} tasks are planned in parts"))
            }
            (None, None) if task.hands.is_some_and(|hands| hands > crew) => {
                Some("it takes more hands than the crew has".to_owned())
            }
            (None, None) if is_held(task) => Some("it comes after work that has no day".to_owned()),
            (None, None) => Some("no day is long enough for it".to_owned()),
        })
        .collect();
    for (task, why) in schedule.tasks.iter_mut().zip(reasons) {
        task.unknown = why;
    }
}

/// What keeps tasks from having a day.
fn faults_of(
    (job, work): (&Job, &Work),
    planned: &[Planned],
    activities: &[Activity],
    (crew, calendar): (u32, &Calendar),
) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (task, own) in planned.iter().zip(activities) {
        let rate = task.rate(job, work);
        let place = rate.map_or(task.place, |rate| rate.hands.place);
        let is_told = |fault: &Fault| matches!(fault, Fault::TooManyHands(at, ..) if *at == place);
        if own.hands > crew && !faults.iter().any(is_told) {
            faults.push(Fault::TooManyHands(place, own.hands, task.name.clone()));
        }
        if let Some(Span::Whole(minutes)) = own.span
            && minutes > calendar.day_span()
        {
            let name = task.name.clone();
            faults.push(Fault::LongerThanDay(task.place, minutes, name));
        }
    }
    let on_circle = circle(activities);
    let on_circle: Vec<&Planned> = on_circle
        .iter()
        .filter_map(|index| planned.get(*index))
        .collect();
    if on_circle.is_empty() {
        return faults;
    }
    let stated = on_circle
        .iter()
        .find(|task| matches!(task.source, Source::Other(_)));
    let order = work.orders.first().map(|order: &Stated<_>| order.place);
    let first = on_circle.first().map(|task| task.place);
    if let Some(first) = first {
        let place = stated.map(|task| task.place).or(order).unwrap_or(first);
        let names = on_circle.iter().map(|task| task.name.clone()).collect();
        faults.push(Fault::Circle(place, names));
    }
    faults
}

/// The amount that a task's rate goes by.
fn amount(job: &Job, work: &Work, task: &Planned) -> Option<(f64, Dimension)> {
    let (measures, part) = match task.rate(job, work) {
        Some(rate) => (rate.measures, None),
        None => {
            let (usual, part) = task.usual.first()?;
            (usual.paces.first()?.measures, Some(part))
        }
    };
    let whole = task.amounts.of(measures);
    let part = || part.and_then(|part| part.of(measures));
    Some((whole.or_else(part)?, measures))
}

/// The calendar of the work: as stated, else from 8:00 to 16:30 with half an
/// hour's break, Monday to Friday.
fn calendar_of(work: &Work) -> Calendar {
    let day = work.day.as_ref();
    let (from, until, pause) = day.map_or((8 * 60, 16 * 60 + 30, 30), |day| {
        (
            i64::from(day.from),
            i64::from(day.until),
            i64::from(day.pause),
        )
    });
    let named = day.map(|day| day.weekdays.as_slice()).unwrap_or_default();
    let mut weekdays = [true, true, true, true, true, false, false];
    if !named.is_empty() {
        for (place, day) in weekdays.iter_mut().zip(Weekday::ALL) {
            *place = named.contains(day);
        }
    }
    let start = work.start.as_ref().map(|start| start.value);
    // Without a date the first day is the first of the week that is worked.
    let first_worked = weekdays.iter().position(|is| *is).unwrap_or(0) as i64;
    let first_weekday = start.map_or(first_worked, Day::weekday);
    let off = work.off.iter().filter_map(|off| {
        let (first, last) = off.value;
        let start = start?;
        Some(first.since(start)..last.since(start) + 1)
    });
    Calendar::new(from, until, pause)
        .on(weekdays)
        .beginning_on(first_weekday)
        .off(off.collect())
}

/// How the time of a task comes about.
pub(super) fn trace_task(job: &Job, figures: &Figures, index: usize, trace: &Trace) -> Option<()> {
    let work = job.work.as_deref()?;
    let planned = planned(job, work, figures);
    let calendar = calendar_of(work);
    effort((job, work), &calendar, planned.get(index)?, trace).ok()?;
    Some(())
}

/// How the hours of all tasks together come about.
pub(super) fn trace_hours(schedule: &ScheduleFigures, trace: &Trace) -> Option<()> {
    let hours: Option<Vec<Hours>> = schedule
        .tasks
        .iter()
        .map(|task| task.hours.map(Hours))
        .collect();
    let one = "the hours of the one task";
    trace.sum("hours worked", one, hours?.into_iter());
    Some(())
}
