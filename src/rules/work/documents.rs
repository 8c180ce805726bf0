//! Documents on weather, waits and digs, each with how it is known.

use crate::sources::Source;

/// American masonry in the cold.
pub(crate) const MASONRY_COLD: Source = Source::second_hand(
    "TMS 602, as the Mason Contractors Association of America quotes it",
    "cold-weather masonry begins below 40 °F",
);

/// American masonry in the heat.
pub(crate) const MASONRY_HOT: Source = Source::read(
    "TMS 602, as the Mason Contractors Association of America quotes it",
    "hot-weather masonry begins above 100 °F, or 90 °F with wind over 8 mph",
);

/// Building on what is frozen.
pub(crate) const MASONRY_FROZEN: Source = Source::read(
    "Masonry (magazine), 1975",
    "nothing is laid on a frozen, snowy or icy bed",
);

/// British masonry in the cold.
pub(crate) const UK_MASONRY_COLD: Source =
    Source::memory("BS 8000-3", "no masonry in falling temperatures below 3 °C");

/// Lime mortar in the cold.
pub(crate) const LIME_COLD: Source = Source::memory(
    "Makers' data sheets of hydraulic lime",
    "5 °C and rising, and no frost while it sets",
);

/// A way out of a trench.
pub(crate) const TRENCH_EXIT: Source = Source::second_hand(
    "OSHA 1926.651(c)(2)",
    "a ladder or ramp within 25 ft in trenches of 4 ft or more",
);

/// What keeps the sides of a dig up.
pub(crate) const TRENCH_PROTECTION: Source = Source::second_hand(
    "OSHA 1926.652(a)",
    "sides protected at 5 ft or more, unless in stable rock",
);

/// How long a bed waits for its joints.
pub(crate) const FLAGS_FLOATED: Source = Source::read(
    "US television programme on flagstone (1998)",
    "joints filled 24 h after the stone is floated in",
);

/// How long joints wait for water and feet.
pub(crate) const SETTING_DAYS: Source = Source::COMMON_PRACTICE;

/// How old a slab is before tile is bonded to it.
pub(crate) const SLAB_BEFORE_TILE: Source = Source::second_hand(
    "US tile consultants, an answer",
    "28 days, unless the sheet of the mortar says less",
);

/// How long concrete is kept moist.
pub(crate) const UFGS_CURING: Source =
    Source::read("US UFGS 03372", "7 days with cement of type I");
