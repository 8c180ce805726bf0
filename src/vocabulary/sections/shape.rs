//! `shape`: an outline on the plan.

use super::{Clause, Key, NameSpace, SectionKind, Usual, clause, once, usual};

const NAMED: Clause = clause("named NAME:name", "Names the edge that this step makes.");
const CORNER: Clause = clause(
    "corner RADIUS:length",
    "Rounds the corner at the end of this step.",
);
const CHAMFER: Clause = clause(
    "chamfer CUT:length",
    "Cuts the corner at the end of this step, so much off each leg.",
);
/// What ends a path or gives an outline without one.
const ENDS: &[&str] = &["close", "rectangle", "circle", "polygon", "inset", "outset"];

/// All that an outline is made by: one way leaves no room for another.
const OUTLINES: &[&str] = &[
    "start",
    "north",
    "east",
    "south",
    "west",
    "bearing",
    "to",
    "curve",
    "close",
    "width",
    "rectangle",
    "circle",
    "polygon",
    "inset",
    "outset",
];

const STEP_USUAL: &[Usual] = &[
    usual::between("LENGTH", 0.01, 2000.0),
    usual::between("RADIUS", 0.002, 500.0),
    usual::between("CUT", 0.002, 500.0),
];

const STEP_CLAUSES: &[Clause] = &[NAMED, CORNER, CHAMFER];

const fn step(word: &'static str, help: &'static str, example: &'static str) -> Key {
    once(word, "LENGTH:length", help, example)
        .repeats()
        .apart(ENDS)
        .clauses(STEP_CLAUSES)
        .usual(STEP_USUAL)
}

pub(crate) static SHAPE: SectionKind = SectionKind {
    word: "shape",
    heading: "NAME:name",
    clauses: &[],
    defines: Some(NameSpace::Shapes),
    keys: &[
        once(
            "start",
            "POINT:point",
            "Where the path begins: east, then north.",
            "start (0, 0)",
        )
        .apart(ENDS),
        step("north", "A straight step to the plan's north.", "north 12'").twin("north 3.6 m"),
        step("east", "A straight step to the plan's east.", "east 24', named wall").twin("east 7.2 m, named wall"),
        step("south", "A straight step to the plan's south.", "south 12', corner 3'").twin("south 3.6 m, corner 1 m"),
        step("west", "A straight step to the plan's west.", "west 24'").twin("west 7.2 m"),
        once(
            "bearing",
            "ANGLE:angle",
            "A straight step on a bearing, clockwise from the plan's north.",
            "bearing 35°, 12'",
        ).twin("bearing 35°, 3.6 m").usual(&[usual::turn("ANGLE"), usual::between("LENGTH", 0.01, 2000.0), usual::between("RADIUS", 0.002, 500.0), usual::between("CUT", 0.002, 500.0)])
        .repeats()
        .apart(ENDS)
        .clauses(&[
            clause("LENGTH:length", "How long the step is."),
            NAMED,
            CORNER,
            CHAMFER,
        ]),
        once(
            "to",
            "POINT:point",
            "A straight step to a point.",
            "to (24', -12')",
        ).twin("to (7.2 m, -3.6 m)").usual(&[usual::between("RADIUS", 0.002, 500.0), usual::between("CUT", 0.002, 500.0)])
        .repeats()
        .apart(ENDS)
        .clauses(STEP_CLAUSES),
        once(
            "curve",
            "to POINT:point",
            "An arc to a point, bulging outward: by its radius, its height over the chord, or a point that it passes.",
            "curve to (0, -12'), radius 9'",
        ).twin("curve to (0, -3.6 m), radius 3 m").usual(&[usual::between("RADIUS", 0.005, 5000.0), usual::between("HEIGHT", 0.001, 500.0), usual::between("CUT", 0.002, 500.0)])
        .repeats()
        .apart(ENDS)
        .clauses(&[
            clause("radius RADIUS:length", "The arc's radius."),
            clause("height HEIGHT:length", "The arc's height over its chord."),
            clause("through POINT:point", "A point that the arc passes."),
            clause("long", "The longer way round."),
            clause("inward", "Bulging into the shape."),
            clause("turning TURN:turn", "Which way it turns as one walks along it."),
            NAMED,
            CORNER,
            CHAMFER,
        ]),
        once(
            "close",
            "",
            "Straight back to the start.",
            "close",
        ).usual(&[usual::between("RADIUS", 0.002, 500.0), usual::between("CUT", 0.002, 500.0)])
        .apart(&["width", "rectangle", "circle", "polygon", "inset", "outset"])
        .clauses(STEP_CLAUSES),
        once(
            "width",
            "WIDTH:length",
            "Makes the path a strip so wide, in place of `close`; its edges are left, right, first and last.",
            "width 1.2 m",
        ).twin("width 4'").usual(&[usual::between("WIDTH", 0.05, 100.0)])
        .apart(ENDS)
        .clauses(&[
            clause("left", "All of it lies to the left of the path."),
            clause("right", "All of it lies to the right of the path."),
        ]),
        once(
            "rectangle",
            "EAST:length by NORTH:length",
            "A rectangle; its edges are north, east, south and west.",
            "rectangle 24' by 12', at (0, -12')",
        ).twin("rectangle 7.2 m by 3.6 m, at (0, -3.6 m)").usual(&[usual::between("EAST", 0.01, 2000.0), usual::between("NORTH", 0.01, 2000.0), usual::between("RADIUS", 0.002, 500.0), usual::turn("ANGLE")])
        .apart(OUTLINES)
        .clauses(&[
            clause("at POINT:point", "Its south-west corner; (0, 0) if left out."),
            clause("corners RADIUS:length", "Rounds all four corners."),
            clause("turned ANGLE:angle", "Turns it clockwise about its south-west corner."),
        ]),
        once(
            "circle",
            "( radius RADIUS:length | across DIAMETER:length )",
            "A circle; its edge is rim.",
            "circle radius 8', centre (14', -12')",
        ).twin("circle radius 2.4 m, centre (4 m, -3.6 m)").usual(&[usual::between("RADIUS", 0.02, 500.0), usual::between("DIAMETER", 0.02, 1000.0)])
        .apart(OUTLINES)
        .clauses(&[clause("centre POINT:point", "Its centre; (0, 0) if left out.")]),
        once(
            "polygon",
            "POINT:point { POINT:point }",
            "Straight from point to point and back to the first.",
            "polygon (0, 0) (24', 0) (24', -12')",
        ).twin("polygon (0, 0) (7.2 m, 0) (7.2 m, -3.6 m)")
        .apart(OUTLINES),
        once(
            "inset",
            "SHAPE:shape",
            "Another shape moved in.",
            "inset patio, 8 in",
        ).twin("inset patio, 200 mm").usual(&[usual::between("DISTANCE", 0.001, 100.0)])
        .apart(OUTLINES)
        .clauses(&[clause("DISTANCE:length", "How far.")]),
        once(
            "outset",
            "SHAPE:shape",
            "Another shape moved out.",
            "outset floor, 5'",
        ).twin("outset floor, 1.5 m").usual(&[usual::between("DISTANCE", 0.001, 100.0)])
        .apart(OUTLINES)
        .clauses(&[clause("DISTANCE:length", "How far.")]),
        once(
            "edge",
            "NAME:name from START:point to END:point",
            "Names, or renames, the edge between two points of the outline.",
            "edge wall from (0, 0) to (24', 0)",
        ).twin("edge wall from (0, 0) to (7.2 m, 0)")
        .repeats(),
        once(
            "add",
            "SHAPE:shape",
            "Joins another shape to it.",
            "add bay",
        )
        .repeats(),
        once(
            "cut",
            "SHAPE:shape",
            "Takes another shape out of it.",
            "cut tree-pit",
        )
        .repeats(),
        super::ACCEPT_ENTRY,
    ],
    help: "An outline on the plan: a path, a rectangle, a circle, a polygon, or another shape moved in or out.",
    example: "shape court\n  start        (0, 0)\n  east         24', named wall\n  south        12'\n  west         24'\n  close\n",
};
