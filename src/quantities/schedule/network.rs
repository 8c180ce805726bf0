//! What must come before what, and who is free when: a schedule by serial
//! generation, the task with the latest start that is still in time first,
//! then the text's order; and the float of each over logic and crew.
//!
//! The passes forward and back are those of NAVEDTRA 14233, chapter 2: a lag
//! is a wait with no work in it that still lies on the path.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use super::calendar::{Calendar, DAY, Minutes};

/// More tasks than any job has: beyond them nothing is worked out.
pub(crate) const MOST_TASKS: usize = 2_000;

/// How long something takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Span {
    /// So many working minutes, which may go on another day.
    Parted(Minutes),
    /// So many minutes at a stretch: a pour is never parted.
    Whole(Minutes),
    /// So many minutes by the clock, with nobody at work.
    ByTheClock(Minutes),
}

/// How long what follows must wait.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lag {
    /// So many minutes by the clock.
    Minutes(Minutes),
    /// Until the next day.
    Overnight,
    /// So many days from Monday to Friday, counted from the day after, and
    /// until the day that follows them.
    Weekdays {
        /// How many.
        days: u8,
        /// Which day of the week the first day is, Monday 0.
        first: u8,
    },
    /// For ever: in frost nothing sets.
    Never,
}

impl Lag {
    /// The moment until which what follows an end must wait.
    pub fn after(self, end: Minutes) -> Option<Minutes> {
        match self {
            Lag::Minutes(minutes) => Some(end.saturating_add(minutes)),
            Lag::Overnight => Some(((end - 1).div_euclid(DAY) + 1).saturating_mul(DAY)),
            Lag::Weekdays { days, first } => {
                let end = (end - 1).div_euclid(DAY);
                Some((weekday_from(end, days, (first, 1)) + 1).saturating_mul(DAY))
            }
            Lag::Never => None,
        }
    }

    /// The latest end that lets what follows begin at a start.
    fn before(self, start: Minutes) -> Minutes {
        match self {
            Lag::Minutes(minutes) => start.saturating_sub(minutes),
            Lag::Overnight => start.div_euclid(DAY).saturating_mul(DAY),
            Lag::Weekdays { days, first } => {
                let start = start.div_euclid(DAY);
                weekday_from(start, days, (first, -1)).saturating_mul(DAY)
            }
            Lag::Never => start,
        }
    }
}

/// The last of so many days from Monday to Friday, counted on or back from a
/// day that does not count.
fn weekday_from(day: i64, days: u8, (first, step): (u8, i64)) -> i64 {
    let is_weekday = |day: &i64| (day + i64::from(first)).rem_euclid(7) < 5;
    let all = (1..).map(|count| day + step * count).filter(is_weekday);
    all.take(usize::from(days)).last().unwrap_or(day)
}

/// That something comes after something else.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Link {
    /// What must be done, by its index.
    pub from: usize,
    /// What must pass after it.
    pub lag: Lag,
}

/// Something that takes time.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Activity {
    /// How long it takes; `None` if that is not known.
    pub span: Option<Span>,
    /// How many it keeps busy.
    pub hands: u32,
    /// What it comes after.
    pub links: Vec<Link>,
}

/// Why something begins when it does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// The work begins.
    Start,
    /// It follows something, by its index, and waits after it.
    After(usize, Lag),
    /// Its hands are busy with something until then, by its index.
    Crew(usize),
    /// It would not be done on the day before, and is not parted.
    Day,
}

/// When something is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Slot {
    /// When it begins.
    pub start: Minutes,
    /// When it is done.
    pub end: Minutes,
    /// Why it does not begin earlier.
    pub reason: Reason,
    /// By how much working time it may slip before the end does, in minutes.
    pub float: Minutes,
}

/// The slots of activities done by so many, in their order: `None` for what
/// cannot be placed, as it is not known how long it takes, more hands are
/// wanted than there are, or it comes after what cannot be placed.
pub(crate) fn schedule(
    activities: &[Activity],
    crew: u32,
    calendar: &Calendar,
) -> Vec<Option<Slot>> {
    let network = Network::of(activities, crew, calendar);
    let latest = network.latest_starts(&network.without_crew(), |_| Vec::new());
    let mut slots = network.generated(&latest);
    let arcs = network.crew_arcs(&mut slots);
    network.give_float(&mut slots, &arcs);
    slots
}

/// The activities on a circle, each of which is to come after itself.
pub(crate) fn circle(activities: &[Activity]) -> Vec<usize> {
    let mut is_left = vec![true; activities.len()];
    // Whatever comes after nothing that is left is on no circle; the same
    // the other way round.
    loop {
        let before = is_left.iter().filter(|is| **is).count();
        for (index, own) in activities.iter().enumerate() {
            let is_held = |link: &Link| is_left.get(link.from).is_some_and(|is| *is);
            if !own.links.iter().any(is_held) {
                clear(&mut is_left, index);
            }
        }
        let mut is_needed = vec![false; activities.len()];
        let left = activities.iter().zip(&is_left).filter(|(_, is)| **is);
        for link in left.flat_map(|(own, _)| &own.links) {
            if let Some(place) = is_needed.get_mut(link.from) {
                *place = true;
            }
        }
        for (place, is) in is_left.iter_mut().zip(is_needed) {
            *place &= is;
        }
        if is_left.iter().filter(|is| **is).count() == before {
            break;
        }
    }
    let all = is_left.iter().enumerate();
    all.filter(|(_, is)| **is).map(|(index, _)| index).collect()
}

fn clear(is_left: &mut [bool], index: usize) {
    if let Some(place) = is_left.get_mut(index) {
        *place = false;
    }
}

/// A start and an end.
type Times = Option<(Minutes, Minutes)>;

struct Network<'a> {
    activities: &'a [Activity],
    crew: u32,
    calendar: &'a Calendar,
    /// An order in which each comes after what it follows; those on a circle
    /// and after one are not in it.
    order: Vec<usize>,
    /// What follows each, with the lag.
    followers: Vec<Vec<(usize, Lag)>>,
}

impl<'a> Network<'a> {
    fn of(activities: &'a [Activity], crew: u32, calendar: &'a Calendar) -> Network<'a> {
        let mut followers = vec![Vec::new(); activities.len()];
        let mut open: Vec<usize> = Vec::with_capacity(activities.len());
        for (index, own) in activities.iter().enumerate() {
            open.push(own.links.len());
            for link in &own.links {
                if let Some(all) = followers.get_mut(link.from) {
                    all.push((index, link.lag));
                }
            }
        }
        let mut ready: BinaryHeap<Reverse<usize>> = open
            .iter()
            .enumerate()
            .filter(|(_, count)| **count == 0)
            .map(|(index, _)| Reverse(index))
            .collect();
        let mut order = Vec::with_capacity(activities.len());
        while let Some(Reverse(index)) = ready.pop() {
            order.push(index);
            for (next, _) in followers.get(index).into_iter().flatten() {
                if let Some(count) = open.get_mut(*next) {
                    *count = count.saturating_sub(1);
                    if *count == 0 {
                        ready.push(Reverse(*next));
                    }
                }
            }
        }
        Network {
            activities,
            crew,
            calendar,
            order,
            followers,
        }
    }

    /// From when on a span can begin, and when it is then done.
    fn placed(&self, from: Minutes, span: Span) -> Times {
        match span {
            Span::Parted(work) => {
                let start = self.calendar.open(from)?;
                Some((start, self.calendar.done(start, work)?))
            }
            Span::Whole(whole) => {
                let start = self.calendar.open_for_whole(from, whole)?;
                Some((start, start + whole))
            }
            Span::ByTheClock(time) => Some((from, from.saturating_add(time))),
        }
    }

    /// The latest start of a span that is to be done by an end.
    fn begun(&self, end: Minutes, span: Span) -> Option<Minutes> {
        match span {
            Span::Parted(work) => self.calendar.begun(end, work),
            Span::Whole(whole) => self.calendar.begun_whole(end, whole),
            Span::ByTheClock(time) => Some(end.saturating_sub(time)),
        }
    }

    /// The span of one that the crew can do.
    fn span(&self, index: usize) -> Option<(&'a Activity, Span)> {
        let own = self.activities.get(index)?;
        let span = own.span.filter(|_| own.hands <= self.crew)?;
        Some((own, span))
    }

    /// The earliest moment that the logic allows, and what holds it there;
    /// `None` if something before it has no place.
    fn held(&self, own: &Activity, times: &[Times]) -> Option<(Minutes, Reason)> {
        let mut held = (0, Reason::Start);
        for link in &own.links {
            let (_, end) = times.get(link.from).copied().flatten()?;
            let until = link.lag.after(end)?;
            if until > held.0 {
                held = (until, Reason::After(link.from, link.lag));
            }
        }
        Some(held)
    }

    /// The times of each with as many hands as it likes.
    fn without_crew(&self) -> Vec<Times> {
        let mut times = vec![None; self.activities.len()];
        for index in &self.order {
            let placed = self.span(*index).and_then(|(own, span)| {
                let (from, _) = self.held(own, &times)?;
                self.placed(from, span)
            });
            if let Some(place) = times.get_mut(*index) {
                *place = placed;
            }
        }
        times
    }

    /// The latest start of each that keeps the end, over the logic and what
    /// else follows each.
    fn latest_starts(
        &self,
        times: &[Times],
        also: impl Fn(usize) -> Vec<usize>,
    ) -> Vec<Option<Minutes>> {
        let end = times.iter().flatten().map(|(_, end)| *end).max();
        let mut latest: Vec<Option<Minutes>> = vec![None; times.len()];
        let mut order = self.order.clone();
        // By their starts: what follows for want of hands begins later too.
        order.sort_by_key(|index| times.get(*index).copied().flatten());
        for index in order.into_iter().rev() {
            let Some((_, span)) = self.span(index) else {
                continue;
            };
            let start_of = |next: usize| latest.get(next).copied().flatten();
            let followers = self.followers.get(index).into_iter().flatten();
            let by_logic = followers.filter_map(|(next, lag)| Some(lag.before(start_of(*next)?)));
            let by_crew = also(index).into_iter().filter_map(start_of);
            let by = by_logic.chain(by_crew).min().or(end);
            if let (Some(by), Some(place)) = (by, latest.get_mut(index)) {
                *place = self.begun(by, span);
            }
        }
        latest
    }

    /// Serial generation: of those whose turn it may be, the one with the
    /// earliest latest start, then the first in the text, as early as logic,
    /// crew and calendar allow.
    fn generated(&self, latest: &[Option<Minutes>]) -> Vec<Option<Slot>> {
        let mut free = Free::of(self.crew);
        let mut times: Vec<Times> = vec![None; self.activities.len()];
        let mut slots: Vec<Option<Slot>> = vec![None; self.activities.len()];
        let mut open: Vec<usize> = self.activities.iter().map(|own| own.links.len()).collect();
        let urgency = |index: usize| {
            let latest = latest.get(index).copied().flatten();
            Reverse((latest.unwrap_or(Minutes::MAX), index))
        };
        let unheld = open.iter().enumerate().filter(|(_, count)| **count == 0);
        let mut ready: BinaryHeap<_> = unheld.map(|(index, _)| urgency(index)).collect();
        while let Some(Reverse((_, index))) = ready.pop() {
            let placed = self.span(index).and_then(|(own, span)| {
                let (from, reason) = self.held(own, &times)?;
                self.fitted(from, (own, span), reason, &free)
            });
            if let (Some(slot), Some(own)) = (placed, self.activities.get(index)) {
                free.take(slot.start, slot.end, own.hands);
                if let (Some(time), Some(place)) = (times.get_mut(index), slots.get_mut(index)) {
                    *time = Some((slot.start, slot.end));
                    *place = Some(slot);
                }
            }
            for (next, _) in self.followers.get(index).into_iter().flatten() {
                if let Some(count) = open.get_mut(*next) {
                    *count = count.saturating_sub(1);
                    if *count == 0 {
                        ready.push(urgency(*next));
                    }
                }
            }
        }
        slots
    }

    /// The first slot from a moment on in which hands are free.
    fn fitted(
        &self,
        from: Minutes,
        (own, span): (&Activity, Span),
        reason: Reason,
        free: &Free,
    ) -> Option<Slot> {
        let (first, _) = self.placed(from, span)?;
        let is_late = matches!(span, Span::Whole(_)) && Some(first) != self.calendar.open(from);
        let reason = if is_late { Reason::Day } else { reason };
        let mut from = from;
        loop {
            let (start, end) = self.placed(from, span)?;
            match free.lacks(start, end, own.hands) {
                Some(until) => from = until,
                None => {
                    // Whose hands they were is told when all have theirs.
                    let reason = match start == first {
                        true => reason,
                        false => Reason::Crew(usize::MAX),
                    };
                    let float = 0;
                    return Some(Slot {
                        start,
                        end,
                        reason,
                        float,
                    });
                }
            }
        }
    }

    /// Gives each its hands, in the order of their starts: what each took
    /// them over from, by its index. Told of are those that wait for them.
    fn crew_arcs(&self, slots: &mut [Option<Slot>]) -> Vec<Vec<usize>> {
        let mut arcs: Vec<Vec<usize>> = vec![Vec::new(); slots.len()];
        let mut workers: Vec<(Minutes, Option<usize>)> = vec![(0, None); self.crew as usize];
        let mut order: Vec<usize> = (0..slots.len()).collect();
        order.sort_by_key(|index| slots.get(*index).copied().flatten().map(|own| own.start));
        for index in order {
            let slot = slots.get(index).copied().flatten();
            let Some((slot, own)) = slot.zip(self.activities.get(index)) else {
                continue;
            };
            let follows = |last: Option<usize>| {
                last.is_some_and(|last| own.links.iter().any(|link| link.from == last))
            };
            let mut free: Vec<usize> = workers
                .iter()
                .enumerate()
                .filter(|(_, (until, _))| *until <= slot.start)
                .map(|(worker, _)| worker)
                .collect();
            // First those who come from what it follows anyway, then those who
            // have been free for longest: so it hangs on as little as may be.
            free.sort_by_key(|worker| {
                let (until, last) = workers.get(*worker).copied().unwrap_or_default();
                (!follows(last), until, *worker)
            });
            let mut before: Vec<(Minutes, usize)> = Vec::new();
            for worker in free.into_iter().take(own.hands as usize) {
                if let Some(place) = workers.get_mut(worker) {
                    before.extend(place.1.map(|last| (place.0, last)));
                    *place = (slot.end, Some(index));
                }
            }
            before.sort_unstable();
            before.dedup();
            if let (Reason::Crew(_), Some((_, last)), Some(Some(slot))) =
                (slot.reason, before.last(), slots.get_mut(index))
            {
                slot.reason = Reason::Crew(*last);
            }
            for (_, last) in before {
                if let Some(all) = arcs.get_mut(last) {
                    all.push(index);
                }
            }
        }
        arcs
    }

    /// How far each may slip, over logic and crew.
    fn give_float(&self, slots: &mut [Option<Slot>], arcs: &[Vec<usize>]) {
        let times: Vec<Times> = slots
            .iter()
            .map(|slot| slot.map(|slot| (slot.start, slot.end)))
            .collect();
        let also = |index: usize| arcs.get(index).cloned().unwrap_or_default();
        let latest = self.latest_starts(&times, also);
        for (slot, latest) in slots.iter_mut().zip(latest) {
            if let (Some(slot), Some(latest)) = (slot, latest) {
                slot.float = self.calendar.between(slot.start, latest);
            }
        }
    }
}

/// How many hands are free, from each moment on at which that changes.
struct Free(BTreeMap<Minutes, u32>);

impl Free {
    fn of(crew: u32) -> Free {
        Free(BTreeMap::from([(Minutes::MIN, crew)]))
    }

    /// Until when hands are wanting first in a stretch of time; `None` if they
    /// never are.
    fn lacks(&self, start: Minutes, end: Minutes, hands: u32) -> Option<Minutes> {
        if start >= end {
            return None;
        }
        let from = *self.0.range(..=start).next_back()?.0;
        let mut moments = self.0.range(from..end);
        let (lack, _) = moments.find(|(_, free)| **free < hands)?;
        let mut later = self.0.range(*lack..).skip(1);
        later.next().map(|(until, _)| *until)
    }

    fn take(&mut self, start: Minutes, end: Minutes, hands: u32) {
        if start >= end || hands == 0 {
            return;
        }
        for moment in [start, end] {
            let own = self.0.range(..=moment).next_back();
            let free = own.map_or(0, |(_, free)| *free);
            self.0.insert(moment, free);
        }
        for (_, free) in self.0.range_mut(start..end) {
            *free = free.saturating_sub(hands);
        }
    }
}

#[cfg(test)]
mod tests;
