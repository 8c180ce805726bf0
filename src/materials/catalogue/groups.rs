//! The groups of the catalogue, and finding a material in them.

use super::material::CatalogueMaterial;
use super::{aggregates, bagged, binders, drainage, edgings, sands, sheets, stones, units};

/// Materials that belong together in a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Group {
    /// The heading of the list.
    pub title: &'static str,
    /// Its materials, the commonest first.
    pub materials: &'static [CatalogueMaterial],
}

/// The whole catalogue by groups, from the ground up.
pub static CATALOGUE: &[Group] = &[
    Group {
        title: "Aggregates",
        materials: aggregates::AGGREGATES,
    },
    Group {
        title: "Sands",
        materials: sands::SANDS,
    },
    Group {
        title: "Cements and limes",
        materials: binders::BINDERS,
    },
    Group {
        title: "Bagged mixes, bond coats and concrete",
        materials: bagged::BAGGED,
    },
    Group {
        title: "Natural stone",
        materials: stones::STONES,
    },
    Group {
        title: "Pavers and slabs",
        materials: units::UNITS,
    },
    Group {
        title: "Fabrics, mesh and membranes",
        materials: sheets::SHEETS,
    },
    Group {
        title: "Edgings and joint fillers",
        materials: edgings::EDGINGS,
    },
    Group {
        title: "Pipes, channels and soakaways",
        materials: drainage::DRAINAGE,
    },
];

/// Every material, group by group.
pub fn materials() -> impl Iterator<Item = &'static CatalogueMaterial> {
    CATALOGUE.iter().flat_map(|group| group.materials)
}

/// The material of that name, letter for letter.
pub fn find(name: &str) -> Option<&'static CatalogueMaterial> {
    materials().find(|material| material.name == name)
}

#[cfg(test)]
mod tests {
    use super::super::material::Sourced;
    use super::*;
    use crate::materials::Kind;
    use crate::sources::Known;
    use std::collections::HashSet;

    const DENSITIES: &[&str] = &["lb/cu ft", "kg/m3", "t/m3"];
    const SHARES: &[&str] = &["%"];
    const VOLUMES: &[&str] = &["cu ft", "L"];
    const MASSES: &[&str] = &["lb", "kg"];
    const LENGTHS: &[&str] = &["in", "m", "mm"];

    /// The number of a figure and its unit, if it is plainly written.
    fn split(text: &str) -> Option<(f64, &str)> {
        let (number, unit) = text.split_once(' ')?;
        let plain = number.chars().all(|c| c.is_ascii_digit() || c == '.');
        Some((plain.then(|| number.parse().ok())??, unit))
    }

    fn is_one_of(text: &str, units: &[&str]) -> bool {
        split(text).is_some_and(|(number, unit)| number >= 0.0 && units.contains(&unit))
    }

    /// A density in kg/m3.
    fn density(figure: Sourced) -> f64 {
        match split(figure.text) {
            Some((number, "lb/cu ft")) => number * 16.018_463_373_960_14,
            Some((number, "t/m3")) => number * 1000.0,
            Some((number, "kg/m3")) => number,
            _ => panic!("{} is no density", figure.text),
        }
    }

    #[test]
    fn the_names_a_spec_may_count_on_are_there() {
        for name in [
            "portland-cement",
            "hydrated-lime",
            "sharp-sand",
            "mason-sand",
            "joint-sand",
            "crushed-stone",
            "open-stone",
            "gravel",
            "concrete-paver",
            "clay-brick",
            "sandstone",
            "bluestone",
            "limestone",
            "granite",
            "slate",
            "thin-set",
            "geotextile",
            "steel-edge",
        ] {
            assert_eq!(find(name).map(|found| found.name), Some(name));
        }
        for name in ["", "Gravel", "crushed stone", "gold"] {
            assert_eq!(find(name), None, "{name}");
        }
        assert!(materials().count() >= 40);
    }

    #[test]
    fn names_are_names_and_stand_once() {
        let mut seen = HashSet::new();
        for material in materials() {
            let name = material.name;
            assert!(name.starts_with(|c: char| c.is_ascii_lowercase()), "{name}");
            assert!(!name.ends_with('-'), "{name}");
            assert!(
                name.chars()
                    .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'),
                "{name}"
            );
            assert!(seen.insert(name), "{name} stands twice");
        }
    }

    #[test]
    fn every_material_is_described() {
        for material in materials() {
            let (name, called) = (material.name, material.called);
            assert!(called.starts_with(char::is_uppercase), "{name}");
            assert!(!called.ends_with('.'), "{name}");
            let is_in = |text: &str, unit: &str| text.split([' ', ',']).any(|word| word == unit);
            let sizes = |text: &str| text.contains(|letter: char| letter.is_ascii_digit());
            assert!(!(sizes(called) && is_in(called, "in")), "{name}: inches");
            assert!(
                !is_in(material.in_us, "mm"),
                "{name}: millimetres in the US"
            );
            let is_sized = sizes(called) && is_in(called, "mm");
            assert!(
                !is_sized || sizes(material.in_us),
                "{name}: no inches in the US"
            );
            assert!(
                material.note.is_empty() || material.note.ends_with('.'),
                "{name}"
            );
            assert_eq!(material.kind == Kind::Fill, name == "hardcore", "{name}");
        }
    }

    #[test]
    fn every_figure_is_a_number_with_its_unit() {
        for material in materials() {
            for (key, figure) in material.figures() {
                let name = material.name;
                let well = match key {
                    "density" | "compacted" | "particle-density" => {
                        is_one_of(figure.text, DENSITIES)
                    }
                    "unit" => figure
                        .text
                        .split_once(" by ")
                        .is_some_and(|(a, b)| is_one_of(a, LENGTHS) && is_one_of(b, LENGTHS)),
                    _ => is_one_of(figure.text, SHARES),
                };
                assert!(well, "{name}: {key} {}", figure.text);
            }
        }
        assert!(!is_one_of("109.3", DENSITIES) && !is_one_of("heavy lb/cu ft", DENSITIES));
    }

    #[test]
    fn every_figure_names_its_source() {
        for material in materials() {
            let sales = [material.sold.imperial, material.sold.metric];
            let sources = (material.figures().map(|(_, figure)| figure.source))
                .chain(sales.iter().map(|sale| sale.source))
                .chain(sales.iter().filter_map(|sale| Some(sale.makes?.source)));
            for source in sources {
                let named = !source.document.is_empty();
                let well = match source.known {
                    Known::CommonPractice => !named,
                    Known::Memory => true,
                    Known::Read | Known::SecondHand | Known::Judged | Known::Computed => named,
                };
                assert!(well, "{}: {source}", material.name);
            }
        }
    }

    #[test]
    fn every_material_is_sold_by_something() {
        const PLAIN: &[&str] = &[
            "by ton", "by t", "by cu yd", "by m3", "by sq ft", "by m2", "by ft", "by m", "by each",
        ];
        for material in materials() {
            for sale in [material.sold.imperial, material.sold.metric] {
                let pack = sale.by.strip_prefix("by ").and_then(|rest| {
                    let (word, mass) = rest.split_once(" of ")?;
                    Some(["bag", "tub"].contains(&word) && is_one_of(mass, MASSES))
                });
                let well = pack.unwrap_or(PLAIN.contains(&sale.by));
                assert!(well, "{}: sold {}", material.name, sale.by);
                let volume = sale.makes.is_none_or(|made| is_one_of(made.text, VOLUMES));
                assert!(volume, "{}: {:?}", material.name, sale.makes);
            }
        }
    }

    #[test]
    fn what_is_sold_each_has_a_size() {
        let is_each = |one: &&CatalogueMaterial| one.sold.imperial.by == "by each";
        // A gully is one piece, whatever its size.
        let gully = |one: &&CatalogueMaterial| one.kind == Kind::Gully;
        for material in materials().filter(|one| is_each(one) && !gully(one)) {
            assert!(material.unit.is_some(), "{}", material.name);
        }
    }

    #[test]
    fn compacting_makes_denser_within_reason() {
        for material in materials() {
            let Some(compacted) = material.compacted else {
                continue;
            };
            let loose = material.density.expect(material.name);
            let ratio = density(compacted) / density(loose);
            assert!((1.05..=1.40).contains(&ratio), "{}: {ratio}", material.name);
            assert!(material.kind.is_granular(), "{}", material.name);
        }
    }

    #[test]
    fn grains_are_denser_than_the_heap() {
        for material in materials() {
            let Some(grains) = material.particle_density else {
                continue;
            };
            let heap = material.compacted.or(material.density);
            let heap = density(heap.expect(material.name));
            assert!(density(grains) > heap, "{}", material.name);
        }
    }

    #[test]
    fn whatever_goes_into_a_mix_has_what_its_yield_needs() {
        for material in materials() {
            let kind = material.kind;
            if kind.is_binder() || kind.is_sand() {
                assert!(material.density.is_some(), "{}", material.name);
                assert!(material.particle_density.is_some(), "{}", material.name);
            }
            assert_eq!(
                material.bulking.is_some(),
                kind.is_sand(),
                "{}",
                material.name
            );
        }
    }

    #[test]
    fn a_bag_and_what_it_makes_agree_with_the_density() {
        for material in materials() {
            for sale in [material.sold.imperial, material.sold.metric] {
                let Some(made) = sale.makes else { continue };
                let (_, mass) = sale.by.split_once(" of ").expect(sale.by);
                let mass = match split(mass) {
                    Some((number, "lb")) => number * 0.45359237,
                    Some((number, _)) => number,
                    None => panic!("{mass}"),
                };
                let volume = match split(made.text) {
                    Some((number, "cu ft")) => number * 0.028316846592,
                    Some((number, _)) => number / 1000.0,
                    None => panic!("{}", made.text),
                };
                let stated = density(material.density.expect(material.name));
                let off = mass / volume / stated - 1.0;
                assert!(off.abs() < 0.01, "{}: off by {off}", material.name);
            }
        }
    }

    #[test]
    fn sheets_and_edgings_have_no_density() {
        for material in materials() {
            if material.kind.is_sheet() || material.kind.is_edging() {
                assert_eq!(material.density, None, "{}", material.name);
            }
        }
    }
}
