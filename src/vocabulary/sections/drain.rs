//! `drain`: what takes water away, one thing a section.

use super::{NameSpace, SectionKind, clause, once, usual};

/// The edges that a channel or a trench runs along.
const ALONG: super::Clause = clause(
    "along EDGE:surface-edge { and EDGE:surface-edge }",
    "The edges that it runs along, each with its surface.",
);

/// From where to where it runs.
const FROM_TO: super::Clause = clause(
    "from FROM:point to TO:point",
    "Where it begins and where it ends, the way the water runs.",
);

pub(crate) static DRAIN: SectionKind = SectionKind {
    word: "drain",
    heading: "NAME:name",
    clauses: &[],
    defines: Some(NameSpace::Drains),
    keys: &[
        once("existing", "", "It is there already: nothing is dug or ordered for it.", "existing"),
        once(
            "channel",
            "BODY:material",
            "A drain channel with a grating, inside the edge that it runs along.",
            "channel polymer-channel, 100 mm by 80 mm clear, along court.wall",
        ).twin("channel polymer-channel, 4 in by 3 in clear, along court.wall").usual(&[usual::between("CLEAR_WIDTH", 0.012, 2.0), usual::between("CLEAR_DEPTH", 0.012, 2.0), usual::between("OVER_ALL", 0.02, 2.5)])
        .apart(&["gully", "pipe", "trench", "soakaway"])
        .clauses(&[
            clause(
                "CLEAR_WIDTH:length by CLEAR_DEPTH:length clear",
                "How wide it is inside, and how deep below the grating at its head.",
            ),
            clause("OVER_ALL:length over all", "How wide it is outside, with its walls."),
            ALONG,
            FROM_TO,
            clause("at door", "It keeps water from a door, whether or not any falls towards it."),
        ]),
        once(
            "gully",
            "( at AT:point | BODY:material )",
            "A gully: a pot with a grating that takes what runs to it.",
            "gully clay-gully, at (3 m, -2 m), 300 mm wide",
        ).twin("gully clay-gully, at (10', -6'), 12 in wide").usual(&[usual::between("WIDE", 0.05, 2.0)])
        .apart(&["channel", "pipe", "trench", "soakaway"])
        .clauses(&[
            clause("at AT:point", "Where its middle lies."),
            clause("WIDE:length wide", "How wide it is."),
        ]),
        once(
            "pipe",
            "BODY:material",
            "A pipe; in a trench, the pipe that lies in its stone.",
            "pipe plastic-pipe, 110 mm, bore 103 mm, from (3 m, -2 m) to (9 m, -4 m)",
        ).twin("pipe plastic-pipe, 4 1/2 in, bore 4 in, from (10', -6') to (30', -12')").usual(&[usual::between("SIZE", 0.012, 2.0), usual::between("BORE", 0.012, 2.0)])
        .apart(&["channel", "gully", "soakaway"])
        .clauses(&[
            clause("SIZE:length", "How wide it is outside."),
            clause("bore BORE:length", "How wide it is inside; the outside if it is left out."),
            FROM_TO,
        ]),
        once(
            "trench",
            "WIDE:length wide",
            "A trench filled with stone, outside the edge that it runs along.",
            "trench 300 mm wide, 600 mm deep, along court.south",
        ).twin("trench 12 in wide, 24 in deep, along court.south").usual(&[usual::between("WIDE", 0.05, 3.0), usual::between("DEEP", 0.05, 5.0)])
        .apart(&["channel", "gully", "soakaway"])
        .clauses(&[
            clause("DEEP:length deep", "How deep its bottom lies below the finish beside it."),
            ALONG,
            FROM_TO,
        ]),
        once(
            "soakaway",
            "( across ACROSS:length | LONG:length by WIDE:length [ by DEEP:length ] )",
            "A pit that lets water into the ground: its size, the depth below its inlet last.",
            "soakaway 1.2 m by 1.2 m by 1 m, centre (9 m, -4 m)",
        ).twin("soakaway 4' by 4' by 3', centre (30', -12')").usual(&[usual::between("ACROSS", 0.2, 30.0), usual::between("LONG", 0.2, 100.0), usual::between("WIDE", 0.2, 100.0), usual::between("DEEP", 0.1, 4.0)])
        .apart(&["channel", "gully", "pipe", "trench"])
        .clauses(&[
            clause("DEEP:length deep", "How deep it is below its inlet."),
            clause("centre AT:point", "Where its middle lies."),
            clause(
                "base counted",
                "Water is reckoned to leave by its base too, which is kept clean of silt.",
            ),
        ]),
        once(
            "bedded",
            "in BEDDING:substance",
            "What a pipe, channel or gully is laid in, and how much of it.",
            "bedded in pea-gravel, 100 mm round",
        ).twin("bedded in pea-gravel, 4 in round").usual(&[usual::between("ROUND", 0.01, 1.0)])
        .clauses(&[clause("ROUND:length round", "How thick it is below and on each side, and over a pipe.")]),
        once(
            "fall",
            "SLOPE:slope [ toward HEADING:direction ]",
            "How steeply its bottom falls; the way the water runs, where its line does not say.",
            "fall 1:80",
        ).usual(&[usual::fall("SLOPE")]),
        once(
            "invert",
            "LEVEL:length [ SENSE:sense datum ] [ at PLACE:point ]",
            "The level of the inside of its bottom, where it begins or at a point of it.",
            "invert -600 mm at (3 m, -2 m)",
        ).twin("invert -24 in at (10', -6')").usual(&[usual::level("LEVEL")])
        .repeats(),
        once(
            "filled",
            "FILLING:substance",
            "What a trench or a soakaway is filled with.",
            "filled open-stone, voids 40 %",
        ).usual(&[usual::between("SHARE", 0.1, 1.0)])
        .clauses(&[clause("voids SHARE:share", "The share of it that water can fill.")]),
        once(
            "wrapped",
            "FABRIC:material",
            "The fabric that keeps soil out of it.",
            "wrapped geotextile",
        ),
        once(
            "to",
            "( DRAIN:drain | WHERE:text )",
            "The drain that it runs into, by name, or in quotes whatever else takes its water.",
            "to rear-soak",
        ),
        once(
            "overflow",
            "to ( DRAIN:drain | WHERE:text )",
            "Where the water goes when it is full.",
            "overflow to \"lawn\"",
        ),
        once(
            "takes",
            "( WHAT:text AREA:area | SURFACE:surface ) { and ( WHAT:text AREA:area | SURFACE:surface ) }",
            "What drains into it, in place of what the falls give.",
            "takes court and \"roof\" 42 m2, runoff 95 %",
        ).twin("takes court and \"roof\" 450 sq ft, runoff 95 %").usual(&[usual::between("AREA", 0.1, 1e5), usual::between("SHARE", 0.05, 1.0)])
        .repeats()
        .clauses(&[clause(
            "runoff SHARE:share",
            "The share of the rain that runs off what stands in quotes.",
        )]),
        once("note", "NOTE:text", "A note about the drain.", "note \"grating level with the paving\"")
            .repeats(),
        super::ACCEPT_ENTRY,
    ],
    help: "A channel, gully, pipe, trench or soakaway: where it runs, its levels, and what it drains to.",
    example: "drain rear-pipe\n  pipe         plastic-pipe, 110 mm, from (3 m, -2 m) to (9 m, -4 m)\n  fall         1:80\n  invert       -600 mm\n  bedded       in pea-gravel, 100 mm round\n  to           \"storm drain\"\n",
};
