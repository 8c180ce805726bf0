//! The levels of a drain's bottom: of its fall and two inverts any two give
//! the third.

use super::course::{Course, beside};
use crate::findings::Place;
use crate::model::{Drain, DrainKind, Job, Origin};
use crate::quantities::measures::{Length, Slope};
use crate::quantities::term::Term;
use crate::quantities::trace::Trace;

/// The levels of a drain's bottom.
pub(super) struct Levels<'t> {
    /// The invert where it begins.
    pub head: Option<Term<'t, Length>>,
    /// The invert where it ends.
    pub outlet: Option<Term<'t, Length>>,
    /// The fall of its bottom.
    pub fall: Option<Term<'t, Slope>>,
    /// The lines that state the invert where it begins and the fall, if any do.
    pub stated_at: [Option<Place>; 2],
    /// How far what is stated disagrees, and where.
    pub misfit: Option<(f64, Place)>,
}

/// An invert and how far from the head it holds.
struct Spot<'t> {
    level: Term<'t, Length>,
    along: Term<'t, Length>,
    place: Place,
}

impl Spot<'_> {
    fn is_at_head(&self) -> bool {
        self.along.value.0.abs() <= LEAST_APART
    }
}

/// The levels of a drain. A pipe of which no level is stated begins where what
/// comes to its head ends.
pub(super) fn levels<'t>(
    job: &Job,
    drain: &Drain,
    course: Option<&Course>,
    trace: &'t Trace,
) -> Levels<'t> {
    let is_run = drain.kind().is_some_and(DrainKind::is_run);
    let Some(course) = course.filter(|_| is_run) else {
        return at_a_point(job, drain, course, trace);
    };
    let mut own = own_levels(job, drain, course, trace);
    if is_open_pipe(drain)
        && let Some((level, from)) = handed_down(job, drain, course)
    {
        let how = format!("the invert at which {from} ends there");
        let spot = Spot {
            level: trace.found("invert", Length(level), how),
            along: trace.term("distance from the head", Length(0.0)),
            place: drain.place,
        };
        let fall = own.fall;
        own.run_from(&spot, fall, length_of(course, trace), trace);
    }
    own
}

fn length_of<'t>(course: &Course, trace: &'t Trace) -> Term<'t, Length> {
    let length = Length(course.length());
    trace.found("length", length, "along its line on the plan")
}

/// The levels of a drain with a length, from what is stated of it and the
/// finish beside it.
fn own_levels<'t>(job: &Job, drain: &Drain, course: &Course, trace: &'t Trace) -> Levels<'t> {
    let length = length_of(course, trace);
    let stated = drain.fall.as_ref();
    let stated = stated.map(|fall| trace.stated("fall", Slope(fall.value.si()), fall.place));
    let spots: Vec<Spot<'t>> = spots(drain, course, trace);
    let apart = |one: &Spot<'_>, other: &Spot<'_>| (other.along.value.0 - one.along.value.0).abs();
    let second = spots
        .first()
        .and_then(|first| spots.iter().find(|other| apart(first, other) > LEAST_APART));
    let mut levels = Levels {
        head: None,
        outlet: None,
        fall: stated,
        stated_at: [None, drain.fall.as_ref().map(|fall| fall.place)],
        misfit: None,
    };
    match (spots.first(), second) {
        (Some(first), Some(second)) if stated.is_none() => {
            let drop = first.level - second.level;
            let slope = drop / (second.along - first.along);
            let fall = trace.gives("fall", slope.map(|slope| Slope(slope.0)));
            levels.run_from(first, Some(fall), length, trace);
        }
        (Some(first), _) => levels.run_from(first, stated, length, trace),
        (None, _) if drain.entry("invert").is_none() => {
            levels.below_the_finish(job, drain, course, length, trace);
        }
        (None, _) => {}
    }
    let at_head = spots.first().filter(|spot| spot.is_at_head());
    levels.stated_at[0] = at_head.map(|spot| spot.place);
    levels.misfit = misfit(&levels, &spots);
    levels
}

/// Nearer to one another than this, in metres, two inverts give no fall.
const LEAST_APART: f64 = 0.01;

/// Levels this near one another, in metres, are the same but for rounding.
const SAME_LEVEL: f64 = 1e-6;

impl<'t> Levels<'t> {
    /// The same as they go into another working.
    pub(crate) fn taken_up<'u>(&self, trace: &'u Trace) -> Levels<'u> {
        let [head_at, fall_at] = self.stated_at.map(|place| place.map(Origin::Line));
        Levels {
            head: self
                .head
                .map(|head| trace.input("invert at the head", head.value, head_at)),
            outlet: self
                .outlet
                .map(|outlet| trace.term("invert at the outlet", outlet.value)),
            fall: self
                .fall
                .map(|fall| trace.input("fall", fall.value, fall_at)),
            stated_at: self.stated_at,
            misfit: self.misfit,
        }
    }

    /// From an invert up to the head and down to the outlet.
    fn run_from(
        &mut self,
        spot: &Spot<'t>,
        fall: Option<Term<'t, Slope>>,
        length: Term<'t, Length>,
        trace: &'t Trace,
    ) {
        self.fall = fall;
        let head = match (fall, spot.is_at_head()) {
            (_, true) => Some(spot.level.called("invert at the head")),
            (Some(fall), false) => {
                Some(trace.gives("invert at the head", spot.level + fall * spot.along))
            }
            (None, false) => None,
        };
        self.head = head;
        self.outlet = head
            .zip(fall)
            .map(|(head, fall)| trace.gives("invert at the outlet", head - fall * length));
        if fall.is_none() && (length.value.0 - spot.along.value.0).abs() <= LEAST_APART {
            self.outlet = Some(spot.level.called("invert at the outlet"));
        }
    }

    /// A channel or a trench lies as deep below the finish as it says: all
    /// along it, or, where its bottom has a fall of its own, at its head.
    fn below_the_finish(
        &mut self,
        job: &Job,
        drain: &Drain,
        course: &Course,
        length: Term<'t, Length>,
        trace: &'t Trace,
    ) {
        let Some(deep) = drain.depth() else { return };
        let first = course.pieces.first().and_then(|piece| piece.top);
        let last = course.pieces.last().and_then(|piece| piece.top);
        let (first, last) = match beside(job, drain) {
            Some(surface) => (
                surface.plane_at(course.head),
                surface.plane_at(course.outlet),
            ),
            None => (first, last),
        };
        let deep_term = Length(deep.value.si());
        let deep_term = trace.stated("depth below the finish", deep_term, deep.place);
        self.head = first.map(|plane| {
            let finish = Length(plane.level_at(course.head));
            let finish = trace.input("finish at the head", finish, None);
            trace.gives("invert at the head", finish - deep_term)
        });
        self.outlet = match self.fall {
            Some(fall) => self
                .head
                .map(|head| trace.gives("invert at the outlet", head - fall * length)),
            None => last.map(|plane| {
                let finish = Length(plane.level_at(course.outlet));
                let finish = trace.input("finish at the outlet", finish, None);
                trace.gives("invert at the outlet", finish - deep_term)
            }),
        };
        if let (None, Some(head), Some(outlet)) = (self.fall, self.head, self.outlet)
            && length.value.0 > LEAST_APART
        {
            let slope = (head - outlet) / length;
            self.fall = Some(trace.gives("fall", slope.map(|slope| Slope(slope.0))));
        }
    }
}

/// Whether it is a pipe with no invert, not even one that cannot be read.
fn is_open_pipe(drain: &Drain) -> bool {
    drain.kind() == Some(DrainKind::Pipe) && drain.entry("invert").is_none()
}

/// So far at most, in metres, what comes to a pipe ends from its head: the
/// width of a trap or of a small pit that joins them.
const JOINED: f64 = 0.3;

/// So many pipes at most hand a level down.
const MOST_HANDED: usize = 64;

/// The level at which a pipe begins that states none: the lowest at which what
/// comes to its head ends, and what that is called. Through a chain of such
/// pipes the way goes up to the first level there is and down again by their
/// falls; in a loop, as a chain may be of any length or a circle.
fn handed_down<'a>(job: &'a Job, drain: &'a Drain, course: &Course) -> Option<(f64, &'a str)> {
    let mut way: Vec<(&Drain, f64)> = Vec::new();
    let (mut own, mut head) = (drain, course.head);
    let mut found = None;
    while found.is_none() && way.len() < MOST_HANDED {
        let coming = || {
            let before = job.drains_before(own).filter(|other| !other.is_unread);
            before.filter_map(|other| Some((other, Course::of(job, other)?)))
        };
        let coming = || coming().filter(|(_, its)| its.outlet.distance(head) <= JOINED);
        let ends = coming().filter_map(|(other, its)| {
            let level = ends_at(job, other, &its)?;
            Some((level, other.name.value.as_str()))
        });
        found = ends.min_by(|one, other| one.0.total_cmp(&other.0));
        if found.is_none() {
            let mut pipes = coming().filter(|(other, _)| is_open_pipe(other));
            let (Some((before, its)), None) = (pipes.next(), pipes.next()) else {
                return None;
            };
            let drop = before.fall.as_ref()?.value.si() * its.length();
            way.push((before, drop));
            (own, head) = (before, its.head);
        }
    }
    let (level, name) = found?;
    let nearest = way.first().map(|(pipe, _)| pipe.name.value.as_str());
    let drop: f64 = way.iter().map(|(_, drop)| drop).sum();
    Some((level - drop, nearest.unwrap_or(name)))
}

/// The level at which a drain ends by what is stated of itself.
fn ends_at(job: &Job, drain: &Drain, course: &Course) -> Option<f64> {
    let silent = Trace::silent();
    let level = match drain.kind()?.is_run() {
        true => own_levels(job, drain, course, &silent).outlet?.value.0,
        false => drain.inverts.first()?.value.value.si(),
    };
    Some(level)
}

/// The stated inverts of a run.
fn spots<'t>(drain: &Drain, course: &Course, trace: &'t Trace) -> Vec<Spot<'t>> {
    let inverts = drain.inverts.iter();
    let spots = inverts.map(|invert| {
        let along = invert.at.map_or(0.0, |at| course.distance_along(at));
        Spot {
            level: trace.stated(
                "invert",
                Length(invert.value.value.si()),
                invert.value.place,
            ),
            along: trace.term("distance from the head", Length(along)),
            place: invert.value.place,
        }
    });
    spots.collect()
}

/// Where an invert is not what the others and the fall give.
fn misfit(levels: &Levels<'_>, spots: &[Spot<'_>]) -> Option<(f64, Place)> {
    let (head, fall) = levels.head.zip(levels.fall)?;
    let off = |spot: &Spot<'_>| {
        let given = head.value - fall.value * spot.along.value;
        (spot.level.value.0 - given.0, spot.place)
    };
    let worst = |one: &(f64, Place), other: &(f64, Place)| one.0.abs().total_cmp(&other.0.abs());
    let (off, place) = spots.iter().map(off).max_by(worst)?;
    (off.abs() > SAME_LEVEL).then_some((off, place))
}

/// What stands at a point has one invert: as stated; else a gully that of the
/// drain that leaves it, and a soakaway the lowest that comes into it.
fn at_a_point<'t>(
    job: &Job,
    drain: &Drain,
    course: Option<&Course>,
    trace: &'t Trace,
) -> Levels<'t> {
    let stated = drain.inverts.first().map(|invert| &invert.value);
    let stated =
        stated.map(|invert| trace.stated("invert", Length(invert.value.si()), invert.place));
    let is_open = drain.entry("invert").is_none();
    let invert = match (stated, drain.kind()) {
        (Some(stated), _) => Some(stated),
        (None, Some(DrainKind::Gully)) if is_open => leaving(job, drain, course, trace),
        (None, Some(DrainKind::Soakaway)) if is_open => coming_in(job, drain, trace),
        _ => None,
    };
    Levels {
        head: invert,
        outlet: invert,
        fall: None,
        stated_at: [drain.inverts.first().map(|own| own.value.place), None],
        misfit: None,
    }
}

/// The invert of the drain that leaves a gully.
fn leaving<'t>(
    job: &Job,
    drain: &Drain,
    course: Option<&Course>,
    trace: &'t Trace,
) -> Option<Term<'t, Length>> {
    let next = job.drain_after(drain)?;
    if !next.kind().is_some_and(DrainKind::is_run) {
        return None;
    }
    let (here, its) = (course?, Course::of(job, next)?);
    let silent = Trace::silent();
    let its_levels = levels(job, next, Some(&its), &silent);
    let (head, fall) = (its_levels.head?, its_levels.fall?);
    let along = Length(its.distance_along(here.head));
    let level = head.value - fall.value * along;
    let how = format!("the invert of {} there", next.name.value);
    Some(trace.found("invert", level, how))
}

/// The lowest invert at which a drain comes into a soakaway.
fn coming_in<'t>(job: &Job, drain: &Drain, trace: &'t Trace) -> Option<Term<'t, Length>> {
    let silent = Trace::silent();
    let mut lowest: Option<(f64, &str)> = None;
    for other in job.drains_before(drain) {
        let course = Course::of(job, other);
        let outlet = match other.kind().is_some_and(DrainKind::is_run) {
            true => levels(job, other, course.as_ref(), &silent).outlet,
            false => continue,
        };
        let level = outlet?.value.0;
        if lowest.is_none_or(|(lowest, _)| level < lowest) {
            lowest = Some((level, &other.name.value));
        }
    }
    let (level, name) = lowest?;
    Some(trace.found("invert", Length(level), format!("the outlet of {name}")))
}
