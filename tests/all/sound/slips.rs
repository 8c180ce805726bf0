//! Slips of the pen, each with all that it draws: what comes of a line that
//! could not be read is no fault of another.

use super::{Mistaken, check_mistakes};

const PATIO: &str = "sandstone-on-mortar";

const MISTAKES: &[Mistaken] = &[
    // No level, or one without its place.
    (
        PATIO,
        "level        -170 mm at north",
        "level        -20 mm",
        &["error entry-missing"],
    ),
    (
        PATIO,
        "  level        -170 mm at north\n",
        "",
        &["warning level-missing"],
    ),
    // What could not be made out of a mix may be its cement.
    (
        PATIO,
        "parts        1 portland-cement : 5 sharp-sand",
        "parts        5 sharp-sand to 1 cement",
        &["error word-stray"],
    ),
    // A region that is called otherwise is still that one.
    (
        PATIO,
        "region       uk",
        "region       England",
        &["error word-unknown"],
    ),
    (
        PATIO,
        "region       uk",
        "country      uk",
        &["error word-unknown"],
    ),
    (
        PATIO,
        "job \"Thistle",
        "project \"Thistle",
        &["error word-unknown"],
    ),
    // Parts that are joined otherwise.
    (
        PATIO,
        "1 portland-cement : 5 sharp-sand",
        "1 portland-cement to 5 sharp-sand",
        &["error word-stray"],
    ),
    (
        PATIO,
        "1 portland-cement : 5 sharp-sand",
        "1 portland-cement, 5 sharp-sand",
        &["warning comma-stray"],
    ),
    // A name with other capitals is the spec's own.
    (
        PATIO,
        "bed          bed-mix,",
        "bed          Bed-Mix,",
        &["error name-unknown"],
    ),
    // A line that cannot be read uses what it may.
    (
        PATIO,
        "bed          bed-mix, 40 mm",
        "bedd-ing     bed-mix, 40 mm",
        &["error word-unknown"],
    ),
    (
        PATIO,
        "waste 10 %\n  bond",
        "wastage 10 %\n  bond",
        &["error word-unknown"],
    ),
    (
        PATIO,
        "beyond 100 mm",
        "overdig 100 mm",
        &["error word-unknown"],
    ),
    // A section's word that is a key here.
    (
        PATIO,
        "  for          foot",
        "  use          foot",
        &["error word-unknown"],
    ),
    (
        PATIO,
        "  water        to",
        "  drain        to",
        &["error word-unknown"],
    ),
    (
        PATIO,
        "  for          bed",
        "  use          bed",
        &["error word-unknown"],
    ),
    // An edge of no name, in three lines.
    (
        "irregular-flagstone",
        ", named wall",
        "",
        &["error name-unknown"],
    ),
    // A drain by what it is.
    (
        "drive-to-soakaway",
        "drain lawn-pipe",
        "pipe lawn-pipe",
        &["error word-unknown"],
    ),
    (
        "drive-to-soakaway",
        "invert       -1040 mm",
        "invert       1040 mm",
        &["warning cover-thin"],
    ),
    (
        "drive-to-soakaway",
        "fabric       geotextile,",
        "terram       geotextile,",
        &["error word-unknown"],
    ),
];

#[test]
fn slips_draw_what_they_declare() {
    check_mistakes(MISTAKES);
}
