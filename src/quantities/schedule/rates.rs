//! How fast work usually goes: a table, used where a spec states no rate.
//! Person-hours with rest in them, on an average site, without setting up.

use crate::sources::{Known, Source};
use crate::units::Dimension;

/// One part of what a task takes: hours for each base unit of an amount.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pace {
    /// What it is: `bed`, `cutting along the edges`; nothing for a task of
    /// one part.
    pub part: &'static str,
    /// Hours for each metre, square metre, cubic metre or kilogram.
    pub hours: f64,
    /// What of.
    pub measures: Dimension,
    /// Where it comes from.
    pub source: Source,
}

/// How a kind of work usually goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct UsualRate {
    /// What it is the rate of: `digging heavy ground by hand`.
    pub of: &'static str,
    /// Its parts.
    pub paces: &'static [Pace],
    /// The most hands that get in nobody's way.
    pub most_hands: u32,
}

/// Pounds in a US short ton, in kilograms.
const SHORT_TON: f64 = 907.184_74;
/// A foot in metres.
const FOOT: f64 = 0.3048;

const TRADES_COURSE: &str = "Labour factors of a trades course, excavation";
const GILLETTE_HILL: &str = "Gillette and Hill, Concrete Construction: Methods and Costs (1908)";
const ICPI: &str = "ICPI, PICP Basic Productivity Estimates (February 2011)";
const PRICE_BOOK: &str = "A UK landscape price book, kerbs and edgings";
const COST_PLANNER: &str = "An Australian cost planner's labour constants";
const ESTIMATING: &str = "Estimating in Building Construction, p. 125";
const POCKETBOOK: &str = "Building Trades Pocketbook, rubble masonry";
const LANDSCAPE_MAGAZINE: &str = "A UK landscape magazine, issue 58 (2022)";
const FLAGSTONE: &str = "US television programme on flagstone (1998)";
const MASONS_BLOG: &str = "A mason's notes on relaying flags (2013)";
const COMMON: Source = Source::COMMON_PRACTICE;

/// A figure judged from what documents print, and printed in none.
const fn judged(document: &'static str, section: &'static str) -> Source {
    Source {
        document,
        section,
        known: Known::Judged,
    }
}

/// A pace with no name of its own.
const fn pace(hours: f64, measures: Dimension, source: Source) -> Pace {
    part("", hours, measures, source)
}

const fn part(part: &'static str, hours: f64, measures: Dimension, source: Source) -> Pace {
    Pace {
        part,
        hours,
        measures,
        source,
    }
}

macro_rules! rates {
    ($($(#[$doc:meta])* $name:ident: $of:literal, $most_hands:literal, $paces:expr;)*) => {$(
        $(#[$doc])*
        pub(crate) static $name: UsualRate = UsualRate {
            of: $of,
            most_hands: $most_hands,
            paces: $paces,
        };
    )*};
}

const BEDDING: Pace = part(
    "screeding the bed",
    1.0 / (100.0 * FOOT * FOOT),
    Dimension::AREA,
    Source::read(ICPI, "100 sq ft of bedding per person-hour"),
);
const CUTTING: Pace = part(
    "cutting along the edges",
    1.0 / (10.0 * FOOT),
    Dimension::LENGTH,
    COMMON,
);
const FINISHING: Pace = part("finishing", 0.15, Dimension::AREA, COMMON);

rates! {
    /// Sand, loam, peat, made ground.
    DIGGING_LIGHT: "digging light ground by hand", 4, &[pace(
        1.3, Dimension::VOLUME,
        judged(TRADES_COURSE, "1.2 h for a cubic metre of sand; others 0.9 to 1.4"),
    )];
    /// Gravel and silt, and ground of which nothing is said.
    DIGGING_MEDIUM: "digging medium ground by hand", 4, &[pace(
        2.2, Dimension::VOLUME, Source::read(TRADES_COURSE, "2.2 h for a cubic metre, medium"),
    )];
    /// Clay.
    DIGGING_HEAVY: "digging heavy ground by hand", 4, &[pace(
        3.3, Dimension::VOLUME, Source::read(TRADES_COURSE, "3.3 h for a cubic metre, heavy"),
    )];
    /// Any of them with a small excavator and somebody beside it.
    DIGGING_BY_MACHINE: "digging with a hired machine", 2, &[pace(
        0.4, Dimension::VOLUME,
        judged(TRADES_COURSE, "0.20 h of a machine with its operator and 0.20 h of a labourer for a cubic metre of trench"),
    )];
    /// Loose spoil into a skip or a barrow.
    CARTING: "loading loose spoil by hand", 4, &[pace(
        0.9, Dimension::VOLUME, judged(GILLETTE_HILL, "0.65 to 0.87 h for a cubic metre of sand; others to 1.9"),
    )];
    /// Fabric, film and mesh.
    LINING: "laying a fabric", 2, &[pace(
        0.03, Dimension::AREA, Source::read(TRADES_COURSE, "0.03 h for a square metre"),
    )];
    /// A base that is barrowed in.
    COMPACTING: "a base barrowed, spread and compacted", 3, &[pace(
        1.0 / SHORT_TON, Dimension::MASS,
        Source::read(ICPI, "back yard, by barrow: 1 short ton per person-hour"),
    )];
    /// Gravel that is spread and raked.
    SURFACING: "spreading gravel", 3, &[pace(
        1.0, Dimension::VOLUME, judged(ICPI, "2.5 short tons per person-hour where it is trucked in"),
    )];
    /// Edging with spikes.
    EDGING: "edging spiked into the base", 2, &[pace(
        1.0 / (30.0 * FOOT), Dimension::LENGTH,
        Source::read(ICPI, "30 ft of edge restraint per person-hour"),
    )];
    /// Kerbs and edging units in concrete.
    KERBING: "edging bedded and haunched", 2, &[pace(
        0.55, Dimension::LENGTH, judged(PRICE_BOOK, "0.40 to 0.50 h for a metre, and its foundation 0.13 to 0.17"),
    )];
    /// A channel along an edge.
    DRAINING: "a channel bedded and joined", 2, &[pace(
        0.55, Dimension::LENGTH, judged(PRICE_BOOK, "taken as a kerb on its foundation"),
    )];
    /// A pipe, apart from what is round it.
    PIPING: "laying and joining pipe", 2, &[pace(0.25, Dimension::LENGTH, COMMON)];
    /// A gully, set and joined to its pipe.
    GULLY: "setting a gully", 2, &[pace(1.5, Dimension::NONE, COMMON)];
    /// Stone round a pipe or in a trench.
    STONE_IN_TRENCH: "stone placed in a trench or pit", 3, &[pace(
        1.0, Dimension::VOLUME,
        judged(TRADES_COURSE, "1.0 h for a cubic metre of fill in layers under a slab"),
    )];
    /// Concrete round a pipe.
    CONCRETE_ROUND: "concrete mixed on the site and placed round a drain", 2, &[pace(
        6.5, Dimension::VOLUME, judged(GILLETTE_HILL, "1.8 to 2.4 cu yd per man of 10 h"),
    )];
    /// Crates of a soakaway.
    CRATES: "setting crates", 2, &[pace(0.5, Dimension::VOLUME, COMMON)];
    /// Brick or stone that faces risers.
    FACING: "facing risers", 2, &[pace(
        14.0 / (100.0 * FOOT * FOOT), Dimension::AREA,
        judged(ESTIMATING, "6 h of a mason and 8 h of a labourer for 100 sq ft of brick face"),
    )];
    /// A core of stone or blocks.
    RUBBLE: "building a core of stone or blocks", 2, &[pace(
        (8.0 / 3.0 + 8.0 / 4.0) / (25.0 * FOOT * FOOT * FOOT), Dimension::VOLUME,
        judged(POCKETBOOK, "1/3 of a mason's day and 1/4 of a helper's for 25 cu ft of rubble, the day taken as 8 h"),
    )];
    /// The forms of a slab.
    FORMING: "setting forms", 2, &[pace(0.25, Dimension::LENGTH, COMMON)];
    /// Concrete that comes mixed.
    POURING: "placing ready-mixed concrete", 4, &[
        part("placing", 1.3, Dimension::VOLUME, Source::read(COST_PLANNER, "1.3 h for a cubic metre of ground slab")),
        FINISHING,
    ];
    /// Concrete that is mixed on the site.
    POURING_MIXED: "concrete mixed on the site and placed", 4, &[
        part("mixing and placing", 6.5, Dimension::VOLUME, judged(GILLETTE_HILL, "1.8 to 2.4 cu yd per man of 10 h")),
        FINISHING,
    ];
    /// Blocks and pavers on a bed of sand.
    PAVERS: "laying pavers on a bed", 3, &[
        BEDDING,
        part("laying", 0.25, Dimension::AREA, judged(LANDSCAPE_MAGAZINE, "to 50 m² per person and day, laying only")),
        CUTTING,
    ];
    /// The same in herringbone, a quarter slower.
    HERRINGBONE: "laying pavers in herringbone", 3, &[
        BEDDING,
        part("laying", 0.3125, Dimension::AREA, judged(LANDSCAPE_MAGAZINE, "to 50 m² per person and day, laying only; herringbone a quarter slower")),
        CUTTING,
    ];
    /// Pavers, brick and setts in mortar.
    IN_MORTAR: "laying brick in mortar", 3, &[pace(1.3, Dimension::AREA, COMMON)];
    /// Flags and stone in mortar.
    FLAGS_IN_MORTAR: "laying flags in mortar", 3, &[pace(
        1.3, Dimension::AREA, judged(FLAGSTONE, "about 300 sq ft a day by a crew of three; others 0.08 to 0.27 h per sq ft"),
    )];
    /// Flags and stone on sand.
    FLAGS_DRY: "laying flags on sand", 3, &[pace(
        1.1, Dimension::AREA, judged(MASONS_BLOG, "450 sq ft relaid in a day by a mason and two helpers"),
    )];
    /// Joints of mortar or compound.
    POINTING: "filling joints with mortar", 2, &[pace(0.25, Dimension::AREA, COMMON)];
    /// Joints of sand.
    SWEEPING: "sweeping and vibrating joint sand", 2, &[pace(0.04, Dimension::AREA, COMMON)];
    /// What is left on the stone.
    CLEANING: "cleaning off", 2, &[pace(0.03, Dimension::AREA, COMMON)];
    /// Ground that is made up.
    BACKFILLING: "filling and compacting ground", 3, &[pace(
        1.0, Dimension::VOLUME, Source::read(TRADES_COURSE, "backfill and compact, 1.0 h for a cubic metre"),
    )];
}

/// How long it takes to locate services and mark them out, in hours.
pub(crate) const LOCATING_H: f64 = 1.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// ICPI's estimates as read, on a patio of 20 by 15 ft: 10.278 short tons
    /// of base, 300 sq ft of bedding, 70 ft of edge.
    #[test]
    fn a_patio_takes_the_hours_that_the_estimates_give() {
        for (amount, pace, hours) in [
            (10.278 * SHORT_TON, COMPACTING.paces[0], 10.28),
            (300.0 * FOOT * FOOT, BEDDING, 3.00),
            (70.0 * FOOT, EDGING.paces[0], 2.33),
        ] {
            assert!((amount * pace.hours - hours).abs() < 0.005);
        }
    }

    /// 803 sq ft of brick face, as read: 48 h of a mason and 64 h of a labourer,
    /// both cut to whole hours.
    #[test]
    fn facing_takes_the_hours_of_the_estimating_book() {
        let hours = 803.0 * FOOT * FOOT * FACING.paces[0].hours;
        assert!((hours - (48.18 + 64.24)).abs() < 1e-9);
        assert_eq!(hours.floor(), 48.0 + 64.0);
    }

    /// Thompson's time sheet in Taylor, *Shop Management* (1911), as read: 43
    /// barrows of sand of 2.32 cu ft in 122 minutes, and 29 of hard clay of
    /// 2.15 cu ft in 109 with 1.6667 of picking for each. Loading alone is
    /// within the range that carting is judged from.
    #[test]
    fn loading_lies_within_what_was_timed() {
        let hours_per_m3 =
            |minutes: f64, cubic_feet: f64| minutes / 60.0 / (cubic_feet * FOOT.powi(3));
        let sand = hours_per_m3(122.0 / 43.0, 2.32);
        let clay = hours_per_m3(109.0 / 29.0 + 55.0 / 33.0, 2.15);
        assert!((122.0_f64 / 43.0 - 2.8372).abs() < 1e-4);
        assert!((109.0_f64 / 29.0 - 3.7586).abs() < 1e-4);
        // In bank measure: 1.817 and 0.880 cu yd in an hour.
        let yards = |hours: f64| 1.0 / hours / 0.764_554_857_984;
        assert!((yards(sand) - 1.817).abs() < 1e-3 && (yards(clay) - 0.880).abs() < 1e-3);
        let rate = CARTING.paces[0].hours;
        assert!(rate > sand / 1.3 && rate < clay);
    }
}
