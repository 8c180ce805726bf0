//! A flight cut along its climb: what it is built of, in metres from the line
//! of the lowest riser and from level 0.

use crate::drawing::filling::Filling;
use crate::findings::Place;
use crate::geometry::{Plane, Point};
use crate::model::{CoreFoot, Ending, Job, Steps, Surface};
use crate::quantities::{Flight, StepsFigures};

/// How much is drawn at the least of what lies before and behind a flight, and
/// how much of it past the base, in metres.
const STUB: f64 = 0.3;
const PAST: f64 = 0.15;

/// A flight as it is cut.
pub(crate) struct Profile<'j> {
    /// The section.
    pub own: &'j Steps,
    /// Its figures.
    pub flight: &'j Flight,
    /// What lies before its foot and behind its top.
    pub ends: [End<'j>; 2],
    /// What it is built of, the lowest first.
    pub parts: Vec<Part<'j>>,
    /// From where to where it is drawn.
    pub span: (f64, f64),
}

/// What lies at an end of a flight.
pub(crate) struct End<'j> {
    /// What it is called.
    pub name: String,
    /// The surface, if it is one.
    pub surface: Option<&'j Surface>,
    /// Whether it is the ground.
    pub is_ground: bool,
    /// From where to where it is drawn, away from the flight.
    pub span: (f64, f64),
    /// The levels there.
    pub levels: (f64, f64),
}

/// Something that a flight is built of.
pub(crate) struct Part<'j> {
    /// What kind of thing.
    pub word: &'static str,
    /// What it is made of.
    pub material: &'j str,
    /// How it is filled.
    pub filling: Filling,
    /// Its pieces, each by its corners.
    pub pieces: Vec<Vec<Point>>,
    /// Its entry.
    pub place: Place,
}

impl End<'_> {
    /// The level at a place along the climb.
    pub(crate) fn level(&self, x: f64) -> f64 {
        let ((from, to), (start, end)) = (self.span, self.levels);
        let run = to - from;
        if run.abs() < 1e-9 {
            return start;
        }
        start + (end - start) * (x - from) / run
    }
}

impl<'j> Profile<'j> {
    /// That of a flight; `None` where it is not known.
    pub(crate) fn of(
        job: &'j Job,
        own: &'j Steps,
        figures: &'j StepsFigures,
    ) -> Option<Profile<'j>> {
        let flight = figures.flight.as_ref()?;
        let known = [flight.run_m, flight.foot_m, flight.top_m, flight.riser_m];
        if known.iter().any(|own| !own.is_finite()) {
            return None;
        }
        let base = own.base.as_ref();
        let beyond = base.map_or(0.0, |base| base.layer.beyond_m());
        let stub = STUB.max(beyond + PAST);
        let span = (-stub, flight.run_m + stub);
        let before = end(job, flight, &own.from.as_ref()?.value, (0.0, span.0));
        let behind = end(job, flight, &own.to.as_ref()?.value, (flight.run_m, span.1));
        let shape = Shape::of(own, flight);
        let paving = behind.surface.and_then(|surface| {
            let layers = &surface.build.as_ref()?.value.layers;
            Some(layers.first()?.thickness.as_ref()?.value.si())
        });
        Some(Profile {
            own,
            flight,
            parts: shape.parts(own, paving),
            ends: [before, behind],
            span,
        })
    }

    /// The nosing of a riser, counted from the lowest.
    pub(crate) fn nosing(&self, index: u32) -> Point {
        Shape::of(self.own, self.flight).nosing(index)
    }
}

fn end<'j>(job: &'j Job, flight: &Flight, ending: &Ending, span: (f64, f64)) -> End<'j> {
    let place = |x: f64| flight.at + flight.climbing * (x - flight.run_m);
    let on = |plane: &Plane| (plane.level_at(place(span.0)), plane.level_at(place(span.1)));
    let flat = match span.0 > 0.0 {
        true => (flight.top_m, flight.top_m),
        false => (flight.foot_m, flight.foot_m),
    };
    let (name, surface, levels) = match ending {
        Ending::Surface(name) => {
            let mut surfaces = job.surfaces.iter();
            let found = surfaces.find(|own| own.name.value == *name);
            let plane = found.and_then(|own| own.plane.as_ref());
            let levels = plane.map(on).unwrap_or(flat);
            (name.replace('-', " "), found.map(AsRef::as_ref), levels)
        }
        Ending::Ground => {
            let ground = job.site.ground.as_ref();
            let levels = ground.map(|ground| on(&ground.plane)).unwrap_or(flat);
            ("ground".to_owned(), None, levels)
        }
        Ending::Floor => ("floor".to_owned(), None, flat),
        Ending::Level(_) => ("level as stated".to_owned(), None, flat),
    };
    End {
        name,
        surface,
        is_ground: *ending == Ending::Ground,
        span,
        levels,
    }
}

/// The sizes by which a flight is drawn.
struct Shape {
    risers: u32,
    run: f64,
    going: f64,
    riser: f64,
    lowest: f64,
    foot: f64,
    /// How thick a tread is, how far it stands out, and how much its back
    /// lies over its front.
    thick: Option<f64>,
    out: f64,
    lift: f64,
    /// How thick what the treads are bedded in is, if they are.
    bed: Option<f64>,
    /// How thick the facing is.
    facing: Option<f64>,
}

impl Shape {
    fn of(own: &Steps, flight: &Flight) -> Shape {
        let tread = own.tread.as_ref();
        let si = |own: &crate::model::Stated<crate::units::Quantity>| own.value.si();
        let fall = own.fall.as_ref().map_or(0.0, si);
        let facing = own.riser.as_ref().and_then(|facing| {
            let unit = || {
                let (one, other) = facing.of.value.material()?.unit.as_ref()?;
                facing.flat?;
                Some(one.value.si().min(other.value.si()))
            };
            facing.thickness.as_ref().map(si).or_else(unit)
        });
        Shape {
            risers: flight.risers,
            run: flight.run_m,
            going: flight.going_m,
            riser: flight.riser_m,
            lowest: flight.lowest_m(),
            foot: flight.foot_m,
            thick: tread.and_then(|tread| tread.thickness.as_ref()).map(si),
            out: tread
                .and_then(|tread| tread.nosing.as_ref())
                .map_or(0.0, si),
            lift: fall * flight.going_m,
            bed: own
                .bed
                .as_ref()
                .and_then(|bed| bed.thickness.as_ref())
                .map(si),
            facing,
        }
    }

    /// The line of a riser, counted from the lowest.
    fn line(&self, index: u32) -> f64 {
        f64::from(index) * self.going
    }

    fn nosing(&self, index: u32) -> Point {
        let out = if index + 1 < self.risers {
            self.out
        } else {
            0.0
        };
        let up = self.lowest + f64::from(index) * self.riser;
        Point::new(self.line(index) - out, self.foot + up)
    }

    /// The level at which a riser stands: the back of the tread before it.
    fn stands(&self, index: u32) -> f64 {
        match index.checked_sub(1) {
            Some(before) => self.nosing(before).y + self.lift,
            None => self.foot,
        }
    }

    /// How far a riser and the core end below the front of a tread: its own
    /// thickness, and that of its bed.
    fn over(&self) -> f64 {
        self.thick.unwrap_or(0.0) + self.bed.unwrap_or(0.0)
    }

    fn treads(&self) -> impl Iterator<Item = u32> {
        0..self.risers.saturating_sub(1)
    }

    fn parts<'j>(&self, own: &'j Steps, paving: Option<f64>) -> Vec<Part<'j>> {
        let mut parts = Vec::new();
        let foot = own.core.as_ref().and_then(|core| core.down_to);
        let top = own.base.as_ref().and_then(|base| base.top.as_ref());
        let base_top = top.map(|top| self.foot - top.value.si());
        if let (Some(base), Some(top)) = (&own.base, base_top)
            && let Some(thickness) = &base.layer.thickness
        {
            let beyond = base.layer.beyond_m();
            let (left, right) = (-beyond, self.run + beyond);
            let under = top - thickness.value.si();
            parts.push(Part {
                word: "base",
                material: base.layer.of.value.name(),
                filling: Filling::of(&base.layer),
                pieces: vec![rectangle(left, right, under, top)],
                place: base.layer.place,
            });
        }
        let bottom = match foot {
            Some(CoreFoot::Base) => base_top,
            Some(CoreFoot::Foot) => Some(self.foot),
            None => None,
        };
        if let (Some(core), Some(bottom)) = (&own.core, bottom) {
            parts.push(Part {
                word: "core",
                material: core.of.value.name(),
                filling: Filling::of_core(&core.of.value),
                pieces: self.core(bottom).into_iter().collect(),
                place: core.place,
            });
        }
        if let (Some(facing), Some(thick)) = (&own.riser, self.facing) {
            let one = |index: u32| {
                let over = match index + 1 < self.risers {
                    true => self.over(),
                    false => paving.or(self.thick).unwrap_or(0.0),
                };
                let (low, high) = (self.stands(index), self.nosing(index).y - over);
                let x = self.line(index);
                (high > low).then(|| rectangle(x, x + thick, low, high))
            };
            parts.push(Part {
                word: "risers",
                material: facing.of.value.name(),
                filling: Filling::Units,
                pieces: (0..self.risers).filter_map(one).collect(),
                place: facing.place,
            });
        }
        if let (Some(bed), Some(deep), Some(thick)) = (&own.bed, self.bed, self.thick) {
            // Under all of each but its nosing.
            let one = |index: u32| {
                let (from, to) = (self.line(index), self.line(index + 1));
                let under = self.nosing(index).y - thick;
                vec![
                    Point::new(from, under - deep),
                    Point::new(to, under + self.lift - deep),
                    Point::new(to, under + self.lift),
                    Point::new(from, under),
                ]
            };
            parts.push(Part {
                word: "bed",
                material: bed.of.value.name(),
                filling: Filling::Bedding,
                pieces: self.treads().map(one).collect(),
                place: bed.place,
            });
        }
        if let (Some(tread), Some(thick)) = (&own.tread, self.thick) {
            let one = |index: u32| {
                let front = self.nosing(index);
                let (x, back) = (self.line(index + 1), front.y + self.lift);
                vec![
                    Point::new(front.x, front.y - thick),
                    Point::new(x, back - thick),
                    Point::new(x, back),
                    front,
                ]
            };
            parts.push(Part {
                word: "treads",
                material: tread.of.value.name(),
                filling: Filling::Units,
                pieces: self.treads().map(one).collect(),
                place: tread.place,
            });
        }
        parts.retain(|part| !part.pieces.is_empty());
        parts
    }

    /// The core under all treads, in steps.
    fn core(&self, bottom: f64) -> Option<Vec<Point>> {
        let (over, behind) = (self.over(), self.facing.unwrap_or(0.0));
        let first = self.nosing(0);
        let mut corners = Vec::new();
        for index in self.treads() {
            let front = self.nosing(index).y - over;
            let (from, to) = (self.line(index) + behind, self.line(index + 1));
            corners.push(Point::new(from, self.stands(index).max(bottom)));
            corners.push(Point::new(from, front));
            corners.push(Point::new(to, front + self.lift));
            corners.push(Point::new(to, front + self.lift + over));
        }
        let last = corners.pop()?;
        corners.push(Point::new(last.x, bottom));
        // The lowest riser stands on it.
        let stands = self.foot.max(bottom);
        corners.insert(0, Point::new(self.line(0), stands));
        corners.insert(0, Point::new(self.line(0), bottom));
        (first.y - over > bottom).then_some(corners)
    }
}

fn rectangle(left: f64, right: f64, low: f64, high: f64) -> Vec<Point> {
    vec![
        Point::new(left, low),
        Point::new(right, low),
        Point::new(right, high),
        Point::new(left, high),
    ]
}
