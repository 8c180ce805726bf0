//! Documents that several rules cite, each with how it is known.

use crate::sources::Source;

/// American code for houses, grading round them.
pub(crate) const IRC_GRADING: Source = Source::second_hand(
    "International Residential Code (2006)",
    "R401.3, exception: 2 % away from the building within 10 ft",
);

/// American code for houses, how far foundations stand above the ground.
pub(crate) const IRC_FOUNDATION: Source = Source::second_hand(
    "International Residential Code",
    "R404.1.6: 6 in of foundation above the ground",
);

/// The same for walls with a skin of masonry.
pub(crate) const IRC_VENEER: Source = Source::memory(
    "International Residential Code",
    "R404.1.6: 4 in of foundation above the ground with masonry veneer",
);

/// American code for houses, landings at doors.
pub(crate) const fn irc_landing(section: &'static str) -> Source {
    Source::second_hand("International Residential Code", section)
}

/// American standard for access.
pub(crate) const ADA_FLOOR_SPACE: Source = Source::read(
    "ADA Standards, 305 Clear Floor or Ground Space, as the U.S. Access Board prints it",
    "not steeper than 1:48 in any direction",
);

/// American standard for access, ramps.
pub(crate) const ADA_RAMPS: Source = Source::read(
    "2010 ADA Standards for Accessible Design",
    "405.2, ramps no steeper than 1:12",
);

/// How high an American ramp climbs between landings.
pub(crate) const ADA_RAMP_RISE: Source = Source::read(
    "ADA Standards of 1991",
    "4.8.2, 30 in (760 mm) of rise for any run; 405.6 of 2010 from memory the same",
);

/// American standard for access, firm ground.
pub(crate) const ADA_FIRM: Source = Source::memory(
    "2010 ADA Standards for Accessible Design",
    "302.1, firm, stable and slip resistant",
);

/// American standard for access, steps in a surface.
pub(crate) const ADA_CHANGES_IN_LEVEL: Source = Source::second_hand(
    "2010 ADA Standards for Accessible Design",
    "303, changes in level",
);

/// How steep an American landing at a door may be.
pub(crate) const IRC_LANDING_SLOPE: Source = Source::second_hand(
    "International Residential Code (2006)",
    "R311.4.3, landings no steeper than 1/4 in in 12 (1:48)",
);

/// How deep an American landing at a door is.
pub(crate) const IRC_LANDING_LENGTH: Source = Source::memory(
    "International Residential Code",
    "R311.3, landings 36 in deep in the direction of travel: read the edition in force",
);

/// American stairs.
pub(crate) const IRC_RISERS: Source = Source::second_hand(
    "International Residential Code",
    "R311.7.5, risers of 7-3/4 in at most, as a town's code page prints it",
);

/// American guards.
pub(crate) const IRC_GUARDS: Source = Source::second_hand(
    "International Residential Code",
    "R312.1, a guard where a walking surface is over 30 in above what lies below, as a town's code page prints it",
);

/// Tolerances and recommendations for interlocking concrete paving.
pub(crate) const fn icpi_tolerances(section: &'static str) -> Source {
    Source::read(
        "ICPI, Construction Tolerances and Recommendations for Interlocking Concrete Pavements",
        section,
    )
}

/// The same for permeable interlocking concrete paving.
pub(crate) const fn icpi_permeable(section: &'static str) -> Source {
    Source::read(
        "ICPI, Recommended Construction Tolerances for Permeable Interlocking Concrete Pavement, September 2020",
        section,
    )
}

/// Edge restraints for interlocking concrete paving.
pub(crate) const fn icpi_edges(section: &'static str) -> Source {
    Source::read("ICPI Tech Spec 3, Edge Restraints", section)
}

/// Clay pavers on sand.
pub(crate) const fn bia_14a(section: &'static str) -> Source {
    Source::read("BIA Technical Note 14A, May 2017", section)
}

/// Clay pavers in mortar.
pub(crate) const fn bia_14c(section: &'static str) -> Source {
    Source::read("BIA Technical Note 14C, July 2011", section)
}

/// British new homes, paths and patios.
pub(crate) const fn nhbc_external(section: &'static str) -> Source {
    Source::read("NHBC Standards 2021", section)
}

/// British flags and natural stone.
pub(crate) const BS_7533: Source = Source::second_hand(
    "BS 7533, the part on flags and natural stone",
    "crossfall of 1.25 % (1:80)",
);

/// British flags and natural stone, along their length.
pub(crate) const BS_7533_LENGTHWAYS: Source = Source::second_hand(
    "BS 7533, the part on flags and natural stone",
    "1 % (1:100) lengthways, as a British paving adviser quotes it",
);

/// Guidance to the English building regulations on access.
pub(crate) const fn approved_document_m(section: &'static str) -> Source {
    Source::second_hand(
        "Approved Document M, volume 1 (England, 2015), as a British encyclopedia of building quotes it",
        section,
    )
}

/// Guidance to the English building regulations on stairs.
pub(crate) const APPROVED_K_STAIRS: Source = Source::read(
    "Approved Document K (England, 2013)",
    "table 1.1, risers of private stairs from 150 to 220 mm",
);

/// The same on guards.
pub(crate) const APPROVED_K_GUARDS: Source = Source::read(
    "Approved Document K (England, 2013)",
    "1.40 and 1.41, guarding of drops over 600 mm at dwellings",
);

/// The same on landings of ramps.
pub(crate) const APPROVED_K_LANDINGS: Source = Source::read(
    "Approved Document K (England, 2013)",
    "2.13, landings of ramps 1200 mm long at the ends and no steeper than 1:60, not at dwellings",
);

/// The same on how long ramps may be.
pub(crate) const APPROVED_K_RAMPS: Source = Source::second_hand(
    "Approved Document K (England, 2013)",
    "diagram 2.1, ramps of 1:20 for 10 m, 1:15 for 5 m, 1:12 for 2 m",
);

/// The edition before on how steep ramps may be.
pub(crate) const APPROVED_K_1998: Source = Source::read(
    "Approved Document K (England, 1998)",
    "2.1, ramps no steeper than 1:12",
);

/// Water from premises on a British footway.
pub(crate) const HIGHWAYS_ACT: Source = Source::memory(
    "Highways Act 1980 (England and Wales)",
    "section 163, water from premises kept off the footway",
);

/// Roots near British building work.
pub(crate) const BS_5837: Source = Source::memory(
    "BS 5837:2012, Trees in relation to design, demolition and construction",
    "4.6, roots protected for 12 times the width of the trunk: read the edition in force",
);

/// Guidance to the English building regulations on drainage.
pub(crate) const fn approved_document_h(section: &'static str) -> Source {
    Source::memory("Approved Document H (England)", section)
}

/// Residential pavements in Australia and New Zealand.
pub(crate) const fn as_nzs_3727(section: &'static str) -> Source {
    Source::read(
        "AS/NZS 3727.1:2016, Guide to residential pavements",
        section,
    )
}

/// Access in Australia.
pub(crate) const fn as_nzs_1428(section: &'static str) -> Source {
    Source::second_hand(
        "AS 1428.1:2021, Design for access and mobility, as an Australian list of its clauses gives it",
        section,
    )
}

/// Ramps in Australia.
pub(crate) const AS_RAMPS: Source = Source::memory(
    "AS 1428.1, Design for access and mobility",
    "ramps over 1.9 m long no steeper than 1:14: read the 2021 edition",
);

/// Paving below the damp course in Australia.
pub(crate) const AS_3700: Source = Source::second_hand(
    "AS 3700, Masonry structures, as an Australian owner-builders' forum quotes it",
    "75 mm below the damp course where paving falls away, 50 mm under a roof, 150 mm otherwise: read the 2018 edition",
);

/// Building code of Australia.
pub(crate) const fn ncc(section: &'static str) -> Source {
    Source::read(
        "National Construction Code 2019, volume 2 (Australia)",
        section,
    )
}

/// How far floors on the ground stand above what lies outside, in Australia.
pub(crate) const NCC_SLAB_FLOOR: Source = Source::memory(
    "National Construction Code 2019, volume 2 (Australia)",
    "3.1.3.3: a slab floor 50 mm above paving that falls away from the building, 150 mm above the ground otherwise, 100 mm where little rain falls or the ground is sandy",
);

/// Risers in Australia.
pub(crate) const NCC_RISERS: Source = Source::second_hand(
    "National Construction Code 2022 (Australia)",
    "11.2.2, risers from 115 to 190 mm",
);

/// Guards in Australia.
pub(crate) const NCC_GUARDS: Source = Source::memory(
    "National Construction Code 2022 (Australia)",
    "11.3, a barrier where people could fall 1 m or more: read the volume in force",
);

/// What residential pavements in Australia and New Zealand lie on.
pub(crate) const AS_NZS_SUBGRADE: Source =
    as_nzs_3727("soft and organic ground removed or treated");

/// What paths and patios of British new homes lie on.
pub(crate) const NHBC_SUBGRADE: Source = nhbc_external("10.2.6, vegetable matter removed");

/// In what order English rain water is to be led away.
pub(crate) const APPROVED_H3_ORDER: Source = Source::second_hand(
    "Building Regulations 2010 (England), Requirement H3",
    "rain water to the ground, else to a watercourse, else to a sewer",
);

/// English front gardens that may not be paved over unasked.
pub(crate) const FRONT_GARDENS: Source = Source::read(
    "Guidance on the permeable surfacing of front gardens (Communities and Local Government, England)",
    "permission for more than 5 m² of impermeable surface, since October 2008",
);

/// The same in Wales and Scotland.
pub(crate) const FRONT_GARDENS_ELSEWHERE: Source = Source::read(
    "A British trade magazine (Landscape & Urban Design 41, 2020)",
    "p. 27: Wales over 5 m² since September 2013; Scotland paving of any size between house and street",
);

/// Brick in landscape work.
pub(crate) const fn bia_29(section: &'static str) -> Source {
    Source::read("BIA Technical Note 29, 1994", section)
}

/// British new homes.
pub(crate) const fn nhbc(section: &'static str) -> Source {
    Source::read("NHBC Standards", section)
}

/// A handbook of masonry.
pub(crate) const fn masonry_handbook(page: &'static str) -> Source {
    Source::read("Beall, Masonry and Concrete (McGraw-Hill)", page)
}

/// Movement joints in tile and stone.
pub(crate) const TCNA_EJ171: Source = Source::second_hand(
    "TCNA EJ171, Movement Joint Guidelines",
    "exterior, quoted in TileLetter, August 2018",
);

/// Cold-climate base, as a maker of pavers quotes ICPI.
pub(crate) const ICPI_MAKER: Source = Source::second_hand(
    "A paver maker's answers, citing ICPI",
    "base of patios where it freezes and thaws",
);

/// More base on weak soil.
pub(crate) const ICPI_WEAK_SOIL: Source = Source::memory(
    "ICPI Tech Spec 2, Construction of Interlocking Concrete Pavements (check the edition in force)",
    "2 to 4 in more base on wet or weak soil and where it freezes",
);

/// British garden guides on the sub-base of a patio.
pub(crate) const GARDEN_GUIDES: Source = Source::read(
    "A British garden guide, sub-base of a patio",
    "100 mm, and 50 mm more on heavy clay or peat",
);

/// The assembly that the American trade body recommends.
pub(crate) const CMHA_ASSEMBLY: Source = Source::second_hand(
    "CMHA PAV-FAQ-002, October 2025",
    "dense-graded base and concrete sand; an open base under sand for foot traffic only, on conditions",
);

/// Layers that filter each other.
pub(crate) const FILTER_LAYERS: Source = Source::memory(
    "ICPI, Permeable Interlocking Concrete Pavements (check the edition in force)",
    "open-graded stone in joints, bed and base; a choke course or geotextile where a finer layer lies on a coarser",
);

/// Lifts for a plate compactor.
pub(crate) const LIFTS_FOUR_INCHES: Source = Source::read(
    "Landscape Architect (magazine), an edging maker's specification",
    "lifts of 4 in at most; Journal of Light Construction says the same",
);

/// Loose and compacted weights of crushed aggregates.
pub(crate) const WSDOT_AGGREGATES: Source = Source::read(
    "WSDOT Design Manual M 22-01 (November 2015 and October 2023)",
    "Exhibit 620-1: compacted over loose from 1.25 to 1.30",
);

/// The mortar bed of stone floors; the range round it is common practice.
pub(crate) const STONE_BED: Source = Source::second_hand(
    "Dimension Stone Design Manual",
    "thick bed, 1-1/4 in nominal, quoted in TileLetter, May 2018; the range round it is common practice",
);

/// The sand bed of British block paving; how thin it may be.
pub(crate) const UK_SAND_BED: Source = Source::memory(
    "BS 7533-3, concrete and clay block paving (check the edition in force)",
    "laying course 30 to 50 mm; trade pages say 30, 30 to 50 and 50",
);

/// Bed mortar of stone floors: 1:3 in one body's manual, 1:5 dry to 1:6 damp
/// in another's.
pub(crate) const FLOOR_MORTAR: Source = Source::memory(
    "ANSI A108.1A and Dimension Stone Design Manual",
    "1 cement to 5 dry or 6 damp sand in the one, about 1 to 3 in the other",
);

/// Mortars of natural hydraulic lime.
pub(crate) const NHL_MORTAR: Source = Source::second_hand(
    "Makers' data sheets for natural hydraulic lime, NHL 3.5",
    "1 to 2 to 1 to 3 by volume; 1 to 2 and 1 to 2-1/2 stand frost",
);

/// Pointing mortar of yard flags; the range is common practice.
pub(crate) const JOINT_MORTAR: Source = Source::read(
    "International Correspondence Schools, Pavements and Sidewalks, about 1899",
    "1 to 1, now held to be too rich; 1 to 2 to 1 to 4 is common practice",
);

/// What one person may lift at best.
pub(crate) const NIOSH_LIFTING: Source = Source::read(
    "NIOSH 94-110, Applications Manual for the Revised NIOSH Lifting Equation",
    "load constant, 51 lb (23 kg)",
);

/// Waste in construction, as the US Navy teaches it.
pub(crate) const NAVY_WASTE: Source = Source::read(
    "NAVEDTRA 14070, Engineering Aid",
    "p. 103, concrete and brick 10 %, mortar 20 %",
);

/// Waste of paving stone, as stone yards quote it.
pub(crate) const STONE_YARDS: Source = Source::read(
    "Estimating sheets of US stone yards",
    "10 to 25 % in general, flags 5 to 10 %",
);

/// Silica dust and how to cut without it.
pub(crate) const OSHA_SILICA: &[Source] = &[
    Source::second_hand(
        "OSHA 29 CFR 1926.1153, Respirable crystalline silica",
        "limit 50 and action level 25 micrograms per cubic metre",
    ),
    Source::read(
        "California Code of Regulations, title 8, section 1532.3",
        "Table 1, saws with water",
    ),
];

/// Portland cement on skin.
pub(crate) const OSHA_CEMENT: Source = Source::read(
    "OSHA, Preventing Skin Problems from Working with Portland Cement",
    "gloves, rinsing, late burns",
);

/// How caustic wet mortar is.
pub(crate) const WET_MORTAR: Source = Source::read(
    "A maker's data sheet for bagged mortar",
    "pH over 12 when wet",
);

/// Vibration of hand and arm.
pub(crate) const HAND_ARM_VIBRATION: Source = Source::second_hand(
    "Directive 2002/44/EC, and the UK Control of Vibration at Work Regulations 2005",
    "action value 2.5 and limit value 5 m/s² over a day",
);

/// The least base of permeable paving.
pub(crate) const ICPI_PERMEABLE_BASE: Source = Source::read(
    "ICPI, article on edge restraints for permeable pavement",
    "least base, 6 in for pedestrians, 8 in for driveways",
);

/// The grading of a dense base.
pub(crate) const BASE_GRADING: Source = Source::second_hand(
    "ASTM D2940, as a paver maker's answers cite ICPI",
    "graded aggregate for bases, 6 to 12 % fines",
);

/// Sand under pavers.
pub(crate) const CMHA_BEDDING: Source = Source::read(
    "CMHA PAV-TEC-017-22, Bedding Sand Selection",
    "washed concrete sand, at most 1 % passing the No. 200 sieve",
);

/// How much of the back of stone outdoors is to be in contact.
pub(crate) const ANSI_CONTACT: Source = Source::second_hand(
    "ANSI A108.5",
    "2.2.3: 95 % contact outdoors, quoted in Tile Magazine",
);

/// Porcelain on mortar.
pub(crate) const PORCELAIN_PRIMER: Source = Source::read(
    "British makers' and merchants' pages on porcelain paving",
    "porcelain does not bond to the bed without a primer; porous sandstone needs none",
);

/// British block paving, how thin.
pub(crate) const UK_BLOCKS: Source = Source::read(
    "A British trade page on block paving; no British standard seen, BS 7533 to check",
    "50 or 60 mm for normal domestic use, 80 mm heavier",
);

/// Travertine on sand, as it is laid in Florida.
pub(crate) const TRAVERTINE_ON_SAND: Source = Source::read(
    "A pool owners' forum and a home blog of 2019, Florida; a maker's guide to check",
    "travertine pavers of 1-1/4 in on sand over crushed base",
);

/// How much water travertine may absorb.
pub(crate) const ASTM_TRAVERTINE: Source = Source::second_hand(
    "ASTM C1527, Travertine Dimension Stone",
    "greatest absorption 2.5 %, least density 144 lb/cu ft, in a merchant's data",
);

/// What one person may lift in Britain.
pub(crate) const HSE_LIFTING: Source = Source::memory(
    "HSE, Manual handling at work (INDG143); edition to check",
    "25 kg, a man's lift held close at waist height",
);

/// What stone yards say that irregular flagstone covers.
pub(crate) const STONE_YARD_COVERAGE: Source = Source::read(
    "Estimating sheets of US stone yards",
    "irregular flagstone of 1 in from 100 to 150 sq ft a ton",
);

/// How thick a bond coat of thin-set may be.
pub(crate) const ANSI_THIN_SET: Source = Source::memory(
    "ANSI A108.5 and A118 (check the edition in force)",
    "thin-set 3/32 to 3/16 in once the unit is bedded",
);

/// How thick a medium bed may be.
pub(crate) const MEDIUM_BED_SHEET: Source =
    Source::second_hand("A maker's data sheet for medium-bed mortar", "to 3/4 in");

/// Sand of a mortar by type.
pub(crate) const C270_SAND: Source = Source::second_hand(
    "ASTM C270, Mortar for Unit Masonry, the proportions of Table 1, as Masonry Magazine prints them",
    "sand 2-1/4 to 3 times cement and lime (to 3-1/2 by the property method)",
);

/// Lime of a mortar by type.
pub(crate) const C270_TYPES: Source = Source::read(
    "Beall, Masonry and Concrete (McGraw-Hill), from ASTM C270",
    "fig. 4-23: M 1:1/4:3-1/2, S 1:1/2:4-1/2, N 1:1:6, O 1:2:9",
);

/// What a bag makes.
pub(crate) const BAG_YIELDS: Source = Source::second_hand(
    "Makers' yield tables for bagged mortar and concrete",
    "80 lb makes 0.60 to 0.70 cu ft of mortar, 0.60 of concrete",
);

/// What stone weighs by its name.
pub(crate) const STONE_DENSITIES: Source = Source::second_hand(
    "ASTM C568, C615, C616 and C629, summed up in a table; other bounds from memory",
    "least densities of limestone, granite, sandstone; slate has none",
);

/// How much water stone outdoors may take up.
pub(crate) const ASTM_STONE: Source = Source::second_hand(
    "ASTM C568, C615, C616 and C629, summed up in a table",
    "greatest absorption: 3 % of dense limestone and quartzitic sandstone, 8 % of sandstone",
);

/// Openings in accessible surfaces.
pub(crate) const ADA_OPENINGS: Source = Source::second_hand(
    "2010 ADA Standards for Accessible Design",
    "302.3, openings of 1/2 in (13 mm) at most, in the Access Board's guide",
);

/// Panels of a slab.
pub(crate) const SLAB_PANELS: Source = Source::second_hand(
    "Concrete Construction (magazine), and contractors' guides citing ACI",
    "panels to 1-1/2 times as long as wide, joints 24 to 36 thicknesses apart and from re-entrant corners",
);

/// How far from a building or a road English rain water may be led into the
/// ground.
pub(crate) const SOAKAWAYS: Source = Source::second_hand(
    "Approved Document H (England), as a British block maker quotes it, and councils",
    "3.25a, 5 m from a building or road",
);

/// How far from a building permeable paving lies in England.
pub(crate) const PERMEABLE_IN_ENGLAND: Source = Source::second_hand(
    "A British block maker's guide (2021), which takes Approved Document H to cover permeable paving",
    "5 m from a building unless it is tanked; a Canadian guide asks for none where it takes its own rain only",
);

/// How far from a building an American dry well lies.
pub(crate) const US_DRY_WELLS: Source = Source::read(
    "US county guide to dry wells (2010)",
    "10 ft from a building",
);

/// How fast the ground of an American dry well takes water.
pub(crate) const US_DRY_WELLS_SOIL: Source = Source::read(
    "US county guide to dry wells (2010)",
    "0.27 in/h at least, and not in soils of hydrologic group D",
);

/// How fast the ground of a British soakaway takes water.
pub(crate) const COUNTY_SOAKAGE: Source = Source::read(
    "A British county's guide to soakaways (Buckinghamshire)",
    "0.000001 m/s (3.6 mm/h) at least",
);

/// How long mortar may be used.
pub(crate) const C270_LIFE: Source = Source::memory(
    "ASTM C270, Mortar for Unit Masonry",
    "used within 2-1/2 hours of mixing",
);

/// How wide a joint that moves is to be.
pub(crate) const JOINT_WIDTH: Source = Source::second_hand(
    "TCNA EJ171, Movement Joint Guidelines",
    "width outdoors, 3/8 in at 8 ft and 1/2 in at 12 ft, quoted in TileLetter, joint width and spacing",
);

/// Joints of what lies under tile and stone, carried up through them.
pub(crate) const ANSI_JOINTS: Source = Source::second_hand(
    "ANSI A108.02, 4.4.1, and A108.01, 3.7",
    "a movement joint over every joint in the backing, quoted in TileLetter",
);

/// Which patterns carry cars.
pub(crate) const PATTERNS_FOR_CARS: &[Source] = &[
    Source::read(
        "Irish Cement, technical pages on precast paviors",
        "herringbone for drives; parquet and running bond for foot traffic only",
    ),
    Source::read(
        "A South African paver maker's page on laying patterns",
        "no long joints in the direction of travel; no square bond or basket weave under cars",
    ),
];

/// How thick flags are that carry cars without a slab.
pub(crate) const FLAGS_UNDER_CARS: Source = Source::memory(
    "BS 7533, the part on flags; edition to check",
    "small flags of 60 to 80 mm where vehicles overrun",
);

/// How much is set aside on a construction cost.
pub(crate) const CONTINGENCIES: Source = Source::read(
    "Construction cost consultants' pages on contingency (four)",
    "5 to 10 % of the construction cost",
);

/// What a truck brings.
pub(crate) const TRUCKS: Source = Source::read(
    "US reference pages on loads of bulk material",
    "small trucks 5 cu yd, usual ones 10, large ones 18; to 20 tons",
);
