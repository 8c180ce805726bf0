//! What a mix is taken to be where the spec does not say.

use super::documents::{COMMON, DAMP_SAND, RULE_38, RULE_42};
use crate::sources::Source;

/// A figure of a mix: a plain share or ratio, with its source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// The share or ratio, no unit.
    pub value: f64,
    /// Where it comes from.
    pub source: Source,
}

/// How wet a mortar is, and the water and voids that go with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Consistency {
    /// The word a spec writes after `consistency`.
    pub word: &'static str,
    /// One line for the reader.
    pub help: &'static str,
    /// Water as a share of the dry mass of all ingredients.
    pub water: Share,
    /// Air as a share of the finished volume.
    pub voids: Share,
    /// Water to cement by mass in a mix for a slab.
    pub slab_water: Share,
}

/// The defaults of every mix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MixDefaults {
    /// Dry to fluid.
    pub consistencies: &'static [Consistency],
    /// Air in a mix for a slab.
    pub slab_voids: Share,
    /// How much larger damp loose sand is than the same sand dry, as a share;
    /// for sand whose material does not say.
    pub sand_bulking: Share,
    /// Density of water, kg/m3.
    pub water_density: f64,
}

impl MixDefaults {
    /// The consistency a spec means by a word, if it is one.
    pub fn consistency(&self, word: &str) -> Option<&'static Consistency> {
        self.consistencies.iter().find(|one| one.word == word)
    }
}

/// Water and voids are fitted so that a mortar of cement and sand makes about
/// what rule 38 says it makes: 27 cubic feet out of 38 of dry material.
pub static MIX_DEFAULTS: MixDefaults = MixDefaults {
    consistencies: &[
        Consistency {
            word: "dry",
            help: "Holds together when squeezed in the hand, leaves no water",
            water: fitted(0.080),
            voids: fitted(0.18),
            slab_water: usual(0.40),
        },
        Consistency {
            word: "stiff",
            help: "Stands as it is left by the trowel",
            water: fitted(0.115),
            voids: fitted(0.10),
            slab_water: usual(0.45),
        },
        Consistency {
            word: "plastic",
            help: "Spreads under the trowel: ordinary mortar",
            water: fitted(0.145),
            voids: fitted(0.05),
            slab_water: Share {
                value: 0.50,
                source: RULE_42,
            },
        },
        Consistency {
            word: "fluid",
            help: "Pours: slurry and grout",
            water: fitted(0.180),
            voids: fitted(0.02),
            slab_water: usual(0.60),
        },
    ],
    slab_voids: Share {
        value: 0.02,
        source: RULE_42,
    },
    sand_bulking: Share {
        value: 0.25,
        source: DAMP_SAND,
    },
    water_density: 1000.0,
};

const fn usual(value: f64) -> Share {
    Share {
        value,
        source: COMMON,
    }
}

const fn fitted(value: f64) -> Share {
    Share {
        value,
        source: RULE_38,
    }
}

#[cfg(test)]
mod tests {
    use super::super::find;
    use super::*;

    const LB_PER_CU_FT: f64 = 16.018_463_373_960_14;

    /// A figure of the catalogue in kg/m3.
    fn density(text: &str) -> f64 {
        let (number, unit) = text.split_once(' ').expect("a number and a unit");
        let number: f64 = number.parse().expect("a number");
        match unit {
            "lb/cu ft" => number * LB_PER_CU_FT,
            "kg/m3" => number,
            other => panic!("a density in {other}"),
        }
    }

    /// Mass and solid volume of loose parts of a material.
    fn solid(name: &str, parts: f64, bulking: f64) -> (f64, f64) {
        let material = find(name).expect(name);
        let loose = density(material.density.expect(name).text);
        let particles = density(material.particle_density.expect(name).text);
        let mass = parts * loose / (1.0 + bulking);
        (mass, mass / particles)
    }

    /// What one part of cement and so many of sand make, by absolute volume.
    fn mortar(sand: f64, consistency: &Consistency) -> f64 {
        let (cement_mass, cement) = solid("portland-cement", 1.0, 0.0);
        let (sand_mass, sand) = solid("sharp-sand", sand, MIX_DEFAULTS.sand_bulking.value);
        let water =
            (cement_mass + sand_mass) * consistency.water.value / MIX_DEFAULTS.water_density;
        (cement + sand + water) / (1.0 - consistency.voids.value)
    }

    #[test]
    fn yields_are_those_of_the_language() {
        for (word, yields) in [
            ("dry", [2.159, 2.874, 3.589, 4.304]),
            ("stiff", [2.126, 2.827, 3.528, 4.229]),
            ("plastic", [2.142, 2.847, 3.551, 4.256]),
            ("fluid", [2.222, 2.951, 3.680, 4.408]),
        ] {
            let consistency = MIX_DEFAULTS.consistency(word).expect(word);
            for (sand, expected) in [2.0, 3.0, 4.0, 5.0].into_iter().zip(yields) {
                let found = mortar(sand, consistency);
                assert!(
                    (found - expected).abs() < 0.000_6,
                    "{word} 1:{sand} makes {found}, not {expected}"
                );
            }
        }
    }

    #[test]
    fn yields_stay_near_rule_38() {
        for consistency in MIX_DEFAULTS.consistencies {
            for sand in [2.0, 3.0, 4.0, 5.0] {
                let rule = (1.0 + sand) * 27.0 / 38.0;
                let off = mortar(sand, consistency) / rule - 1.0;
                assert!(
                    off.abs() < 0.045,
                    "{} 1:{sand} is off {off}",
                    consistency.word
                );
            }
        }
    }

    #[test]
    fn a_slab_of_one_two_four_makes_a_little_more_than_rule_42() {
        let (cement_mass, cement) = solid("portland-cement", 1.0, 0.0);
        let (_, sand) = solid("sharp-sand", 2.0, MIX_DEFAULTS.sand_bulking.value);
        let (_, stone) = solid("concrete-stone", 4.0, 0.0);
        let plastic = MIX_DEFAULTS.consistency("plastic").expect("plastic");
        let water = cement_mass * plastic.slab_water.value / MIX_DEFAULTS.water_density;
        let made = (cement + sand + stone + water) / (1.0 - MIX_DEFAULTS.slab_voids.value);
        assert!((made - 4.587).abs() < 0.000_6, "{made}");
    }

    #[test]
    fn only_the_four_words_are_consistencies() {
        assert_eq!(MIX_DEFAULTS.consistencies.len(), 4);
        assert_eq!(MIX_DEFAULTS.consistency("wet"), None);
    }
}
