//! A flight as a whole: its levels, its risers, its run and where it stands.

use std::sync::Arc;

use super::super::measures::{Angle, Count, Length};
use super::super::term::Term;
use super::super::trace::Trace;
use super::counting::{fewest, highest_riser};
use crate::geometry::{Outline, Point, Tag, Vector, intersection_area};
use crate::model::{Ending, Job, Stated, Steps, Surface};
use crate::units::{Quantity, System};

/// More risers than any flight has, when they are counted.
const MOST_RISERS: u32 = 200;

/// Ground smaller than this, in square metres, is what rounding leaves.
const ROUNDING: f64 = 1e-6;

/// What a tape is read to, in metres: a sixteenth of an inch, a millimetre.
const fn tape_mark(system: System) -> f64 {
    match system {
        System::Imperial => 0.0254 / 16.0,
        System::Metric => 0.001,
    }
}

/// A flight as a whole.
#[derive(Debug, Clone, PartialEq)]
pub struct Flight {
    /// The level at the middle of the lowest riser's line.
    pub foot_m: f64,
    /// The level at the middle of the top riser's line.
    pub top_m: f64,
    /// From foot to top.
    pub rise_m: f64,
    /// How many risers there are.
    pub risers: u32,
    /// Whether that is not stated, and taken from the limits.
    pub is_count_assumed: bool,
    /// The rise of each, nosing to nosing, to the tape's mark.
    pub riser_m: f64,
    /// What is left over, which the bed of the lowest takes up.
    pub odd_m: f64,
    /// From nosing to nosing.
    pub going_m: f64,
    /// How wide it is.
    pub width_m: f64,
    /// From the lowest riser's line to the top one's.
    pub run_m: f64,
    /// How steep it is, in degrees.
    pub pitch_degrees: f64,
    /// Two risers and a going.
    pub stride_m: f64,
    /// The area that it stands on.
    pub plan_m2: f64,
    /// The ground that it stands on; `None` of a single riser.
    pub plan: Option<Arc<Outline>>,
    /// The levels at the left and the right end of the lowest riser's line.
    pub foot_ends_m: (f64, f64),
    /// The levels at the left and the right end of the top riser's line.
    pub top_ends_m: (f64, f64),
    /// The middle of the top riser's line.
    pub at: Point,
    /// Which way it climbs, a unit vector of the plan.
    pub climbing: Vector,
}

impl Flight {
    /// How many treads there are: the top riser leads to what lies above.
    pub fn treads(&self) -> u32 {
        self.risers.saturating_sub(1)
    }

    /// The rise of the lowest, with what its bed takes up.
    pub fn lowest_m(&self) -> f64 {
        self.riser_m + self.odd_m
    }

    /// The rise of the lowest where it is another than that of the rest by more
    /// than a mark of the tape.
    pub fn odd_lowest_m(&self, system: System) -> Option<f64> {
        let is_odd = self.odd_m.abs() > 1.5 * tape_mark(system);
        is_odd.then(|| self.lowest_m())
    }

    /// What is left over shared out, a mark of the tape a riser: so many are a
    /// mark higher than the others, and how high those are. `None` where the
    /// bed of the lowest takes up no more than a mark.
    pub fn shared_out(&self, system: System) -> Option<(u32, f64)> {
        let mark = tape_mark(system);
        let marks = (self.odd_m / mark).round();
        let is_shared = marks > 1.0 && marks < f64::from(self.risers);
        is_shared.then_some((marks as u32, self.riser_m + mark))
    }

    /// The rectangle that goes so far past the flight on every side; `None`
    /// if it has no area. Its sides are tagged from 0: the foot, the right as
    /// one goes up, the top, the left.
    pub fn outline(&self, beyond: f64) -> Option<Outline> {
        let half = self.climbing.left() * (0.5 * self.width_m + beyond);
        let low = self.at + self.climbing * (-self.run_m - beyond);
        let high = self.at + self.climbing * beyond;
        let corners = [low + half, low + -half, high + -half, high + half];
        Outline::polygon(&corners, |side| side as Tag).ok()
    }

    /// The middle of the line of a riser, counted from the lowest, and the
    /// step from there to its left end.
    pub fn riser_line(&self, index: u32) -> (Point, Vector) {
        let back = f64::from(self.treads().saturating_sub(index)) * self.going_m;
        let middle = self.at + self.climbing * -back;
        (middle, self.climbing.left() * (0.5 * self.width_m))
    }
}

/// Why a flight is not known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Unknown {
    /// An entry is missing, or could not be made out.
    Written,
    /// The number of risers could not be made out.
    Count,
    /// The level at its foot is not known.
    Foot,
    /// The level at its top is not known.
    Top,
    /// Its foot lies so far above its top, in metres.
    LeadsDown(f64),
    /// It takes more risers than any flight has.
    TooManyRisers,
}

impl Unknown {
    /// Why, in words.
    pub(crate) const fn in_words(self) -> &'static str {
        match self {
            Unknown::Written => "what is written of the flight is not whole",
            Unknown::Count => "the number of risers could not be made out",
            Unknown::Foot => "the level at the foot of the flight is not known",
            Unknown::Top => "the level at the top of the flight is not known",
            Unknown::LeadsDown(_) => "its foot does not lie below its top",
            Unknown::TooManyRisers => "it takes more risers than any flight has",
        }
    }

    /// How far its foot lies above its top, in metres.
    pub(crate) const fn down_m(self) -> Option<f64> {
        match self {
            Unknown::LeadsDown(by) => Some(by),
            _ => None,
        }
    }
}

/// The surface that a flight begins or ends at.
pub(super) fn surface<'a>(job: &'a Job, ending: &Ending) -> Option<&'a Arc<Surface>> {
    let Ending::Surface(name) = ending else {
        return None;
    };
    let mut surfaces = job.surfaces.iter();
    surfaces.find(|surface| surface.name.value == *name)
}

/// The level of what a flight begins or ends at, at a point, in metres.
fn level_at(job: &Job, ending: &Ending, at: Point) -> Option<f64> {
    match ending {
        Ending::Surface(_) => surface(job, ending)?.level_at(at),
        Ending::Ground => Some(job.site.ground.as_ref()?.plane.level_at(at)),
        Ending::Floor => Some(job.site.floor.as_ref()?.value.si()),
        Ending::Level(level) => Some(level.si()),
    }
}

/// What is written of a flight, all of it known.
struct Written<'a> {
    from: &'a Stated<Ending>,
    to: &'a Stated<Ending>,
    at: Point,
    climbing: Vector,
    width: &'a Stated<Quantity>,
    going: &'a Stated<Quantity>,
}

impl Written<'_> {
    fn of(own: &Steps) -> Option<Written<'_>> {
        Some(Written {
            from: own.from.as_ref()?,
            to: own.to.as_ref()?,
            at: own.at.as_ref()?.value,
            climbing: own.climbing.as_ref()?.value,
            width: own.width.as_ref()?,
            going: own.going.as_ref()?,
        })
    }

    /// The middle of the lowest riser's line, with so many risers.
    fn foot(&self, risers: u32) -> Point {
        let treads = f64::from(risers.saturating_sub(1));
        self.at + self.climbing * (-treads * self.going.value.si())
    }
}

/// A flight as a whole, or why it is not known.
pub(super) fn flight(job: &Job, own: &Steps, trace: &Trace) -> Result<Flight, Unknown> {
    let written = Written::of(own).ok_or(Unknown::Written)?;
    let top = level_at(job, &written.to.value, written.at).ok_or(Unknown::Top)?;
    let level = |risers| level_at(job, &written.from.value, written.foot(risers));
    if own.is_count_unread {
        return Err(Unknown::Count);
    }
    let highest = highest_riser(job.heading.region());
    let stated = own.risers.as_ref().map(|count| count.value.si() as u32);
    let risers = match stated {
        Some(count) => count,
        None => fewest_for(level, top, highest.value).ok_or(Unknown::TooManyRisers)?,
    };
    let foot = level(risers).ok_or(Unknown::Foot)?;
    if top - foot <= 0.0 {
        return Err(Unknown::LeadsDown(foot - top));
    }
    let foot_term = trace.stated(
        "level where the lowest riser stands",
        Length(foot),
        written.from.place,
    );
    let top_term = trace.stated("level at the top riser", Length(top), written.to.place);
    let rise = trace.gives(
        "total rise",
        top_term.called("top") - foot_term.called("foot"),
    );
    let count = match &own.risers {
        Some(count) => trace.stated("risers", Count(f64::from(risers)), count.place),
        None => {
            let highest = trace.sourced("the highest riser", &highest, Length);
            let fewest = (rise / highest).then(", rounded up", |_| Count(f64::from(risers)));
            trace.gives("risers", fewest)
        }
    };
    let (riser, odd) = risers_of(rise, count, job.heading.system(), trace);
    let going = Length(written.going.value.si());
    let going = trace.stated("going", going, written.going.place);
    let one = trace.term("1", Count(1.0));
    let treads = trace.gives("treads", count - one);
    let run = trace.gives("run", going * treads);
    let width = Length(written.width.value.si());
    let width = trace.stated("width", width, written.width.place);
    let plan = trace.gives("area that it stands on", run * width);
    let stride = going + riser * trace.term("2", Count(2.0));
    let stride = trace.gives("two risers and a going", stride);
    let words = ["the angle whose slope is ", " over ", ""];
    let pitch = riser.joined(words, going, |riser, going| {
        Angle(riser.0.atan2(going.0).to_degrees())
    });
    let pitch = trace.gives("pitch", pitch);
    let half = written.climbing.left() * (0.5 * width.value.0);
    let ends = |ending: &Ending, middle: Point, level: f64| {
        let at = |point| level_at(job, ending, point).unwrap_or(level);
        (at(middle + half), at(middle + -half))
    };
    let mut flight = Flight {
        foot_m: foot,
        top_m: top,
        rise_m: rise.value.0,
        risers,
        is_count_assumed: own.risers.is_none(),
        riser_m: riser.value.0,
        odd_m: odd.value.0,
        going_m: going.value.0,
        width_m: width.value.0,
        run_m: run.value.0,
        pitch_degrees: pitch.value.0,
        stride_m: stride.value.0,
        plan_m2: plan.value.0,
        plan: None,
        foot_ends_m: ends(&written.from.value, written.foot(risers), foot),
        top_ends_m: ends(&written.to.value, written.at, top),
        at: written.at,
        climbing: written.climbing,
    };
    flight.plan = flight.outline(0.0).map(Arc::new);
    Ok(flight)
}

/// The fewest risers no higher than `highest` up to `top`, with the level of
/// the foot by how many there are. The more risers, the farther out the foot,
/// and the lower a surface that falls away.
fn fewest_for(level: impl Fn(u32) -> Option<f64>, top: f64, highest: f64) -> Option<u32> {
    (1..=MOST_RISERS).find(|count| match level(*count) {
        Some(foot) => fewest(top - foot, highest) <= f64::from(*count),
        None => true,
    })
}

/// The fewest risers with which a flight climbs where none is to be higher
/// than `highest_m`, and the rise of each of them, in metres; `None` if that
/// cannot be made out.
pub fn fewest_risers(job: &Job, own: &Steps, highest_m: f64) -> Option<(u32, f64)> {
    let written = Written::of(own)?;
    let top = level_at(job, &written.to.value, written.at)?;
    let level = |risers| level_at(job, &written.from.value, written.foot(risers));
    let risers = fewest_for(level, top, highest_m)?;
    Some((risers, (top - level(risers)?) / f64::from(risers)))
}

/// The rise of each riser to the tape's mark, and what is left over.
fn risers_of<'t>(
    rise: Term<'t, Length>,
    count: Term<'t, Count>,
    system: System,
    trace: &'t Trace,
) -> (Term<'t, Length>, Term<'t, Length>) {
    let mark = tape_mark(system);
    // A hair under a mark is that mark.
    let down = |each: Length| Length((each.0 / mark + 1e-6).floor() * mark);
    let each = (rise / count).then(", down to the tape's mark", down);
    let riser = trace.gives("each riser", each);
    let odd = (rise - riser * count).map(|odd| Length(odd.0.max(0.0)));
    let odd = trace.gives("left over, in the bed of the lowest", odd);
    (riser, odd.called("odd"))
}

/// What a flight covers of each surface, by its index, in square metres.
pub(super) fn stands_on(job: &Job, flight: &Flight) -> Vec<(usize, f64)> {
    let Some(plan) = &flight.plan else {
        return Vec::new();
    };
    let on = |surface: &Arc<Surface>| {
        let each = surface
            .outlines()
            .map(|own| intersection_area(plan, own).ok());
        let common: f64 = each.sum::<Option<f64>>()?;
        (common > ROUNDING).then_some((surface.index, common))
    };
    let stated = job.surfaces.iter().filter(|own| !own.is_border());
    stated.filter_map(on).collect()
}
