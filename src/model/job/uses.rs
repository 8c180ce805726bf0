//! What each part of a job is of: one walk, for all who ask what a material
//! is used as, or by which work it is wanted.

use super::{Drain, DrainBody, Stated, Steps, Substance, Surface};
use crate::findings::Place;
use crate::vocabulary::Role;

/// What a substance is used as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UsedAs {
    /// A layer of a build, or the bed or base of steps.
    Layer(Role),
    /// The filling of joints.
    Joint,
    /// Edging.
    Edging,
    /// What an edging stands in.
    Footing,
    /// A border.
    Border,
    /// The treads of steps.
    Tread,
    /// The facing of risers.
    Riser,
    /// The core of steps.
    Core,
    /// A channel.
    Channel,
    /// A gully.
    Gully,
    /// A pipe.
    Pipe,
    /// What a pipe is bedded in.
    Bedding,
    /// What a trench or a soakaway is filled with.
    Filling,
    /// The fabric round a drain.
    Wrapping,
    /// A part of a mix.
    Part,
}

/// A substance where it is used.
#[derive(Debug, Clone, Copy)]
pub struct Used<'a> {
    /// What is used.
    pub of: &'a Stated<Substance>,
    /// As what.
    pub used: UsedAs,
    /// The key before it, if that says what it is used as.
    pub key: Option<Place>,
}

/// Whatever looks at each use in turn. Nothing is gathered: this is done for
/// the whole of a long spec at each edit.
type Look<'l, 'a> = &'l mut dyn FnMut(Used<'a>);

fn see<'a>(of: impl Into<Option<&'a Stated<Substance>>>, used: UsedAs, look: Look<'_, 'a>) {
    if let Some(of) = of.into() {
        let key = None;
        look(Used { of, used, key });
    }
}

impl Surface {
    /// Looks at what its layers, joints, borders and edging are of; what is
    /// there already is not used.
    pub fn each_use<'a>(&'a self, look: Look<'_, 'a>) {
        for layer in self.build.iter().flat_map(|build| &build.value.layers) {
            if layer.existing.is_none() {
                look(Used {
                    of: &layer.of,
                    used: UsedAs::Layer(layer.role.value),
                    key: Some(layer.role.place),
                });
            }
        }
        let joint = self.joint.as_ref();
        let filling = joint.and_then(|joint| joint.filling.as_ref());
        see(filling, UsedAs::Joint, look);
        for border in &self.borders {
            see(&border.material, UsedAs::Border, look);
        }
        for edging in &self.edgings {
            see(&edging.material, UsedAs::Edging, look);
            let footing = edging.footing.as_ref();
            see(footing.map(|own| &own.of), UsedAs::Footing, look);
        }
    }
}

impl Steps {
    /// Looks at what its treads, their bed, the facing of its risers, its core
    /// and its base are of.
    pub fn each_use<'a>(&'a self, look: Look<'_, 'a>) {
        let tread = self.tread.as_ref();
        see(tread.map(|own| &own.of), UsedAs::Tread, look);
        let bed = self.bed.as_ref();
        see(bed.map(|own| &own.of), UsedAs::Layer(Role::Bed), look);
        let riser = self.riser.as_ref();
        see(riser.map(|own| &own.of), UsedAs::Riser, look);
        let core = self.core.as_ref();
        see(core.map(|own| &own.of), UsedAs::Core, look);
        let base = self.base.as_ref();
        let base = base.map(|own| &own.layer.of);
        see(base, UsedAs::Layer(Role::Base), look);
    }
}

impl Drain {
    /// Looks at what its pipe, channel or gully, its bedding, filling and
    /// wrapping are of.
    pub fn each_use<'a>(&'a self, look: Look<'_, 'a>) {
        match self.body.as_ref().map(|body| &body.value) {
            Some(DrainBody::Channel { of, .. }) => see(of, UsedAs::Channel, look),
            Some(DrainBody::Gully { of, .. }) => see(of.as_ref(), UsedAs::Gully, look),
            Some(body) => see(body.pipe().map(|pipe| &pipe.of), UsedAs::Pipe, look),
            None => {}
        }
        let bedding = self.bedded.as_ref();
        see(bedding.map(|own| &own.of), UsedAs::Bedding, look);
        let filling = self.filled.as_ref();
        see(filling.map(|own| &own.of), UsedAs::Filling, look);
        see(self.wrapped.as_ref(), UsedAs::Wrapping, look);
    }
}
