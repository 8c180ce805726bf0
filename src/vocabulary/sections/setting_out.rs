//! `setting-out`: how the job is pegged out on the ground.

use super::{SectionKind, once, usual};

pub(crate) static SETTING_OUT: SectionKind = SectionKind {
    word: "setting-out",
    heading: "",
    clauses: &[],
    defines: None,
    keys: &[
        once(
            "from",
            "FIRST:point and SECOND:point",
            "Two marks that stay, which every peg is taped from; the ends of the building edge if left out.",
            "from (0, 0) and (24', 0)",
        ).twin("from (0, 0) and (7.2 m, 0)"),
        once(
            "pegs",
            "every SPACING:length along EDGE:surface-edge { and EDGE:surface-edge }",
            "More pegs along an edge, in equal parts of at most so much.",
            "pegs every 4' along court.wall",
        ).twin("pegs every 1.2 m along court.wall")
        .usual(&[usual::between("SPACING", 0.1, 100.0)])
        .repeats(),
        once(
            "clear",
            "CLEAR:length",
            "How far beyond the dig the pegs stand: two a corner, each on the line of one edge.",
            "clear 2'",
        ).twin("clear 600 mm")
        .usual(&[usual::between("CLEAR", 0.05, 20.0)]),
        once(
            "string",
            "HEIGHT:length above",
            "How far the string lines run above the finished surface; at it if left out.",
            "string 6 in above",
        ).twin("string 150 mm above")
        .usual(&[usual::between("HEIGHT", 0.01, 3.0)]),
        once(
            "board",
            "LENGTH:length",
            "The straight board under the level, for the mark below its low end.",
            "board 8'",
        ).twin("board 2.4 m")
        .usual(&[usual::between("LENGTH", 0.3, 10.0)]),
        once(
            "levels",
            "every SPACING:length",
            "A grid of levels over each surface, counted from the first mark.",
            "levels every 5'",
        ).twin("levels every 1.5 m")
        .usual(&[usual::between("SPACING", 0.1, 100.0)]),
        once(
            "note",
            "NOTE:text",
            "A note for whoever sets out.",
            "note \"screw in the door frame is mark A\"",
        )
        .repeats(),
        super::ACCEPT_ENTRY,
    ],
    help: "How the job is pegged out: the marks, the pegs, the string lines and the board.",
    example: "setting-out\n  from         (0, 0) and (24', 0)\n  string       6 in above\n  board        8'\n",
};
