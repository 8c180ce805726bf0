//! `surface`: what gets built where.

use super::{NameSpace, SectionKind, clause, once, usual};

pub(crate) static SURFACE: SectionKind = SectionKind {
    word: "surface",
    heading: "NAME:name",
    clauses: &[],
    defines: Some(NameSpace::Surfaces),
    keys: &[
        once("shape", "SHAPE:shape", "The outline that it covers.", "shape court").usual(&[usual::between("COUNT", 1.0, 1e5), usual::between("SPACING", 0.02, 200.0)])
            .required()
            .clauses(&[
                clause(
                    "COUNT:count in all",
                    "So many of the outline on one plane, the one that is drawn counted.",
                ),
                clause(
                    "every SPACING:length between centres",
                    "How far apart the centres of one and the next lie.",
                ),
                clause("toward HEADING:heading", "Which way they follow one another."),
                clause(
                    "along PATH:shape",
                    "The path that they follow, from the one that is drawn on, each turned as it turns.",
                ),
            ]),
        once(
            "for",
            "USE:use",
            "What it is used for; foot traffic if it is left out.",
            "for foot, seating",
        )
        .clauses(&[
            clause("seating", "Tables and chairs stand on it."),
            clause("accessible", "It is part of an accessible route or place."),
            clause("front", "It lies in front of the building, toward the street."),
            clause("exit", "A door that people escape by opens on it."),
            clause("covered", "A roof keeps the rain off."),
        ]),
        once(
            "meets",
            "EDGE:edge { and EDGE:edge }",
            "The edges that stand against the building.",
            "meets wall and garage",
        )
        .repeats(),
        once(
            "door",
            "at PLACE:place",
            "A door that opens on it, at an edge or a point.",
            "door at (8', 0), slides",
        ).twin("door at (2.4 m, 0), slides")
        .repeats()
        .clauses(&[
            clause("slides", "It slides, and does not swing over the paving."),
            clause("swings WAY:swing", "Which way it swings: into the building, or out over the paving."),
        ]),
        once(
            "handrail",
            "SIDE:handrail [ ( sides | side ) ]",
            "Where a ramp has a handrail; left and right as one goes up.",
            "handrail both sides",
        ),
        once(
            "level",
            "LEVEL:length [ SENSE:sense datum ] [ at PLACE:place ]",
            "The finished level against the datum, at an edge or a point.",
            "level -6 in at wall",
        ).twin("level -150 mm at wall").usual(&[usual::level("LEVEL")])
        .repeats(),
        once(
            "fall",
            "( SLOPE:slope ( away from EDGE:edge | toward HEADING:heading ) | to PIT:drain )",
            "How steeply the finished surface falls, and which way; or from all of its edges to a drain in it.",
            "fall 1:60 away from wall",
        ).usual(&[usual::fall("SLOPE"), usual::fall("LEAST")])
        .clauses(&[
            clause(
                "cross SLOPE:slope toward HEADING:heading",
                "A second fall, added to the first as a vector.",
            ).beside(&["away", "toward"]),
            clause(
                "at least LEAST:slope",
                "How steeply it falls to the drain from the edge that lies farthest; from nearer ones it is steeper.",
            ).beside(&["to"]),
        ]),
        once("build", "BUILD:build", "What it is made of.", "build mortar-set"),
        once(
            "laid",
            "PATTERN:pattern",
            "How the units are laid.",
            "laid irregular, stones about 16 in",
        ).twin("laid irregular, stones about 400 mm").usual(&[usual::side("SIZE"), usual::side("LEAST"), usual::side("MOST"), usual::side("LENGTH"), usual::side("WIDTH"), usual::side("WIDE"), usual::share("SHARE"), usual::turn("ANGLE")])
        .clauses(&[
            clause("stones about SIZE:length", "The side of a square of the average stone's area.").beside(&["irregular"]),
            clause("stones LEAST:length to MOST:length", "The least and the greatest size of stone.").beside(&["irregular"]),
            clause(
                "units ( LENGTH:length by WIDTH:length [ of SHARE:share ] { and LENGTH:length by WIDTH:length of SHARE:share } | WIDE:length wide )",
                "The size of a unit; of ashlar each size with its share of the area, of courses how wide they are.",
            ),
            clause("centre POINT:point", "The middle of the rings.").beside(&["rings"]),
            clause("angle ANGLE:angle", "How far the pattern is turned."),
            clause("along EDGE:edge", "The edge that the long joints run along."),
            clause(
                "offset SHARE:number",
                "How far each row of running bond is moved on from the one before, as a part of a unit; half if left out.",
            ).beside(&["running-bond"]),
            clause(
                "from START:point",
                "A corner of a unit, from which the units go on along the edge and inward: with it they are counted whole and cut.",
            ).beside(&["running-bond", "stack-bond", "herringbone", "basket-weave"]),
        ]),
        once(
            "border",
            "MATERIAL:material",
            "Courses along edges, inside the outline; what is left is the field. The outermost is written first.",
            "border clay-paver, soldier, units 200 mm by 100 mm, along free",
        ).twin("border clay-paver, soldier, units 8 in by 4 in, along free").usual(&[usual::between("COUNT", 1.0, 50.0), usual::side("LENGTH"), usual::side("WIDTH"), usual::joint("JOINT"), usual::WASTE])
        .repeats()
        .clauses(&[
            clause("soldier", "The long side of each unit lies across the edge."),
            clause("stretcher", "The long side of each unit lies along the edge, as it does if nothing is said."),
            clause("mitred", "The units of both edges are cut to the line that halves a corner; else those of the earlier edge run through."),
            clause("COUNT:count courses", "How many courses lie side by side; one if left out."),
            clause("units LENGTH:length by WIDTH:length", "The size of a unit; the material's if left out."),
            clause(
                "along ( free [ except EXCEPT:edge { and EXCEPT:edge } ] | EDGE:edge { and EDGE:edge } )",
                "Which edges it runs along: the free ones, or those named.",
            ),
            clause(
                "on BUILD:build",
                "What it stands on, if not on what the field does: the build whose paving layer it is, its top flush with the field.",
            ),
            clause(
                "joint JOINT:length [ at the SIDE:border-side edge ]",
                "The joint between its units; the surface's if left out. On a curve it is that at the tighter side of a course, or at the side that is named.",
            ),
            clause("waste SHARE:share", "The share of its units that is wasted; the material's if left out."),
        ]),
        once(
            "joint",
            "WIDTH:length",
            "The joint between units, as laid.",
            "joint 1/2 in, depth 1 1/2 in, filled with joint-mix",
        ).twin("joint 10 mm, depth 40 mm, filled with joint-mix").usual(&[usual::joint("WIDTH"), usual::between("DEPTH", 0.002, 1.0)])
        .clauses(&[
            clause("depth DEPTH:length", "How deep it is filled; the unit's thickness if left out."),
            clause("filled with FILLING:substance", "What it is filled with."),
        ]),
        once(
            "edging",
            "( in place | MATERIAL:material )",
            "What holds the edges: a material, or something in place that stays.",
            "edging steel-edge, along free",
        ).usual(&[usual::between("DEPTH", 0.02, 0.6), usual::between("WIDTH", 0.02, 1.0), usual::between("DOWN", 0.002, 1.0), usual::between("HEIGHT", 0.002, 2.0), usual::WASTE])
        .repeats()
        .clauses(&[
            clause(
                "along ( free [ except EXCEPT:edge { and EXCEPT:edge } ] | EDGE:edge { and EDGE:edge } )",
                "Which edges it runs along: the free ones, or those named.",
            ),
            clause(
                "on MIX:substance DEPTH:length",
                "The concrete that it stands on, as wide as the unit and its haunch.",
            ).apart(&["place"]),
            clause(
                "haunched WIDTH:length [ wide ] to DOWN:length below the top",
                "The concrete against its outer side, and how far below the top that ends.",
            ).apart(&["place"]),
            clause("flush", "Its top is level with the paving, as it is if nothing is said."),
            clause(
                "HEIGHT:length above",
                "How far it stands above the paving, so that water stops at it; flush if left out.",
            ),
            clause("waste SHARE:share", "The share of it that is wasted; the material's if left out."),
        ]),
        once(
            "isolation-joint",
            "WIDTH:length",
            "The compressible joint against the building.",
            "isolation-joint 1/2 in",
        ).twin("isolation-joint 12 mm").usual(&[usual::joint("WIDTH")]),
        once(
            "movement-joints",
            "every SPACING:length",
            "How far apart movement joints are.",
            "movement-joints every 10'",
        ).twin("movement-joints every 3 m").usual(&[usual::between("SPACING", 0.0, 50.0)]),
        once(
            "weeps",
            "every SPACING:length",
            "How far apart the ways out for bed water are.",
            "weeps every 2'",
        ).twin("weeps every 600 mm").usual(&[usual::between("SPACING", 0.0, 20.0)]),
        once(
            "channel",
            "along EDGE:edge { and EDGE:edge }",
            "The edges with a drain channel along them, which takes the water that comes there.",
            "channel along wall",
        )
        .repeats(),
        once(
            "guard",
            "along ( free | EDGE:edge { and EDGE:edge } )",
            "The edges along which a guard or wall stops people from falling.",
            "guard along free",
        )
        .repeats(),
        once(
            "water",
            "to ( DRAIN:drain | WHERE:text )",
            "Where the water that leaves it goes: a drain by its name, or anything else in quotes.",
            "water to \"lawn\"",
        ),
        once(
            "runoff",
            "SHARE:share",
            "The share of the rain that runs off it; what is usual for its paving if it is left out.",
            "runoff 90 %",
        ).usual(&[usual::between("SHARE", 0.01, 1.0)]),
        once("note", "NOTE:text", "A note about the surface.", "note \"level with the step\"")
            .repeats(),
        super::ACCEPT_ENTRY,
    ],
    help: "What gets built on a shape: its levels, its fall, its build, its joints and edges.",
    example: "surface court\n  shape        court\n  meets        wall\n  level        -6 in at wall\n  fall         1:60 away from wall\n  build        sand-set\n",
};
