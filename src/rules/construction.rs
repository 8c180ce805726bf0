//! What a build is in the eyes of the rules: how its paving is held, what
//! its units are, and what holds its beds and joints together.

use super::wording::has_word;
use crate::findings::Place;
use crate::geometry::{Outline, Vector};
use crate::materials::{self, Kind};
use crate::model::{
    AshlarSize, Build, Layer, Material, Mix, MixPart, Pattern, State, Stones, Substance, Surface,
    Use,
};
use crate::quantities::{courses, guide};
use crate::vocabulary::Role;

/// How the paving of a build is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Construction {
    /// Units on sand or fine stone, or dry on what lies below: it gives.
    SandSet,
    /// Units on a mortar bed, or bonded to a slab: it is rigid.
    MortarSet,
    /// Gravel and the like, without units.
    Surfacing,
    /// A slab that is walked on itself.
    Slab,
    /// It cannot be told.
    Unclear,
}

impl Construction {
    /// How the paving of a build is held.
    pub(crate) fn of(build: &Build) -> Construction {
        if build.layer(Role::Paving).is_none() {
            return if build.layer(Role::Surfacing).is_some() {
                Construction::Surfacing
            } else if build.layer(Role::Slab).is_some() {
                Construction::Slab
            } else {
                Construction::Unclear
            };
        }
        match build.layer(Role::Bed) {
            Some(bed) => match Binding::of(&bed.of.value) {
                // What lacks its binder was meant to set: that has a finding of
                // its own.
                Binding::Loose if lacks_binder(build, &bed.of.value) => Construction::Unclear,
                Binding::Mortar => Construction::MortarSet,
                Binding::Loose | Binding::Stabilised => Construction::SandSet,
                Binding::Resin | Binding::Unknown => Construction::Unclear,
            },
            None if is_coated(build) => Construction::MortarSet,
            None => Construction::SandSet,
        }
    }

    /// Whether it cracks rather than gives when what lies below moves.
    pub(crate) fn is_rigid(self) -> bool {
        matches!(self, Construction::MortarSet | Construction::Slab)
    }
}

/// What holds a bed or the filling of a joint together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Binding {
    /// Cement or lime: it sets hard.
    Mortar,
    /// Nothing: grains of sand or stone.
    Loose,
    /// Sand with a binder that sets when wetted.
    Stabilised,
    /// Resin.
    Resin,
    /// It cannot be told.
    Unknown,
}

impl Binding {
    /// What holds a substance together.
    pub(crate) fn of(substance: &Substance) -> Binding {
        match substance {
            Substance::Mix(mix) => Binding::of_mix(mix),
            Substance::Material(material) => Binding::of_kind(material.kind),
            Substance::Unknown(_) => Binding::Unknown,
        }
    }

    fn of_mix(mix: &Mix) -> Binding {
        let bindings: Vec<Binding> = mix
            .parts
            .iter()
            .map(|part| match &part.material {
                Some(material) => Binding::of_kind(material.kind),
                None => Binding::Unknown,
            })
            .collect();
        let first = bindings.first().copied().unwrap_or(Binding::Unknown);
        if bindings.contains(&Binding::Mortar) {
            Binding::Mortar
        } else if mix.are_parts_unread {
            // What could not be made out may be the cement.
            Binding::Unknown
        } else if bindings.iter().all(|other| *other == first) {
            first
        } else {
            Binding::Unknown
        }
    }

    fn of_kind(kind: Option<Kind>) -> Binding {
        match kind {
            Some(kind) if kind.is_caustic() => Binding::Mortar,
            Some(kind) if kind.is_stabilised_sand() => Binding::Stabilised,
            Some(Kind::JointingCompound) => Binding::Resin,
            Some(kind) if kind.is_granular() => Binding::Loose,
            _ => Binding::Unknown,
        }
    }
}

/// Whether a layer is the pedestals that slabs stand on, by its name: those are
/// no bed, and no kind stands for them.
pub(crate) fn is_of_pedestals(layer: &Layer) -> bool {
    layer.role.value == Role::Bed && is_pedestal(layer.of.value.name())
}

/// Whether a material is called a pedestal.
pub(crate) fn is_pedestal(name: &str) -> bool {
    has_word(name, &["pedestal", "pedestals"])
}

/// Whether a substance sets with cement or lime.
pub(crate) fn is_mortar(substance: &Substance) -> bool {
    Binding::of(substance) == Binding::Mortar
}

/// Whether a substance is plain sand, or a mix of nothing but sands.
pub(crate) fn is_sand(substance: &Substance) -> bool {
    match substance {
        Substance::Material(material) => material.kind.is_some_and(Kind::is_sand),
        Substance::Mix(mix) => is_of(mix, Kind::is_sand),
        Substance::Unknown(_) => false,
    }
}

/// Whether a bed of sand and stone is a mix that was meant to set: it is
/// wetted, or a coat lies on it.
fn lacks_binder(build: &Build, bed: &Substance) -> bool {
    bed.mix()
        .is_some_and(|mix| is_loose_mix(mix) && (is_coated(build) || mix.consistency.is_some()))
}

/// Whether a coat holds the units of a build to what they lie on.
pub(crate) fn is_coated(build: &Build) -> bool {
    build.layer(Role::Bond).is_some() || build.layer(Role::Slurry).is_some()
}

/// Whether the units of a build lie on a slab with neither bed nor coat
/// between: dry, as on pedestals, or as if they had been forgotten.
pub(crate) fn lies_on_slab(build: &Build) -> bool {
    build.layer(Role::Paving).is_some()
        && build.layer(Role::Bed).is_none()
        && !is_coated(build)
        && slab(build).is_some()
}

/// Whether joints show that units are held to what they lie on: what lies dry
/// has no mortar in its joints, and moves at every one that is filled.
pub(crate) fn is_jointed_fast(surface: &Surface) -> bool {
    let joint = surface.joint.as_ref();
    let filling = joint.and_then(|joint| joint.filling.as_ref());
    filling.is_some_and(|filling| is_mortar(&filling.value) || surface.movement_joints.is_some())
}

/// Whether a mix is made of sand and stone alone, with nothing that sets.
pub(crate) fn is_loose_mix(mix: &Mix) -> bool {
    is_of(mix, |kind| kind.is_granular() && !kind.is_stabilised_sand())
}

/// Whether each part of a mix is known to be of some kinds.
fn is_of(mix: &Mix, is_one: fn(Kind) -> bool) -> bool {
    let is_part = |part: &MixPart| {
        let material = part.material.as_deref();
        material.and_then(|own| own.kind).is_some_and(is_one)
    };
    !mix.are_parts_unread && !mix.parts.is_empty() && mix.parts.iter().all(is_part)
}

/// Whether a substance is clean stone or gravel, which water runs through.
pub(crate) fn is_open_graded(substance: &Substance) -> bool {
    let kind = substance.kind();
    kind.is_some_and(|kind| matches!(kind, Kind::OpenAggregate | Kind::RoundedGravel))
}

/// How large the largest stones of a material are, in metres, where it is the
/// catalogue's own: what is sold under another name may be finer.
pub(crate) fn grain_m(material: &Material) -> Option<f64> {
    let stock = materials::find(material.stock?)?;
    let called = material.called.as_deref();
    let is_own = material.name == stock.name && called.is_none_or(|own| own == stock.called);
    let grain = stock.grain_mm.filter(|_| is_own)?;
    Some(f64::from(grain) / 1000.0)
}

/// The slab or bound base under the paving, if there is one.
pub(crate) fn slab(build: &Build) -> Option<&Layer> {
    let is_bound = |layer: &&Layer| {
        layer.role.value == Role::Slab
            || (is_base(layer)
                && (is_mortar(&layer.of.value) || layer.of.value.kind() == Some(Kind::Asphalt)))
    };
    build.layers.iter().find(is_bound)
}

/// Whether a layer is base or subbase: both carry.
pub(crate) fn is_base(layer: &Layer) -> bool {
    matches!(layer.role.value, Role::Base | Role::Subbase)
}

/// Whether the paving of a build is laid anew and passes its load to the
/// ground through a base alone: on sand or in mortar, with no slab.
pub(crate) fn rests_on_base(build: &Build) -> bool {
    let is_laid = build
        .layer(Role::Paving)
        .is_some_and(|paving| paving.existing.is_none());
    let is_set = matches!(
        Construction::of(build),
        Construction::SandSet | Construction::MortarSet
    );
    is_laid && is_set && slab(build).is_none()
}

/// Whether cars drive on a surface.
pub(crate) fn is_driven(surface: &Surface) -> bool {
    matches!(surface.used_for, Use::Drive | Use::Street)
}

/// Whether cars drive on gravel, asphalt and the like.
pub(crate) fn is_driven_surfacing(surface: &Surface, build: &Build) -> bool {
    Construction::of(build) == Construction::Surfacing && is_driven(surface)
}

/// The surfacing of a build, if it is gravel or stone that lies loose.
pub(crate) fn loose_surfacing(build: &Build) -> Option<&Layer> {
    let surfacing = build.layer(Role::Surfacing)?;
    let kind = surfacing.of.value.kind();
    kind.is_some_and(Kind::is_loose_stone).then_some(surfacing)
}

/// The base layers of a build and those below, from the top down.
pub(crate) fn bases(build: &Build) -> impl Iterator<Item = &Layer> {
    build.layers.iter().filter(|layer| is_base(layer))
}

/// What the units of a build are, if it has any and their kind is known.
pub(crate) fn unit_kind(build: &Build) -> Option<Kind> {
    let kind = build.layer(Role::Paving)?.of.value.kind()?;
    kind.is_unit().then_some(kind)
}

/// Length and width of the largest unit that is laid, in metres, the longer
/// first; irregular stones are taken for squares of their greatest size.
pub(crate) fn unit_size(surface: &Surface, build: &Build) -> Option<(f64, f64)> {
    let laid = surface.laid.as_ref();
    let (length, width) = if let Some((length, width)) = laid.and_then(|laid| laid.units.as_ref()) {
        (length.value.si(), width.value.si())
    } else if let Some(laid) = laid.filter(|laid| !laid.sizes.is_empty()) {
        let area = |size: &&AshlarSize| size.length.value.si() * size.width.value.si();
        let largest = laid
            .sizes
            .iter()
            .max_by(|a, b| area(a).total_cmp(&area(b)))?;
        (largest.length.value.si(), largest.width.value.si())
    } else if laid.is_some_and(|laid| laid.pattern.value == Pattern::Courses) {
        return None;
    } else if let Some(stones) = laid.and_then(|laid| laid.stones.as_ref()) {
        let (Stones::About(size) | Stones::Between(_, size)) = stones;
        (size.value.si(), size.value.si())
    } else {
        let (length, width) = build.layer(Role::Paving)?.face()?;
        (length.value.si(), width.value.si())
    };
    (length > 0.0 && width > 0.0).then(|| (length.max(width), length.min(width)))
}

/// The way that the long joints run, where the text states it by an edge or an
/// angle; nothing along an edge that is curved.
pub(crate) fn stated_courses(surface: &Surface) -> Option<Vector> {
    let laid = surface.laid.as_ref()?;
    let is_stated = laid.angle.is_some() || laid.along.is_some();
    let is_straight = laid.along.is_none() || guide(surface).is_some();
    (is_stated && is_straight).then(|| courses(surface))
}

/// Whether the units are laid as irregular stones.
pub(crate) fn is_irregular(surface: &Surface) -> bool {
    let pattern = surface.laid.as_ref().map(|laid| laid.pattern.value);
    pattern == Some(Pattern::Irregular)
}

/// Whether the units are laid in rings.
pub(crate) fn is_in_rings(surface: &Surface) -> bool {
    let pattern = surface.laid.as_ref().map(|laid| laid.pattern.value);
    pattern == Some(Pattern::Rings)
}

/// The area of the largest pad, in square metres: what is no larger is stepped
/// on, and sheds water whichever way it lies.
const PAD: f64 = 1.0;

/// Whether a piece is small enough to be a pad of its own.
pub(crate) fn is_pad(outline: &Outline) -> bool {
    outline.area() <= PAD
}

/// The side of the largest piece that is one stone to step on, in metres.
const STEPPING_STONE: f64 = 1.2;

/// The width in metres from which stones that lie apart are stepped on one by
/// one, and nothing is jointed.
const STRIDE: f64 = 0.075;
/// The widest gap that is stepped over, in metres: a longer one is a slip.
const LONGEST_STRIDE: f64 = 0.9;

/// Whether a surface is a stepping stone, or a path of them: a single piece,
/// or large pieces that lie apart. So is one of which it cannot be told for what
/// could not be read of it.
pub(crate) fn is_stepping_stone(surface: &Surface, build: &Build) -> bool {
    let is_flag = match build.layer(Role::Paving) {
        Some(paving) => paving.of.value.kind().is_none_or(Kind::is_flag),
        None => build.has_lost_line,
    };
    if surface.used_for != Use::Foot || !is_flag {
        return false;
    }
    let is_lost = |key: &str, is_known: bool| {
        !is_known && (surface.has_lost_line || surface.entry(key).is_some())
    };
    if is_lost("shape", surface.outline.is_some())
        || is_lost("joint", surface.joint.is_some())
        || is_lost("laid", surface.laid.is_some() && !surface.laid_unread)
    {
        return true;
    }
    let joint = surface.joint.as_ref().map(|joint| joint.width.value.si());
    let least = unit_size(surface, build).map(|(_, width)| width);
    let filling = surface
        .joint
        .as_ref()
        .and_then(|joint| joint.filling.as_ref());
    let filling = filling.map(|filling| Binding::of(&filling.value));
    let is_loose = matches!(filling, None | Some(Binding::Loose | Binding::Unknown));
    let lie_apart = joint.is_some_and(|joint| (STRIDE..=LONGEST_STRIDE).contains(&joint))
        && (surface.meets.is_empty() && is_loose)
        && Construction::of(build) != Construction::MortarSet
        && least.is_some_and(|least| least >= 3.0 * STRIDE);
    let is_one = || {
        let corners = surface.outline.as_ref().map(Outline::bounding_box);
        corners.is_some_and(|(least, most)| {
            most.x - least.x <= STEPPING_STONE && most.y - least.y <= STEPPING_STONE
        })
    };
    lie_apart || (surface.meets.is_empty() && is_one())
}

/// The thickness of a layer once compacted, in metres: one that is stated as
/// spread is reckoned down by its two densities where they are known.
pub(crate) fn compacted_m(layer: &Layer) -> f64 {
    let thickness = layer.thickness_m();
    if layer.state.as_ref().map(|state| state.value) != Some(State::Loose) {
        return thickness;
    }
    let densities = layer.of.value.material().and_then(|material| {
        let loose = material.density.as_ref()?.value.si();
        let compacted = material.compacted.as_ref()?.value.si();
        (loose > 0.0 && compacted > loose).then_some((loose, compacted))
    });
    densities.map_or(thickness, |(loose, compacted)| {
        thickness * loose / compacted
    })
}

/// Whether a place stands in the file that is checked, not in one it uses.
pub(crate) fn is_in_checked_file(place: Place) -> bool {
    place.section.file == crate::findings::FileId::default()
}
