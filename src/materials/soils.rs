//! The soils a site may stand on.

use super::catalogue::Sourced;
use super::documents::{COMMON, army_soils, swell_table};

/// A soil as `site` names it.
///
/// Frost and fineness follow the US Army's soil groups: clean gravel and sand
/// hardly heave, silt and lean clay do (US Army course EN5341, soil
/// characteristics).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Soil {
    /// The word a spec writes after `soil`.
    pub word: &'static str,
    /// One line for the reader.
    pub help: &'static str,
    /// Growth in volume from the bank to the heap, a share.
    pub swell: Sourced,
    /// Heaves where it freezes. Not said of peat and fill, whose make-up is
    /// unknown and which other rules already question.
    pub frost_susceptible: bool,
    /// Works its way up into an open base: silt, clay, loam.
    pub fine: bool,
    /// Holds plant remains, so that it settles and must come out.
    pub organic: bool,
}

/// The soils, coarse to fine, then those that are none in the strict sense.
pub static SOILS: &[&Soil] = &[&GRAVEL, &SAND, &SILT, &CLAY, &LOAM, &PEAT, &ROCK, &FILL];

/// Gravel.
pub static GRAVEL: Soil = Soil {
    word: "gravel",
    help: "Gravel, clean or nearly so: drains, bears well, hardly heaves",
    swell: Sourced {
        text: "12 %",
        source: swell_table("gravel, dry or wet; other tables 11 to 15 %"),
    },
    frost_susceptible: false,
    fine: false,
    organic: false,
};

/// Sand.
pub static SAND: Soil = Soil {
    word: "sand",
    help: "Sand, clean or nearly so: drains, bears well once compacted",
    swell: Sourced {
        text: "12 %",
        source: swell_table("sand, dry or wet; other tables 11 to 15 %"),
    },
    frost_susceptible: false,
    fine: false,
    organic: false,
};

/// Silt.
pub static SILT: Soil = Soil {
    word: "silt",
    help: "Silt: soft when wet, heaves most of all in frost",
    swell: Sourced {
        text: "25 %",
        source: army_soils("common earth, 1.25 loose; taken for silt"),
    },
    frost_susceptible: true,
    fine: true,
    organic: false,
};

/// Clay.
pub static CLAY: Soil = Soil {
    word: "clay",
    help: "Clay: drains hardly at all, soft when wet, shrinks and swells",
    swell: Sourced {
        text: "40 %",
        source: swell_table("clay, dry or wet; a textbook gives 30 % for dense clay"),
    },
    frost_susceptible: true,
    fine: true,
    organic: false,
};

/// Loam.
pub static LOAM: Soil = Soil {
    word: "loam",
    help: "Loam: sand, silt and clay together",
    swell: Sourced {
        text: "25 %",
        source: swell_table("earth, loam, dry or wet"),
    },
    frost_susceptible: true,
    fine: true,
    organic: false,
};

/// Peat.
pub static PEAT: Soil = Soil {
    word: "peat",
    help: "Peat and other soil of plant remains: settles, to be taken out",
    swell: Sourced {
        text: "25 %",
        source: COMMON,
    },
    frost_susceptible: false,
    fine: false,
    organic: true,
};

/// Rock.
pub static ROCK: Soil = Soil {
    word: "rock",
    help: "Rock that has to be broken out",
    swell: Sourced {
        text: "65 %",
        source: swell_table("rock, well blasted; limestone 67 %"),
    },
    frost_susceptible: false,
    fine: false,
    organic: false,
};

/// Fill.
pub static FILL: Soil = Soil {
    word: "fill",
    help: "Made ground: tipped or moved before, of no known compaction",
    swell: Sourced {
        text: "25 %",
        source: COMMON,
    },
    frost_susceptible: false,
    fine: false,
    organic: false,
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_soil_has_its_swell() {
        for (word, swell) in [
            ("gravel", "12 %"),
            ("sand", "12 %"),
            ("silt", "25 %"),
            ("clay", "40 %"),
            ("loam", "25 %"),
            ("peat", "25 %"),
            ("rock", "65 %"),
            ("fill", "25 %"),
        ] {
            let soil = SOILS.iter().find(|soil| soil.word == word);
            assert_eq!(soil.map(|soil| soil.swell.text), Some(swell), "{word}");
        }
        assert_eq!(SOILS.len(), 8);
    }

    #[test]
    fn the_fine_soils_are_those_that_heave() {
        for soil in SOILS {
            assert_eq!(soil.frost_susceptible, soil.fine, "{}", soil.word);
        }
    }
}
