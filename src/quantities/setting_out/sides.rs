//! The sides of a surface, walked as people walk round it: clockwise.

use crate::geometry::{Edge, Outline, Point, Tag, Vector};
use crate::model::{Contact, Job, Shape, Side, Surface};
use crate::quantities::footings::kerb_width_m;

/// One side of a surface, in the clockwise direction, what it stands against
/// and what it is called.
#[derive(Debug, Clone)]
pub(super) struct Walked {
    pub edge: Edge,
    pub name: String,
    pub is_building: bool,
    /// Whether nothing stands against it, as far as is known.
    pub is_free: bool,
    /// How far the dig goes past it, in metres.
    pub overdig_m: f64,
}

impl Walked {
    /// The unit direction out of the surface where the side starts.
    pub(crate) fn out_at_start(&self) -> Vector {
        self.edge.direction_at_start().left()
    }

    /// The unit direction out of the surface where the side ends.
    pub(crate) fn out_at_end(&self) -> Vector {
        self.edge.direction_at_end().left()
    }
}

/// The outlines of a surface's shape as they are written, their edges whole:
/// the one that it draws, then the others of one that comes again. Nothing if
/// it has no sound outline.
pub(super) fn laid(surface: &Surface) -> Vec<&Outline> {
    let shape = surface.shape.as_ref();
    let drawn = shape.and_then(|shape| shape.value.outline.as_ref());
    let others = surface.repeat.iter().flat_map(|repeat| &repeat.outlines);
    drawn.into_iter().chain(others).collect()
}

/// The loops of the outline that a surface's shape draws, each walked clockwise
/// round what is paved. Nothing if it has no sound outline.
pub(super) fn walked(surface: &Surface) -> Vec<Vec<Walked>> {
    let drawn = laid(surface).into_iter().next();
    drawn.map_or_else(Vec::new, |outline| {
        walked_round(surface, (0, outline), None)
    })
}

/// The loops of one of the outlines of a surface, by its place among them, each
/// walked clockwise round what is paved, from the corner nearest to a point.
pub(super) fn walked_round(
    surface: &Surface,
    (place, outline): (usize, &Outline),
    nearest_to: Option<Point>,
) -> Vec<Vec<Walked>> {
    let Some(shape) = &surface.shape else {
        return Vec::new();
    };
    let stands = stands_against(surface, place);
    let loops = outline.loops();
    loops
        .map(|boundary| {
            let sides = boundary.edges.iter().rev();
            let mut sides: Vec<Walked> = sides
                .map(|edge| of_edge(surface, &shape.value, edge, &stands))
                .collect();
            let distance = |side: &Walked, to: Point| side.edge.start.distance(to);
            let nearest = nearest_to.and_then(|to| {
                let numbered = sides.iter().enumerate();
                let nearest =
                    numbered.min_by(|(_, a), (_, b)| distance(a, to).total_cmp(&distance(b, to)));
                nearest.map(|(index, _)| index)
            });
            sides.rotate_left(nearest.unwrap_or(0));
            sides
        })
        .collect()
}

/// What the sides of one of the outlines of a surface stand against.
fn stands_against(surface: &Surface, place: usize) -> Vec<(Tag, Side)> {
    let parted = surface.outlines().nth(place);
    let tags = parted.into_iter().flat_map(Outline::edges);
    let sides = tags.filter_map(|edge| Some((edge.tag, *surface.sides.get(edge.tag as usize)?)));
    sides.collect()
}

fn of_edge(surface: &Surface, shape: &Shape, edge: &Edge, stands: &[(Tag, Side)]) -> Walked {
    let own = stands.iter().filter(|(_, side)| side.edge == edge.tag);
    let mut contacts = own.clone().map(|(_, side)| side.contact);
    let is_building = contacts.clone().any(|contact| contact == Contact::Building);
    // Where nobody knows what lies there, pegs stand clear of what may be dug.
    let is_free = contacts.all(|contact| matches!(contact, Contact::Free | Contact::Unplaced(_)));
    let layers_m = if is_free { overdig(surface) } else { 0.0 };
    let kerbs_m = own.map(|(tag, _)| kerb_width_m(surface, *tag));
    Walked {
        edge: edge.reversed(),
        name: name_of(shape, edge),
        is_building,
        is_free,
        overdig_m: kerbs_m.fold(layers_m, f64::max),
    }
}

/// Whether all that stands against an edge of a surface's shape is one of
/// several of a shape: those are set out by themselves.
pub(super) fn is_filled(job: &Job, surface: &Surface, edge: Tag) -> bool {
    let mut sides = surface.sides.iter().filter(|side| side.edge == edge);
    let is_repeated = |side: &Side| match side.contact {
        Contact::Surface(index) => {
            let other = job.surfaces.get(index);
            other.is_some_and(|other| other.repeat.is_some())
        }
        _ => false,
    };
    sides.clone().next().is_some() && sides.all(is_repeated)
}

/// How far the widest layer that is dug for goes past the free edges.
fn overdig(surface: &Surface) -> f64 {
    let layers = surface.build.iter().flat_map(|build| &build.value.layers);
    let dug = layers.filter(|layer| layer.existing.is_none());
    dug.map(|layer| layer.beyond_m()).fold(0.0, f64::max)
}

/// What a side of a shape is called: by its name, or by the way it faces.
pub(super) fn name_of(shape: &Shape, edge: &Edge) -> String {
    let named = shape.edge_name(edge.tag);
    let named = named.or_else(|| shape.unnamed_edge(edge.tag));
    named.unwrap_or_else(|| "side".to_owned())
}

/// Every edge of any surface that stands against the building.
pub(super) fn building_edges(job: &Job) -> Vec<Edge> {
    let surfaces = job.surfaces.iter();
    let edges = surfaces.flat_map(|surface| {
        let edges = surface.edges();
        edges.filter(|edge| surface.contact(edge.tag) == Some(Contact::Building))
    });
    edges.copied().collect()
}
