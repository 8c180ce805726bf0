//! What drains need of each material and mix.

use std::sync::Arc;

use super::{DrainFigures, StuffFigures};
use crate::model::{Drain, DrainBody, DrainKind, Job, Material, Mix, Stated, Substance};
use crate::quantities::measures::Length;
use crate::quantities::mixes::MixUsed;
use crate::quantities::needs::{Need, Purpose, Wants};
use crate::quantities::size::Size;
use crate::quantities::states::{is_granular, own_waste, own_waste_is_read, waste_share};
use crate::units::Quantity;
use crate::vocabulary::Role;

/// What the drains need, one after the other.
pub(in crate::quantities) fn wants(job: &Job, figures: &[DrainFigures]) -> Wants {
    let mut wants = Wants::new();
    let new = job.drains.iter().zip(figures);
    for (drain, own) in new.filter(|(drain, _)| drain.existing.is_none()) {
        body(drain, own, &mut wants);
        let bedded = drain.bedded.as_ref().map(|bedded| &bedded.of);
        stuff(bedded.zip(own.bedding.as_ref()), "bedding", own, &mut wants);
        let filled = drain.filled.as_ref().map(|filled| &filled.of);
        stuff(filled.zip(own.fill.as_ref()), "fill", own, &mut wants);
        if let Some(fabric) = &drain.wrapped {
            let need = Need {
                purpose: Purpose::Sheet,
                area_m2: own.fabric_m2,
                ..Need::new(format!("fabric of {}", own.name), fabric.place)
            };
            add(fabric, need, &mut wants);
        }
    }
    wants
}

/// The pipe, channel or gully itself.
fn body(drain: &Drain, own: &DrainFigures, wants: &mut Wants) {
    let Some(body) = &drain.body else { return };
    let across = |size: &Option<Stated<Quantity>>| {
        let size = size.as_ref()?;
        Some(Size::Across(size.value.si()))
    };
    let (of, length, size) = match &body.value {
        DrainBody::Channel { of, clear, .. } => {
            let clear = clear.as_ref();
            let clear = clear.map(|(wide, deep)| Size::Clear(wide.value.si(), deep.value.si()));
            (of, own.length_m, clear)
        }
        DrainBody::Pipe(pipe) => (&pipe.of, own.bought_m, across(&pipe.size)),
        DrainBody::Trench {
            pipe: Some(pipe), ..
        } => (&pipe.of, own.length_m, across(&pipe.size)),
        DrainBody::Gully { of: Some(of), wide } => {
            let need = Need {
                purpose: Purpose::Edging,
                size: across(wide),
                pieces: Some(1.0),
                ..Need::new(own.name.clone(), of.place)
            };
            add(of, need, wants);
            return;
        }
        _ => return,
    };
    let what = match own.kind {
        Some(DrainKind::Trench) => format!("pipe of {}", own.name),
        _ => own.name.clone(),
    };
    let piece = of
        .value
        .material()
        .and_then(|material| material.unit.as_ref());
    let piece = piece.map(|(length, _)| Length(length.value.si()));
    let need = Need {
        purpose: Purpose::Edging,
        size,
        length_m: length,
        pieces: length
            .zip(piece)
            .filter(|(_, piece)| piece.0 > 0.0)
            .map(|(length, piece)| (Length(length) / piece).0),
        ..Need::new(what, of.place)
    };
    add(of, need, wants);
}

/// What a drain is laid in or filled with, if that is a material.
fn stuff(
    both: Option<(&Stated<Substance>, &StuffFigures)>,
    what: &str,
    own: &DrainFigures,
    wants: &mut Wants,
) {
    let Some((of, figures)) = both else { return };
    let is_granular = of.value.material().is_some_and(|own| is_granular(own));
    let need = Need {
        purpose: Purpose::Layer(Role::Base),
        mass_kg: figures.mass_kg,
        volume_m3: figures.volume_m3,
        loose_m3: match is_granular {
            true => figures.loose_volume_m3,
            false => figures.volume_m3,
        },
        ..Need::new(format!("{what} of {}", own.name), figures.place)
    };
    add(of, need, wants);
}

fn add(of: &Stated<Substance>, need: Need, wants: &mut Wants) {
    let Substance::Material(material) = &of.value else {
        return;
    };
    let need = Need {
        waste: waste_share(None, own_waste(material)),
        ..need
    };
    let need = need.if_waste_is_known(own_waste_is_read(&of.value));
    let material: &Arc<Material> = material;
    wants.push((Arc::clone(material), Arc::new(need)));
}

/// The mixes that drains are laid in or filled with.
pub(in crate::quantities) fn brought_in(job: &Job) -> impl Iterator<Item = &Arc<Mix>> {
    let drains = job.drains.iter();
    let used = drains.flat_map(|drain| {
        let bedded = drain.bedded.as_ref().map(|bedded| &bedded.of.value);
        let filled = drain.filled.as_ref().map(|filled| &filled.of.value);
        bedded.into_iter().chain(filled)
    });
    used.filter_map(Substance::mix)
}

/// Where drains use a mix.
pub(in crate::quantities) fn mix_uses<'a>(
    figures: &'a [DrainFigures],
    mix: &'a Mix,
) -> impl Iterator<Item = MixUsed> + 'a {
    figures.iter().flat_map(move |own| {
        let bedding = own.bedding.as_ref().map(|of| ("bedding", of));
        let fill = own.fill.as_ref().map(|of| ("fill", of));
        let both = bedding.into_iter().chain(fill);
        let own_mix = both.filter(|(_, of)| of.is_mix && of.material == mix.name.value);
        own_mix.map(|(what, of)| MixUsed {
            what: format!("{what} of {}", own.name),
            place: of.place,
            volume_m3: of.volume_m3,
            waste: crate::quantities::layers::mix_waste(mix).map(|waste| crate::model::Sourced {
                value: waste.value.si(),
                origin: waste.origin,
            }),
        })
    })
}
