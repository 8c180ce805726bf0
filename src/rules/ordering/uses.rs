//! What each material of a job is used as, and what may be used so.

use crate::findings::Place;
use crate::materials::Kind;
use crate::model::{self, Job, Material, Substance, Surface, UsedAs};
use crate::vocabulary::Role;

/// A material where it is used.
#[derive(Debug, Clone, Copy)]
pub(super) struct Used<'a> {
    pub material: &'a Material,
    pub used: UsedAs,
    /// Where it is named.
    pub at: Place,
    /// The key before it, if that says what it is used as.
    pub key: Option<Place>,
}

/// Looks at every use of a material, in the order of the job.
pub(super) fn each_use<'a>(job: &'a Job, mut look: impl FnMut(Used<'a>)) {
    for surface in job.surfaces.iter() {
        each_use_of(surface, &mut look);
    }
    each_use_beside_surfaces(job, look);
}

/// Looks at those of a surface: its layers, joints, borders and edging.
pub(super) fn each_use_of<'a>(surface: &'a Surface, mut look: impl FnMut(Used<'a>)) {
    surface.each_use(&mut |own| see(&own, &mut look));
}

/// Looks at those of steps, drains and mixes.
pub(super) fn each_use_beside_surfaces<'a>(job: &'a Job, mut look: impl FnMut(Used<'a>)) {
    for steps in job.steps.iter() {
        steps.each_use(&mut |own| see(&own, &mut look));
    }
    for drain in job.drains.iter() {
        drain.each_use(&mut |own| see(&own, &mut look));
    }
    for part in job.mixes.values().flat_map(|mix| &mix.parts) {
        if let Some(material) = &part.material {
            look(Used {
                material,
                used: UsedAs::Part,
                at: part.name.place,
                key: None,
            });
        }
    }
}

/// Looks at a use if it is of a material, and if what suits it is judged here.
fn see<'a>(own: &model::Used<'a>, look: &mut impl FnMut(Used<'a>)) {
    if let Substance::Material(material) = &own.of.value
        && !own.used.kinds().is_empty()
    {
        look(Used {
            material,
            used: own.used,
            at: own.of.place,
            key: own.key,
        });
    }
}

impl UsedAs {
    /// What a material may be that is used so, the likeliest first; nothing
    /// where other rules judge what is used.
    pub(super) fn kinds(self) -> &'static [Kind] {
        match self {
            UsedAs::Layer(Role::Paving) | UsedAs::Border | UsedAs::Tread => &[
                Kind::ConcretePaver,
                Kind::ConcreteFlag,
                Kind::NaturalStone,
                Kind::Porcelain,
                Kind::ClayPaver,
            ],
            UsedAs::Layer(Role::Surfacing) => &[Kind::RoundedGravel, Kind::OpenAggregate],
            UsedAs::Layer(Role::Bond) => &[Kind::BondCoat, Kind::MediumBed],
            UsedAs::Layer(Role::Slurry) => &[Kind::BondCoat],
            UsedAs::Layer(Role::Bed) => {
                &[Kind::BeddingSand, Kind::OpenAggregate, Kind::BaggedMortar]
            }
            UsedAs::Layer(Role::Slab) => &[Kind::Concrete, Kind::BaggedConcrete],
            UsedAs::Layer(Role::Base | Role::Subbase) => {
                &[Kind::DenseAggregate, Kind::OpenAggregate]
            }
            UsedAs::Layer(Role::Membrane) => &[Kind::Membrane, Kind::CrackMembrane],
            UsedAs::Layer(Role::Mesh) => &[Kind::Mesh],
            UsedAs::Layer(Role::Fabric) => &[Kind::Fabric, Kind::WeedFabric],
            UsedAs::Wrapping => &[Kind::Fabric],
            UsedAs::Joint => &[Kind::JointSand, Kind::BaggedMortar, Kind::JointingCompound],
            UsedAs::Edging => &[Kind::Edging],
            UsedAs::Riser => &[Kind::ClayPaver, Kind::NaturalStone, Kind::ConcretePaver],
            UsedAs::Channel => &[Kind::DrainChannel],
            UsedAs::Gully => &[Kind::Gully],
            UsedAs::Pipe => &[Kind::Pipe],
            UsedAs::Part => &[Kind::BeddingSand, Kind::Cement, Kind::OpenAggregate],
            UsedAs::Core => &[Kind::Concrete, Kind::BaggedConcrete, Kind::DenseAggregate],
            UsedAs::Footing | UsedAs::Bedding | UsedAs::Filling => &[],
        }
    }

    /// Whether a kind can be used so at all, well or badly: other rules judge
    /// how well.
    pub(super) fn takes(self, kind: Kind) -> bool {
        let is_poured = matches!(kind, Kind::Concrete | Kind::BaggedConcrete | Kind::Asphalt);
        let is_paste = kind.is_premix() || kind.is_stabilised_sand();
        self.kinds().contains(&kind)
            || match self {
                UsedAs::Layer(Role::Paving) => kind.is_unit(),
                UsedAs::Layer(Role::Surfacing) => kind.is_granular() || is_poured,
                UsedAs::Layer(Role::Bed) => kind.is_granular() || is_paste || is_poured,
                UsedAs::Layer(Role::Bond | Role::Slurry) => kind.is_premix() || kind.is_binder(),
                UsedAs::Layer(Role::Base | Role::Subbase) => kind.is_granular() || is_poured,
                UsedAs::Layer(Role::Slab | Role::Membrane | Role::Mesh | Role::Fabric) => false,
                UsedAs::Joint => kind.is_granular() || is_paste || kind == Kind::PolymericSand,
                UsedAs::Edging => kind.is_unit() || is_poured,
                UsedAs::Border => kind.is_unit(),
                UsedAs::Tread => kind.is_unit() || is_poured,
                UsedAs::Riser => kind.is_unit() || is_poured || kind == Kind::Edging,
                UsedAs::Wrapping => kind == Kind::WeedFabric,
                UsedAs::Channel | UsedAs::Gully | UsedAs::Pipe => false,
                UsedAs::Core => {
                    kind.is_unit()
                        || is_poured
                        || kind == Kind::BaggedMortar
                        || kind == Kind::OpenAggregate
                }
                // The rules of mixes judge what goes into one, those of edges
                // and drains what these stand on and lie in.
                UsedAs::Part | UsedAs::Footing | UsedAs::Bedding | UsedAs::Filling => true,
            }
    }
}
