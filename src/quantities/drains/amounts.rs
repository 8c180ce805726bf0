//! What is dug for a drain, what goes into it, and what it holds.

use std::f64::consts::FRAC_PI_4;

use super::course::{Course, CoursePiece, over_point};
use super::levels::Levels;
use super::section::Section;
use super::{Cover, DrainDig, StuffFigures};
use crate::findings::Place;
use crate::geometry::{Edge, Plane, Point, Vector};
use crate::materials::Kind;
use crate::model::{
    Drain, DrainBody, DrainKind, DrainLine, Job, Origin, Pit, Region, Sourced, Stated, Substance,
};
use crate::quantities::layers::{fresh_mass, loose_volume, mass_of};
use crate::quantities::measures::{Area, Count, Length, Share, Volume};
use crate::quantities::states::is_granular;
use crate::quantities::term::Term;
use crate::quantities::trace::Trace;
use crate::sources::Source;

/// A drain, where it lies and in what ground.
pub(super) struct Ground<'a, 't> {
    pub job: &'a Job,
    pub drain: &'a Drain,
    pub course: Option<&'a Course>,
    pub levels: &'a Levels<'t>,
}

/// What of a dig is hardly worth a shovel, as a share of it.
const HARDLY: f64 = 0.01;

/// How much of a dig is filled in again over what lies within it, and what is
/// carted away, both as they lie in the ground. Nothing is filled in over what
/// reaches up to the finish.
pub(super) fn filled_in<'t>(
    bank: Term<'t, Volume>,
    within: Option<Term<'t, Volume>>,
    trace: &'t Trace,
) -> (f64, Term<'t, Volume>) {
    let is_over = |within: &Term<'t, Volume>| bank.value.0 - within.value.0 > HARDLY * bank.value.0;
    let Some(within) = within.filter(is_over) else {
        return (0.0, bank);
    };
    let again = trace.gives("filled in again", bank - within);
    let carted = trace.gives("carted away, as it lay", bank - again);
    (again.value.0, carted)
}

/// Dig, bedding, fill, fabric and storage.
type Works = (
    Option<DrainDig>,
    Option<StuffFigures>,
    Option<StuffFigures>,
    Option<f64>,
    Option<f64>,
);

impl<'t> Ground<'_, 't> {
    /// What is dug for it, what goes into it and what it holds.
    pub(crate) fn works(&self, trace: &'t Trace) -> Works {
        if self.drain.existing.is_some() || self.drain.is_unread {
            return (None, None, None, None, None);
        }
        match self.drain.body.as_ref().map(|body| &body.value) {
            Some(DrainBody::Soakaway { pit, deep, .. }) => self.pit(pit, deep.as_ref(), trace),
            Some(DrainBody::Gully { wide, .. }) => {
                let (dig, bedding) = self.gully(wide.as_ref(), trace);
                (dig, bedding, None, None, None)
            }
            Some(_) => self.run(trace),
            None => (None, None, None, None, None),
        }
    }

    /// A run: its dig, and what it is laid in or filled with.
    fn run(&self, trace: &'t Trace) -> Works {
        let section = Section::of(self.drain, trace);
        let dig = section.and_then(|section| self.dig(&section, trace));
        let bedding = section.and_then(|section| self.bedding(&section, trace));
        let bedding = self.bedding_of(bedding, trace);
        let stone = section
            .filter(|_| self.drain.kind() == Some(DrainKind::Trench))
            .and_then(|section| self.stone(&section, trace));
        let fill = self.drain.filled.as_ref().map(|filled| {
            let volume = stone.map(|(_, volume)| volume);
            stuff(&filled.of.value, volume, filled.place, trace)
        });
        let storage = self.stored(stone.map(|(_, volume)| volume), trace);
        let fabric = self.drain.wrapped.as_ref().and(stone).zip(section);
        let fabric = fabric.map(|((height, _), section)| {
            let round = height + height + section.width + section.width;
            let round = trace.gives("round the stone", round);
            let length = trace.term("length", Length(self.length()));
            let end = height * section.width;
            trace.gives("fabric", round * length + end + end).value.0
        });
        let fabric = match self.drain.kind() {
            Some(DrainKind::Pipe) => self.round_the_pipe(section, trace),
            _ => fabric,
        };
        (dig, bedding, fill, fabric, storage)
    }

    /// So much of what it is laid in.
    pub(super) fn bedding_of(
        &self,
        volume: Option<Term<'t, Volume>>,
        trace: &'t Trace,
    ) -> Option<StuffFigures> {
        let bedded = self.drain.bedded.as_ref()?;
        Some(stuff(&bedded.of.value, volume, bedded.place, trace))
    }

    /// How long it is, in metres: a pipe to the face of the gullies and pits at
    /// its ends.
    fn length(&self) -> f64 {
        self.course.map_or(0.0, Course::length) - self.in_pits()
    }

    /// The pieces of its course that are dug for it.
    fn dug(&self) -> Vec<CoursePiece> {
        let (at_head, at_outlet) = self.inside_pits();
        let pieces = self.course.map_or(&[][..], |course| &course.pieces);
        let last = self.course.map_or(0.0, Course::length) - at_outlet;
        let outside = pieces.iter().filter_map(|piece| {
            let (from, to) = (piece.from_m.max(at_head), piece.to_m().min(last));
            (to > from).then(|| match (from, to) == (piece.from_m, piece.to_m()) {
                true => *piece,
                false => CoursePiece {
                    edge: piece.edge.between(from - piece.from_m, to - piece.from_m),
                    from_m: from,
                    ..*piece
                },
            })
        });
        outside.collect()
    }

    /// The level of the bottom of the dig, so far from the head.
    fn bottom(&self, under: Length, along: f64) -> Option<f64> {
        let (head, fall) = (self.levels.head?.value, self.levels.fall?.value);
        Some((head - fall * Length(along) - under).0)
    }

    /// What lies in the trench of a pipe, over which the ground is filled in
    /// again: the pipe, with what it is laid in as high as the trench is wide.
    /// Over a channel, a gully and the stone of a trench nothing is.
    fn within(&self, section: &Section<'t>, trace: &'t Trace) -> Option<Term<'t, Volume>> {
        if self.drain.kind() != Some(DrainKind::Pipe) {
            return None;
        }
        let length = trace.term("length", Length(self.length()));
        Some(match section.round {
            Some(_) => trace.gives("what lies in it", section.width * section.width * length),
            None => trace.gives("pipe", self.pipe(section.own, trace) * length),
        })
    }

    /// The cross section of a pipe.
    fn pipe(&self, outside: Term<'t, Length>, trace: &'t Trace) -> Term<'t, Area> {
        let quarter = trace.term("π/4", Count(FRAC_PI_4));
        trace.gives("section of the pipe", outside * outside * quarter)
    }

    /// What is dug along a run: from the underside of the surface over it, or
    /// from the ground.
    fn dig(&self, section: &Section<'t>, trace: &'t Trace) -> Option<DrainDig> {
        self.course?;
        let under = section.under.value;
        let (mut side, mut deepest, mut below_top) = (0.0, 0.0_f64, 0.0_f64);
        let mut saved = 0.0;
        let (mut more, mut outer, mut deepest_outer) = (0.0, 0.0_f64, 0.0_f64);
        for piece in self.dug() {
            let (from, top) = (piece.dug_from?, piece.top?);
            let bottoms = (
                self.bottom(under, piece.from_m)?,
                self.bottom(under, piece.to_m())?,
            );
            let at_ends = |plane: Plane| {
                let (start, end) = (piece.edge.start, piece.edge.end);
                (
                    plane.level_at(start) - bottoms.0,
                    plane.level_at(end) - bottoms.1,
                )
            };
            let mean_bottom = 0.5 * (bottoms.0 + bottoms.1);
            let side_from = |plane: Plane| {
                let mean = plane.level_at(mean_point(&piece.edge)) - mean_bottom;
                side_area(piece.edge.length(), at_ends(plane), mean)
            };
            side += side_from(from);
            if let Some((past, underside)) = piece.beside {
                let shared = past.min(section.width.value.0);
                saved += shared * (side_from(from) - side_from(underside));
            }
            // What a channel is laid in reaches past the edge that it runs along.
            let round = section.round.map_or(0.0, |round| round.value.0);
            if let Some((past, ground)) = piece.past_edge
                && round > past
            {
                outer = outer.max(round - past);
                more += (round - past) * (side_from(ground) - side_from(from)).max(0.0);
                let (start, end) = at_ends(ground);
                deepest_outer = deepest_outer.max(start).max(end);
            }
            let (start, end) = at_ends(from);
            deepest = deepest.max(start).max(end);
            let (start, end) = at_ends(top);
            below_top = below_top.max(start).max(end);
        }
        let how = "from where the digging begins down to the bottom of the dig, along its length";
        let side = trace.found("side of the dig", Area(side), how);
        let bank = match saved > 0.0 {
            true => {
                let how = "what is dug for the base past the edge, as far as it lies in it";
                let saved = trace.found("dug for the surface", Volume(saved), how);
                trace.gives("bank volume", side * section.width - saved)
            }
            false => trace.gives("bank volume", side * section.width),
        };
        let is_under_dug = bank.value.0 <= 1e-9;
        let bank = match more > 0.0 {
            true => {
                let how = "from the ground, what the dig of the surface does not reach";
                let more = trace.found("dug past the edge", Volume(more), how);
                trace.gives("bank volume with it", bank + more)
            }
            false => bank,
        };
        // Under the surface it lies in what is dug for that.
        let (width, deepest) = match more > 0.0 && is_under_dug {
            true => (outer, deepest_outer),
            false => (section.width.value.0, deepest.max(deepest_outer)),
        };
        let within = self.within(section, trace);
        let (filled_in_m3, carted) = filled_in(bank, within, trace);
        Some(DrainDig {
            width_m: Some(width),
            deepest_m: deepest,
            below_top_m: below_top,
            bank_m3: bank.value.0,
            filled_in_m3,
            loose_m3: self.loose(carted, trace),
        })
    }

    pub(super) fn loose(&self, bank: Term<'t, Volume>, trace: &'t Trace) -> Option<f64> {
        let swell = self.job.site.swell()?;
        let swell = trace.sourced("swell", &swell, Share);
        Some(trace.gives("loose volume", bank * (1.0 + swell)).value.0)
    }

    /// What a pipe or channel is laid in: all round a pipe; below a channel
    /// and on both sides of it, up to the finish.
    fn bedding(&self, section: &Section<'t>, trace: &'t Trace) -> Option<Term<'t, Volume>> {
        let round = section.round?;
        let length = trace.term("length", Length(self.length()));
        let around = match &self.drain.body.as_ref()?.value {
            DrainBody::Pipe(_) => section.width * section.width - self.pipe(section.own, trace),
            DrainBody::Channel { .. } => {
                let deep = self.mean_depth(trace)? + section.wall;
                let deep = trace.gives("depth of the channel over all", deep);
                let below = section.width * round;
                below + round * deep + round * deep
            }
            _ => return None,
        };
        let around = trace.gives("section of what it is laid in", around);
        Some(trace.gives("what it is laid in", around * length))
    }

    /// How deep a bottom lies below the finish on the average: as stated, or
    /// where it has a fall of its own as the levels give it. `None` where it
    /// lies above the finish.
    fn mean_depth(&self, trace: &'t Trace) -> Option<Term<'t, Length>> {
        let course = self.course?;
        let stated = self.drain.depth()?;
        if self.drain.fall.is_none() && self.drain.inverts.is_empty() {
            let deep = Length(stated.value.si());
            return Some(trace.stated("depth below the finish", deep, stated.place));
        }
        let beside = super::course::beside(self.job, self.drain);
        let mut sum = 0.0;
        for piece in &course.pieces {
            let top = match beside {
                Some(surface) => surface.plane_along(&piece.edge)?,
                None => piece.top?,
            };
            let bottoms = (
                self.bottom(Length(0.0), piece.from_m)?,
                self.bottom(Length(0.0), piece.to_m())?,
            );
            let mean = top.level_at(mean_point(&piece.edge)) - 0.5 * (bottoms.0 + bottoms.1);
            let ends = (
                top.level_at(piece.edge.start) - bottoms.0,
                top.level_at(piece.edge.end) - bottoms.1,
            );
            sum += side_area(piece.edge.length(), ends, mean);
        }
        // One that lies above the finish all along is no depth to go by.
        if sum <= 0.0 {
            return None;
        }
        let mean = Length(sum / course.length());
        let how = "from the finish down to the invert, along its length";
        Some(trace.found("depth on the average", mean, how))
    }

    /// The height of the stone in a trench, and its volume beside the pipe.
    fn stone(
        &self,
        section: &Section<'t>,
        trace: &'t Trace,
    ) -> Option<(Term<'t, Length>, Term<'t, Volume>)> {
        let height = self.mean_depth(trace)?;
        let length = trace.term("length", Length(self.length()));
        let whole = trace.gives("trench", section.width * height * length);
        let pipe = self.drain.body.as_ref()?.value.pipe();
        let Some(size) = pipe.and_then(|pipe| pipe.size.as_ref()) else {
            return Some((height, whole));
        };
        let size = trace.stated("outside of the pipe", Length(size.value.si()), size.place);
        let pipe = trace.gives("pipe", self.pipe(size, trace) * length);
        // A trench too shallow for its pipe has no stone beside it to speak of.
        (whole.value.0 > pipe.value.0).then(|| (height, trace.gives("stone", whole - pipe)))
    }

    /// The fabric round a pipe by itself.
    fn round_the_pipe(&self, section: Option<Section<'t>>, trace: &'t Trace) -> Option<f64> {
        self.drain.wrapped.as_ref()?;
        let quarter = trace.term("π/4", Count(FRAC_PI_4));
        let outside = section?.own;
        let round = outside * quarter.map(|quarter| Share(4.0 * quarter.0));
        let length = trace.term("length", Length(self.length()));
        Some(trace.gives("fabric", round * length).value.0)
    }

    /// The water that a volume of fill holds.
    fn stored(&self, volume: Option<Term<'t, Volume>>, trace: &'t Trace) -> Option<f64> {
        let voids = voids(self.job, self.drain)?;
        let voids = trace.sourced("voids", &voids, Share);
        Some(trace.gives("storage", volume? * voids).value.0)
    }

    /// A soakaway: storage counts below its inlet, what fills it reaches to
    /// the crown of the pipe.
    fn pit(
        &self,
        pit: &Pit,
        deep: Option<&Stated<crate::units::Quantity>>,
        trace: &'t Trace,
    ) -> Works {
        let side = |name: &str, of: &Stated<crate::units::Quantity>| {
            trace.stated(name, Length(of.value.si()), of.place)
        };
        let (plan, round) = match pit {
            Pit::Box(long, wide) => {
                let (long, wide) = (side("length", long), side("width", wide));
                (long * wide, long + wide + long + wide)
            }
            Pit::Round(across) => {
                let across = side("across", across);
                let quarter = trace.term("π/4", Count(FRAC_PI_4));
                let round = across * quarter.map(|quarter| Share(4.0 * quarter.0));
                (across * across * quarter, round)
            }
        };
        let plan = trace.gives("plan", plan);
        let Some(deep) = deep.map(|deep| side("depth below the inlet", deep)) else {
            return (None, None, None, None, None);
        };
        let storage = self.stored(Some(plan * deep), trace);
        let height = match self.crown() {
            Some(bore) => trace.gives("height of what fills it", deep + side("pipe into it", bore)),
            None => deep.called("height of what fills it"),
        };
        let fill = self.drain.filled.as_ref().map(|filled| {
            let volume = trace.gives("what fills it", plan * height);
            stuff(&filled.of.value, Some(volume), filled.place, trace)
        });
        let fabric = self.drain.wrapped.as_ref().map(|_| {
            let round = trace.gives("round it", round);
            trace.gives("fabric", plan + plan + round * height).value.0
        });
        let held = trace.gives("what lies in it", plan * height);
        let dig = self.dug_pit(plan, deep, held, trace);
        (dig, None, fill, fabric, storage)
    }

    /// The widest pipe that comes into it.
    fn crown(&self) -> Option<&Stated<crate::units::Quantity>> {
        let pipes = self.job.drains_before(self.drain).filter_map(|other| {
            let pipe = other.body.as_ref()?.value.pipe()?;
            pipe.inside()
        });
        pipes.max_by(|one, other| one.value.si().total_cmp(&other.value.si()))
    }

    fn dug_pit(
        &self,
        plan: Term<'t, Area>,
        deep: Term<'t, Length>,
        held: Term<'t, Volume>,
        trace: &'t Trace,
    ) -> Option<DrainDig> {
        let at = self.course?.head;
        let invert = self.levels.head?;
        let (top, from) = over_point(self.job, at);
        let from = trace.input("where the digging begins", Length(from?.level_at(at)), None);
        let bottom = trace.gives("bottom", invert.called("invert") - deep);
        let depth = trace.gives("depth of the dig", from - bottom);
        // One whose bottom lies above the ground has nothing dug for it.
        let depth = match depth.value.0 < 0.0 {
            true => depth.then(", below nothing none", |_| Length(0.0)),
            false => depth,
        };
        let bank = trace.gives("bank volume", plan * depth);
        let (filled_in_m3, carted) = filled_in(bank, Some(held), trace);
        Some(DrainDig {
            width_m: None,
            deepest_m: depth.value.0,
            below_top_m: (top?.level_at(at) - bottom.value.0).max(0.0),
            bank_m3: bank.value.0,
            filled_in_m3,
            loose_m3: self.loose(carted, trace),
        })
    }

    /// The least cover over a pipe under each thing that it passes; empty for
    /// what is no pipe, and where a level is not known.
    pub(crate) fn covers(&self, trace: &'t Trace) -> Vec<Cover> {
        let covers = self.all_covers().unwrap_or_default();
        let least = covers.iter().map(|cover| cover.least_m).reduce(f64::min);
        if let Some(least) = least {
            let how =
                "from the finish or the ground down to the top of the pipe, where it is least";
            trace.found("least cover", Length(least), how);
        }
        covers
    }

    fn all_covers(&self) -> Option<Vec<Cover>> {
        let Some(DrainBody::Pipe(pipe)) = self.drain.body.as_ref().map(|body| &body.value) else {
            return None;
        };
        let crown = pipe.crown_m()?;
        let over = |piece: &CoursePiece| {
            let at = |point: Point, along: f64| {
                Some(piece.top?.level_at(point) - self.bottom(Length(0.0), along)? - crown)
            };
            let start = at(piece.edge.start, piece.from_m)?;
            let end = at(piece.edge.end, piece.to_m())?;
            Some(Cover {
                least_m: start.min(end),
                head_m: start,
                under: piece.under,
            })
        };
        self.course?.pieces.iter().map(over).collect()
    }

    /// How much of a pipe's length lies inside the gullies and pits at its
    /// ends, in metres.
    pub(crate) fn in_pits(&self) -> f64 {
        let (at_head, at_outlet) = self.inside_pits();
        at_head + at_outlet
    }

    /// The same at its head and at its outlet.
    fn inside_pits(&self) -> (f64, f64) {
        let Some(course) = self
            .course
            .filter(|_| self.drain.kind() == Some(DrainKind::Pipe))
        else {
            return (0.0, 0.0);
        };
        let way = (course.outlet - course.head).unit();
        let next = self.job.drain_after(self.drain);
        let at_outlet = next.map_or(0.0, |next| to_the_face(next, course.outlet, way));
        let at_head = self
            .job
            .drains_before(self.drain)
            .map(|other| to_the_face(other, course.head, way))
            .fold(0.0, f64::max);
        let at_outlet = at_outlet.min(course.length());
        (at_head.min(course.length() - at_outlet), at_outlet)
    }
}

/// How far the face of a gully or pit lies from its middle, where a pipe
/// comes to it that runs some way; 0 if it does not come there.
fn to_the_face(drain: &Drain, at: Point, way: Vector) -> f64 {
    let Some(DrainLine::At(middle)) = drain.line.as_ref().map(|line| &line.value) else {
        return 0.0;
    };
    let half = |of: &Stated<crate::units::Quantity>| 0.5 * of.value.si();
    let square = |east: f64, north: f64| {
        let out = |half: f64, part: f64| match part.abs() > 0.0 {
            true => half / part.abs(),
            false => f64::INFINITY,
        };
        out(east, way.x).min(out(north, way.y))
    };
    let face = match drain.body.as_ref().map(|body| &body.value) {
        Some(DrainBody::Gully {
            wide: Some(wide), ..
        }) => square(half(wide), half(wide)),
        Some(DrainBody::Soakaway { pit, .. }) => match pit {
            Pit::Box(long, wide) => square(half(long), half(wide)),
            Pit::Round(across) => half(across),
        },
        _ => 0.0,
    };
    match middle.distance(at) <= 0.01 {
        true => face,
        false => 0.0,
    }
}

/// The middle of a line or arc, by length.
fn mean_point(edge: &Edge) -> Point {
    let middle = edge.midpoint();
    let half = 0.5 * edge.sweep().abs();
    match edge.centre() {
        Some(centre) if half > 0.0 => centre + (middle - centre) * (half.sin() / half),
        _ => middle,
    }
}

/// The area of the side of a dig so long, whose depths at its ends and on the
/// average are known; what would lie above where the digging begins is none.
fn side_area(length: f64, (start, end): (f64, f64), mean: f64) -> f64 {
    match (start >= 0.0, end >= 0.0) {
        (true, true) => length * mean,
        (false, false) => 0.0,
        (true, false) => 0.5 * length * start * start / (start - end),
        (false, true) => 0.5 * length * end * end / (end - start),
    }
}

/// A stuff by its volume, with its mass and what is delivered of it.
fn stuff<'t>(
    of: &Substance,
    volume: Option<Term<'t, Volume>>,
    place: Place,
    trace: &'t Trace,
) -> StuffFigures {
    let mass = volume.and_then(|volume| match of {
        Substance::Material(material) => mass_of(material, None, volume, trace),
        Substance::Mix(mix) => fresh_mass(mix, volume, trace),
        Substance::Unknown(_) => None,
    });
    let loose = of.material().filter(|material| is_granular(material));
    let loose = loose
        .zip(mass)
        .and_then(|(material, mass)| loose_volume(material, mass, trace));
    StuffFigures {
        material: of.name().to_owned(),
        is_mix: of.mix().is_some(),
        volume_m3: volume.map(|volume| volume.value.0),
        mass_kg: mass.map(|mass| mass.value.0),
        loose_volume_m3: loose.map(|loose| loose.value.0),
        place,
    }
}

static CRATE_VOIDS: Source = Source::COMMON_PRACTICE;
static STONE_VOIDS_UK: Source = Source::read(
    "British engineers' soakaway calculation sheets after BRE Digest 365",
    "rubble or stone 30 % voids",
);
static STONE_VOIDS_US: Source = Source::read(
    "US dry well guides of an eastern county and a Pennsylvania township",
    "stone 40 % voids",
);

/// The share of its fill that water can take: as stated; else what is usual
/// for crates and for clean stone.
pub(super) fn voids(job: &Job, drain: &Drain) -> Option<Sourced<f64>> {
    let filled = drain.filled.as_ref()?;
    if let Some(stated) = &filled.voids {
        return Some(Sourced {
            value: stated.value.si(),
            origin: Origin::Line(stated.place),
        });
    }
    let usual = |value: f64, what: &'static str, source: &'static Source| Sourced {
        value,
        origin: Origin::Default { what, source },
    };
    let stone = |share, source| Some(usual(share, "voids of clean stone", source));
    match (filled.of.value.kind()?, job.heading.region()) {
        (Kind::Crate, _) => Some(usual(0.95, "voids of crates", &CRATE_VOIDS)),
        (Kind::OpenAggregate | Kind::RoundedGravel, Region::Us) => stone(0.4, &STONE_VOIDS_US),
        (Kind::OpenAggregate | Kind::RoundedGravel, _) => stone(0.3, &STONE_VOIDS_UK),
        _ => None,
    }
}
