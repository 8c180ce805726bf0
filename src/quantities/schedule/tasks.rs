//! The tasks of a job: what there is to do for each surface, drain and flight
//! of steps, in the order in which it is built up, and what else the spec
//! states.

use super::super::Figures;
use super::rates::{self, UsualRate};
use super::waits::{KERBS_SET, UsualWait};
use super::work_on::WorkOn;
use super::{drain_tasks, steps_tasks, surface_tasks};
use crate::findings::Place;
use crate::model::{Hire, Job, TaskRate, Work};
use crate::units::Dimension;
use crate::vocabulary::Task;

/// What a task comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Source {
    /// What is built, by the verb of the trade.
    Built(Task),
    /// A `task` of the spec, by its place among them.
    Other(usize),
}

/// How much there is to do, in each measure that is known.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Amounts {
    pub length_m: Option<f64>,
    pub area_m2: Option<f64>,
    pub volume_m3: Option<f64>,
    pub mass_kg: Option<f64>,
    /// How many, of what is counted.
    pub count: Option<f64>,
}

impl Amounts {
    /// The amount of a dimension, in base units.
    pub(crate) fn of(&self, dimension: Dimension) -> Option<f64> {
        match dimension {
            Dimension::LENGTH => self.length_m,
            Dimension::AREA => self.area_m2,
            Dimension::VOLUME => self.volume_m3,
            Dimension::MASS => self.mass_kg,
            Dimension::NONE => self.count,
            _ => None,
        }
    }

    /// An amount by its length alone.
    pub(crate) fn of_length(length_m: Option<f64>) -> Amounts {
        Amounts {
            length_m,
            ..Amounts::default()
        }
    }

    /// An amount by its volume alone.
    pub(crate) fn of_volume(volume_m3: Option<f64>) -> Amounts {
        Amounts {
            volume_m3,
            ..Amounts::default()
        }
    }

    /// Both together; unknown where one of them is.
    pub(crate) fn and(&self, other: &Amounts) -> Amounts {
        let both = |own: Option<f64>, other: Option<f64>| Some(own? + other?);
        Amounts {
            length_m: both(self.length_m, other.length_m),
            area_m2: both(self.area_m2, other.area_m2),
            volume_m3: both(self.volume_m3, other.volume_m3),
            mass_kg: both(self.mass_kg, other.mass_kg),
            count: both(self.count, other.count),
        }
    }

    /// A share of it all.
    pub(crate) fn shared(self, share: f64) -> Amounts {
        let part = |own: Option<f64>| own.map(|own| own * share);
        Amounts {
            length_m: part(self.length_m),
            area_m2: part(self.area_m2),
            volume_m3: part(self.volume_m3),
            mass_kg: part(self.mass_kg),
            count: part(self.count),
        }
    }
}

/// How something usually goes, and how much of it there is.
pub(crate) type Usual = (&'static UsualRate, Amounts);

/// A task as it is planned.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Planned {
    /// What it comes from.
    pub source: Source,
    /// What it is called: `digging of court`.
    pub name: String,
    /// What it is done on.
    pub of: Option<WorkOn>,
    /// The line that causes it.
    pub place: Place,
    /// How much there is to do.
    pub amounts: Amounts,
    /// How it usually goes, part by part; nothing where that is not known.
    pub usual: Vec<Usual>,
    /// The planned tasks that it builds on.
    pub follows: Vec<usize>,
    /// The planned tasks of other things that it comes after, as far as what
    /// is stated lets it.
    pub prefers: Vec<usize>,
    /// How long its concrete sets before paving is laid against it.
    pub sets: Option<&'static UsualWait>,
}

impl Planned {
    /// Its verb, if it is done on what is built.
    pub(crate) fn task(&self) -> Option<Task> {
        match self.source {
            Source::Built(task) => Some(task),
            Source::Other(_) => None,
        }
    }

    /// The rate that is stated for it. One by the length says nothing of what
    /// is counted.
    pub(crate) fn rate<'a>(&self, job: &Job, work: &'a Work) -> Option<&'a TaskRate> {
        let rate = rate(job, work, self.task()?, self.of)?;
        let is_of_runs = rate.of.is_none() && rate.measures == Dimension::LENGTH;
        (self.amounts.count.is_none() || !is_of_runs).then_some(rate)
    }
}

/// The rate that is stated for a kind of work on something.
pub(crate) fn rate<'a>(
    job: &Job,
    work: &'a Work,
    task: Task,
    on: Option<WorkOn>,
) -> Option<&'a TaskRate> {
    work.rate(task, |named| on.is_some_and(|on| on.is(job, named)))
}

/// More lifts than a layer is laid in.
pub(crate) const MOST_LIFTS: f64 = 40.0;

/// The tasks of a job as they are planned, one after the other.
pub(crate) struct Plans<'a> {
    pub job: &'a Job,
    pub work: &'a Work,
    pub figures: &'a Figures,
    pub all: Vec<Planned>,
    /// What the first task of each thing that is dug builds on.
    pub located: Vec<usize>,
}

/// Where the tasks of a surface let others in between.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Marks {
    /// The last of its dig.
    pub dug: Option<usize>,
    /// The first that builds up on it.
    pub base: Option<usize>,
    /// The last before its edges and its paving.
    pub based: Option<usize>,
    /// The first of its edges and its paving.
    pub paved: Option<usize>,
    /// The first of its paving.
    pub laid: Option<usize>,
}

impl Plans<'_> {
    /// The marks of a surface.
    pub(crate) fn marks(&self, surface: usize) -> Marks {
        let mut marks = Marks::default();
        let of = Some(WorkOn::Surface(surface));
        let own = self.all.iter().enumerate().filter(|(_, own)| own.of == of);
        for (index, task) in own.filter_map(|(index, own)| Some((index, own.task()?))) {
            match task {
                Task::Stripping | Task::Digging | Task::Carting | Task::Backfilling => {
                    marks.dug = Some(index);
                }
                Task::Edging | Task::Draining | Task::DryLaying | Task::Laying => {
                    marks.paved = marks.paved.or(Some(index));
                }
                _ => marks.base = marks.base.or(Some(index)),
            }
            if matches!(task, Task::DryLaying | Task::Laying) {
                marks.laid = marks.laid.or(Some(index));
            }
            if marks.paved.is_none() {
                marks.based = Some(index);
            }
        }
        marks
    }

    /// A task is to come after another, as far as what is stated lets it.
    pub(crate) fn lets_follow(&mut self, from: Option<usize>, to: Option<usize>) {
        let task = to.and_then(|to| self.all.get_mut(to));
        if let (Some(from), Some(task)) = (from, task) {
            task.prefers.push(from);
        }
    }
}

/// The tasks of one thing, each of which builds on the one before.
pub(crate) struct Chain<'p> {
    pub all: &'p mut Vec<Planned>,
    on: WorkOn,
    name: &'p str,
    /// What its next task builds on.
    last: Vec<usize>,
}

impl<'p> Chain<'p> {
    /// The tasks of something with a name; none as yet.
    pub(crate) fn of(
        all: &'p mut Vec<Planned>,
        located: &[usize],
        on: WorkOn,
        name: &'p str,
    ) -> Self {
        Chain {
            all,
            on,
            name,
            last: located.to_vec(),
        }
    }

    /// Adds a task of a part of it, such as `, base, lift 1 of 2`, that goes
    /// by one rate.
    pub(crate) fn add(
        &mut self,
        part: &str,
        task: Task,
        place: Place,
        amounts: Amounts,
        usual: Option<&'static UsualRate>,
    ) {
        let usual = usual.into_iter().map(|usual| (usual, amounts)).collect();
        self.add_usual(part, task, place, amounts, usual);
    }

    /// Adds a task that usually goes by several rates, each for so much;
    /// gives its place among all.
    pub(crate) fn add_usual(
        &mut self,
        part: &str,
        task: Task,
        place: Place,
        amounts: Amounts,
        usual: Vec<Usual>,
    ) -> usize {
        let index = self.all.len();
        self.all.push(Planned {
            source: Source::Built(task),
            name: format!("{} of {}{part}", task.word(), self.name),
            of: Some(self.on),
            place,
            amounts,
            usual,
            follows: std::mem::replace(&mut self.last, vec![index]),
            prefers: Vec::new(),
            sets: None,
        });
        index
    }

    /// What was added last stands in concrete, which sets before the paving
    /// whatever else comes between.
    pub(crate) fn sets(&mut self) {
        if let Some(task) = self.all.last_mut() {
            task.sets = Some(&KERBS_SET);
        }
    }

    /// What comes next waits for all of this thing that sets.
    pub(crate) fn waits_for_what_sets(&mut self) {
        let own = self.all.iter().enumerate();
        let own = own.filter(|(_, task)| task.of == Some(self.on) && task.sets.is_some());
        let own: Vec<usize> = own.map(|(index, _)| index).collect();
        let last = std::mem::take(&mut self.last);
        self.last = own
            .iter()
            .copied()
            .filter(|own| !last.contains(own))
            .collect();
        self.last.extend(last);
    }

    /// A base is compacted lift by lift.
    pub(crate) fn lifts(&mut self, layer: &str, lifts: u32, place: Place, amounts: Amounts) {
        let amounts = amounts.shared(1.0 / f64::from(lifts.max(1)));
        for lift in 1..=lifts.max(1) {
            let part = match lifts {
                0 | 1 => format!(", {layer}"),
                _ => format!(", {layer}, lift {lift} of {lifts}"),
            };
            let usual = Some(&rates::COMPACTING);
            self.add(&part, Task::Compacting, place, amounts, usual);
        }
    }
}

/// The tasks of a job: surfaces, drains, steps, then what else the spec
/// states. Services are located once, before the first dig, unless the site
/// says that they have been.
pub(crate) fn planned(job: &Job, work: &Work, figures: &Figures) -> Vec<Planned> {
    let mut plans = Plans {
        job,
        work,
        figures,
        all: Vec::new(),
        located: Vec::new(),
    };
    let is_dug = job.surfaces.iter().any(|own| surface_tasks::has_dig(own))
        || figures.drains.iter().any(|own| own.is_dug())
        || job.steps.iter().any(|steps| steps.base.is_some());
    if is_dug && job.site.services_located.is_none() {
        let locating = Source::Built(Task::Locating);
        plans
            .all
            .push(plain(locating, "locating services", work.place));
    }
    plans.located = (0..plans.all.len()).collect();
    surface_tasks::plan(&mut plans);
    plan_others(&mut plans);
    plans.all
}

/// The tasks of a job with drains or steps, nothing of any other: as long as
/// they stay, and the surfaces do, so does the schedule.
pub(crate) fn planned_with_others(job: &Job, work: &Work, figures: &Figures) -> Vec<Planned> {
    match job.drains.is_empty() && job.steps.is_empty() {
        true => Vec::new(),
        false => planned(job, work, figures),
    }
}

/// Plans what is no surface's: drains, steps, and other work.
fn plan_others(plans: &mut Plans<'_>) {
    drain_tasks::plan(plans);
    steps_tasks::plan(plans);
    for (index, other) in plans.work.tasks.iter().enumerate() {
        let own = plain(Source::Other(index), &other.what, other.place);
        plans.all.push(own);
    }
}

/// A task on nothing that is built.
fn plain(source: Source, name: &str, place: Place) -> Planned {
    Planned {
        source,
        name: name.to_owned(),
        of: None,
        place,
        amounts: Amounts::default(),
        usual: Vec::new(),
        follows: Vec::new(),
        prefers: Vec::new(),
        sets: None,
    }
}

/// How the ground of a job is dug: by a machine if one is hired for it, else by
/// hand. Rock goes by no rate that is usual.
pub(crate) fn digging_rate(job: &Job) -> Option<&'static UsualRate> {
    let soil = job.site.soil.as_ref().map(|soil| soil.value.word);
    let digs = |hire: &Hire| hire.tasks.iter().any(|task| task.value == Task::Digging);
    match soil {
        soil if soil != Some("rock") && job.hires.iter().any(|hire| digs(hire)) => {
            Some(&rates::DIGGING_BY_MACHINE)
        }
        Some("sand" | "loam" | "peat" | "fill") => Some(&rates::DIGGING_LIGHT),
        Some("clay") => Some(&rates::DIGGING_HEAVY),
        Some("rock") => None,
        _ => Some(&rates::DIGGING_MEDIUM),
    }
}
