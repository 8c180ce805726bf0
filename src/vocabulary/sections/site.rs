//! `site`: the ground, the water and the building that the job meets.

use super::{SectionKind, clause, once, usual};

pub(crate) static SITE: SectionKind = SectionKind {
    word: "site",
    heading: "",
    clauses: &[],
    defines: None,
    keys: &[
        once(
            "soil",
            "SOIL:soil",
            "The ground that the job stands on.",
            "soil clay, wet",
        )
        .clauses(&[
            clause("firm", "It bears without giving."),
            clause("soft", "It gives underfoot."),
            clause("wet", "Water stands in it for part of the year."),
            clause("expansive", "It swells and shrinks with the seasons."),
            clause("tilled", "It has been dug over as a garden."),
            clause("compacted", "It is compacted before anything goes on it."),
        ]),
        once(
            "frost",
            "DEPTH:length",
            "How deep the ground freezes; 0 where it does not.",
            "frost 20 in",
        ).twin("frost 450 mm").usual(&[usual::between("DEPTH", 0.01, 5.0)]),
        once(
            "swell",
            "SHARE:share",
            "How much dug ground swells; the soil's usual figure if it is left out.",
            "swell 30 %",
        ).usual(&[usual::between("SHARE", 0.001, 1.0)]),
        once(
            "datum",
            "WHAT:text",
            "What level 0 is; every level of the spec is counted from it.",
            "datum \"garden-door sill\"",
        ),
        once(
            "floor",
            "LEVEL:length [ SENSE:sense datum ]",
            "The level of the finished floor inside; 0 if the datum is called after the floor, a sill or a door.",
            "floor 2 in",
        ).twin("floor 50 mm").usual(&[usual::level("LEVEL")]),
        once(
            "damp-course",
            "LEVEL:length [ SENSE:sense datum ]",
            "The level of the building's damp course; 0 if the datum is called after it.",
            "damp-course -50 mm",
        ).twin("damp-course -2 in").usual(&[usual::level("LEVEL")]),
        once(
            "foundation",
            "LEVEL:length [ SENSE:sense datum ]",
            "The level of the top of the foundation.",
            "foundation -4 in",
        ).twin("foundation -100 mm").usual(&[usual::level("LEVEL")]),
        once(
            "vents",
            "LEVEL:length [ SENSE:sense datum ]",
            "The level of the lower edge of the vents under the floor.",
            "vents -100 mm",
        ).twin("vents -4 in").usual(&[usual::level("LEVEL")]),
        once(
            "weep-holes",
            "LEVEL:length [ SENSE:sense datum ]",
            "The level of the weep holes in the wall.",
            "weep-holes -75 mm",
        ).twin("weep-holes -3 in").usual(&[usual::level("LEVEL")]),
        once(
            "walls",
            "WALLS:walls",
            "What the walls of the building are; masonry-veneer is a skin of brick or stone before a frame.",
            "walls masonry-veneer",
        ),
        once(
            "cladding",
            "LEVEL:length [ SENSE:sense datum ]",
            "The level of the lower edge of wood cladding.",
            "cladding -3 in",
        ).twin("cladding -75 mm").usual(&[usual::level("LEVEL")]),
        once(
            "ground",
            "LEVEL:length [ SENSE:sense datum ] [ at PLACE:point ]",
            "The level of the ground as it is; three points make a sloping plane.",
            "ground -4 in",
        ).twin("ground -100 mm").usual(&[usual::level("LEVEL"), usual::between("SLOPE", 1e-4, 1.0)])
        .repeats()
        .clauses(&[clause(
            "falling SLOPE:slope toward HEADING:direction",
            "Which way the ground falls, and how steeply.",
        )]),
        once(
            "storm",
            "( DEPTH:length in DURATION:time | RAIN:rainfall [ for DURATION:time ] )",
            "The rain that the drains are made for: how hard, and for how long; a line for each duration.",
            "storm 75 mm/h for 5 min",
        ).twin("storm 3 in/h for 5 min").usual(&[usual::between("DEPTH", 0.001, 2.0), usual::between("DURATION", 60.0, 30.0 * 86400.0), usual::between("RAIN", 0.001 / 3600.0, 2.0 / 3600.0), usual::between("SHARE", 0.001, 1.0)])
        .repeats()
        .clauses(&[clause(
            "raised SHARE:share",
            "How much more is reckoned with, for a changing climate.",
        )]),
        once(
            "infiltration",
            "RATE:infiltration",
            "How fast the ground takes water, as depth over time, or as time over depth the way a percolation test gives it: `30 min/in`.",
            "infiltration 12 mm/h",
        ).twin("infiltration 1/2 in/h").usual(&[usual::between("RATE", 1e-6 / 3600.0, 3.0 / 3600.0)]),
        once(
            "soakaway",
            "AT:point",
            "Where rain water is led into the ground.",
            "soakaway (14', -30')",
        ).twin("soakaway (4 m, -9 m)")
        .repeats(),
        once(
            "tree",
            "TRUNK:length at AT:point",
            "A tree near the work: how wide its trunk is, and where it stands.",
            "tree 16 in at (20', -12')",
        ).twin("tree 400 mm at (6 m, -3.6 m)").usual(&[usual::between("TRUNK", 0.02, 5.0)])
        .repeats(),
        once(
            "north",
            "ANGLE:angle",
            "The bearing of true north on the plan, clockwise from the plan's north.",
            "north 35°",
        ).usual(&[usual::turn("ANGLE")]),
        once(
            "access",
            "WIDTH:length",
            "The narrowest place on the way to the work.",
            "access 3 ft",
        ).twin("access 900 mm").usual(&[usual::between("WIDTH", 0.3, 30.0)]),
        once(
            "services",
            "located DATE:date",
            "When buried services were located.",
            "services located 2027-04-02",
        ),
        once(
            "note",
            "NOTE:text",
            "A note about the site.",
            "note \"old well near the fence\"",
        )
        .repeats(),
        super::ACCEPT_ENTRY,
    ],
    help: "The site: its soil, its levels, its water.",
    example: "site\n  soil         clay\n  datum        \"garden-door sill\"\n  ground       -4 in\n",
};
