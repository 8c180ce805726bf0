//! Words with a meaning of their own, which no let, material or mix may bear.

use crate::units::find_unit;

/// The small words that join values and clauses.
pub const SMALL_WORDS: &[&str] = &[
    "per", "over", "by", "at", "to", "toward", "from", "away", "of", "with", "and", "in", "named",
    "along", "free",
];

/// All edges that meet nothing, after `along`: no edge and no shape, whose
/// name would stand for its edges, is called so.
pub const FREE: &str = "free";

/// Words for all edges of a shape, where none of them is called so.
pub const ALL_EDGES: &[&str] = &[
    FREE,
    "all",
    "edges",
    "sides",
    "rim",
    "perimeter",
    "outside",
    "round",
    "around",
];

/// The directions of the plan, with their bearings in degrees clockwise from
/// the plan's north (the y axis).
pub const DIRECTIONS: &[(&str, f64)] = &[
    ("north", 0.0),
    ("east", 90.0),
    ("south", 180.0),
    ("west", 270.0),
];

/// The compass word nearest to a bearing in degrees: `north`, `south-west`.
pub fn compass_word(bearing: f64) -> &'static str {
    const WINDS: [&str; 8] = [
        "north",
        "north-east",
        "east",
        "south-east",
        "south",
        "south-west",
        "west",
        "north-west",
    ];
    let eighth = (bearing / 45.0).round().rem_euclid(8.0) as usize;
    WINDS.get(eighth).copied().unwrap_or("north")
}

/// The functions that an expression may call, with what each gives.
pub const FUNCTIONS: &[(&str, &str, &str)] = &[
    ("area", "area(SHAPE)", "The area of a shape."),
    (
        "perimeter",
        "perimeter(SHAPE)",
        "The length of all edges of a shape, its holes' edges too.",
    ),
    (
        "length",
        "length(SHAPE.EDGE)",
        "The length of an edge of a shape.",
    ),
    (
        "level",
        "level(SURFACE, POINT)",
        "The finished level of a surface at a point.",
    ),
    ("min", "min(A, B, …)", "The least of its values."),
    ("max", "max(A, B, …)", "The greatest of its values."),
    (
        "round-up",
        "round-up(VALUE, STEP)",
        "The value rounded up to whole steps.",
    ),
];

/// The column at which a value stands, counted from 0, where its key leaves
/// room: `fmt` lays entries out so, and fixes write them so.
pub const VALUE_COLUMN: usize = 16;

/// An entry as `fmt` lays it out, without its indent.
pub fn entry(key: &str, value: &str) -> String {
    // An indent of two, and a blank before the value at the least.
    let width = VALUE_COLUMN - 3;
    format!("{key:<width$} {value}")
}

/// Why a let, material or mix may not bear this name: `a unit`, `a
/// direction`, `a function` or `a small word`; `None` if it may.
pub fn is_reserved(name: &str) -> Option<&'static str> {
    if find_unit(name).is_some() {
        Some("a unit")
    } else if DIRECTIONS.iter().any(|(word, _)| *word == name) {
        Some("a direction")
    } else if FUNCTIONS.iter().any(|(word, _, _)| *word == name) {
        Some("a function")
    } else if SMALL_WORDS.contains(&name) {
        Some("a small word")
    } else {
        None
    }
}
