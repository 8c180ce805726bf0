//! What gets built where.

use std::sync::Arc;

use super::{Border, Build, Outlet, Repeat, Shape, Sourced, Stated, Substance};
use crate::findings::{Place, SectionRef};
use crate::geometry::{Facet, Outline, Plane, Tag, Vector};
use crate::units::Quantity;
use crate::vocabulary::{Handrail, Pattern, Use};

/// What an edge of a surface stands against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Contact {
    /// The building.
    Building,
    /// Another surface, by its index in the job.
    Surface(usize),
    /// Another surface, perhaps: where that one lies, by its index in the job,
    /// could not be read.
    Unplaced(usize),
    /// Nothing: it may be widened and wants holding.
    Free,
}

/// One edge of a surface's outline, or a stretch of one; an edge's tag in
/// [`Surface::outline`] is its index in [`Surface::sides`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Side {
    /// The tag of the shape's edge that it is a stretch of.
    pub edge: Tag,
    /// What it stands against.
    pub contact: Contact,
}

/// Where a level is stated.
#[derive(Debug, Clone, PartialEq)]
pub enum LevelAt {
    /// All along an edge: its name as written and the shape's tags.
    Edge(String, Vec<Tag>),
    /// At a point, in metres.
    Point(crate::geometry::Point),
    /// Nowhere in particular.
    Whole,
}

/// A `level` entry.
#[derive(Debug, Clone)]
pub struct Level {
    /// The finished level against the datum.
    pub value: Stated<Quantity>,
    /// Where.
    pub at: LevelAt,
    /// The whole entry.
    pub place: Place,
}

/// A `door` entry.
#[derive(Debug, Clone)]
pub struct Door {
    /// Where it opens on the surface.
    pub at: LevelAt,
    /// Whether it slides or swings in, and so does not sweep the paving.
    pub is_clear: bool,
    /// The whole entry.
    pub place: Place,
}

/// Where a guard stands against a fall.
#[derive(Debug, Clone, PartialEq)]
pub enum Guard {
    /// Along all free edges.
    Free,
    /// Along some edges: their tags.
    Along(Vec<Tag>),
}

/// A `fall` entry.
#[derive(Debug, Clone)]
pub struct Fall {
    /// The slope.
    pub slope: Stated<Quantity>,
    /// Which way water runs, a unit vector of the plan.
    pub toward: Vector,
    /// The edge that it falls away from, as written, with the shape's tags.
    pub away_from: Option<(String, Vec<Tag>)>,
    /// A second fall and which way it goes.
    pub cross: Option<(Stated<Quantity>, Vector)>,
    /// The whole entry.
    pub place: Place,
}

impl Fall {
    /// The gradient of the finished level: how much it rises for each metre
    /// east and north.
    pub fn gradient(&self) -> Vector {
        let slope = self.slope.value.si();
        let mut gradient = Vector {
            x: -slope * self.toward.x,
            y: -slope * self.toward.y,
        };
        if let Some((cross, toward)) = &self.cross {
            gradient.x -= cross.value.si() * toward.x;
            gradient.y -= cross.value.si() * toward.y;
        }
        gradient
    }
}

/// A `fall to` entry: a surface that falls from all its edges to a drain.
#[derive(Debug, Clone, PartialEq)]
pub struct FallTo {
    /// The drain's name.
    pub drain: Stated<String>,
    /// How steeply it falls from the edge that lies farthest.
    pub least: Stated<Quantity>,
    /// The whole entry.
    pub place: Place,
}

/// The size of irregular stones.
#[derive(Debug, Clone, PartialEq)]
pub enum Stones {
    /// The side of a square of the average stone's area.
    About(Stated<Quantity>),
    /// The least and the greatest size; the middle is taken for the average.
    Between(Stated<Quantity>, Stated<Quantity>),
}

/// A `laid` entry.
#[derive(Debug, Clone)]
pub struct Laid {
    /// The pattern.
    pub pattern: Stated<Pattern>,
    /// The size of irregular stones.
    pub stones: Option<Stones>,
    /// Length and width of a unit.
    pub units: Option<(Stated<Quantity>, Stated<Quantity>)>,
    /// The sizes of ashlar.
    pub sizes: Vec<AshlarSize>,
    /// How wide courses are of units of all lengths.
    pub wide: Option<Stated<Quantity>>,
    /// The middle of rings.
    pub centre: Option<Stated<crate::geometry::Point>>,
    /// How far the pattern is turned.
    pub angle: Option<Stated<Quantity>>,
    /// The edge that the long joints run along: its name and tags.
    pub along: Option<(Stated<String>, Vec<Tag>)>,
    /// How far a row of running bond is moved on, as a part of a unit.
    pub offset: Option<Stated<Quantity>>,
    /// A corner of a unit, from which the lay-out starts.
    pub from: Option<Stated<crate::geometry::Point>>,
    /// The whole entry.
    pub place: Place,
}

impl Laid {
    /// Whether all its units are of one size and lie in straight rows, so that
    /// they are counted by it.
    pub fn has_one_size(&self) -> bool {
        let others = [Pattern::Rings, Pattern::Courses, Pattern::Ashlar];
        !others.contains(&self.pattern.value)
    }

    /// Whether it says how large its units or stones are, in whichever of the
    /// ways in which a pattern says it.
    pub fn has_size(&self) -> bool {
        self.units.is_some()
            || self.stones.is_some()
            || self.wide.is_some()
            || !self.sizes.is_empty()
    }
}

/// A size of ashlar.
#[derive(Debug, Clone)]
pub struct AshlarSize {
    /// Its length.
    pub length: Stated<Quantity>,
    /// Its width.
    pub width: Stated<Quantity>,
    /// Its share of the area, joints counted.
    pub share: Stated<Quantity>,
}

/// A `joint` entry.
#[derive(Debug, Clone)]
pub struct Joint {
    /// Its width as laid.
    pub width: Stated<Quantity>,
    /// Its depth, if stated.
    pub depth: Option<Stated<Quantity>>,
    /// What it is filled with, if stated.
    pub filling: Option<Stated<Substance>>,
    /// The whole entry.
    pub place: Place,
}

/// An `edging` entry.
#[derive(Debug, Clone)]
pub struct Edging {
    /// What it is made of.
    pub material: Stated<Substance>,
    /// The sides of the surface that it runs along, by index in
    /// [`Surface::sides`].
    pub along: Vec<Tag>,
    /// Whether it could be made out where it runs.
    pub is_known: bool,
    /// What it stands in, if that is said.
    pub footing: Option<Footing>,
    /// How far it stands above the paving; flush with it if not said.
    pub above: Option<Stated<Quantity>>,
    /// The share of it that is wasted, if it states one.
    pub waste: Option<Stated<Quantity>>,
    /// Whether it states one that could not be made out.
    pub is_waste_unread: bool,
    /// The whole entry.
    pub place: Place,
}

impl Edging {
    /// Height and breadth of one unit, the middle and the least of its three
    /// sides: it stands on its edge and lies along its greatest.
    pub fn standing(&self) -> Option<(&Sourced<Quantity>, &Sourced<Quantity>)> {
        let material = self.material.value.material()?;
        let (_, height) = material.unit.as_ref()?;
        Some((height, material.least_side.as_ref()?))
    }

    /// Whether it stands in concrete: as said, or as such kerbs of the catalogue
    /// do. Of what the catalogue does not know, its name is all there is.
    pub fn stands_in_concrete(&self) -> bool {
        const KERBS: &[&str] = &["concrete-kerb", "stone-kerb", "brick-edge"];
        const WORDS: &[&str] = &["kerb", "kerbs", "curb", "curbs"];
        let of = &self.material.value;
        let material = of.material();
        let is_kerb = match material.and_then(|material| material.stock) {
            Some(stock) => KERBS.contains(&stock),
            None => {
                let called = material.and_then(|material| material.called.as_deref());
                let names = [Some(of.name()), called].into_iter().flatten();
                let mut words =
                    names.flat_map(|name| name.split(|one: char| !one.is_alphanumeric()));
                words.any(|word| WORDS.contains(&word.to_lowercase().as_str()))
            }
        };
        self.footing.is_some() || is_kerb
    }
}

/// The concrete that an edging stands in.
#[derive(Debug, Clone)]
pub struct Footing {
    /// What it is made of.
    pub of: Stated<Substance>,
    /// The depth of its bed.
    pub depth: Option<Stated<Quantity>>,
    /// What lies against the outer side of the edging.
    pub haunch: Option<Haunch>,
    /// Whether all that is said of it could be made out.
    pub is_read: bool,
}

/// The concrete against the outer side of an edging.
#[derive(Debug, Clone)]
pub struct Haunch {
    /// Its width.
    pub width: Stated<Quantity>,
    /// How far below the top of the edging it ends.
    pub below_top: Stated<Quantity>,
}

/// An `edging in place` entry: something that stands already and holds edges.
#[derive(Debug, Clone)]
pub struct Held {
    /// The sides of the surface that it holds, by index in [`Surface::sides`].
    pub along: Vec<Tag>,
    /// Whether it stands there already, so that nothing goes under it. What
    /// holds a border is the edging of the surface, new or not.
    pub is_there: bool,
    /// The whole entry.
    pub place: Place,
}

/// A `surface` section.
#[derive(Debug, Clone)]
pub struct Surface {
    /// Its name.
    pub name: Stated<String>,
    /// Whether a line of it could not be made out at all, so that what seems to
    /// be missing may be there.
    pub has_lost_line: bool,
    /// Whether an edge that meets the building could not be made out, so that
    /// it is not known which edges are free.
    pub meets_unread: bool,
    /// Whether the size of its units or stones is stated and could not be read.
    pub laid_unread: bool,
    /// Its place among the surfaces of the job, by which others know it.
    pub index: usize,
    /// Its section.
    pub section: SectionRef,
    /// Its heading's place.
    pub place: Place,
    /// The keys that are written in it, each with its entry: an entry that
    /// could not be worked out is here all the same.
    pub written: Vec<(&'static str, Place)>,
    /// The shape that it covers.
    pub shape: Option<Stated<Arc<Shape>>>,
    /// The shape's outline, its edges parted where what they stand against
    /// changes, and tagged by their index in `sides`.
    pub outline: Option<Outline>,
    /// What each side stands against.
    pub sides: Vec<Side>,
    /// The surface that it borders, by its index, if it is the strip of a
    /// border on a build of its own.
    pub border_of: Option<usize>,
    /// How the shape comes again, if it covers several of it.
    pub repeat: Option<Repeat>,
    /// Whether it covers several of the shape and it could not be made out
    /// where they lie.
    pub repeat_unread: bool,
    /// The outlines of the others of a shape that comes again, parted and
    /// tagged as `outline` is.
    pub others: Vec<Outline>,
    /// The surfaces of the job that lie on the same ground, each by its index
    /// with the area of both in square metres. Of two that overlap, one has
    /// the other here.
    pub overlaps: Vec<(usize, f64)>,
    /// What it is used for.
    pub used_for: Use,
    /// Where that is stated.
    pub used_for_place: Option<Place>,
    /// The word by which tables and chairs stand on it.
    pub seating: Option<Place>,
    /// Where the text calls it accessible.
    pub accessible: Option<Place>,
    /// The word that puts it in front of the house.
    pub front: Option<Place>,
    /// The words by which an escape door opens on it.
    pub exit: Option<Place>,
    /// The word that puts it under cover.
    pub covered: Option<Place>,
    /// The edges against the building: name as written, and tags.
    pub meets: Vec<Stated<(String, Vec<Tag>)>>,
    /// The doors that open on it.
    pub doors: Vec<Door>,
    /// The guards against a fall.
    pub guards: Vec<Stated<Guard>>,
    /// Where a ramp has a handrail.
    pub handrail: Option<Stated<Handrail>>,
    /// The stated levels.
    pub levels: Vec<Level>,
    /// The stated fall.
    pub fall: Option<Fall>,
    /// The drain to which it falls from all its edges.
    pub fall_to: Option<FallTo>,
    /// Its facets, one to each side, if it falls to a drain: it has no one
    /// plane then.
    pub facets: Vec<Facet>,
    /// The finished plane, if levels and fall give one.
    pub plane: Option<Plane>,
    /// What it is made of.
    pub build: Option<Stated<Arc<Build>>>,
    /// How its units are laid.
    pub laid: Option<Laid>,
    /// Its joints.
    pub joint: Option<Joint>,
    /// The borders inside its outline, the outermost first.
    pub borders: Vec<Border>,
    /// What holds its edges.
    pub edgings: Vec<Edging>,
    /// What holds its edges and stands there already.
    pub held: Vec<Held>,
    /// The joint against the building.
    pub isolation_joint: Option<Stated<Quantity>>,
    /// The spacing of movement joints.
    pub movement_joints: Option<Stated<Quantity>>,
    /// The spacing of weeps.
    pub weeps: Option<Stated<Quantity>>,
    /// The edges with a drain channel: name as written, and tags.
    pub channels: Vec<Stated<(String, Vec<Tag>)>>,
    /// The edges along which the channel of a drain lies, each with the place
    /// of its line.
    pub drained: Vec<Stated<Vec<Tag>>>,
    /// The share of the rain that runs off it, if stated.
    pub runoff: Option<Stated<Quantity>>,
    /// Where its water goes.
    pub water: Option<Stated<Outlet>>,
    /// Notes.
    pub notes: Vec<Stated<String>>,
}

impl Surface {
    /// What its borders leave of it, in pieces; without a border its whole
    /// outline. `None` if that cannot be made out.
    pub fn field(&self) -> Option<&[Outline]> {
        match self.borders.last() {
            None => self.outline.as_ref().map(std::slice::from_ref),
            Some(border) => border.left.as_deref(),
        }
    }

    /// The same of each of its outlines; of a shape that comes again of the one
    /// that is drawn alone, where what holds of that holds of all.
    pub fn fields(&self) -> Option<Vec<&[Outline]>> {
        let first = self.field()?;
        let others = self.borders.last().map(|border| &border.others_left);
        let others = others.into_iter().flatten().map(Vec::as_slice);
        Some(std::iter::once(first).chain(others).collect())
    }

    /// Whether it is not known where all surfaces lie that may stand against
    /// an edge of this one.
    pub fn has_unplaced_neighbour(&self) -> bool {
        let mut sides = self.sides.iter();
        sides.any(|side| matches!(side.contact, Contact::Unplaced(_)))
    }

    /// Whether an edge of `outline` is free.
    pub fn is_free(&self, tag: Tag) -> bool {
        self.contact(tag) == Some(Contact::Free)
    }

    /// Whether something other than its own edging holds an edge of `outline`.
    pub fn is_held(&self, tag: Tag) -> bool {
        self.held.iter().any(|held| held.along.contains(&tag))
    }

    /// Whether layers may go past an edge of `outline`: it is free, and nothing
    /// stands there already.
    pub fn is_open(&self, tag: Tag) -> bool {
        let mut there = self.held.iter().filter(|held| held.is_there);
        self.is_free(tag) && !there.any(|held| held.along.contains(&tag))
    }

    /// The name of an edge of its shape, as a spec writes it; of one without a
    /// name, which of them it is.
    pub fn edge_name(&self, edge: Tag) -> String {
        let shape = self.shape.as_ref().map(|shape| &shape.value);
        let called = shape.and_then(|shape| {
            let unnamed = || Some(format!("the {}", shape.unnamed_edge(edge)?));
            shape.edge_name(edge).or_else(unnamed)
        });
        called.unwrap_or_else(|| "an edge".to_owned())
    }

    /// The name of the edge of which an edge of `outline` is a stretch.
    pub fn side_name(&self, tag: Tag) -> String {
        let side = self.sides.get(tag as usize);
        side.map_or_else(String::new, |side| self.edge_name(side.edge))
    }

    /// The lines by which a drain channel runs along an edge of `outline`.
    pub fn channel(&self, tag: Tag) -> Option<Place> {
        let edge = self.sides.get(tag as usize)?.edge;
        self.channel_at(edge)
    }

    /// The lines by which a drain channel runs along an edge of the shape.
    pub fn channel_at(&self, edge: Tag) -> Option<Place> {
        let mut named = self.channels.iter();
        let named = named.find(|channel| channel.value.1.contains(&edge));
        let mut drained = self.drained.iter();
        let drained = drained.find(|drain| drain.value.contains(&edge));
        named
            .map(|channel| channel.place)
            .or(drained.map(|drain| drain.place))
    }

    /// Whether a guard stands along an edge of `outline`.
    pub fn is_guarded(&self, tag: Tag) -> bool {
        let Some(side) = self.sides.get(tag as usize) else {
            return false;
        };
        self.guards.iter().any(|guard| match &guard.value {
            Guard::Free => side.contact == Contact::Free,
            Guard::Along(edges) => edges.contains(&side.edge),
        })
    }

    /// Whether a guard stands along an edge against another surface, by its
    /// index.
    pub fn guards_against(&self, other: usize) -> bool {
        (0..)
            .zip(&self.sides)
            .any(|(tag, side)| side.contact == Contact::Surface(other) && self.is_guarded(tag))
    }

    /// The first entry with this key, whether or not it could be worked out.
    pub fn entry(&self, key: &str) -> Option<Place> {
        self.written
            .iter()
            .find(|(own, _)| *own == key)
            .map(|(_, place)| *place)
    }

    /// Whether what it is built of is stated, or may be, and is not known.
    pub fn is_build_lost(&self) -> bool {
        self.build.is_none() && (self.has_lost_line || self.entry("build").is_some())
    }

    /// What an edge of `outline` stands against.
    pub fn contact(&self, tag: Tag) -> Option<Contact> {
        self.sides.get(tag as usize).map(|side| side.contact)
    }
}
