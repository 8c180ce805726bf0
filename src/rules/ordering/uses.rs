//! What each material of a job is used as, and what may be used so.

use crate::findings::Place;
use crate::materials::Kind;
use crate::model::{Drain, DrainBody, Job, Material, Stated, Steps, Substance, Surface};
use crate::vocabulary::Role;

/// What a material is used as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum UsedAs {
    Layer(Role),
    Joint,
    Edging,
    Border,
    Tread,
    Riser,
    Channel,
    Gully,
    Pipe,
    Wrapping,
    Part,
}

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

/// Looks at every use of a material, in the order of the job. Nothing is
/// gathered: this is done for the whole of a long spec at each edit.
pub(super) fn each_use<'a>(job: &'a Job, mut look: impl FnMut(Used<'a>)) {
    for surface in job.surfaces.iter() {
        Uses(&mut look).of_surface(surface);
    }
    each_use_beside_surfaces(job, look);
}

/// Looks at those of a surface: its layers, joints, borders and edging.
pub(super) fn each_use_of<'a>(surface: &'a Surface, mut look: impl FnMut(Used<'a>)) {
    Uses(&mut look).of_surface(surface);
}

/// Looks at those of steps, drains and mixes.
pub(super) fn each_use_beside_surfaces<'a>(job: &'a Job, mut look: impl FnMut(Used<'a>)) {
    let mut uses = Uses(&mut look);
    for steps in job.steps.iter() {
        uses.of_steps(steps);
    }
    for drain in job.drains.iter() {
        uses.of_drain(drain);
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

/// Whatever looks at the uses.
struct Uses<'l, 'a>(&'l mut dyn FnMut(Used<'a>));

impl<'a> Uses<'_, 'a> {
    fn add(&mut self, of: &'a Stated<Substance>, used: UsedAs) {
        self.keyed(of, used, None);
    }

    fn keyed(&mut self, of: &'a Stated<Substance>, used: UsedAs, key: Option<Place>) {
        if let Substance::Material(material) = &of.value {
            (self.0)(Used {
                material,
                used,
                at: of.place,
                key,
            });
        }
    }

    fn of_surface(&mut self, surface: &'a Surface) {
        for layer in surface.build.iter().flat_map(|build| &build.value.layers) {
            if layer.existing.is_none() {
                let used = UsedAs::Layer(layer.role.value);
                self.keyed(&layer.of, used, Some(layer.role.place));
            }
        }
        let joint = surface.joint.as_ref();
        if let Some(filling) = joint.and_then(|joint| joint.filling.as_ref()) {
            self.add(filling, UsedAs::Joint);
        }
        for border in &surface.borders {
            self.add(&border.material, UsedAs::Border);
        }
        for edging in &surface.edgings {
            self.add(&edging.material, UsedAs::Edging);
        }
    }

    fn of_steps(&mut self, steps: &'a Steps) {
        if let Some(tread) = &steps.tread {
            self.add(&tread.of, UsedAs::Tread);
        }
        if let Some(bed) = &steps.bed {
            self.add(&bed.of, UsedAs::Layer(Role::Bed));
        }
        if let Some(riser) = &steps.riser {
            self.add(&riser.of, UsedAs::Riser);
        }
        if let Some(base) = &steps.base {
            self.add(&base.layer.of, UsedAs::Layer(Role::Base));
        }
    }

    fn of_drain(&mut self, drain: &'a Drain) {
        match drain.body.as_ref().map(|body| &body.value) {
            Some(DrainBody::Channel { of, .. }) => self.add(of, UsedAs::Channel),
            Some(DrainBody::Gully { of: Some(of), .. }) => self.add(of, UsedAs::Gully),
            Some(body) => {
                if let Some(pipe) = body.pipe() {
                    self.add(&pipe.of, UsedAs::Pipe);
                }
            }
            None => {}
        }
        if let Some(wrapped) = &drain.wrapped {
            self.add(wrapped, UsedAs::Wrapping);
        }
    }
}

impl UsedAs {
    /// What a material may be that is used so, the likeliest first.
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
        }
    }

    /// Whether a kind can be used so at all, well or badly: other rules judge
    /// how well.
    pub(super) fn takes(self, kind: Kind) -> bool {
        let is_poured = matches!(kind, Kind::Concrete | Kind::BaggedConcrete | Kind::Asphalt);
        let is_paste = kind.is_premix() || kind.is_stabilised_sand();
        self.kinds().contains(&kind)
            || match self {
                UsedAs::Layer(Role::Paving) => kind.is_unit() || is_poured,
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
                // The rules of mixes judge what goes into one.
                UsedAs::Part => true,
            }
    }
}
