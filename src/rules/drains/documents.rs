//! What the rules of drains cite.

use crate::sources::Source;

/// American plumbing code, the least slope of drains by their size.
pub(crate) const fn us_slopes(section: &'static str) -> Source {
    Source::read(
        "US plumbing code of a large city (Chicago, Table 18-29-704.1, as the International Plumbing Code)",
        section,
    )
}

/// British rules for surface water drains.
pub(crate) const UK_SLOPE: Source = Source::memory(
    "Approved Document H3 (England), section 3",
    "surface water drains 1:100 or steeper, of 75 mm at least",
);

/// Australian rules for surface water drains.
pub(crate) const AU_SLOPE: Source =
    Source::memory("AS/NZS 3500.3, section 7", "DN 90 and DN 100 at 1:100");

/// How a trench of stone with a pipe falls.
pub(crate) const US_TRENCH: Source = Source::second_hand(
    "US state extension advice on garden drains (Washington State University)",
    "0.5 to 1 % with a 4 in perforated pipe",
);

/// How much ground lies over a British drain of plastic pipe.
pub(crate) const fn uk_cover(section: &'static str) -> Source {
    Source::memory("Approved Document H1 (England), Table 10", section)
}

/// How much ground lies over an Australian one.
pub(crate) const AU_COVER: Source = Source::memory(
    "AS/NZS 3500.3, section 7",
    "100 mm under paving without traffic",
);
