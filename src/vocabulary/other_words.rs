//! Words of the trade that the language has another for: they are told of, and
//! never taken.

/// In a section or an entry, a word that people write, and the one that is
/// meant.
const OTHER_WORDS: &[(&str, &str, &str)] = &[
    ("material", "supplier", "from"),
    ("material", "merchant", "from"),
    ("material", "bought", "from"),
    ("site", "dpc", "damp-course"),
    ("site", "damp-proof", "damp-course"),
    ("site", "damp-proof-course", "damp-course"),
    ("site", "ground-level", "ground"),
    ("site", "floor-level", "floor"),
    ("site", "utilities", "services"),
    ("site", "rain", "storm"),
    ("site", "rainfall", "storm"),
    ("site", "percolation", "infiltration"),
    ("site", "permeability", "infiltration"),
    ("site", "soakage", "infiltration"),
    ("site", "drywell", "soakaway"),
    ("site", "dry-well", "soakaway"),
    ("shape", "arc", "curve"),
    ("shape", "hole", "cut"),
    ("shape", "size", "rectangle"),
    ("shape", "dimensions", "rectangle"),
    ("surface", "against", "meets"),
    ("surface", "slope", "fall"),
    ("surface", "gradient", "fall"),
    ("surface", "crossfall", "fall"),
    ("surface", "pitch", "fall"),
    ("surface", "elevation", "level"),
    ("surface", "height", "level"),
    ("surface", "grout", "joint"),
    ("surface", "curb", "edging"),
    ("surface", "pattern", "laid"),
    ("surface", "laying", "laid"),
    ("surface", "pointing", "joint"),
    ("surface", "jointing", "joint"),
    ("surface", "kerb", "edging"),
    ("surface", "drain", "channel"),
    ("surface", "drainage", "water"),
    ("surface", "use", "for"),
    ("drain", "invert-level", "invert"),
    ("drain", "il", "invert"),
    ("drain", "level", "invert"),
    ("drain", "slope", "fall"),
    ("drain", "gradient", "fall"),
    ("drain", "outlet", "to"),
    ("drain", "outfall", "to"),
    ("drain", "discharge", "to"),
    ("drain", "connects", "to"),
    ("drain", "drywell", "soakaway"),
    ("drain", "dry-well", "soakaway"),
    ("drain", "crate", "soakaway"),
    ("drain", "french-drain", "trench"),
    ("drain", "land-drain", "trench"),
    ("drain", "linear", "channel"),
    ("drain", "trench-drain", "channel"),
    ("drain", "gulley", "gully"),
    ("drain", "catch-basin", "gully"),
    ("drain", "bedding", "bedded"),
    ("drain", "surround", "bedded"),
    ("drain", "fill", "filled"),
    ("drain", "backfill", "filled"),
    ("drain", "fabric", "wrapped"),
    ("drain", "catches", "takes"),
    ("drain", "drains", "takes"),
    ("build", "pavers", "paving"),
    ("build", "flags", "paving"),
    ("build", "bedding", "bed"),
    ("build", "setting-bed", "bed"),
    ("build", "sub-base", "subbase"),
    ("build", "mortar", "bed"),
    ("build", "concrete", "slab"),
    ("build", "hardcore", "base"),
    ("build", "foundation", "base"),
    ("build", "geotextile", "fabric"),
    ("mix", "ratio", "parts"),
    ("mix", "proportions", "parts"),
    ("material", "size", "unit"),
    ("material", "dimensions", "unit"),
    ("material", "weight", "mass"),
    ("material", "cost", "price"),
    ("material", "coverage", "covers"),
    ("steps", "run", "going"),
    ("steps", "depth", "going"),
    ("steps", "mortar", "bed"),
    ("steps", "bedding", "bed"),
    ("steps", "start", "from"),
    ("steps", "bottom", "from"),
    ("steps", "top", "to"),
    ("steps", "rail", "handrail"),
    ("steps", "slope", "fall"),
    ("steps", "foundation", "base"),
    ("steps", "concrete", "core"),
    ("budget", "wages", "labour"),
    ("budget", "vat", "tax"),
    ("budget", "gst", "tax"),
    ("budget", "skip", "disposal"),
    ("budget", "tipping", "disposal"),
    ("budget", "muck-away", "disposal"),
    ("budget", "profit", "margin"),
    ("budget", "estimate", "quote"),
    ("work", "begin", "start"),
    ("work", "begins", "start"),
    ("work", "gang", "crew"),
    ("work", "hands", "crew"),
    ("work", "team", "crew"),
    ("work", "workers", "crew"),
    ("work", "days", "day"),
    ("work", "hours", "day"),
    ("work", "holiday", "off"),
    ("work", "holidays", "off"),
    ("work", "output", "rate"),
    ("work", "production", "rate"),
    ("work", "curing", "wait"),
    ("work", "pause", "wait"),
    ("work", "sequence", "order"),
    ("work", "rain", "rain-days"),
    ("hire", "rate", "price"),
    ("hire", "cost", "price"),
    ("hire", "days", "kept"),
    ("hire", "duration", "kept"),
    ("hire", "collection", "delivery"),
    ("setting-out", "marks", "from"),
    ("setting-out", "stringline", "string"),
    ("setting-out", "string-line", "string"),
    ("setting-out", "straight-edge", "board"),
    ("setting-out", "stakes", "pegs"),
    ("setting-out", "grid", "levels"),
    ("measured", "backsight", "datum-reading"),
    ("measured", "staff", "reading"),
    ("measured", "height", "level"),
    ("measured", "surface", "of"),
    ("measured", "date", "on"),
    ("measured", "taped", "below-string"),
    ("circle", "diameter", "across"),
    ("shape", "wide", "width"),
    ("shape", "breadth", "width"),
    ("laid", "stretcher-bond", "running-bond"),
    ("laid", "stretcher", "running-bond"),
    ("laid", "brick-bond", "running-bond"),
    ("laid", "stacked", "stack-bond"),
    ("laid", "crazy-paving", "irregular"),
    ("laid", "random", "irregular"),
    ("for", "patio", "foot"),
    ("for", "walking", "foot"),
    ("for", "pedestrian", "foot"),
    ("for", "driveway", "drive"),
    ("for", "cars", "drive"),
    ("for", "road", "street"),
    ("region", "usa", "us"),
    ("region", "america", "us"),
    ("region", "gb", "uk"),
    ("region", "england", "uk"),
    ("region", "australia", "au"),
    ("region", "nz", "au"),
    ("units", "feet", "imperial"),
    ("units", "inches", "imperial"),
    ("units", "mm", "metric"),
    ("units", "metres", "metric"),
    ("walls", "brick", "masonry"),
    ("walls", "timber", "framed"),
    ("walls", "wood", "framed"),
    ("consistency", "semi-dry", "dry"),
    ("consistency", "dry-pack", "dry"),
    ("consistency", "wet", "fluid"),
];

/// The word of a section's keys, or of an entry's form, that is meant by
/// another of the trade; `word` in lower case.
pub fn other_word(within: &str, word: &str) -> Option<&'static str> {
    OTHER_WORDS
        .iter()
        .find(|(place, other, _)| *place == within && *other == word)
        .map(|(.., own)| *own)
}

#[cfg(test)]
mod tests {
    use super::super::{SECTIONS, section};
    use super::*;

    #[test]
    fn other_words_are_none_of_the_language_and_mean_one_that_is() {
        for (within, other, own) in OTHER_WORDS {
            let Some(kind) = section(within) else {
                let keys = SECTIONS.iter().flat_map(|kind| kind.keys);
                let key = keys.into_iter().find(|key| key.word == *within);
                let form = key.map(|key| key.parsed().shown()).unwrap_or_default();
                let words: Vec<&str> = form.split([' ', '|', '[', ']']).collect();
                let is_one = words.contains(own) && !words.contains(other);
                assert!(is_one, "{within} {other}: {form}");
                continue;
            };
            assert!(kind.key(own).is_some(), "{own} is no key of a {within}");
            assert!(kind.key(other).is_none(), "{other} is a key of a {within}");
            assert_eq!(other_word(within, other), Some(*own));
        }
        assert_eq!(other_word("surface", "garden"), None);
    }
}
