//! What is cut: a build under the surfaces that lie on it alike.

use crate::analysis::Analysis;
use crate::findings::Place;
use crate::geometry::{Edge, Plane, Point, Tag};
use crate::model::{Build, Contact, Drain, Edging, Fall, Job, Layer, Side, Surface};
use crate::quantities::SurfaceFigures;
use crate::vocabulary::Role;

/// Levels nearer than this are one, in metres.
const SAME: f64 = 0.0005;

/// Points nearer than this to a flight stand against it, in metres.
const TOUCHES: f64 = 0.01;

/// A build where it is cut.
pub(crate) struct Cut<'j> {
    /// The surfaces on it that have the same levels and the same edges.
    pub surfaces: Vec<&'j Surface>,
    /// The build.
    pub build: &'j Build,
    /// Where its left and its right end lie.
    pub ends: [End; 2],
    /// The finished levels there; at the building the highest along the wall.
    pub levels_m: [Option<f64>; 2],
    /// How much it falls from left to right; 0 where that is not known.
    pub slope: f64,
    /// Whether it is known which of its edges is low.
    pub is_way_known: bool,
    /// How far the right end lies over the ground there.
    pub over_ground_m: Option<f64>,
    /// What holds the right end.
    pub edging: Option<&'j Edging>,
    /// What stands against the right end, where none of its edge is free.
    pub beside: Option<&'j str>,
    /// What holds the left end, which is not cut.
    pub high_edging: Option<&'j Edging>,
    /// The drain channel along it.
    pub channel: Option<&'j Drain>,
    /// Its layers from the top down.
    pub courses: Vec<Course<'j>>,
}

/// Where an end of a section lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum End {
    /// At the building.
    Building,
    /// At the edge from which the surface falls.
    HighEdge,
    /// At the edge to which it falls.
    LowEdge,
    /// At that edge, against another surface or a flight of steps.
    LowBeside,
    /// At a border along that edge that stands on a build of its own.
    LowBorder,
    /// At the drain to which it falls from all its edges.
    Drain,
    /// At one edge of a surface that is level, and at another.
    OneEdge,
    OtherEdge,
    /// At one of those edges.
    AnyEdge,
    /// At a border along them that stands on a build of its own.
    AnyBorder,
    /// Of such a border, at the field inside it.
    Field,
}

impl End {
    /// What is written under it.
    pub(crate) const fn words(self) -> &'static str {
        match self {
            End::Building => "at the building",
            End::HighEdge => "at the high edge",
            End::LowEdge | End::LowBeside => "at the low edge",
            End::OneEdge => "at one edge",
            End::OtherEdge => "at another edge",
            End::LowBorder => "low, at its border",
            End::Drain => "at the drain",
            End::AnyEdge => "at the edges",
            End::AnyBorder => "at its border",
            End::Field => "at the field",
        }
    }

    /// What stands over the column of its levels.
    pub(crate) const fn column(self) -> &'static str {
        match self {
            End::Building => "top at building",
            End::HighEdge => "top at high edge",
            End::LowEdge | End::LowBeside | End::LowBorder => "top at low edge",
            End::OneEdge | End::OtherEdge => "top",
            End::Drain => "top at drain",
            End::AnyEdge => "top at edges",
            End::AnyBorder => "top at border",
            End::Field => "top at field",
        }
    }

    /// Whether the ground lies beside it, and layers go past it.
    pub(crate) const fn is_edge(self) -> bool {
        matches!(
            self,
            End::HighEdge | End::LowEdge | End::OtherEdge | End::AnyEdge
        )
    }
}

/// A layer where it is cut.
pub(crate) struct Course<'j> {
    /// The layer.
    pub layer: &'j Layer,
    /// How far its top lies under the finished surface, mesh in the middle of
    /// its slab; `None` under a layer whose thickness is not known.
    pub top_m: Option<f64>,
    /// Its thickness; 0 for a sheet.
    pub thickness_m: Option<f64>,
}

impl Course<'_> {
    /// How far its top and its underside lie under the finished surface.
    pub(crate) fn depths(&self) -> Option<(f64, f64)> {
        let top = self.top_m?;
        Some((top, top + self.thickness_m?))
    }

    /// How far its middle lies under the finished surface.
    pub(crate) fn middle_m(&self) -> Option<f64> {
        let (top, under) = self.depths()?;
        Some(f64::midpoint(top, under))
    }
}

impl Cut<'_> {
    /// The entry that it comes from.
    pub(crate) fn place(&self) -> Place {
        self.build.name.place
    }

    /// How deep it is as far as that is known.
    pub(crate) fn depth_m(&self) -> f64 {
        let depths = self.courses.iter().filter_map(Course::depths);
        depths.map(|(_, under)| under).fold(0.0, f64::max)
    }

    /// Whether mesh is drawn in the middle of a layer.
    pub(crate) fn is_meshed(&self, course: &Course<'_>) -> bool {
        let pairs = self.courses.iter().zip(self.courses.iter().skip(1));
        let mut meshed = pairs.filter(|(_, next)| next.layer.role.value == Role::Mesh);
        meshed.any(|(own, _)| std::ptr::eq(own, course))
    }

    /// How far the widest of its layers goes past the edge.
    pub(crate) fn beyond_m(&self) -> f64 {
        let layers = self.courses.iter();
        layers.map(|course| self.past_m(course)).fold(0.0, f64::max)
    }

    /// How far a layer goes past the right end.
    pub(crate) fn past_m(&self, course: &Course<'_>) -> f64 {
        match self.ends_inside() {
            true => 0.0,
            false => course.layer.beyond_m(),
        }
    }

    /// Whether its left end stands at the building.
    pub(crate) fn is_at_building(&self) -> bool {
        self.ends[0] == End::Building
    }

    /// Whether it lies at one level from end to end.
    pub(crate) fn is_level(&self) -> bool {
        self.ends[0] == End::OneEdge
    }

    /// Whether its right end lies inside the surface, and goes past nothing.
    pub(crate) fn ends_inside(&self) -> bool {
        !self.ends[1].is_edge()
    }

    /// Whether another one would look the same and say the same.
    fn is_like(&self, other: &Cut<'_>) -> bool {
        let same = |one: Option<f64>, other: Option<f64>| match (one, other) {
            (Some(one), Some(other)) => (one - other).abs() < SAME,
            (None, None) => true,
            _ => false,
        };
        std::ptr::eq(self.build, other.build)
            && self.ends == other.ends
            && self.is_way_known == other.is_way_known
            && same(self.levels_m[0], other.levels_m[0])
            && same(self.levels_m[1], other.levels_m[1])
            && same(self.over_ground_m, other.over_ground_m)
            && edges(self) == edges(other)
            && self.beside.is_some() == other.beside.is_some()
            && self.edging.is_some() == other.edging.is_some()
            && self.channel.map(|own| own.place) == other.channel.map(|own| own.place)
    }
}

/// What stands at the edges: the edgings, and how wide the isolation joint is.
fn edges<'c>(cut: &Cut<'c>) -> (Vec<&'c str>, Option<f64>) {
    let first: Option<&'c Surface> = cut.surfaces.first().copied();
    let edgings = first.into_iter().flat_map(|own| &own.edgings);
    let joint = first.and_then(|own| own.isolation_joint.as_ref());
    (
        edgings.map(|own| own.material.value.name()).collect(),
        joint.map(|width| width.value.si()),
    )
}

/// Every build that something lies on, in the order of the surfaces.
pub(crate) fn cuts(analysis: &Analysis) -> Vec<Cut<'_>> {
    let mut cuts: Vec<Cut<'_>> = Vec::new();
    let surfaces = analysis.job.surfaces.iter();
    for (surface, figures) in surfaces.zip(analysis.figures.surfaces.iter()) {
        let Some(own) = cut(analysis, surface, figures) else {
            continue;
        };
        match cuts.iter_mut().find(|cut| cut.is_like(&own)) {
            Some(known) => {
                known.surfaces.extend(own.surfaces);
                if known.beside != own.beside {
                    known.beside = Some("its neighbour");
                }
            }
            None => cuts.push(own),
        }
    }
    cuts
}

fn cut<'j>(
    analysis: &'j Analysis,
    surface: &'j Surface,
    figures: &SurfaceFigures,
) -> Option<Cut<'j>> {
    let job = &analysis.job;
    let build = surface.build.as_ref()?.value.as_ref();
    if surface.outline.is_none() || build.layers.is_empty() {
        return None;
    }
    let slope = figures.fall.filter(|fall| fall.is_finite()).unwrap_or(0.0);
    let over_ground = figures.low_edge_steps_m.map(|(_, most)| most);
    // What holds a border is written with what it borders.
    let bordered = surface.border_of.and_then(|index| job.surfaces.get(index));
    let bordered = bordered.map_or(surface, |own| own);
    let is_bordered = |tag: &Tag| {
        let mut borders = surface.borders.iter();
        borders.any(|border| border.on.is_some() && border.along.contains(tag))
    };
    let is_at_wall = |side: &Side| side.contact == Contact::Building;
    if !surface.facets.is_empty() {
        let mut outer = (0..)
            .zip(&surface.sides)
            .filter(|(_, side)| !is_at_wall(side));
        let left = match surface.is_border() {
            true => End::Field,
            false => End::Drain,
        };
        let right = match outer.any(|(tag, _)| is_bordered(&tag)) {
            true => End::AnyBorder,
            false => End::AnyEdge,
        };
        return Some(Cut {
            surfaces: vec![surface],
            build,
            ends: [left, right],
            levels_m: [figures.lowest_m, figures.highest_m],
            slope: -slope,
            is_way_known: true,
            over_ground_m: over_ground.filter(|_| right.is_edge()),
            edging: bordered.edgings.first().filter(|_| right.is_edge()),
            beside: None,
            high_edging: None,
            channel: None,
            courses: courses(build),
        });
    }
    let at_wall = surface.plane.map(|plane| at_building(surface, &plane));
    // Without a level the fall alone says which edge is low.
    let stated = || surface.fall.as_ref().map(Fall::gradient);
    let gradient = surface.plane.map(|plane| plane.gradient()).or_else(stated);
    let height = gradient.map(|gradient| move |at: Point| gradient.dot(at - Point::ORIGIN));
    let low = height.map(|height| lowest(surface, height));
    let is_level = gradient.is_none_or(|gradient| gradient.length() == 0.0);
    let left = match surface.sides.iter().any(is_at_wall) {
        true => End::Building,
        false if is_level => End::OneEdge,
        false => End::HighEdge,
    };
    let beside = low
        .as_deref()
        .and_then(|low| beside(analysis, surface, low));
    let right = match low.is_some_and(|low| low.iter().any(is_bordered)) {
        true => End::LowBorder,
        false if beside.is_some() => End::LowBeside,
        false if is_level => End::OtherEdge,
        false => End::LowEdge,
    };
    Some(Cut {
        surfaces: vec![surface],
        build,
        ends: [left, right],
        levels_m: [at_wall.flatten().or(figures.highest_m), figures.lowest_m],
        slope,
        is_way_known: gradient.is_some(),
        over_ground_m: over_ground.filter(|_| right.is_edge()),
        edging: match height {
            _ if !right.is_edge() => None,
            Some(height) => held_by(bordered, height),
            None => holds_all(bordered),
        },
        beside: beside.filter(|_| right == End::LowBeside),
        high_edging: height
            .filter(|_| left == End::HighEdge)
            .and_then(|height| held_by(bordered, |at| -height(at))),
        channel: height.and_then(|height| drained_by(job, surface, height)),
        courses: courses(build),
    })
}

/// The highest level of a plane along the edges at the building.
fn at_building(surface: &Surface, plane: &Plane) -> Option<f64> {
    let at_wall = surface
        .edges()
        .filter(|edge| surface.contact(edge.tag) == Some(Contact::Building));
    let points = at_wall.flat_map(|edge| [edge.start, edge.midpoint(), edge.end]);
    points
        .map(|point| plane.level_at(point))
        .max_by(f64::total_cmp)
}

/// The lowest edges of a surface by their level, by their tags in its outline.
fn lowest(surface: &Surface, level: impl Fn(Point) -> f64) -> Vec<Tag> {
    let levels: Vec<_> = surface
        .edges()
        .map(|edge| (level(edge.midpoint()), edge.tag))
        .collect();
    let lowest = levels.iter().map(|(level, _)| *level).reduce(f64::min);
    let low = levels
        .into_iter()
        .filter(|(level, _)| lowest.is_some_and(|lowest| level - lowest < SAME));
    low.map(|(_, tag)| tag).collect()
}

/// What stands all along the lowest edges of a surface: the other surface, or
/// the flight of steps; nothing where one of them is free, if only in part.
fn beside<'j>(analysis: &'j Analysis, surface: &'j Surface, low: &[Tag]) -> Option<&'j str> {
    let job = &analysis.job;
    let mut edges = surface.edges().filter(|edge| low.contains(&edge.tag));
    let against = |edge: &Edge| match surface.contact(edge.tag)? {
        Contact::Surface(index) | Contact::Unplaced(index) => {
            Some(job.surfaces.get(index)?.name.value.as_str())
        }
        Contact::Building => None,
        Contact::Free => {
            let flights = job.steps.iter().zip(analysis.figures.steps.iter());
            let mut taken = flights.filter(|(_, figures)| {
                let ground = figures.flight.as_ref().and_then(|own| own.plan.as_ref());
                ground.is_some_and(|ground| {
                    let points = [edge.start, edge.midpoint(), edge.end];
                    let is_in = |at: Point| ground.distance_to_boundary(at) < TOUCHES;
                    points.into_iter().all(is_in)
                })
            });
            taken.next().map(|(own, _)| own.name.value.as_str())
        }
    };
    let first = against(edges.next()?)?;
    edges.all(|edge| against(edge).is_some()).then_some(first)
}

/// The edging along one of the lowest edges, if one is held by any.
fn held_by(surface: &Surface, level: impl Fn(Point) -> f64) -> Option<&Edging> {
    let low = lowest(surface, level);
    let holds = |own: &&Edging| low.iter().any(|tag| own.along.contains(tag));
    surface.edgings.iter().find(holds)
}

/// The edging that holds every free edge, whichever of them is low.
fn holds_all(surface: &Surface) -> Option<&Edging> {
    let free = |own: &Edging| {
        let mut sides = (0..).zip(&surface.sides);
        sides.all(|(tag, side)| side.contact != Contact::Free || own.along.contains(&tag))
    };
    surface.edgings.iter().find(|own| free(own))
}

/// The channel along one of the lowest edges.
fn drained_by<'j>(
    job: &'j Job,
    surface: &Surface,
    level: impl Fn(Point) -> f64,
) -> Option<&'j Drain> {
    let low = lowest(surface, level);
    low.into_iter().find_map(|tag| {
        let side = surface.sides.get(tag as usize)?;
        job.channel_along(&surface.name.value, side.edge)
    })
}

/// The layers of a build, each as deep as those over it are thick.
pub(crate) fn courses(build: &Build) -> Vec<Course<'_>> {
    let mut under = Some(0.0);
    let mut courses: Vec<Course<'_>> = Vec::new();
    for layer in &build.layers {
        let role = layer.role.value;
        let is_sheet = role.is_sheet();
        let stated = layer.thickness.as_ref().map(|stated| stated.value.si());
        let thickness_m = if is_sheet { Some(0.0) } else { stated };
        courses.push(Course {
            layer,
            top_m: match role {
                Role::Mesh => courses.last().and_then(Course::middle_m),
                _ => under,
            },
            thickness_m: thickness_m.filter(|thickness| thickness.is_finite()),
        });
        under = under.zip(thickness_m).map(|(top, own)| top + own);
    }
    courses
}
