//! Which drains stand on one long section: those that lead on from one to the
//! next, end to end, and what stands on their way.

use crate::analysis::Analysis;
use crate::drawing::letters::letter_of;
use crate::geometry::Point;
use crate::model::{Drain, DrainKind, DrainLine, Outlet};
use crate::quantities::{Course, CoursePiece, DrainFigures};

/// What lies nearer to the end of a run than this, in metres, stands at it: a
/// gully is as wide.
const NEAR: f64 = 0.6;

/// Drains from a head down as far as one leads on to the next.
pub(crate) struct Chain<'j> {
    /// The runs, from the head down.
    pub runs: Vec<Run<'j>>,
    /// What stands on the way, or comes in there.
    pub stops: Vec<Stop<'j>>,
    /// Where the last run leads, as it is called.
    pub to: Option<&'j str>,
}

/// A run with its place in the chain.
#[derive(Clone)]
pub(crate) struct Run<'j> {
    /// The letter that stands for it where its name has no room.
    pub letter: String,
    /// The drain.
    pub drain: &'j Drain,
    /// Its figures.
    pub figures: &'j DrainFigures,
    /// Where it runs.
    pub course: Course,
    /// How far from the head of the chain it begins, in metres.
    pub from_m: f64,
}

/// Something at a point of the chain.
pub(crate) struct Stop<'j> {
    /// The drain that stands or comes in there.
    pub drain: &'j Drain,
    /// Its figures.
    pub figures: &'j DrainFigures,
    /// How far from the head of the chain, in metres.
    pub at_m: f64,
}

impl Run<'_> {
    /// How far from the head of the chain it ends, in metres.
    pub(crate) fn to_m(&self) -> f64 {
        self.from_m + self.course.length()
    }

    /// The level of its bottom so far from its own head.
    pub(crate) fn invert(&self, along: f64) -> Option<f64> {
        let head = self.figures.head_m?;
        let level = match (self.figures.fall, self.figures.outlet_m) {
            (Some(fall), _) => head - fall * along,
            (None, Some(outlet)) => {
                let share = along / self.course.length().max(1e-9);
                head + (outlet - head) * share
            }
            (None, None) => return (along < 1e-6).then_some(head),
        };
        Some(level).filter(|level| level.is_finite())
    }

    /// The level of the top of a pipe so far from its own head.
    pub(crate) fn crown(&self, along: f64) -> Option<f64> {
        if self.drain.kind() != Some(DrainKind::Pipe) {
            return None;
        }
        let pipe = self.drain.body.as_ref()?.value.pipe()?;
        Some(self.invert(along)? + pipe.crown_m()?)
    }

    /// Its pieces, each with the levels of the finish or ground at both ends.
    pub(crate) fn tops(&self) -> impl Iterator<Item = (&CoursePiece, Option<(f64, f64)>)> {
        self.course.pieces.iter().map(|piece| {
            let levels = piece.top.map(|top| {
                let edge = &piece.edge;
                (top.level_at(edge.start), top.level_at(edge.end))
            });
            let is_finite = |levels: &(f64, f64)| levels.0.is_finite() && levels.1.is_finite();
            (piece, levels.filter(is_finite))
        })
    }
}

impl Chain<'_> {
    /// How long it is, in metres.
    pub(crate) fn length(&self) -> f64 {
        self.runs.last().map_or(0.0, Run::to_m)
    }

    /// Every level that is known of it.
    pub(crate) fn levels(&self) -> Vec<f64> {
        let mut levels = Vec::new();
        for run in &self.runs {
            for along in [0.0, run.course.length()] {
                levels.extend([run.invert(along), run.crown(along)].into_iter().flatten());
            }
            levels.extend(
                run.tops()
                    .filter_map(|(_, top)| top)
                    .flat_map(|(a, b)| [a, b]),
            );
        }
        levels
    }
}

/// The runs of a job whose course is known, by the index of their drain.
fn runs(analysis: &Analysis) -> Vec<Option<Run<'_>>> {
    let job = &analysis.job;
    let drains = job.drains.iter().zip(analysis.figures.drains.iter());
    let run = |(drain, figures): (&'_ std::sync::Arc<Drain>, _)| {
        let course = Course::of(job, drain)?;
        let is_run = drain.kind().is_some_and(DrainKind::is_run);
        (is_run && course.length().is_finite() && course.length() > 0.01)
            .then_some((course, figures))
    };
    let found: Vec<Option<(Course, _)>> = drains.map(run).collect();
    let drains = job.drains.iter().zip(found);
    drains
        .map(|(drain, found)| {
            found.map(|(course, figures)| Run {
                letter: letter_of(job, drain),
                drain,
                figures,
                course,
                from_m: 0.0,
            })
        })
        .collect()
}

/// The chains of a job, the longest first, each run in one of them.
pub(crate) fn chains(analysis: &Analysis) -> Vec<Chain<'_>> {
    let runs = runs(analysis);
    let names: Vec<&str> = analysis
        .job
        .drains
        .iter()
        .map(|drain| drain.name.value.as_str())
        .collect();
    let next: Vec<Option<usize>> = (0..runs.len())
        .map(|index| next(analysis, &runs, &names, index))
        .collect();
    let reach = |from: usize| {
        let mut length = 0.0;
        for index in path(&next, from) {
            length += runs
                .get(index)
                .and_then(Option::as_ref)
                .map_or(0.0, |run| run.course.length());
        }
        length
    };
    let mut heads: Vec<(f64, usize)> = (0..runs.len())
        .filter(|index| runs.get(*index).is_some_and(Option::is_some))
        .map(|index| (reach(index), index))
        .collect();
    heads.sort_by(|one, other| other.0.total_cmp(&one.0).then(one.1.cmp(&other.1)));
    let mut taken = vec![false; runs.len()];
    let mut chains = Vec::new();
    for (_, head) in heads {
        let mut own: Vec<Run<'_>> = Vec::new();
        for index in path(&next, head) {
            match taken.get_mut(index) {
                Some(is_taken) if !*is_taken => *is_taken = true,
                _ => break,
            }
            if let Some(Some(run)) = runs.get(index) {
                let from_m = own.last().map_or(0.0, Run::to_m);
                own.push(Run {
                    from_m,
                    ..run.clone()
                });
            }
        }
        if !own.is_empty() {
            chains.push(whole(analysis, own));
        }
    }
    chains
}

/// From a run down as far as one leads on to the next, each once.
fn path(next: &[Option<usize>], from: usize) -> Vec<usize> {
    let mut path = vec![from];
    let mut at = from;
    while let Some(Some(after)) = next.get(at) {
        if path.contains(after) {
            break;
        }
        path.push(*after);
        at = *after;
    }
    path
}

/// The run whose head lies where a run ends, or at what stands there.
fn next(
    analysis: &Analysis,
    runs: &[Option<Run<'_>>],
    names: &[&str],
    index: usize,
) -> Option<usize> {
    let own = runs.get(index)?.as_ref()?;
    let mut to = own.drain.to.as_ref()?;
    // Through what stands at a point, which leads on in turn.
    for _ in 0..names.len() {
        let at = analysis.job.drains.at(&to.value)?;
        if let Some(Some(run)) = runs.get(at) {
            return (run.course.head.distance(own.course.outlet) <= NEAR).then_some(at);
        }
        let drain = analysis.job.drains.get(at)?;
        let stands = stands_at(drain)?;
        if stands.distance(own.course.outlet) > NEAR {
            return None;
        }
        to = drain.to.as_ref()?;
    }
    None
}

fn stands_at(drain: &Drain) -> Option<Point> {
    match drain.line.as_ref().map(|line| &line.value) {
        Some(DrainLine::At(at)) => Some(*at),
        _ => None,
    }
}

/// The runs of a chain with what stands on their way.
fn whole<'j>(analysis: &'j Analysis, runs: Vec<Run<'j>>) -> Chain<'j> {
    let job = &analysis.job;
    let mut stops: Vec<Stop<'j>> = Vec::new();
    let all = job.drains.iter().zip(analysis.figures.drains.iter());
    for (drain, figures) in all {
        if runs
            .iter()
            .any(|run| std::ptr::eq(run.drain, drain.as_ref()))
        {
            continue;
        }
        let at = match stands_at(drain) {
            Some(at) => Some(at),
            None => Course::of(job, drain).map(|course| course.outlet),
        };
        let Some(at) = at else { continue };
        let name = drain.name.value.as_str();
        let leads = |from: &Drain, to: &str| {
            let own = from.to.as_ref().map(|to| &to.value);
            own.and_then(Outlet::drain) == Some(to)
        };
        let touching = runs.iter().find_map(|run| {
            let comes_in = leads(drain, &run.drain.name.value);
            let is_outlet = leads(run.drain, name) && stands_at(drain).is_some();
            if is_outlet && run.course.outlet.distance(at) <= 2.0 * NEAR {
                return Some(run.to_m());
            }
            let along = run.course.distance_along(at);
            let pieces = run.course.pieces.iter();
            let off = pieces.map(|piece| piece.edge.distance_to(at));
            let off = off.fold(f64::INFINITY, f64::min);
            (comes_in && off <= NEAR).then_some(run.from_m + along)
        });
        if let Some(at_m) = touching {
            stops.push(Stop {
                drain,
                figures,
                at_m,
            });
        }
    }
    stops.sort_by(|one, other| one.at_m.total_cmp(&other.at_m));
    let to = runs.last().and_then(|run| run.drain.to.as_ref());
    Chain {
        to: to.map(|to| to.value.shown()),
        runs,
        stops,
    }
}
