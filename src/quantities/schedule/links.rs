//! What comes after what: the build-up of each surface, the waits that are
//! usual or stated, other tasks, and the order of surfaces.

use super::super::trace::Trace;
use super::calendar_of;
use super::effort::{air_k, quarters};
use super::network::{Lag, Link};
use super::tasks::{Planned, Source};
use super::waits;
use crate::findings::Place;
use crate::model::{Beside, Built, Job, Pause, StatedWait, Work};
use crate::vocabulary::Task;

/// Something that is wrong with the order of the work.
#[derive(Debug, Clone, PartialEq)]
pub enum Fault {
    /// A wait, or a task beside others, names work that there is not.
    Nothing(Place, Task, Option<String>),
    /// A wait from work that comes later than what waits.
    Backward(Place, Task, Task),
    /// Tasks that would come after themselves, by what they are called.
    Circle(Place, Vec<String>),
    /// More hands than the crew has: the line, how many, and the work.
    TooManyHands(Place, u32, String),
    /// Something that is not parted takes longer than a day, in minutes.
    LongerThanDay(Place, i64, String),
}

/// The links of each planned task, and what is wrong with what is stated.
pub(crate) fn links(job: &Job, work: &Work, planned: &[Planned]) -> (Vec<Vec<Link>>, Vec<Fault>) {
    let mut linking = Linking {
        job,
        planned,
        links: vec![Vec::new(); planned.len()],
        faults: Vec::new(),
    };
    linking.build_up(work);
    let stated: Vec<(usize, usize, Lag)> = work
        .waits
        .iter()
        .flat_map(|wait| linking.stated(wait))
        .collect();
    // What is stated rules: none of the waits that are usual is kept beside it.
    for (from, to, _) in &stated {
        linking.drop_usual(*from, *to);
    }
    for (from, to, lag) in stated {
        linking.link(from, to, lag);
    }
    for (index, task) in planned.iter().enumerate() {
        if let Source::Other(other) = task.source {
            linking.other(work, index, other);
        }
    }
    for order in &work.orders {
        for pair in order.value.windows(2) {
            if let [first, next] = pair {
                linking.one_then_the_other(first, next);
            }
        }
    }
    linking.preferred(work);
    (linking.links, linking.faults)
}

struct Linking<'a> {
    job: &'a Job,
    planned: &'a [Planned],
    links: Vec<Vec<Link>>,
    faults: Vec<Fault>,
}

const AT_ONCE: Lag = Lag::Minutes(0);

impl Linking<'_> {
    /// One task is to come after another; of several waits between the same
    /// two the last that is stated holds.
    fn link(&mut self, from: usize, to: usize, lag: Lag) {
        let Some(links) = self.links.get_mut(to) else {
            return;
        };
        match links.iter_mut().find(|own| own.from == from) {
            Some(own) => own.lag = lag,
            None => links.push(Link { from, lag }),
        }
    }

    /// What each task builds on, with the wait that is usual.
    fn build_up(&mut self, work: &Work) {
        for (index, task) in self.planned.iter().enumerate() {
            for from in &task.follows {
                let lag = self.usual_lag(work, *from, task);
                self.link(*from, index, lag);
            }
        }
    }

    fn usual_lag(&self, work: &Work, from: usize, to: &Planned) -> Lag {
        let Some(before) = self.planned.get(from) else {
            return AT_ONCE;
        };
        if before.task() == Some(Task::Locating) && waits::has_notice(self.job) {
            return Lag::Weekdays {
                days: waits::NOTICE_DAYS,
                first: calendar_of(work).first_weekday(),
            };
        }
        let Some(usual) = waits::between(self.job, before, to) else {
            return AT_ONCE;
        };
        match usual.hours_at(air_k(work), &Trace::silent()) {
            Some(hours) => Lag::Minutes(quarters(hours)),
            None => Lag::Never,
        }
    }

    /// What comes across from one thing to another, as far as what is stated
    /// lets it: nothing is to come after itself.
    fn preferred(&mut self, work: &Work) {
        for (index, task) in self.planned.iter().enumerate() {
            for from in &task.prefers {
                let lag = self.usual_lag(work, *from, task);
                let is_linked = match lag {
                    AT_ONCE => self.comes_after(index, *from),
                    _ => self.follows_directly(index, *from),
                };
                if !is_linked && !self.comes_after(*from, index) {
                    self.link(*from, index, lag);
                }
            }
        }
    }

    /// Whether a link from one task to another is there already.
    fn follows_directly(&self, index: usize, other: usize) -> bool {
        let mut links = self.links.get(index).into_iter().flatten();
        links.any(|link| link.from == other)
    }

    /// Whether a task comes after another by the links that there are.
    fn comes_after(&self, index: usize, other: usize) -> bool {
        let mut is_seen = vec![false; self.planned.len()];
        let mut open = vec![index];
        while let Some(next) = open.pop() {
            if next == other {
                return true;
            }
            match is_seen.get_mut(next) {
                Some(seen) if !*seen => *seen = true,
                _ => continue,
            }
            let links = self.links.get(next).into_iter().flatten();
            open.extend(links.map(|link| link.from));
        }
        false
    }

    /// The tasks of a kind, on one thing or on all.
    fn of_kind(&self, task: Task, of: Option<&Built>) -> Vec<usize> {
        let is_meant = |own: &Planned| {
            let is_there = |named| own.of.is_some_and(|on| on.is(self.job, named));
            own.task() == Some(task) && (own.of.is_none() || of.is_none_or(is_there))
        };
        let all = self.planned.iter().enumerate();
        all.filter(|(_, own)| is_meant(own))
            .map(|(index, _)| index)
            .collect()
    }

    /// Lets a task follow at once what comes later than that from which a
    /// stated wait is counted, and what is of its kind.
    fn drop_usual(&mut self, from: usize, to: usize) {
        let task = |index: usize| self.planned.get(index).and_then(Planned::task);
        let links = self.links.get_mut(to).into_iter().flatten();
        for link in links.filter(|link| link.from >= from || task(link.from) == task(from)) {
            link.lag = AT_ONCE;
        }
    }

    /// A wait on each thing that has both kinds of work: from the last of the
    /// one to the first of the other.
    fn stated(&mut self, wait: &StatedWait) -> Vec<(usize, usize, Lag)> {
        let of = wait.of.as_ref();
        let (from, to) = (self.of_kind(wait.from, of), self.of_kind(wait.to, of));
        for (task, found) in [(wait.from, &from), (wait.to, &to)] {
            if found.is_empty() {
                let named = of.map(|of| of.name().to_owned());
                self.faults.push(Fault::Nothing(wait.place, task, named));
                return Vec::new();
            }
        }
        let lag = match wait.pause {
            Pause::Overnight => Lag::Overnight,
            Pause::Seconds(seconds) => Lag::Minutes((seconds / 60.0).ceil() as i64),
        };
        let on = |index: &usize| self.planned.get(*index).and_then(|own| own.of);
        let mut pairs = Vec::new();
        for first in &to {
            let is_first = !pairs.iter().any(|(_, other)| on(other) == on(first));
            let mut own = from
                .iter()
                .filter(|own| on(own) == on(first) || on(own).is_none());
            if let Some(last) = own.next_back().filter(|_| is_first) {
                pairs.push((*last, *first));
            }
        }
        if pairs.iter().any(|(from, to)| from >= to) {
            let fault = Fault::Backward(wait.place, wait.from, wait.to);
            self.faults.push(fault);
            return Vec::new();
        }
        pairs
            .into_iter()
            .map(|(from, to)| (from, to, lag))
            .collect()
    }

    fn other(&mut self, work: &Work, index: usize, other: usize) {
        let Some(task) = work.tasks.get(other) else {
            return;
        };
        for (is_after, beside) in task
            .after
            .iter()
            .map(|beside| (true, beside))
            .chain(task.before.iter().map(|beside| (false, beside)))
        {
            let meant: Vec<usize> = match &beside.value {
                Beside::Told(what) => {
                    let all = self.planned.iter().enumerate();
                    let reported = all.filter(|(_, own)| {
                        matches!(own.source, Source::Other(_)) && own.name == *what
                    });
                    reported.map(|(index, _)| index).collect()
                }
                Beside::Kind(kind, of) => {
                    let meant = self.of_kind(*kind, of.as_ref());
                    if meant.is_empty() {
                        let of = of.as_ref().map(|of| of.name().to_owned());
                        let fault = Fault::Nothing(beside.place, *kind, of);
                        self.faults.push(fault);
                    }
                    meant
                }
            };
            for own in meant {
                match is_after {
                    true => self.link(own, index, AT_ONCE),
                    false => self.link(index, own, AT_ONCE),
                }
            }
        }
    }

    /// Nothing of one thing is begun before another is laid and jointed.
    fn one_then_the_other(&mut self, first: &Built, next: &Built) {
        let is_of = |own: &Planned, named: &Built| own.of.is_some_and(|on| on.is(self.job, named));
        let comes_later =
            |task| matches!(task, Some(Task::Cleaning | Task::Sealing | Task::Curing));
        let all = || self.planned.iter().enumerate();
        let last = all()
            .filter(|(_, own)| is_of(own, first) && !comes_later(own.task()))
            .map(|(index, _)| index)
            .next_back();
        let begins: Vec<usize> = all()
            .filter(|(_, own)| {
                let is_own =
                    |from: &usize| self.planned.get(*from).and_then(|own| own.of) == own.of;
                is_of(own, next) && !own.follows.iter().any(is_own)
            })
            .map(|(index, _)| index)
            .collect();
        for begin in begins {
            if let Some(last) = last {
                self.link(last, begin, AT_ONCE);
            }
        }
    }
}
