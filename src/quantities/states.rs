//! A material's densities by its state, and what is wasted of it.

use crate::materials::Kind;
use crate::model::{Material, Origin, Sourced, State, Stated, Substance};
use crate::units::Quantity;

/// The density of a layer or filling in place: of a material that has two,
/// the compacted one unless it is stated to lie loose. Of grains that are
/// stated to lie compacted and have one density it is not known.
pub fn density_in_place(material: &Material, state: Option<State>) -> Option<&Sourced<Quantity>> {
    match state {
        Some(State::Loose) => material.density.as_ref(),
        // In grains it is heavier compacted; by how much only its own density says.
        Some(State::Compacted) if is_granular(material) => material.compacted.as_ref(),
        _ => material.compacted.as_ref().or(material.density.as_ref()),
    }
    .filter(|density| density.value.si() > 0.0)
}

/// The density as it is delivered and measured out: the loose one of two.
pub fn loose_density(material: &Material) -> Option<&Sourced<Quantity>> {
    material
        .density
        .as_ref()
        .filter(|density| density.value.si() > 0.0)
}

/// Whether it lies in grains, so that it takes more room loose: by its kind,
/// or because it has two densities.
pub fn is_granular(material: &Material) -> bool {
    material.compacted.is_some() || material.kind.is_some_and(Kind::is_granular)
}

/// The share wasted: what the layer says replaces what the material or mix
/// says; `None` where neither says.
pub fn waste_share(
    layer: Option<&Stated<Quantity>>,
    own: Option<Sourced<&Quantity>>,
) -> Option<Sourced<f64>> {
    let stated = layer.map(|stated| Sourced {
        value: stated.value.si(),
        origin: Origin::Line(stated.place),
    });
    stated.or(own.map(|own| Sourced {
        value: own.value.si(),
        origin: own.origin,
    }))
}

/// The waste that a material states for itself.
pub(super) fn own_waste(material: &Material) -> Option<Sourced<&Quantity>> {
    material.waste.as_ref().map(|waste| Sourced {
        value: &waste.value,
        origin: waste.origin,
    })
}

/// Whether a material or mix says a waste of its own, if it says one, that
/// could be made out.
pub(super) fn own_waste_is_read(of: &Substance) -> bool {
    match of {
        Substance::Material(material) => material.is_order_read(),
        Substance::Mix(mix) => !mix.is_waste_unread,
        Substance::Unknown(_) => true,
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{line, material, quantity, sourced};
    use super::*;

    #[test]
    fn a_layer_is_compacted_unless_it_is_loose() {
        let stone = Material {
            density: sourced("95 lb/cu ft"),
            compacted: sourced("125 lb/cu ft"),
            ..material("stone")
        };
        let flag = Material {
            density: sourced("150 lb/cu ft"),
            ..material("flag")
        };
        let gravel = Material {
            kind: Some(Kind::JointSand),
            density: sourced("100 lb/cu ft"),
            ..material("gravel")
        };
        let none = material("none");
        for (of, state, expected) in [
            (&stone, None, Some("125 lb/cu ft")),
            (&stone, Some(State::Compacted), Some("125 lb/cu ft")),
            (&stone, Some(State::Loose), Some("95 lb/cu ft")),
            (&flag, None, Some("150 lb/cu ft")),
            (&flag, Some(State::Loose), Some("150 lb/cu ft")),
            (&gravel, None, Some("100 lb/cu ft")),
            (&gravel, Some(State::Compacted), None),
            (&none, None, None),
        ] {
            let found = density_in_place(of, state).map(|density| density.value);
            assert_eq!(found, expected.map(quantity), "{} {state:?}", of.name);
        }
    }

    #[test]
    fn what_has_two_densities_lies_in_grains() {
        let stone = Material {
            compacted: sourced("125 lb/cu ft"),
            ..material("stone")
        };
        let sand = Material {
            kind: Some(Kind::JointSand),
            ..material("sand")
        };
        let flag = Material {
            kind: Some(Kind::NaturalStone),
            density: sourced("150 lb/cu ft"),
            ..material("flag")
        };
        for (of, expected) in [
            (stone, true),
            (sand, true),
            (flag, false),
            (material("x"), false),
        ] {
            assert_eq!(is_granular(&of), expected, "{}", of.name);
        }
    }

    #[test]
    fn the_waste_of_a_layer_replaces_the_material_s() {
        let own = Material {
            waste: sourced("5 %"),
            ..material("stone")
        };
        let layer = Stated::new(quantity("12 %"), line(7));
        let both = waste_share(Some(&layer), own_waste(&own));
        assert_eq!(both.map(|waste| waste.value), Some(0.12));
        assert_eq!(both.and_then(|waste| waste.origin.place()), Some(line(7)));
        assert_eq!(
            waste_share(None, own_waste(&own)).map(|waste| waste.value),
            Some(0.05)
        );
        assert_eq!(waste_share(None, None), None);
    }
}
