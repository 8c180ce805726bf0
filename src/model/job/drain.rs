//! A `drain` section.

use super::{Job, Region, Stated, Substance};
use crate::findings::{Place, SectionRef};
use crate::geometry::{Edge, Outline, Point, Tag, Vector};
use crate::units::Quantity;
use crate::vocabulary::Term;

/// What kind of thing a drain is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DrainKind {
    /// A channel with a grating.
    Channel,
    /// A pot with a grating.
    Gully,
    /// A pipe.
    Pipe,
    /// A trench filled with stone.
    Trench,
    /// A pit that lets water into the ground.
    Soakaway,
}

impl DrainKind {
    /// Its word in a spec, and its key.
    pub const fn word(self) -> &'static str {
        match self {
            DrainKind::Channel => "channel",
            DrainKind::Gully => "gully",
            DrainKind::Pipe => "pipe",
            DrainKind::Trench => "trench",
            DrainKind::Soakaway => "soakaway",
        }
    }

    /// What it is called where the job is.
    pub const fn called_in(self, region: Region) -> &'static str {
        match (self, region) {
            (DrainKind::Channel, Region::Us) => Term::Channel.word(region),
            (DrainKind::Gully, _) => Term::Gully.word(region),
            (DrainKind::Soakaway, _) => Term::Soakaway.word(region),
            _ => self.word(),
        }
    }

    /// Whether it runs from one end to another, and stands at no one point.
    pub const fn is_run(self) -> bool {
        matches!(
            self,
            DrainKind::Channel | DrainKind::Pipe | DrainKind::Trench
        )
    }
}

/// A pipe by itself, or in a trench.
#[derive(Debug, Clone)]
pub struct Pipe {
    /// What it is.
    pub of: Stated<Substance>,
    /// How wide it is outside.
    pub size: Option<Stated<Quantity>>,
    /// How wide it is inside, if that is stated.
    pub bore: Option<Stated<Quantity>>,
}

impl Pipe {
    /// How wide it is inside: its bore, or what it is called by.
    pub fn inside(&self) -> Option<&Stated<Quantity>> {
        self.bore.as_ref().or(self.size.as_ref())
    }

    /// How far the top of it lies over its invert, in metres: what it is wide
    /// inside and the wall over that.
    pub fn crown_m(&self) -> Option<f64> {
        let inside = self.inside()?.value.si();
        let outside = self.size.as_ref().map_or(inside, |size| size.value.si());
        Some(0.5 * (inside + outside))
    }
}

/// A soakaway seen from above.
#[derive(Debug, Clone)]
pub enum Pit {
    /// East to west by north to south.
    Box(Stated<Quantity>, Stated<Quantity>),
    /// A circle, by how wide it is.
    Round(Stated<Quantity>),
}

/// What a drain is, with its sizes.
#[derive(Debug, Clone)]
pub enum DrainBody {
    /// A channel.
    Channel {
        /// What it is.
        of: Stated<Substance>,
        /// Width and depth inside.
        clear: Option<(Stated<Quantity>, Stated<Quantity>)>,
        /// The width outside.
        over_all: Option<Stated<Quantity>>,
        /// The words by which it guards a door.
        at_door: Option<Place>,
    },
    /// A gully.
    Gully {
        /// What it is; none is needed for one that is there.
        of: Option<Stated<Substance>>,
        /// How wide it is.
        wide: Option<Stated<Quantity>>,
    },
    /// A pipe.
    Pipe(Pipe),
    /// A trench.
    Trench {
        /// How wide it is.
        wide: Stated<Quantity>,
        /// How deep its bottom lies below the finish beside it.
        deep: Option<Stated<Quantity>>,
        /// The pipe in it.
        pipe: Option<Pipe>,
    },
    /// A soakaway.
    Soakaway {
        /// Its plan.
        pit: Pit,
        /// How deep it is below its inlet.
        deep: Option<Stated<Quantity>>,
        /// The words by which water leaves by its base too.
        base_counted: Option<Place>,
    },
}

impl DrainBody {
    /// What kind of thing it is.
    pub fn kind(&self) -> DrainKind {
        match self {
            DrainBody::Channel { .. } => DrainKind::Channel,
            DrainBody::Gully { .. } => DrainKind::Gully,
            DrainBody::Pipe(_) => DrainKind::Pipe,
            DrainBody::Trench { .. } => DrainKind::Trench,
            DrainBody::Soakaway { .. } => DrainKind::Soakaway,
        }
    }

    /// The pipe that it is or holds.
    pub fn pipe(&self) -> Option<&Pipe> {
        match self {
            DrainBody::Pipe(pipe) => Some(pipe),
            DrainBody::Trench { pipe, .. } => pipe.as_ref(),
            _ => None,
        }
    }
}

/// Where a drain runs, or stands.
#[derive(Debug, Clone, PartialEq)]
pub enum DrainLine {
    /// Along edges of a surface, in the order in which one leads on to the
    /// next.
    Along {
        /// The surface's name.
        surface: String,
        /// The shape's tags of the edges.
        tags: Vec<Tag>,
        /// The edges.
        edges: Vec<Edge>,
    },
    /// Straight from a point to another.
    Straight(Edge),
    /// At a point.
    At(Point),
}

impl DrainLine {
    /// The pieces of a run, end to end; none for what stands at a point.
    pub fn edges(&self) -> &[Edge] {
        match self {
            DrainLine::Along { edges, .. } => edges,
            DrainLine::Straight(edge) => std::slice::from_ref(edge),
            DrainLine::At(_) => &[],
        }
    }

    /// The two ends of a run whose pieces lead on from one to the next; twice
    /// the point of what stands at one.
    pub fn ends(&self) -> Option<(Point, Point)> {
        if let DrainLine::At(point) = self {
            return Some((*point, *point));
        }
        let edges = self.edges();
        let mut pairs = edges.iter().zip(edges.iter().skip(1));
        let leads_on = pairs.all(|(one, next)| one.end.distance(next.start) <= SAME_POINT);
        let (first, last) = (edges.first()?, edges.last()?);
        leads_on.then_some((first.start, last.end))
    }

    /// How long it is, in metres.
    pub fn length(&self) -> f64 {
        self.edges().iter().map(Edge::length).sum()
    }
}

/// How far apart, in metres, two points are still one.
const SAME_POINT: f64 = 1e-6;

/// How near to the middle of a soakaway, in metres, a place is that soakaway.
const SAME_PIT: f64 = 0.5;

/// A level of the inside of a bottom.
#[derive(Debug, Clone, PartialEq)]
pub struct Invert {
    /// The level against the datum, by its whole entry.
    pub value: Stated<Quantity>,
    /// Where the level itself is written.
    pub level_place: Place,
    /// The point at which it holds, if one is stated.
    pub at: Option<Point>,
}

/// Where water goes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outlet {
    /// To a drain, by its name.
    Drain(String),
    /// To something that the text names in quotes.
    Text(String),
}

impl Outlet {
    /// The drain's name, if it is one.
    pub fn drain(&self) -> Option<&str> {
        match self {
            Outlet::Drain(name) => Some(name),
            Outlet::Text(_) => None,
        }
    }

    /// The words in quotes, if it is no drain.
    pub fn text(&self) -> Option<&str> {
        match self {
            Outlet::Drain(_) => None,
            Outlet::Text(text) => Some(text),
        }
    }

    /// Whether the words in quotes spell the name of a drain.
    pub fn spells(&self, name: &str) -> bool {
        self.text().is_some_and(|text| spells(text, name))
    }

    /// What it is called: the drain's name, or what the quotes hold.
    pub fn shown(&self) -> &str {
        match self {
            Outlet::Drain(name) => name,
            Outlet::Text(text) => text,
        }
    }
}

/// Whether a text spells a name: `"the dry well"` is `dry-well` to whoever
/// wrote it, whatever leads up to it and however its words are joined.
pub fn spells(text: &str, name: &str) -> bool {
    let words = |text: &str| {
        let words = text.split(|letter: char| !letter.is_alphanumeric());
        let words = words.filter(|word| !word.is_empty());
        words.map(str::to_lowercase).collect::<Vec<String>>()
    };
    let (said, name) = (words(text), words(name).concat());
    // A drain may be called `the-end`, or `in`.
    let rest = said
        .iter()
        .position(|word| !LEADING.contains(&word.as_str()));
    let rest = rest.and_then(|from| said.get(from..));
    !name.is_empty() && (said.concat() == name || rest.is_some_and(|rest| rest.concat() == name))
}

/// What stands before a name in a sentence and is no part of it.
const LEADING: &[&str] = &[
    "the", "a", "an", "our", "my", "their", "this", "that", "new", "to", "into", "in",
];

/// What a line says drains into a drain.
#[derive(Debug, Clone, PartialEq)]
pub enum Taken {
    /// A surface, by its name.
    Surface(Stated<String>),
    /// Something else, with its area.
    Other(Stated<String>, Stated<Quantity>),
}

/// A `takes` entry.
#[derive(Debug, Clone, PartialEq)]
pub struct Takes {
    /// What drains into it, in order.
    pub what: Vec<Taken>,
    /// The share of the rain that runs off.
    pub runoff: Option<Stated<Quantity>>,
    /// The entry.
    pub place: Place,
}

/// What a drain is laid in.
#[derive(Debug, Clone)]
pub struct Bedding {
    /// What it is.
    pub of: Stated<Substance>,
    /// How thick it is below and on each side, and over a pipe.
    pub round: Option<Stated<Quantity>>,
    /// The entry.
    pub place: Place,
}

/// What a drain is filled with.
#[derive(Debug, Clone)]
pub struct Filling {
    /// What it is.
    pub of: Stated<Substance>,
    /// The share of it that water can fill, if that is stated.
    pub voids: Option<Stated<Quantity>>,
    /// The entry.
    pub place: Place,
}

/// A `drain` section.
#[derive(Debug, Clone)]
pub struct Drain {
    /// Its name.
    pub name: Stated<String>,
    /// Its section.
    pub section: SectionRef,
    /// The heading's line.
    pub place: Place,
    /// The keys of its entries, each with its place, whether or not they
    /// could be worked out.
    pub written: Vec<(&'static str, Place)>,
    /// What it is; `None` if nothing says so, or it could not be made out.
    pub body: Option<Stated<DrainBody>>,
    /// The line by which it is there already.
    pub existing: Option<Place>,
    /// Where it runs or stands.
    pub line: Option<Stated<DrainLine>>,
    /// What it is laid in.
    pub bedded: Option<Bedding>,
    /// The fall of its bottom.
    pub fall: Option<Stated<Quantity>>,
    /// The way that the fall goes, if that is stated.
    pub toward: Option<Vector>,
    /// The levels of its bottom, in order.
    pub inverts: Vec<Invert>,
    /// What it is filled with.
    pub filled: Option<Filling>,
    /// The fabric round it.
    pub wrapped: Option<Stated<Substance>>,
    /// Where its water goes.
    pub to: Option<Stated<Outlet>>,
    /// Where the water goes when it is full.
    pub overflow: Option<Stated<Outlet>>,
    /// What drains into it, as the text states it.
    pub takes: Vec<Takes>,
    /// Notes.
    pub notes: Vec<Stated<String>>,
    /// Whether a line of it could not be made out, so that what hangs on any
    /// of them is not known.
    pub is_unread: bool,
}

impl Drain {
    /// What kind of thing it is.
    pub fn kind(&self) -> Option<DrainKind> {
        self.body.as_ref().map(|body| body.value.kind())
    }

    /// Whether water gets into it where it lies, and nowhere else. Into a pipe
    /// or a pit it may come by ways that no spec tells of, and so it may across
    /// the ground to a trench that follows no edge.
    pub fn has_mouth(&self) -> bool {
        match (self.kind(), self.line.as_ref().map(|line| &line.value)) {
            (Some(DrainKind::Channel | DrainKind::Gully), Some(_)) => true,
            (Some(DrainKind::Trench), line) => matches!(line, Some(DrainLine::Along { .. })),
            _ => false,
        }
    }

    /// How wide it is, and how deep a channel is, as far as that is stated.
    pub fn sizes(&self) -> impl Iterator<Item = &Stated<Quantity>> {
        let body = self.body.as_ref().map(|body| &body.value);
        let pipe = body.and_then(DrainBody::pipe);
        let pipe = pipe.into_iter().flat_map(|pipe| [&pipe.size, &pipe.bore]);
        let own: Vec<&Stated<Quantity>> = match body {
            Some(DrainBody::Channel {
                clear, over_all, ..
            }) => {
                let clear = clear.iter().flat_map(|(width, depth)| [width, depth]);
                clear.chain(over_all).collect()
            }
            Some(DrainBody::Gully { wide, .. }) => wide.iter().collect(),
            Some(DrainBody::Trench { wide, .. }) => vec![wide],
            _ => Vec::new(),
        };
        pipe.flatten().chain(own)
    }

    /// How wide a channel is outside, as far as that is stated, else inside.
    pub fn channel_width(&self) -> Option<&Stated<Quantity>> {
        let DrainBody::Channel {
            clear, over_all, ..
        } = &self.body.as_ref()?.value
        else {
            return None;
        };
        let clear = clear.as_ref().map(|(width, _)| width);
        over_all.as_ref().or(clear)
    }

    /// How deep the bottom of a channel or a trench lies below the finish, as
    /// it is stated.
    pub fn depth(&self) -> Option<&Stated<Quantity>> {
        match &self.body.as_ref()?.value {
            DrainBody::Channel { clear, .. } => clear.as_ref().map(|(_, depth)| depth),
            DrainBody::Trench { deep, .. } => deep.as_ref(),
            _ => None,
        }
    }

    /// How far a point lies from it, in metres: from its line, its gully's rim
    /// or the side of its pit. `None` where it is not known where it lies.
    pub fn distance_to(&self, point: Point) -> Option<f64> {
        if let Some(plan) = self.plan() {
            return Some(match plan.contains(point) {
                true => 0.0,
                false => plan.distance_to_boundary(point),
            });
        }
        match &self.line.as_ref()?.value {
            DrainLine::At(middle) => Some(middle.distance(point)),
            line => {
                let edges = line.edges().iter();
                edges.map(|edge| edge.distance_to(point)).reduce(f64::min)
            }
        }
    }

    /// What a surface sees of it.
    pub fn seen(&self) -> DrainSeen {
        DrainSeen {
            name: self.name.value.clone(),
            kind: self.kind(),
            is_existing: self.existing.is_some(),
            line: self.line.clone(),
            plan: self.plan(),
            to: self.to.clone(),
            takes: self.takes.clone(),
        }
    }

    /// The plan of a gully or soakaway whose size and place are known.
    pub fn plan(&self) -> Option<Outline> {
        let DrainLine::At(middle) = self.line.as_ref()?.value else {
            return None;
        };
        let upright = |east: f64, north: f64| {
            let corner = middle + Vector::new(-0.5 * east, -0.5 * north);
            Outline::rectangle(corner, east, north, [0; 4]).ok()
        };
        match &self.body.as_ref()?.value {
            DrainBody::Gully {
                wide: Some(wide), ..
            } => upright(wide.value.si(), wide.value.si()),
            DrainBody::Soakaway { pit, .. } => match pit {
                Pit::Box(long, wide) => upright(long.value.si(), wide.value.si()),
                Pit::Round(across) => Outline::circle(middle, 0.5 * across.value.si(), 0).ok(),
            },
            _ => None,
        }
    }

    /// The first entry with this key, whether or not it could be worked out.
    pub fn entry(&self, key: &str) -> Option<Place> {
        let mut written = self.written.iter();
        written
            .find(|(own, _)| *own == key)
            .map(|(_, place)| *place)
    }
}

/// What a surface sees of a drain: as long as that stays, so does what a rule
/// finds in the surface.
#[derive(Debug, Clone, PartialEq)]
pub struct DrainSeen {
    name: String,
    kind: Option<DrainKind>,
    is_existing: bool,
    line: Option<Stated<DrainLine>>,
    plan: Option<Outline>,
    to: Option<Stated<Outlet>>,
    takes: Vec<Takes>,
}

impl Job {
    /// The channel along an edge of a surface's shape.
    pub fn channel_along(&self, surface: &str, edge: Tag) -> Option<&Drain> {
        let along = |line: &DrainLine| {
            matches!(line, DrainLine::Along { surface: own, tags, .. }
                if own == surface && tags.contains(&edge))
        };
        let mut channels = self
            .drains
            .iter()
            .filter(|drain| drain.kind() == Some(DrainKind::Channel));
        let found = channels.find(|own| own.line.as_ref().is_some_and(|line| along(&line.value)));
        found.map(AsRef::as_ref)
    }

    /// The soakaways that the site alone states: a place inside a soakaway that
    /// is a drain, or at its middle, is that drain.
    pub fn soakaways_of_site(&self) -> impl Iterator<Item = &Stated<Point>> {
        let is_a_pit = |at: Point| {
            let pits = self.drains.iter();
            let mut pits = pits.filter(|drain| drain.kind() == Some(DrainKind::Soakaway));
            pits.any(|pit| {
                let middle = match pit.line.as_ref().map(|line| &line.value) {
                    Some(DrainLine::At(middle)) => middle.distance(at) <= SAME_PIT,
                    _ => false,
                };
                middle || pit.plan().is_some_and(|plan| plan.contains(at))
            })
        };
        let of_site = self.site.soakaways.iter();
        of_site.filter(move |stated| !is_a_pit(stated.value))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_spelled_with_whatever_leads_up_to_it() {
        for (text, name, is_spelled) in [
            ("dry-well", "dry-well", true),
            ("Dry Well", "dry-well", true),
            ("the dry-well", "dry-well", true),
            ("into our new drywell", "dry-well", true),
            ("a soakaway", "Soakaway", true),
            ("the-end", "the-end", true),
            ("in", "in", true),
            ("the dry well next door", "dry-well", false),
            ("the well", "dry-well", false),
            ("the", "dry-well", false),
            ("", "dry-well", false),
        ] {
            assert_eq!(spells(text, name), is_spelled, "{text}, {name}");
            let outlet = Outlet::Text(text.to_owned());
            assert_eq!(outlet.spells(name), is_spelled, "{text}, {name}");
        }
        assert!(!Outlet::Drain("dry-well".to_owned()).spells("dry-well"));
    }
}
