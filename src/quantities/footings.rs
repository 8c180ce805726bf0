//! The concrete that an edging stands in: its bed, its haunch, and what is
//! dug for them beside the base.

use std::sync::Arc;

use super::dig::{dug_beyond, dug_depth};
use super::layers::{fresh_mass, mass_of, mix_waste};
use super::measures::{Length, Share, Volume};
use super::states::{own_waste, own_waste_is_read, waste_share};
use super::taken::{Body, Taken, What};
use super::term::Term;
use super::trace::Trace;
use crate::findings::Place;
use crate::geometry::{Edge, NO_TAG, Point, Ribbon, Tag, ribbon};
use crate::model::{Edging, Footing, Job, Sourced, Substance, Surface};

/// The figures of the concrete under an edging.
#[derive(Debug, Clone, PartialEq)]
pub struct FootingFigures {
    /// The name of its material or mix.
    pub material: String,
    /// Whether that is a mix.
    pub is_mix: bool,
    /// What the bed takes, in cubic metres.
    pub bed_m3: Option<f64>,
    /// What the haunch takes, in cubic metres; 0 without one.
    pub haunch_m3: Option<f64>,
    /// Both together, in cubic metres.
    pub volume_m3: Option<f64>,
    /// The mass of both; of a mix, fresh.
    pub mass_kg: Option<f64>,
    /// What is dug for them and the edging, besides what is dug under the
    /// surface: as it lies in the ground, in cubic metres.
    pub bank_m3: Option<f64>,
    /// The same, loose.
    pub loose_m3: Option<f64>,
    /// The share wasted; `None` if nothing is said of it.
    pub waste: Option<Sourced<f64>>,
    /// Whether what is said of its waste could be made out.
    pub is_waste_known: bool,
    /// The `edging` entry.
    pub place: Place,
}

/// The size of one piece of an edging that stands on its edge, in metres.
#[derive(Debug, Clone, Copy)]
struct Kerb<'t> {
    height: Term<'t, Length>,
    breadth: Term<'t, Length>,
}

/// The figures of what an edging stands in; `None` if it says nothing of that.
///
/// The bed is as wide as the unit and its haunch, the haunch is square and lies
/// on the outer side. Both are as long as the edges; what corners take more is
/// not added.
pub(super) fn footing(
    job: &Job,
    surface: &Surface,
    edging: &Edging,
    trace: &Trace,
) -> Option<FootingFigures> {
    let footing = edging.footing.as_ref()?;
    let (volume, bed, haunch, bank) = match volumes(job, surface, (edging, footing), trace) {
        Some((bed, haunch, bank)) => {
            let volume = trace.gives("concrete", bed.called("bed") + haunch.called("haunch"));
            (Some(volume), Some(bed), Some(haunch), bank)
        }
        None => (None, None, None, None),
    };
    let (mass, own) = match &footing.of.value {
        Substance::Material(material) => {
            let mass = volume.and_then(|volume| mass_of(material, None, volume, trace));
            (mass, own_waste(material))
        }
        Substance::Mix(mix) => {
            let mass = volume.and_then(|volume| fresh_mass(mix, volume, trace));
            (mass, mix_waste(mix))
        }
        Substance::Unknown(_) => (None, None),
    };
    let loose = bank.zip(job.site.swell()).map(|(bank, swell)| {
        let swell = trace.sourced("swell", &swell, Share);
        trace.gives(
            "loose volume",
            bank.called("dug beside the base") * (1.0 + swell),
        )
    });
    Some(FootingFigures {
        material: footing.of.value.name().to_owned(),
        is_mix: footing.of.value.mix().is_some(),
        bed_m3: bed.map(|bed| bed.value.0),
        haunch_m3: haunch.map(|haunch| haunch.value.0),
        volume_m3: volume.map(|volume| volume.value.0),
        mass_kg: mass.map(|mass| mass.value.0),
        bank_m3: bank.map(|bank| bank.value.0),
        loose_m3: loose.map(|loose| loose.value.0),
        waste: waste_share(None, own),
        is_waste_known: own_waste_is_read(&footing.of.value),
        place: edging.place,
    })
}

type Volumes<'t> = (Term<'t, Volume>, Term<'t, Volume>, Option<Term<'t, Volume>>);

/// What bed and haunch take, and what is dug for them.
fn volumes<'t>(
    job: &Job,
    surface: &Surface,
    (edging, footing): (&Edging, &Footing),
    trace: &'t Trace,
) -> Option<Volumes<'t>> {
    if !edging.is_known || !footing.is_read {
        return None;
    }
    surface.outline.as_ref()?;
    let edges: Vec<&Edge> = surface
        .edges()
        .filter(|edge| edging.along.contains(&edge.tag))
        .collect();
    let lengths = edges.iter().map(|edge| Length(edge.length()));
    let one = "the length of the one edge that it runs along";
    let length = trace.sum("length of the edging", one, lengths);
    let length = length.called("length");
    let kerb = kerb(edging, trace)?;
    let depth = footing.depth.as_ref()?;
    let depth = trace.stated("depth of the bed", Length(depth.value.si()), depth.place);
    let nothing = trace.term("nothing", Volume(0.0));
    let (width, haunch) = match &footing.haunch {
        None => (kerb.breadth, nothing),
        Some(haunch) => {
            let own = Length(haunch.width.value.si());
            let wide = trace.stated("width of the haunch", own, haunch.width.place);
            let down = Length(haunch.below_top.value.si());
            let down = trace.stated(
                "top of the haunch under the top",
                down,
                haunch.below_top.place,
            );
            let high = trace.gives("height of the haunch", kerb.height - down);
            let own = length * wide * high;
            (
                trace.gives("width of the bed", kerb.breadth + wide),
                trace.gives("haunch", own),
            )
        }
    };
    let bed = trace.gives(
        "bed",
        length * width.called("width") * depth.called("depth"),
    );
    let proud = edging.above.as_ref().map_or(0.0, |above| above.value.si());
    let under = kerb.height.value.0 + depth.value.0 - proud;
    let trench = Trench {
        wide: width.value.0,
        deep: under,
    };
    let bank = trench.bank(job, surface, &edges).map(|bank| {
        let how = "under the ground, down to the underside of the bed, less what is dug under the surface anyway";
        trace.found("dug beside the base", Volume(bank), how)
    });
    trace.remark("Corners are not added: bed and haunch are as long as the edges.");
    Some((bed, haunch, bank))
}

/// Height and breadth of one unit.
fn kerb<'t>(edging: &Edging, trace: &'t Trace) -> Option<Kerb<'t>> {
    let (height, breadth) = edging.standing()?;
    let side = |name, side: &Sourced<crate::units::Quantity>| {
        trace.sourced(name, side, |side| Length(side.si()))
    };
    Some(Kerb {
        height: side("height of the unit", height),
        breadth: side("breadth of the unit", breadth),
    })
}

/// A trench along edges, outside the outline.
struct Trench {
    wide: f64,
    /// From the finished surface to its underside.
    deep: f64,
}

impl Trench {
    /// What is dug for it that is not dug under the surface anyway, in cubic
    /// metres; `None` if levels or the depth under the surface are not known.
    /// Along a straight edge ground and finished surface run apart evenly, so
    /// that what lies between them is that at its middle.
    fn bank(&self, job: &Job, surface: &Surface, edges: &[&Edge]) -> Option<f64> {
        let ground = &job.site.ground.as_ref()?.plane;
        let dug = dug_depth(surface)?;
        let one = |edge: &&Edge| {
            let at = centroid(edge);
            let over = ground.level_at(at) - surface.plane_along(edge)?.level_at(at);
            let shared = dug_beyond(surface, edge.tag).min(self.wide);
            let deep = (self.deep + over).max(0.0);
            let dug = (dug + over).max(0.0).min(deep);
            Some(edge.length() * (self.wide * deep - shared * dug))
        };
        edges.iter().map(one).sum()
    }
}

/// The kerbs of a surface with their concrete, where its layers, or those of
/// its borders, go past the free edges: each edge by itself, as the concrete is
/// reckoned.
pub(super) fn kerbs_in_base(surface: &Surface) -> impl Iterator<Item = Taken> {
    let is_bordered = has_beds_of_borders(surface);
    let goes_past = move |edge: &&Edge| match is_bordered {
        true => surface.is_open(edge.tag),
        false => dug_beyond(surface, edge.tag) > 0.0,
    };
    surface.edgings.iter().flat_map(move |edging| {
        let edges = surface.edges().filter(goes_past);
        let edges = edges.filter(|edge| edging.along.contains(&edge.tag));
        let bodies = bodies(edging).unwrap_or_default();
        edges.flat_map(move |edge| {
            bodies
                .clone()
                .into_iter()
                .filter_map(|own| beside(edge, own))
        })
    })
}

/// Whether a border of a surface stands on a build of its own, which is laid
/// as a surface is.
pub(super) fn has_beds_of_borders(surface: &Surface) -> bool {
    surface.borders.iter().any(|border| border.on.is_some())
}

/// How wide a kerb and its haunch are, and how they stand: the kerb first, then
/// the two together, of which the rest is the haunch.
fn bodies(edging: &Edging) -> Option<Vec<(f64, Body)>> {
    let footing = edging
        .footing
        .as_ref()
        .filter(|own| edging.is_known && own.is_read)?;
    let (height, breadth) = edging.standing()?;
    let (height, breadth) = (height.value.si(), breadth.value.si());
    let proud = edging.above.as_ref().map_or(0.0, |above| above.value.si());
    let bottom = height - proud + footing.depth.as_ref()?.value.si();
    let haunch = footing.haunch.as_ref().map(|haunch| {
        let top = haunch.below_top.value.si() - proud;
        (breadth + haunch.width.value.si(), Body::level(top, bottom))
    });
    let kerb = (breadth, Body::level(-proud, bottom));
    Some(std::iter::once(kerb).chain(haunch).collect())
}

/// How far the dig for what stands in concrete along an edge of a surface
/// goes past it, in metres; 0 where nothing does.
pub(super) fn kerb_width_m(surface: &Surface, edge: Tag) -> f64 {
    let along = surface.edgings.iter();
    let along = along.filter(|edging| edging.along.contains(&edge));
    let bodies = along.flat_map(|edging| bodies(edging).unwrap_or_default());
    bodies.fold(0.0, |widest, (wide, _)| wide.max(widest))
}

/// Something that stands so wide outside an edge.
fn beside(edge: &Edge, (wide, body): (f64, Body)) -> Option<Taken> {
    let sides = Ribbon {
        left: 0.0,
        right: wide,
        right_tag: NO_TAG,
        end_tags: [NO_TAG; 2],
    };
    let plan = ribbon(std::slice::from_ref(edge), sides).ok()?;
    Some(Taken {
        plan: Arc::new(plan),
        what: What::Within(body),
    })
}

/// The middle of the mass of a line.
fn centroid(edge: &Edge) -> Point {
    let middle = edge.midpoint();
    match edge.centre() {
        Some(centre) => {
            let half = 0.5 * edge.sweep().abs();
            centre + (middle - centre) * (half.sin() / half)
        }
        None => middle,
    }
}

/// Where a size of the unit comes from, for a finding that it is not known.
pub(super) fn size_is_known(edging: &Edging) -> bool {
    let material = edging.material.value.material();
    material.is_none_or(|material| material.unit.is_some() && material.least_side.is_some())
}
