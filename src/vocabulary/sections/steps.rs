//! `steps`: a flight of steps from one level to another.

use super::{NameSpace, SectionKind, clause, once, usual};

const WASTE: super::Clause = clause(
    "waste SHARE:share",
    "What is ordered beyond what lies in place.",
);

pub(crate) static STEPS: SectionKind = SectionKind {
    word: "steps",
    heading: "NAME:name",
    clauses: &[],
    defines: Some(NameSpace::Steps),
    keys: &[
        once(
            "from",
            "( ground | SURFACE:surface | LEVEL:length [ SENSE:sense datum ] )",
            "Where the flight begins at its foot: a surface, the ground, or a level.",
            "from lower-terrace",
        )
        .usual(&[usual::level("LEVEL")])
        .required(),
        once(
            "to",
            "( floor | SURFACE:surface | LEVEL:length [ SENSE:sense datum ] )",
            "Where it ends at its top: a surface, the floor inside, or a level.",
            "to upper-terrace",
        )
        .usual(&[usual::level("LEVEL")])
        .required(),
        once(
            "at",
            "POINT:point",
            "The middle of the line of the top riser, and which way the flight climbs.",
            "at (12', -10'), climbing north",
        )
        .twin("at (3.6 m, -3 m), climbing north")
        .required()
        .clauses(&[clause(
            "climbing WAY:direction",
            "Which way one goes up: a compass word, or `bearing` and an angle.",
        )]),
        once(
            "width",
            "WIDTH:length",
            "How wide the flight is.",
            "width 5'",
        )
        .twin("width 1.5 m")
        .usual(&[usual::between("WIDTH", 0.3, 50.0)])
        .required(),
        once(
            "going",
            "GOING:length",
            "How deep each tread is, from nosing to nosing.",
            "going 14 in",
        )
        .twin("going 350 mm")
        .usual(&[usual::between("GOING", 0.05, 5.0)])
        .required(),
        once(
            "risers",
            "COUNT:count",
            "How many risers there are; left out, the fewest that the limits allow.",
            "risers 3",
        )
        .usual(&[usual::between("COUNT", 1.0, 300.0)]),
        once(
            "tread",
            "MATERIAL:substance",
            "What is trodden on; there is one tread fewer than there are risers.",
            "tread bluestone, 2 in, nosing 1 in, in 2 pieces",
        )
        .twin("tread bluestone, 50 mm, nosing 25 mm, in 2 pieces")
        .usual(&[
            usual::between("THICKNESS", 0.005, 0.6),
            usual::between("OVERHANG", 0.001, 0.3),
            usual::between("COUNT", 1.0, 200.0),
            usual::WASTE,
        ])
        .clauses(&[
            clause("THICKNESS:length", "How thick it is."),
            clause(
                "nosing OVERHANG:length",
                "How far it stands out over the riser under it.",
            ),
            clause("in COUNT:count pieces", "Of how many pieces each tread is."),
            WASTE,
        ]),
        once(
            "bed",
            "MATERIAL:substance",
            "What the treads are bedded in.",
            "bed bed-mix, 3/4 in",
        )
        .twin("bed bed-mix, 20 mm")
        .usual(&[usual::between("THICKNESS", 0.001, 0.3), usual::WASTE])
        .clauses(&[clause("THICKNESS:length", "How thick it is."), WASTE]),
        once(
            "riser",
            "MATERIAL:material",
            "What faces the risers.",
            "riser clay-brick, flat, courses 2 5/8 in",
        )
        .twin("riser clay-brick, flat, courses 75 mm")
        .usual(&[
            usual::between("THICKNESS", 0.005, 0.6),
            usual::between("HEIGHT", 0.02, 0.6),
            usual::WASTE,
        ])
        .clauses(&[
            clause("THICKNESS:length", "How thick the facing is."),
            clause(
                "flat",
                "Bricks lie flat; the facing is as thick as a brick is wide.",
            ),
            clause(
                "courses HEIGHT:length",
                "The height of a course with its joint: a whole number of courses makes a riser.",
            ),
            WASTE,
        ]),
        once(
            "core",
            "MIX:substance",
            "What the flight is made of under its treads.",
            "core slab-mix, down to base",
        )
        .usual(&[usual::WASTE])
        .clauses(&[
            clause(
                "down to base",
                "It reaches down to the top of the steps' own base.",
            ),
            clause("to foot", "It reaches down to the level of the foot."),
            WASTE,
        ]),
        once(
            "base",
            "MATERIAL:substance",
            "The compacted base under the flight.",
            "base crushed-stone, 4 in compacted, beyond 6 in, top 8 in below the foot",
        )
        .twin("base crushed-stone, 100 mm compacted, beyond 150 mm, top 200 mm below the foot")
        .usual(&[
            usual::between("THICKNESS", 0.03, 0.8),
            usual::between("COUNT", 1.0, 50.0),
            usual::between("MARGIN", 0.01, 2.0),
            usual::between("DEPTH", 0.005, 1.5),
            usual::WASTE,
        ])
        .clauses(&[
            clause(
                "THICKNESS:length [ STATE:state ]",
                "How thick it is, as compacted or as spread loose.",
            ),
            clause("lifts COUNT:count", "In how many lifts it is compacted."),
            clause(
                "beyond MARGIN:length",
                "How far it goes past the flight on every side.",
            ),
            clause(
                "top DEPTH:length below the foot",
                "How far its top lies below the level of the foot.",
            ),
            WASTE,
        ]),
        once(
            "fall",
            "SLOPE:slope",
            "How steeply each tread falls to its front, so that it sheds water.",
            "fall 1:60",
        )
        .usual(&[usual::fall("SLOPE")]),
        once(
            "handrail",
            "SIDE:handrail [ ( sides | side ) ]",
            "Where there is a handrail; left and right as one goes up.",
            "handrail both sides",
        ),
        once(
            "note",
            "NOTE:text",
            "A note about the steps.",
            "note \"treads drilled for lifting pins\"",
        )
        .repeats(),
        super::ACCEPT_ENTRY,
    ],
    help: "A flight of steps: where it starts and ends, its treads, risers, core and base.",
    example: "steps garden-steps\n  from         court\n  to           terrace\n  at           (3 m, 0 m), climbing north\n  width        1.2 m\n  going        350 mm\n",
};
