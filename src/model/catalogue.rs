//! The catalogue's materials, its figures read as a spec's would be.

use std::sync::{Arc, OnceLock};

use super::job::{Material, Origin, Pack, Region, Sold, Sourced};
use super::reading::{literal, sale};
use crate::materials::{self, CatalogueMaterial, Sale};
use crate::units::{Quantity, System};
use crate::vocabulary::{other_spelling, spelled_in};

/// The entry of the catalogue that a name stands for, in British or American
/// spelling.
pub fn built_in(name: &str) -> Option<&'static CatalogueMaterial> {
    materials::find(name).or_else(|| materials::find(&other_spelling(name)?))
}

/// The catalogue's material of this name, spelled as in a region, as it is sold
/// where figures are shown in this system. Each is read at most once.
pub(crate) fn material(name: &str, system: System, region: Region) -> Option<Arc<Material>> {
    type Read = [[OnceLock<Arc<Material>>; 2]; 2];
    static READ: OnceLock<Vec<Read>> = OnceLock::new();
    let read = READ.get_or_init(|| materials::materials().map(|_| Read::default()).collect());
    let entry = built_in(name)?;
    let index = materials::materials().position(|other| other.name == entry.name)?;
    let [imperial, metric] = read.get(index)?;
    let [american, british] = match system {
        System::Imperial => imperial,
        System::Metric => metric,
    };
    let slot = match region {
        Region::Us => american,
        Region::Uk | Region::Au | Region::General => british,
    };
    let read = || {
        Arc::new(Material {
            name: spelled_in(region, entry.name).into_owned(),
            ..from(entry, system)
        })
    };
    Some(slot.get_or_init(read).clone())
}

/// A material of which nothing is known but its name.
pub(crate) fn blank(name: &str) -> Material {
    Material {
        name: name.to_owned(),
        place: None,
        section: None,
        changes_catalogue: false,
        stock: None,
        called: None,
        supplier: None,
        kind: None,
        density: None,
        compacted: None,
        particle_density: None,
        bulking: None,
        mass: None,
        class: None,
        durability: None,
        absorption: None,
        strength: None,
        unit: None,
        least_side: None,
        sold: None,
        makes: None,
        step: None,
        covers: None,
        price: None,
        price_pack: None,
        delivery: None,
        minimum: None,
        waste: None,
        unread: Vec::new(),
    }
}

fn from(entry: &'static CatalogueMaterial, system: System) -> Material {
    let figure = |sourced: &'static Option<materials::Sourced>| -> Option<Sourced<Quantity>> {
        let sourced = sourced.as_ref()?;
        Some(Sourced {
            value: literal(sourced.text)?,
            origin: Origin::Catalogue {
                material: entry.name,
                source: &sourced.source,
            },
        })
    };
    let sale = match system {
        System::Imperial => &entry.sold.imperial,
        System::Metric => &entry.sold.metric,
    };
    Material {
        stock: Some(entry.name),
        called: Some(entry.called.to_owned()),
        kind: Some(entry.kind),
        density: figure(&entry.density),
        compacted: figure(&entry.compacted),
        particle_density: figure(&entry.particle_density),
        bulking: figure(&entry.bulking),
        absorption: figure(&entry.absorption),
        unit: unit_size(entry),
        sold: sold(entry, sale),
        makes: sale.makes.as_ref().and_then(|makes| {
            Some(Sourced {
                value: literal(makes.text)?,
                origin: Origin::Catalogue {
                    material: entry.name,
                    source: &makes.source,
                },
            })
        }),
        waste: figure(&entry.waste),
        ..blank(entry.name)
    }
}

fn unit_size(entry: &'static CatalogueMaterial) -> Option<(Sourced<Quantity>, Sourced<Quantity>)> {
    let sourced = entry.unit.as_ref()?;
    let (length, width) = sourced.text.split_once(" by ")?;
    let side = |text: &str| {
        Some(Sourced {
            value: literal(text)?,
            origin: Origin::Catalogue {
                material: entry.name,
                source: &sourced.source,
            },
        })
    };
    Some((side(length)?, side(width)?))
}

fn sold(entry: &'static CatalogueMaterial, by: &'static Sale) -> Option<Sourced<Sold>> {
    let value = match sale(by.by)? {
        (None, Some(unit)) => Sold::Unit(unit),
        (None, None) => Sold::Each,
        (Some((word, content)), _) => Sold::Pack(Pack {
            word,
            content,
            place: None,
        }),
    };
    Some(Sourced {
        value,
        origin: Origin::Catalogue {
            material: entry.name,
            source: &by.source,
        },
    })
}
