//! How many risers a flight has where the spec does not say: the fewest that
//! the limits of its region allow.

use crate::model::{Origin, Region, Sourced, literal};
use crate::sources::Source;

/// The highest riser, as bodies print it.
#[derive(Debug, Clone, Copy)]
pub struct HighestRiser {
    /// As a spec would write it, metric first.
    pub written: &'static [&'static str],
    /// Where it comes from.
    pub source: Source,
}

/// The highest riser of a house's steps in the US, and where no region has
/// its own.
pub const HIGHEST_RISER: HighestRiser = HighestRiser {
    written: &["196 mm", "7 3/4 in"],
    source: Source::second_hand(
        "International Residential Code",
        "R311.7.5, risers of 7-3/4 in at most, as a town's code page prints it",
    ),
};

/// The highest riser of steps for everybody in England.
pub const HIGHEST_RISER_UK: HighestRiser = HighestRiser {
    written: &["170 mm"],
    source: Source::read(
        "Approved Document K (England, 2013)",
        "table 1.1, general access stairs, risers from 150 to 170 mm",
    ),
};

/// The highest riser in Australia.
pub const HIGHEST_RISER_AU: HighestRiser = HighestRiser {
    written: &["190 mm"],
    source: Source::second_hand(
        "National Construction Code 2022 (Australia)",
        "11.2.2, risers from 115 to 190 mm",
    ),
};

static US: Source = HIGHEST_RISER.source;
static UK: Source = HIGHEST_RISER_UK.source;
static AU: Source = HIGHEST_RISER_AU.source;

/// The highest riser in a region, in metres; of twins the kinder one.
pub(super) fn highest_riser(region: Region) -> Sourced<f64> {
    let (limit, source) = match region {
        Region::Uk => (&HIGHEST_RISER_UK, &UK),
        Region::Au => (&HIGHEST_RISER_AU, &AU),
        Region::Us | Region::General => (&HIGHEST_RISER, &US),
    };
    let metric_imperial_pair = limit.written.iter().filter_map(|text| literal(text));
    Sourced {
        value: metric_imperial_pair.map(|own| own.si()).fold(0.0, f64::max),
        origin: Origin::Default {
            what: "the highest riser",
            source,
        },
    }
}

/// The fewest risers that climb so far with none higher than `highest`, both
/// in metres; rounding is not taken for height.
pub(super) fn fewest(rise: f64, highest: f64) -> f64 {
    (rise / highest - 1e-9).ceil().max(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantities::fixture::{close, si};

    #[test]
    fn the_fewest_risers_keep_the_limit() {
        // Approved Document K (2013), Table 1.1, private stair and general
        // access; NCC 2022 Table D3D14; IRC R311.7.5 with the total rise of a
        // how-to on stairs, which prints 14 risers of 7-5/8 in.
        for (rise, highest, risers, each) in [
            ("1100 mm", "220 mm", 5.0, "220 mm"),
            ("900 mm", "170 mm", 6.0, "150 mm"),
            ("610 mm", "190 mm", 4.0, "152.5 mm"),
            ("106.75 in", "7.75 in", 14.0, "7.625 in"),
            ("21 in", "7.75 in", 3.0, "7 in"),
            ("1 mm", "190 mm", 1.0, "1 mm"),
        ] {
            assert_eq!(fewest(si(rise), si(highest)), risers, "{rise}");
            assert!(close(si(rise) / risers, si(each), 1e-12), "{rise}");
        }
    }

    #[test]
    fn each_region_has_its_highest_riser() {
        for (region, highest) in [
            (Region::Us, "7.75 in"),
            (Region::General, "7.75 in"),
            (Region::Uk, "170 mm"),
            (Region::Au, "190 mm"),
        ] {
            assert!(close(highest_riser(region).value, si(highest), 1e-12));
        }
    }
}
