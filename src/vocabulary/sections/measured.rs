//! `measured`: what was measured on the ground.

use super::{SectionKind, clause, once, usual};

pub(crate) static MEASURED: SectionKind = SectionKind {
    word: "measured",
    heading: "WHAT:text",
    clauses: &[],
    defines: None,
    keys: &[
        once(
            "of",
            "SURFACE:surface",
            "The surface that was measured: its finish, unless a layer is named.",
            "of court, base",
        )
        .required()
        .clauses(&[clause(
            "TOP:top",
            "The layer whose top was measured, or the bottom of the dig.",
        )]),
        once("on", "DATE:date", "The day of the readings.", "on 2027-05-06"),
        once(
            "datum-reading",
            "READING:length",
            "What the staff reads at level 0, or on a point of known level; the readings below it count from there.",
            "datum-reading 1.105 m",
        ).twin("datum-reading 3.62'").usual(&[usual::between("READING", 0.005, 10.0), usual::level("LEVEL")])
        .clauses(&[clause(
            "LEVEL:length [ SENSE:sense datum ]",
            "The level of the point that it stands on; 0 if left out.",
        )])
        .repeats(),
        once(
            "reading",
            "READING:length at POINT:point",
            "What the staff reads at a point.",
            "reading 1.342 m at (2 m, -1 m)",
        ).twin("reading 4.40' at (6', -3')").usual(&[usual::between("READING", 0.005, 10.0)])
        .repeats(),
        once(
            "below-string",
            "DEPTH:length at POINT:point",
            "How far below the string line a point lies, by the tape.",
            "below-string 321 mm at (2 m, -1 m)",
        ).twin("below-string 12 5/8 in at (6', -3')").usual(&[usual::between("DEPTH", 0.001, 5.0)])
        .repeats(),
        once(
            "level",
            "LEVEL:length [ SENSE:sense datum ] at POINT:point",
            "The level of a point against the datum.",
            "level -6 1/8 in at (0, 0)",
        ).twin("level -155 mm at (0, 0)").usual(&[usual::level("LEVEL")])
        .repeats(),
        once(
            "note",
            "NOTE:text",
            "A note on the readings.",
            "note \"after the second lift\"",
        )
        .repeats(),
        super::ACCEPT_ENTRY,
    ],
    help: "Levels as built, beside those designed.",
    example: "measured \"base of the court\"\n  of           court, base\n  on           2027-05-06\n  level        -6 1/8 in at (0, 0)\n",
};
