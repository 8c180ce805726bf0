//! The `work` section.

use super::Stated;
use crate::findings::Place;
use crate::units::{Day, Dimension, Quantity};
use crate::vocabulary::{Sharing, Task, Weekday};

/// The hours of a working day, in minutes since midnight, and the days of the
/// week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkingDay {
    /// When work begins.
    pub from: u16,
    /// When it ends.
    pub until: u16,
    /// How long the break in the middle is, in minutes.
    pub pause: u16,
    /// The days of the week that are worked, each once; empty if not stated.
    pub weekdays: Vec<Weekday>,
    /// The entry.
    pub place: Place,
}

/// What work is done on, by its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Built {
    /// A surface.
    Surface(String),
    /// A drain.
    Drain(String),
    /// A flight of steps.
    Steps(String),
}

impl Built {
    /// Its name.
    pub fn name(&self) -> &str {
        match self {
            Built::Surface(name) | Built::Drain(name) | Built::Steps(name) => name,
        }
    }
}

/// How fast a kind of work is done.
#[derive(Debug, Clone, PartialEq)]
pub struct TaskRate {
    /// The work.
    pub task: Task,
    /// What it is the rate on; everywhere if it names nothing.
    pub of: Option<Built>,
    /// So much in a second, in base units.
    pub done: f64,
    /// What of: an area, a volume, a mass or a length.
    pub measures: Dimension,
    /// By each, or by all together.
    pub sharing: Sharing,
    /// How many do it.
    pub hands: Stated<u32>,
    /// The rate as it is written.
    pub place: Place,
}

/// How long something waits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pause {
    /// Until the next day.
    Overnight,
    /// So many seconds by the clock.
    Seconds(f64),
}

/// A wait between two kinds of work on a surface, a drain or steps.
#[derive(Debug, Clone, PartialEq)]
pub struct StatedWait {
    /// How long.
    pub pause: Pause,
    /// What comes before.
    pub from: Task,
    /// What waits.
    pub to: Task,
    /// What both are of; everything if it names nothing.
    pub of: Option<Built>,
    /// The entry.
    pub place: Place,
}

/// What a task comes after or before.
#[derive(Debug, Clone, PartialEq)]
pub enum Beside {
    /// Another task, by its words.
    Told(String),
    /// A kind of work, on one thing or on all.
    Kind(Task, Option<Built>),
}

/// Other work that takes time.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherTask {
    /// What it is.
    pub what: String,
    /// How long it takes by the clock; `None` if it is not stated.
    pub length: Option<Length>,
    /// What must be done before it.
    pub after: Vec<Stated<Beside>>,
    /// What may begin only when it is done.
    pub before: Vec<Stated<Beside>>,
    /// How many do it.
    pub hands: u32,
    /// The entry.
    pub place: Place,
}

/// How long a task takes by the clock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Length {
    /// So many seconds.
    Seconds(f64),
    /// So many working days.
    Days(f64),
}

/// The `work` section.
#[derive(Debug, Clone, PartialEq)]
pub struct Work {
    /// The heading's line.
    pub place: Place,
    /// The first day.
    pub start: Option<Stated<Day>>,
    /// How many work.
    pub crew: Option<Stated<u32>>,
    /// The working day.
    pub day: Option<WorkingDay>,
    /// Days on which nobody works, the first and the last of each stretch.
    pub off: Vec<Stated<(Day, Day)>>,
    /// The mean temperature of the air, in kelvin.
    pub temperature: Option<Stated<Quantity>>,
    /// How fast work is done, each kind once, and once on each thing.
    pub rates: Vec<TaskRate>,
    /// Waits.
    pub waits: Vec<StatedWait>,
    /// Other tasks.
    pub tasks: Vec<OtherTask>,
    /// Lists of what is built, each in the order in which it is.
    pub orders: Vec<Stated<Vec<Built>>>,
    /// Working days kept in hand for rain.
    pub rain_days: Option<Stated<u32>>,
    /// Notes.
    pub notes: Vec<Stated<String>>,
    /// Lines that could not be made out, so that no day is known.
    pub unread: Vec<Place>,
}

impl Work {
    /// The stated rate of a kind of work: that on what `is_it` holds of, else
    /// that which holds everywhere.
    pub fn rate(&self, task: Task, is_it: impl Fn(&Built) -> bool) -> Option<&TaskRate> {
        let own = || self.rates.iter().filter(|rate| rate.task == task);
        let named = own().find(|rate| rate.of.as_ref().is_some_and(&is_it));
        named.or_else(|| own().find(|rate| rate.of.is_none()))
    }
}

/// What the amount of a kind of work is measured in; nothing for work that has
/// no amount.
pub const fn measures_of(task: Task) -> &'static [Dimension] {
    match task {
        Task::Digging | Task::Pouring => &[Dimension::VOLUME, Dimension::AREA],
        Task::Carting | Task::Backfilling => &[Dimension::VOLUME],
        Task::Compacting => &[Dimension::MASS, Dimension::VOLUME, Dimension::AREA],
        Task::Edging | Task::Forming | Task::Draining => &[Dimension::LENGTH],
        Task::Stripping
        | Task::Lining
        | Task::DryLaying
        | Task::Laying
        | Task::Jointing
        | Task::Cleaning
        | Task::Sealing => &[Dimension::AREA],
        Task::Building => &[Dimension::LENGTH, Dimension::AREA],
        Task::Locating | Task::Curing => &[],
    }
}
