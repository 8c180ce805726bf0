//! The documents behind the figures, each with how it is known.

use crate::sources::{Known, Source};

/// No document: a rule of thumb of the trade.
pub(super) const COMMON: Source = Source::COMMON_PRACTICE;

/// Recalled, and no document to name for it.
pub(super) const RECALLED: Source = Source {
    document: "",
    section: "",
    known: Known::Memory,
};

/// Loose aggregates for roads, weighed dry in the truck.
pub(super) const WSDOT_LOOSE: Source = wsdot("Exhibit 620-1, dry weight, truck measure");

/// The same aggregates compacted on the roadway.
pub(super) const WSDOT_COMPACTED: Source = wsdot("Exhibit 620-1, dry weight, compacted on roadway");

/// The specific gravity to which the exhibit's weights are referred.
pub(super) const WSDOT_GRAVITY: Source = wsdot("Exhibit 620-1, specific gravity 2.65 as reference");

const fn wsdot(section: &'static str) -> Source {
    Source::read(
        "WSDOT Design Manual M 22-01 (November 2015 and October 2023)",
        section,
    )
}

/// A line of a US quarry's table of weights in lb per cubic yard.
pub(super) const fn quarry_weights(line: &'static str) -> Source {
    Source::read(
        "Approximate weights of construction materials per cubic yard, a US quarry's table",
        line,
    )
}

/// A line of a New England quarry's table of short tons per cubic yard in
/// the truck.
pub(super) const fn truck_weights(line: &'static str) -> Source {
    Source::read(
        "Conversion chart, tons per cubic yard as loaded, a New England quarry's table",
        line,
    )
}

/// Dry sand shovelled loose.
pub(super) const DRY_SAND: Source = Source::read(
    "L. C. Sabin, Cement and Concrete (1905)",
    "Art. 36, sand of about 100 lb per cu ft, dry",
);

/// A cubic foot of damp loose sand holds 80 lb of dry sand, against 100 lb dry.
pub(super) const DAMP_SAND: Source = Source::memory(
    "ASTM C270, Mortar for Unit Masonry",
    "80 lb of dry sand in a cubic foot of damp loose sand",
);

/// Hydrated lime as mortar is proportioned.
pub(super) const LIME_WEIGHT: Source = Source::memory(
    "ASTM C270, Mortar for Unit Masonry",
    "hydrated lime, 40 lb per cu ft",
);

/// Hydraulic lime: its loose weight, and what mortars of it take.
pub(super) const NHL_SHEET: Source = Source::second_hand(
    "A maker's data sheet for NHL 3.5",
    "650 g/L; 305 kg of lime in a cubic metre of 1:2, 244 kg (±10 %) of 1:2.5",
);

/// Masonry cements: the weight printed on the bag is taken as a cubic foot.
pub(super) const MASONRY_CEMENT_WEIGHT: Source = Source::memory(
    "ASTM C270, Mortar for Unit Masonry",
    "masonry cement, the weight printed on the bag per cu ft",
);

/// The American sack of cement and its loose volume.
pub(super) const CEMENT_SACK: Source = Source::read(
    "Concrete Construction (magazine)",
    "a sack of 94 lb is 1 cu ft, loose",
);

/// The density of the grains of cement.
pub(super) const CEMENT_GRAINS: Source = Source::memory(
    "ACI 211.1, Selecting Proportions for Concrete",
    "specific gravity of portland cement, 3.15",
);

/// What a bag of concrete makes: 40, 60, 80 lb for 0.30, 0.45, 0.60 cu ft.
pub(super) const CONCRETE_BAG: Source = Source::second_hand(
    "Makers' yield tables for bagged concrete",
    "80 lb makes 0.60 cu ft",
);

/// What a bag of mortar makes; printed figures run from 0.60 to 0.70 cu ft.
pub(super) const MORTAR_BAG: Source = Source::second_hand(
    "Makers' yield tables for bagged mortar",
    "80 lb makes 0.60 to 0.70 cu ft",
);

/// The Navy's allowance for concrete lost in placing.
pub(super) const NAVY_WASTE: Source = Source::read(
    "NAVEDTRA 14070 (US Navy training manual)",
    "p. 103, concrete, waste factor 10 %",
);

/// The mortar that raw materials make. Water and voids are fitted to it; it
/// prints neither.
pub(super) const RULE_38: Source = Source::read(
    "NAVEDTRA 14043 (US Navy Builder training manual)",
    "ch. 8, rule 38: water and voids are fitted to it",
);

/// Water and voids of a slab, near the rule of 42 cubic feet of dry material
/// to the cubic yard.
pub(super) const RULE_42: Source = Source::memory(
    "NAVEDTRA 14043 (US Navy Builder training manual)",
    "rule 42: water and voids chosen to come near it",
);

/// Swell in per cent by soil.
pub(super) const fn swell_table(line: &'static str) -> Source {
    Source::read("Swell factors for various soils, projectengineer.net", line)
}

/// The Army's factors between bank, loose and compacted soil.
pub(super) const fn army_soils(line: &'static str) -> Source {
    Source::memory("US Army FM 5-434, Earthmoving Operations, Table 1-1", line)
}
